"""Item numbers in rings beside a view, each led to its part."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations
from math import dist, hypot

from boxfit.bay import Point
from boxfit.sheet.drawing.board import Area, Board, Placing
from boxfit.sheet.drawing.marks import Circle, Line, Mark, Text

RING = 4.0
"""Radius [mm] of a ring."""
DOT = 0.5
"""Radius [mm] of the dot on the part."""
PITCH = 10.0
"""Rings stand so far [mm] apart."""
TOUCH = 1e-9


@dataclass(frozen=True)
class Item:
    """A number and the place on paper [mm] that it is led to."""

    number: str
    at: Point


def balloons(board: Board, items: Sequence[Item], across: float, within: tuple[float, float]) -> None:
    """Rings in an upright row at `across` [mm], from top to bottom as their parts lie, within two heights."""
    ordered = sorted(items, key=lambda item: (-item.at[1], item.at[0]))
    low, high = within
    pitch = max(2.0 * RING + 0.6, min(PITCH, (high - low) / max(1, len(ordered) - 1)))
    middle = sum(item.at[1] for item in ordered) / max(1, len(ordered))
    top = min(high, max(middle + pitch * (len(ordered) - 1) / 2.0, low + pitch * (len(ordered) - 1)))
    levels = [top - pitch * place for place in range(len(ordered))]
    rings: list[Point] = []
    for level, item in zip(levels, uncrossed(ordered, across, levels), strict=True):
        centres = [centre for centre in _centres(across, level) if _apart(centre, rings)]
        ways = [(centre, ring(item, centre)) for centre in centres]
        clear = (one for one in ways if board.is_free(one[1]) and board.is_clear(_round(one[0])))
        free, way = next(clear, None) or next((one for one in ways if board.is_free(one[1])), ways[0])
        board.place([way])
        rings.append(free)


def uncrossed(items: Sequence[Item], across: float, levels: Sequence[float]) -> list[Item]:
    """Items in the order of their rings, from the top down, so that no line to a part crosses another.

    Two that cross change places, which makes them shorter together: that comes to an end.

    >>> far, near = Item("1", (0.0, 6.0)), Item("2", (8.0, 5.0))
    >>> [item.number for item in uncrossed([far, near], 10.0, [0.0, -9.0])]
    ['2', '1']
    """
    order = list(items)
    crossing = True
    while crossing:
        crossing = False
        for one, other in combinations(range(len(order)), 2):
            ends = (across, levels[one]), (across, levels[other])
            if _cross(order[one].at, ends[0], order[other].at, ends[1]):
                order[one], order[other] = order[other], order[one]
                crossing = True
    return order


def _cross(start: Point, end: Point, other_start: Point, other_end: Point) -> bool:
    """Whether two lines run through each other, between their ends."""

    def side(of: Point, to: Point, place: Point) -> float:
        return (to[0] - of[0]) * (place[1] - of[1]) - (to[1] - of[1]) * (place[0] - of[0])

    apart = side(start, end, other_start) * side(start, end, other_end)
    back = side(other_start, other_end, start) * side(other_start, other_end, end)
    return apart < -TOUCH and back < -TOUCH


def _round(centre: Point) -> Area:
    """The square round a ring [mm]."""
    x, y = centre
    return (x - RING, y - RING, x + RING, y + RING)


def _apart(centre: Point, rings: Sequence[Point]) -> bool:
    """Whether a ring keeps clear of others."""
    return all(dist(centre, other) > 2.0 * RING + 0.4 for other in rings)


def _centres(across: float, level: float) -> Iterator[Point]:
    """At its place in the row, then a little up or down, then further out."""
    for out in (0.0, 10.0, 20.0, 30.0, 40.0):
        for step in (0.0, -3.0, 3.0, -6.0, 6.0, -9.0, 9.0, -12.0, 12.0, -20.0, 20.0):
            yield (across + out, level + step)


def ring(item: Item, centre: Point) -> Placing:
    """A ring with its number, the line from it and the dot."""
    x, y = item.at[0] - centre[0], item.at[1] - centre[1]
    long = hypot(x, y) or 1.0
    edge = (centre[0] + RING * x / long, centre[1] + RING * y / long)
    lines: tuple[Mark, ...] = (
        Circle(centre, RING, "dimension"),
        Line(edge, item.at, "dimension"),
        Circle(item.at, DOT, "dimension", True),
    )
    return Placing(Text(item.number, (centre[0], centre[1] - 1.25), 2.5, "middle"), lines)
