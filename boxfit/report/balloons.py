"""Keep-outs by letter: a round with the letter on each, and the names in a key."""

from collections.abc import Sequence
from itertools import chain
from string import ascii_uppercase

from boxfit.bay import Bay, Point
from boxfit.report.area import Area, area_of
from boxfit.report.look import BALLOON, KEEPOUT_HIDDEN, SMALL
from boxfit.report.panel import Panel
from boxfit.report.paper import Sheet
from boxfit.report.parts import clipped, full_name
from boxfit.report.placing import around, lead, place

RADIUS = 2.1
"""Of the round about a letter [mm of paper]."""


def key_words(bay: Bay) -> tuple[str, ...]:
    """The keep-outs by letter, and the way in."""
    words = [f"{letter(place)} {full_name(keepout)}" for place, keepout in enumerate(bay.keepouts)]
    if bay.opening:
        hole = "as outlined" if bay.opening.outline else "the whole side"
        words.append(f"opening: {bay.opening.way}, {hole}")
    return tuple(words)


def letter(place: int) -> str:
    """A keep-out's letter.

    >>> letter(0), letter(26)
    ('A', 'A2')
    """
    turn, rest = divmod(place, len(ascii_uppercase))
    return ascii_uppercase[rest] + (str(turn + 1) if turn else "")


def draw_hidden(sheet: Sheet, panel: Panel, bay: Bay) -> None:
    """The keep-outs' outlines dashed, to show them where boxes cover them."""
    for keepout in bay.keepouts:
        for outline in map(panel.outline, clipped(panel, bay, keepout)):
            sheet.line((*outline, outline[0]), KEEPOUT_HIDDEN)


def draw_balloons(sheet: Sheet, panel: Panel, bay: Bay, room: Area, covered: Sequence[Area]) -> None:
    """A letter in a round on what is seen of every keep-out, or beside it with a thin line."""
    for number, keepout in enumerate(bay.keepouts):
        outlines = tuple(map(panel.outline, clipped(panel, bay, keepout)))
        if not outlines:
            continue
        seen = _seen(outlines, covered)
        target = area_of((seen, seen)).inset(-RADIUS / 2)
        candidates = chain([(seen, SMALL)], around(target, SMALL))
        level = ((at, SMALL) for at, _ in candidates)
        words = [area.inset(-1.2) for area in sheet.taken]
        spot = place(sheet, letter(number), level, room.inset(RADIUS), words)
        if spot is None:
            continue
        balloon = area_of((spot.centre, spot.centre)).inset(-RADIUS)
        if spot.centre != seen:
            lead(sheet, balloon, target)
        sheet.round(spot.centre, RADIUS, BALLOON)
        sheet.taken.append(balloon)


def _seen(outlines: Sequence[Sequence[Point]], covered: Sequence[Area]) -> Point:
    """A point well inside the largest part of the outlines that no box covers, or of all of them."""
    from shapely import Polygon, box, unary_union

    whole = unary_union([Polygon(outline) for outline in outlines])
    boxes = unary_union([box(area.left, area.bottom, area.right, area.top) for area in covered])
    rest = whole.difference(boxes)
    parts = [part for part in getattr(rest, "geoms", [rest]) if part.area > 0]
    point = max(parts, key=lambda part: float(part.area), default=whole).representative_point()
    return (point.x, point.y)
