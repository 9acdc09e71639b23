"""Words set where nothing else stands."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from boxfit.bay import Point
from boxfit.report.area import Area
from boxfit.report.look import LEADER, Lettering, turned
from boxfit.report.paper import Sheet

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

AIR = 0.5
"""Paper left free round words [mm]."""
SMALLEST = 5.5
"""The smallest lettering used [points]."""
SHARES = (0.5, 0.25, 0.75, 0.12, 0.88)
Candidate = tuple[Point, Lettering]


def place(
    sheet: Sheet, words: str, candidates: Iterable[Candidate], within: Area, avoid: Sequence[Area] = ()
) -> Area | None:
    """Write the words at the first candidate that is free and lies `within`; None where none is."""
    taken = [*sheet.taken, *avoid]
    for at, lettering in candidates:
        area = sheet.area(words, at, lettering).inset(-AIR)
        if within.holds(area) and not any(area.meets(other) for other in taken):
            return sheet.write(words, at, lettering)
    return None


def clear_of(
    drawn: BaseGeometry, sheet: Sheet, words: str, candidates: Iterable[Candidate], ground: float = 0.0
) -> Iterator[Candidate]:
    """Of the candidates those at which the words, and so much ground round them [mm], cover nothing drawn."""
    for at, lettering in candidates:
        if not covers(sheet.area(words, at, lettering).inset(-ground), drawn):
            yield at, lettering


def covers(area: Area, drawn: BaseGeometry) -> bool:
    """True where an area covers some of what is drawn, or touches it."""
    from shapely import box

    return bool(drawn.intersects(box(area.left, area.bottom, area.right, area.top)))


def inside(area: Area, lettering: Lettering) -> Iterator[Candidate]:
    """Places in an area: the middle first, upright before turned, then smaller, then away from the middle."""
    ups = [0.5] if area.height < 3 else list(SHARES)
    acrosses = [0.5] if area.width < 3 else list(SHARES)
    for up in ups:
        for across in acrosses:
            at = (area.left + across * area.width, area.bottom + up * area.height)
            size = lettering.size
            while size >= SMALLEST:
                smaller = replace(lettering, size=size)
                yield at, smaller
                yield at, turned(smaller)
                size -= 0.5


def around(area: Area, lettering: Lettering, steps: int = 32) -> Iterator[Candidate]:
    """Places round an area, near ones first: above, below, and to both sides."""
    middle, level = area.centre
    for step in range(steps):
        off = 2.6 + 3.0 * step
        for shift in (0.0, -6.0, 6.0, -14.0, 14.0):
            yield (middle + shift, area.top + off), lettering
            yield (middle + shift, area.bottom - off), lettering
            yield (area.right + off, level + shift / 2), replace(lettering, anchor="left")
            yield (area.left - off, level + shift / 2), replace(lettering, anchor="right")


def place_with_leader(
    sheet: Sheet, words: str, target: Area, lettering: Lettering, within: Area, avoid: Sequence[Area] = ()
) -> Area | None:
    """Write the words near the target and join them to it by a thin line; None where there is no room."""
    spot = place(sheet, words, around(target, lettering), within, (*avoid, target))
    if spot is not None:
        lead(sheet, spot, target)
    return spot


def lead(sheet: Sheet, words: Area, target: Area) -> None:
    """A thin line from the words to just inside the nearest edge of the target."""
    start = _nearest(words, target.centre)
    inset = min(1.2, target.width / 4, target.height / 4)
    sheet.line((start, _nearest(target.inset(inset), start)), LEADER)


def _nearest(area: Area, point: Point) -> Point:
    """The point of an area nearest to a point."""
    return (min(max(point[0], area.left), area.right), min(max(point[1], area.bottom), area.top))
