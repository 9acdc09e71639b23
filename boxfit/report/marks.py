"""What is left at the faces of boxes, on a picture: an arrow to what is nearest, and the figure beside it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import chain
from math import hypot
from typing import TYPE_CHECKING

from boxfit.bay import Bay, Point
from boxfit.car import Car
from boxfit.layout import Layout
from boxfit.report.area import Area, area_of
from boxfit.report.look import (
    FIGURE,
    FIGURE_SHORT,
    MARK,
    MARK_GROUND,
    MARK_THROUGH,
    MARK_TIGHTEST,
    Lettering,
    turned,
)
from boxfit.report.margin_text import down
from boxfit.report.margins import Margin, fails_if_out, margins
from boxfit.report.panel import Panel
from boxfit.report.paper import Sheet
from boxfit.report.parts import boxes_of
from boxfit.report.placing import Candidate, around, clear_of, covers, lead, place
from boxfit.report.projection import View
from boxfit.report.shown_faces import shown_faces
from boxfit.space.distance import outwards

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

HEAD, HALF = 1.5, 0.5
"""Length and half the width of an arrow's head [mm of paper]."""
DOT = 0.45
"""Radius of the dot an arrow starts from [mm of paper]."""
SHORT = 6
"""Words of so few letters may be read from below, where a view is too narrow for them."""
NEAR = 1.5
"""Words this near to their arrow need no line to it [mm of paper]."""
GROUND = 0.6
"""The ground of words reaches this far round them [mm of paper]."""
LINE = 0.5
"""Grounds stay this far off lines [mm of paper]."""
REACH = 16.0
"""Words go no further from their arrow than this to leave all lines in sight [mm of paper]."""
SHIFTS = (0.0, 5.0, -5.0, 10.0, -10.0, 16.0, -16.0, 24.0, -24.0)
"""How far along the face the words may go from their arrow [mm of paper]."""
Words = Callable[[Margin], str]


@dataclass(frozen=True)
class Mark:
    """A face seen edge-on, by the margin that is least there, body and flange taken together.

    `short` where a survey out by twice its tolerance takes some of its clearance; `tightest` of its bay.
    """

    margin: Margin
    short: bool
    tightest: bool


@dataclass(frozen=True)
class Paper:
    """Where words may go [mm of paper], and the lines that they leave in sight as far as they can."""

    within: Area
    lines: BaseGeometry | None = None


def marks_of(view: View, bay: Bay, car: Car, layout: Layout) -> tuple[Mark, ...]:
    """The marks of one bay in a view: four to every plain box, one to every face told of a stepped one."""
    found = tuple(one for one in margins(car, layout) if one.bay == bay.name)
    if not found:
        return ()
    least = min(_left(one) for one in found)
    fails = {(one.box, one.called) for one in fails_if_out(found, car)}
    boxes = boxes_of(layout, bay)
    sides: dict[tuple[int, object], Margin] = {}
    for one in found:
        if outwards(one.face)[0] == view.nearer[0]:
            continue
        box = boxes[one.box - 1]
        shown = shown_faces(view, box, bay.box) if box.is_stepped else {one.called: one.face}
        key = (one.box, shown.get(one.called))
        if one.called in shown and (key not in sides or _left(one) < _left(sides[key])):
            sides[key] = one
    told = [one for one in sides.values() if not _is_told(one, sides.values())]
    return tuple(Mark(one, (one.box, one.called) in fails, _left(one) == least) for one in told)


def _is_told(margin: Margin, others: Iterable[Margin]) -> bool:
    """True for what is left between two boxes where the one with the lower number tells it."""
    return any(
        one.obstacle == f"box {margin.box}" and margin.obstacle == f"box {one.box}"
        for one in others
        if one.box < margin.box and _left(one) == _left(margin) and _faced(one, margin)
    )


def _faced(one: Margin, other: Margin) -> bool:
    """True for faces that look at one another."""
    (axis, way), (along, back) = outwards(one.face), outwards(other.face)
    return axis == along and way == -back


def _left(margin: Margin) -> float:
    """What is left, without noise."""
    return round(margin.left, 6)


def figure(margin: Margin) -> str:
    """What is left beyond the allowance [mm], with its sign."""
    words = down(margin.left)
    return words if words.startswith("-") else f"+{words}"


def arrow_areas(panel: Panel, marks: Iterable[Mark]) -> tuple[Area, ...]:
    """The paper that the marks' arrows take, for what is drawn before them to keep off."""
    return tuple(_arrow_area(panel, mark.margin).inset(-0.3) for mark in marks)


def draw_marks(sheet: Sheet, panel: Panel, marks: tuple[Mark, ...], paper: Paper, words: Words) -> None:
    """Draw all arrows, then set the words where nothing else stands, tight ones first."""
    for mark in marks:
        _draw_arrow(sheet, panel, mark.margin)
    arrows = [_arrow_area(panel, mark.margin) for mark in marks]
    told = _told(marks, arrows, words)
    for (said, arrow), mark in sorted(told.items(), key=lambda pair: _left(pair[1].margin)):
        lettering = FIGURE_SHORT if mark.short else FIGURE
        spot = _placed(sheet, said, _way(panel.view, mark.margin), arrow, lettering, paper)
        if spot is None:
            continue
        plate = spot.inset(-GROUND)
        if not plate.inset(-NEAR).meets(arrow):
            lead(sheet, plate, arrow)
        ground = MARK_GROUND if paper.lines is None or not covers(plate, paper.lines) else MARK_THROUGH
        sheet.face(plate.corners, replace(MARK_TIGHTEST, fill=ground.fill) if mark.tightest else ground)


