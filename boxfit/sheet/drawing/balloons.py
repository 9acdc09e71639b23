"""Item numbers in rings beside a view, each led to its part."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import hypot

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
    for place, item in enumerate(ordered):
        board.place(_ways(item, across, top - pitch * place))


def _ways(item: Item, across: float, level: float) -> Iterator[Placing]:
    """At its place in the row, then a little up or down, then further out."""
    for out in (0.0, 10.0, 20.0, -10.0):
        for step in (0.0, -3.0, 3.0, -6.0, 6.0, -12.0, 12.0, -20.0, 20.0):
            yield ring(item, (across + out, level + step))


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
