"""Module numbers on a picture: modules that look the same in a view share one label."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from boxfit.report.area import Area
from boxfit.report.look import MODULE, MODULE_HIDDEN, NUMBER, NUMBER_HIDDEN, Ink
from boxfit.report.numbering import Numbered, runs, stacked
from boxfit.report.panel import Panel
from boxfit.report.paper import Sheet
from boxfit.report.placing import inside, place, place_with_leader
from boxfit.report.projection import PLAN


@dataclass(frozen=True)
class Group:
    """Modules that cover the same place on paper; `hidden` where a nearer module covers part of it."""

    area: Area
    words: str
    hidden: bool


def groups(panel: Panel, modules: Iterable[Numbered]) -> tuple[Group, ...]:
    """The labels of a view: "1 / 5" for a stack seen from above, "1-3" for a row seen from its end.

    The numbers of modules that are partly hidden stand in brackets.
    """
    view = panel.view
    rows: dict[tuple[float, ...], list[Numbered]] = {}
    for found in modules:
        corners = (*view.flat(found.module.low), *view.flat(found.module.high))
        rows.setdefault(tuple(round(value, 1) for value in corners), []).append(found)
    areas = {key: panel.block(row[0].module.low, row[0].module.high) for key, row in rows.items()}
    near = {key: max(view.nearness(m.module.low, m.module.high) for m in row) for key, row in rows.items()}
    labels: list[Group] = []
    for key, row in rows.items():
        covered = any(
            near[key] < near[other] and areas[other].meets(areas[key].inset(0.05))
            for other in rows
            if other != key
        )
        numbers = [found.number for found in row]
        words = stacked(numbers) if view is PLAN else runs(numbers)
        labels.append(Group(areas[key], f"({words})" if covered else words, covered))
    return tuple(sorted(labels, key=lambda group: group.hidden))


def draw_numbers(
    sheet: Sheet, labels: Sequence[Group], within: Area, avoid: Sequence[Area]
) -> tuple[str, ...]:
    """Write every label inside its module, or beside the box with a thin line; gives those without room.

    Lines that run behind a label are wiped out under it.
    """
    left: list[str] = []
    for area in (group.area for group in labels if group.hidden):
        sheet.line((*area.corners, area.corners[0]), MODULE_HIDDEN)
    for group in labels:
        lettering = NUMBER_HIDDEN if group.hidden else NUMBER
        spot = place(sheet, group.words, inside(group.area, lettering), group.area)
        if spot is not None:
            sheet.face(spot.corners, Ink(None, fill=MODULE.fill))
        else:
            spot = place_with_leader(sheet, group.words, group.area, lettering, within, avoid)
        if spot is None:
            left.append(group.words)
    return tuple(left)
