"""Words, tables and small pictures set one under another over as many A4 pages as they take."""

from collections.abc import Sequence
from dataclasses import dataclass

from boxfit.bay import Point
from boxfit.papers.columns import LETTERS
from boxfit.papers.grid import BASE, ROW, Grid
from boxfit.sheet.drawing.letters import wrapped
from boxfit.sheet.drawing.marks import Arc, Arrow, Circle, Line, Mark, Text
from boxfit.sheet.drawing.paper import A4

LEFT, BOTTOM, RIGHT, TOP = 20.0, 24.0, 200.0, 273.0
"""Where the contents of a page stand [mm]; head and foot are outside of that."""
BETWEEN = 3.5
"""Between two things [mm]."""
KEPT = 26.0
"""A heading stays with so much [mm] of what follows it."""
FEW = 3
"""A table is not broken after fewer rows."""
LARGE, MIDDLE = 3.5, 2.6
"""Heights of headings [mm]."""
SIZE = (A4.width, A4.height)


@dataclass(frozen=True)
class Heading:
    """What the next words are about; `large` at the head of a section."""

    words: str
    large: bool = False

    @property
    def letters(self) -> float:
        """Height of its words [mm]."""
        return LARGE if self.large else MIDDLE


@dataclass(frozen=True)
class Words:
    """A paragraph."""

    words: str


@dataclass(frozen=True)
class Points:
    """Sentences one under another, each with a dash before it."""

    points: tuple[str, ...]


@dataclass(frozen=True)
class Drawn:
    """A small picture `height` [mm] high, its marks counted from its lower left corner."""

    height: float
    marks: tuple[Mark, ...]


Block = Heading | Words | Points | Grid | Drawn


@dataclass(frozen=True)
class Section:
    """A part of the papers that begins on a page of its own."""

    title: str
    blocks: tuple[Block, ...]


class _Flow:
    """Pages under way."""

    def __init__(self) -> None:
        self.pages: list[list[Mark]] = [[]]
        self.level = TOP

    def turn(self) -> None:
        """A new page, unless nothing stands on this one."""
        if self.pages[-1]:
            self.pages.append([])
        self.level = TOP

    def need(self, height: float) -> None:
        """Turns the page where less than a height [mm] is left."""
        if self.level - height < BOTTOM - 1e-6:
            self.turn()

    def lines(self, lines: Sequence[str], letters: float, row: float) -> None:
        """Lines of words under one another."""
        for words in lines:
            self.need(row)
            self.level -= row
            self.pages[-1].append(Text(words, (LEFT, self.level + BASE), letters))

    def grid(self, grid: Grid) -> None:
        """A table over as many pages as it takes."""
        while True:
            count = grid.fitting(self.level - BOTTOM)
            if count >= len(grid.rows):
                break
            if count < FEW and self.level < TOP:
                self.turn()
                continue
            part, grid = grid.split(max(1, count))
            self.pages[-1] += part.marks((LEFT, self.level))
            self.turn()
        self.pages[-1] += grid.marks((LEFT, self.level))
        self.level -= grid.height

    def put(self, block: Block) -> None:
        """One thing under what stands there."""
        if isinstance(block, Heading):
            self.need(block.letters * 2.0 + KEPT)
            self.level -= 1.0 if self.level < TOP else 0.0
            self.lines(wrapped(block.words, block.letters, RIGHT - LEFT), block.letters, block.letters * 1.8)
            self.level -= 1.0
            return
        if isinstance(block, Words):
            self.lines(wrapped(block.words, LETTERS, RIGHT - LEFT), LETTERS, ROW)
        elif isinstance(block, Points):
            for point in block.points:
                self.lines(dashed(point), LETTERS, ROW)
        elif isinstance(block, Grid):
            self.grid(block)
        else:
            self.need(block.height)
            self.level -= block.height
            self.pages[-1] += [shifted(mark, (LEFT, self.level)) for mark in block.marks]
        self.level -= BETWEEN


def dashed(point: str) -> list[str]:
    """A sentence in lines, a dash before the first."""
    first, *others = wrapped(point, LETTERS, RIGHT - LEFT - 4.0) or [""]
    return [f"– {first}", *(f"   {other}" for other in others)]


def pages_of(section: Section) -> list[tuple[Mark, ...]]:
    """The marks of every page of a section, head and foot apart."""
    flow = _Flow()
    for block in (Heading(section.title, large=True), *section.blocks):
        flow.put(block)
    return [tuple(page) for page in flow.pages if page]


def shifted(mark: Mark, by: Point) -> Mark:
    """A mark moved on the paper [mm].

    >>> shifted(Circle((1.0, 2.0), 3.0, "visible"), (10.0, 20.0)).centre
    (11.0, 22.0)
    """

    def moved(point: Point) -> Point:
        return (point[0] + by[0], point[1] + by[1])

    if isinstance(mark, Line):
        return Line(moved(mark.start), moved(mark.end), mark.style, mark.width)
    if isinstance(mark, Arc):
        return Arc(moved(mark.centre), mark.radius, mark.start, mark.end, mark.style)
    if isinstance(mark, Circle):
        return Circle(moved(mark.centre), mark.radius, mark.style, mark.filled)
    if isinstance(mark, Arrow):
        return Arrow(moved(mark.tip), mark.towards)
    return Text(mark.words, moved(mark.at), mark.height, mark.anchor, mark.turn)
