"""Item numbers in rings beside a view, each led to its part."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import dist, hypot

from boxfit.bay import Point
from boxfit.sheet.drawing.board import Board, Placing
from boxfit.sheet.drawing.marks import Circle, Line, Mark, Text

RING = 4.0
"""Radius [mm] of a ring."""
DOT = 0.5
"""Radius [mm] of the dot on the part."""
PITCH = 10.0
"""Rings stand so far [mm] apart."""


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
    rings: list[Point] = []
    for place, item in enumerate(ordered):
        centres = [centre for centre in _centres(across, top - pitch * place) if _apart(centre, rings)]
        free = next((centre for centre in centres if board.is_free(ring(item, centre))), centres[0])
        board.place([ring(item, free)])
        rings.append(free)


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