def _placed(
    sheet: Sheet, said: str, way: Point, arrow: Area, lettering: Lettering, paper: Paper
) -> Area | None:
    """Write words near their arrow: where they leave all lines in sight, or else anywhere free."""
    spots = tuple(_spots(said, way, arrow, lettering))
    if paper.lines is not None:
        close = arrow.inset(-REACH)
        near = (spot for spot in spots if sheet.area(said, *spot).meets(close))
        clear = clear_of(paper.lines, sheet, said, near, GROUND + LINE)
        if found := place(sheet, said, clear, paper.within):
            return found
    return place(sheet, said, spots, paper.within)


def _spots(said: str, way: Point, arrow: Area, lettering: Lettering) -> Iterator[Candidate]:
    """Places for words at an arrow, near ones first."""
    upright = _upright(way, arrow, lettering) if len(said) <= SHORT else ()
    spots = chain(_straight(way, arrow, lettering), upright, _beside(way, arrow, lettering))
    return chain(spots, around(arrow, lettering))


def _told(marks: Sequence[Mark], arrows: Sequence[Area], words: Words) -> dict[tuple[str, Area], Mark]:
    """What is said at which arrow: the same of boxes behind one another once, what differs by box."""
    told: dict[tuple[str, Area], Mark] = {}
    for mark, arrow in zip(marks, arrows, strict=True):
        said = words(mark.margin)
        differs = any(
            other == arrow and words(one.margin) != said
            for one, other in zip(marks, arrows, strict=True)
            if one.margin.face == mark.margin.face
        )
        told.setdefault((f"box {mark.margin.box}: {said}" if differs else said, arrow), mark)
    return told


def _arrow_area(panel: Panel, margin: Margin) -> Area:
    """The paper that an arrow and its dot take."""
    return area_of((panel.at(margin.at), panel.at(margin.to))).inset(-DOT)


def _draw_arrow(sheet: Sheet, panel: Panel, margin: Margin) -> None:
    """A dot on the face and an arrow from it to the obstacle."""
    at, to = panel.at(margin.at), panel.at(margin.to)
    long = hypot(to[0] - at[0], to[1] - at[1])
    sheet.round(at, DOT, replace(MARK, fill=MARK.colour))
    if long > DOT:
        sheet.line((at, to), MARK)
    if long > HEAD:
        x, y = (to[0] - at[0]) / long, (to[1] - at[1]) / long
        back = (to[0] - HEAD * x, to[1] - HEAD * y)
        barbs = ((back[0] - HALF * y, back[1] + HALF * x), (back[0] + HALF * y, back[1] - HALF * x))
        sheet.face((to, *barbs), replace(MARK, fill=MARK.colour))


def _straight(way: Point, arrow: Area, lettering: Lettering) -> Iterator[Candidate]:
    """The place straight past the end of the arrow."""
    (x, y), (middle, level) = way, arrow.centre
    if x:
        yield (_end(way, arrow) + 1.2 * x, level), _held(way, lettering)
    else:
        yield (middle, _end(way, arrow) + 2.6 * y), lettering


def _upright(way: Point, arrow: Area, lettering: Lettering) -> Iterator[Candidate]:
    """Places for words read from below, close to the end of a level arrow."""
    if way[0]:
        for shift in SHIFTS:
            yield (_end(way, arrow) + 2.6 * way[0], arrow.centre[1] + shift), turned(lettering)


def _beside(way: Point, arrow: Area, lettering: Lettering) -> Iterator[Candidate]:
    """Places past the end of the arrow, nearest first, and along the face."""
    (x, y), (middle, level) = way, arrow.centre
    for off in (2.6, 5.2, 7.8, 10.4):
        for shift in SHIFTS:
            if x:
                yield (_end(way, arrow) + (off - 1.4) * x, level + shift), _held(way, lettering)
            else:
                yield (middle + shift, _end(way, arrow) + off * y), lettering


def _end(way: Point, arrow: Area) -> float:
    """How far the arrow reaches the way it points."""
    if way[0]:
        return arrow.right if way[0] > 0 else arrow.left
    return arrow.top if way[1] > 0 else arrow.bottom


def _held(way: Point, lettering: Lettering) -> Lettering:
    """Words held by the end at the arrow."""
    return replace(lettering, anchor="left" if way[0] > 0 else "right")


def _way(view: View, margin: Margin) -> Point:
    """The way on the page in which a face looks."""
    axis, way = outwards(margin.face)
    (across, turn), (upwards, rise) = view.across, view.upwards
    return (float(way * turn if axis == across else 0), float(way * rise if axis == upwards else 0))
