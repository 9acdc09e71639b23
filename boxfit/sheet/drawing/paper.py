"""Sheets of paper: sizes, frame, centring marks and the fields a place on the sheet is named by.

Sizes: ISO 216. Margins, frame, centring marks and grid references: ISO 5457, from memory.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from string import ascii_uppercase

from boxfit.bay import Point
from boxfit.sheet.drawing.marks import Line, Mark, Text

BINDING, MARGIN = 20.0, 10.0
"""Between the edge of the sheet and the frame [mm], at the left and elsewhere."""
BORDER = 5.0
"""Width [mm] of the border that the grid references stand in."""
FIELD = 50.0
"""Length [mm] of a field, counted from the middle of the sheet."""
FRAME_WIDTH, MARK_WIDTH = 0.7, 0.7
"""Widths [mm] of the frame and of the centring marks."""


@dataclass(frozen=True)
class Paper:
    """A size of sheet [mm] as it lies on the desk."""

    name: str
    width: float
    height: float

    @property
    def frame(self) -> tuple[float, float, float, float]:
        """Left, bottom, right and top [mm] of the drawing space."""
        return (BINDING, MARGIN, self.width - MARGIN, self.height - MARGIN)


A4 = Paper("A4", 210.0, 297.0)
A3 = Paper("A3", 420.0, 297.0)
A2 = Paper("A2", 594.0, 420.0)
A1 = Paper("A1", 841.0, 594.0)
A0 = Paper("A0", 1189.0, 841.0)


def frame_marks(paper: Paper) -> Iterator[Mark]:
    """Frame, border, centring marks and grid references of a sheet."""
    left, bottom, right, top = paper.frame
    yield from _rectangle((left, bottom), (right, top), FRAME_WIDTH)
    yield from _rectangle((left - BORDER, bottom - BORDER), (right + BORDER, top + BORDER), None)
    across, up = paper.width / 2.0, paper.height / 2.0
    for end, inwards in ((left, 1.0), (right, -1.0)):
        yield Line((end - inwards * BORDER, up), (end + inwards * BORDER, up), "frame", MARK_WIDTH)
    for end, inwards in ((bottom, 1.0), (top, -1.0)):
        yield Line((across, end - inwards * BORDER), (across, end + inwards * BORDER), "frame", MARK_WIDTH)
    yield from _columns(paper)
    yield from _rows(paper)


def _rectangle(low: Point, high: Point, width: float | None) -> Iterator[Line]:
    """Four lines."""
    corners = (low, (high[0], low[1]), high, (low[0], high[1]))
    for one, other in zip(corners, corners[1:] + corners[:1], strict=True):
        yield Line(one, other, "frame", width)


def _columns(paper: Paper) -> Iterator[Mark]:
    """Numbers from the left, above and, but on A4, below."""
    left, bottom, right, top = paper.frame
    sides = (top,) if paper.name == "A4" else (bottom - BORDER, top)
    for number, (start, end) in enumerate(pairwise(divided(left, right, paper.width / 2.0)), start=1):
        for low in sides:
            yield Text(str(number), ((start + end) / 2.0, low + 1.4), 2.5, "middle")
            if end < right:
                yield Line((end, low), (end, low + BORDER), "frame")


def _rows(paper: Paper) -> Iterator[Mark]:
    """Letters from the top, without I and O, right and, but on A4, left."""
    left, bottom, right, top = paper.frame
    letters = [letter for letter in ascii_uppercase if letter not in "IO"]
    sides = (right,) if paper.name == "A4" else (left - BORDER, right)
    edges = divided(bottom, top, paper.height / 2.0)[::-1]
    for letter, (end, start) in zip(letters, pairwise(edges), strict=False):
        for low in sides:
            yield Text(letter, (low + BORDER / 2.0, (start + end) / 2.0 - 1.25), 2.5, "middle")
            if start > bottom:
                yield Line((low, start), (low + BORDER, start), "frame")


def divided(low: float, high: float, middle: float) -> list[float]:
    """From end to end [mm], whole fields counted from the middle; what is left over joins the last.

    >>> divided(20.0, 410.0, 210.0)
    [20.0, 60.0, 110.0, 160.0, 210.0, 260.0, 310.0, 360.0, 410.0]
    """
    least = FIELD / 2.0
    before = int((middle - low - least) // FIELD)
    after = int((high - middle - least) // FIELD)
    inner = [middle + FIELD * step for step in range(-before, after + 1)]
    return [low, *inner, high]
