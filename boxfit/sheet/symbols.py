"""Symbols of a single-line diagram after IEC 60617, from memory. [mm] of paper

What stands in a line is drawn about its middle, `half` its length either way being taken out of the line.
"""

from collections.abc import Iterator

from boxfit.bay import Point
from boxfit.sheet.drawing.marks import Arc, Circle, Line, Mark, Text

CELL, BATTERY = 4.5, 5.0
"""Half the width of a battery's long plates, and half its height."""
IN_LINE = 5.0
"""Half of what fuse, contact and resistor take of their line."""
SIDE = 9.0
"""Half the side of a block."""
LETTERS = 2.0


def battery(at: Point) -> Iterator[Mark]:
    """A battery, its plus above: two cells and the broken line between; long thin plates are plus."""
    x, y = at
    for level, half, width in ((BATTERY, CELL, 0.25), (3.2, CELL / 2.0, 0.7), (-3.2, CELL, 0.25)):
        yield Line((x - half, y + level), (x + half, y + level), "visible", width)
    yield Line((x - CELL / 2.0, y - BATTERY), (x + CELL / 2.0, y - BATTERY), "visible", 0.7)
    yield Line((x, y + 3.2), (x, y - 3.2), "hidden")


def fuse(at: Point, upright: bool) -> Iterator[Mark]:
    """A rectangle with the line going through it."""
    yield from _rectangle(at, (1.6, IN_LINE) if upright else (IN_LINE, 1.6))
    yield from _through(at, upright)


def resistor(at: Point) -> Iterator[Mark]:
    """A rectangle in a level line."""
    yield from _rectangle(at, (IN_LINE, 1.6))


def contactor(at: Point) -> Iterator[Mark]:
    """A make contact in a level line, open, with the half round of a contactor at its fixed side."""
    x, y = at
    yield Line((x - IN_LINE, y), (x - 3.0, y), "visible")
    yield Line((x - 3.0, y), (x + 2.4, y + 3.0), "visible")
    yield Line((x + 3.0, y), (x + IN_LINE, y), "visible")
    yield Arc((x + 1.8, y), 1.2, 0.0, 180.0, "visible")


def plug(at: Point) -> Iterator[Mark]:
    """The service disconnect in an upright line: a plug in its socket, drawn together."""
    x, y = at
    yield Line((x, y + IN_LINE), (x, y + 2.0), "visible")
    yield Arc((x, y), 2.0, 0.0, 180.0, "visible")
    yield Line((x, y + 1.0), (x, y - 2.4), "visible", 1.0)
    yield Line((x, y - 2.4), (x, y - IN_LINE), "visible")


def converter(at: Point, above: str, below: str) -> Iterator[Mark]:
    """A block with a diagonal: what goes in stands above it, what comes out below."""
    x, y = at
    yield from _rectangle(at, (SIDE, SIDE))
    yield Line((x - SIDE, y - SIDE), (x + SIDE, y + SIDE), "visible")
    yield Text(above, (x - SIDE / 2.0, y + SIDE / 2.0 - 0.5), LETTERS * 1.5, "middle")
    yield Text(below, (x + SIDE / 2.0, y - SIDE / 2.0 - 2.0), LETTERS * 1.5, "middle")


def monitor(at: Point) -> Iterator[Mark]:
    """A block that measures the isolation."""
    yield from _rectangle(at, (SIDE, SIDE))
    yield Text("R iso", (at[0], at[1] + 1.0), LETTERS, "middle")
    yield Text("Ω", (at[0], at[1] - 5.0), LETTERS * 1.5, "middle")


def motor(at: Point) -> Iterator[Mark]:
    """A machine of three phases."""
    yield Circle(at, 7.0, "visible")
    yield Text("M", (at[0], at[1] + 0.8), LETTERS * 1.3, "middle")
    yield Text("3~", (at[0], at[1] - 4.2), LETTERS, "middle")


def chassis(at: Point) -> Iterator[Mark]:
    """Joined to the body: a level line with three strokes; `at` is where the lead comes from above."""
    x, y = at
    yield Line((x - 3.0, y), (x + 3.0, y), "visible")
    for place in (-3.0, 0.0, 3.0):
        yield Line((x + place, y), (x + place - 1.5, y - 2.2), "visible")


def joined(at: Point) -> Mark:
    """A dot where lines are joined."""
    return Circle(at, 0.7, "visible", True)


def _rectangle(at: Point, half: Point) -> Iterator[Mark]:
    (x, y), (a, b) = at, half
    corners = ((x - a, y - b), (x + a, y - b), (x + a, y + b), (x - a, y + b))
    for one, other in zip(corners, corners[1:] + corners[:1], strict=True):
        yield Line(one, other, "visible")


def _through(at: Point, upright: bool) -> Iterator[Mark]:
    x, y = at
    if upright:
        yield Line((x, y - IN_LINE), (x, y + IN_LINE), "visible")
    else:
        yield Line((x - IN_LINE, y), (x + IN_LINE, y), "visible")
