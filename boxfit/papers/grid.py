"""A table for the papers: columns as wide as their words ask, within the page, open to run on over pages."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property

from boxfit.bay import Point
from boxfit.papers.columns import LETTERS, Column, broken, widths_within
from boxfit.sheet.drawing.letters import wrapped
from boxfit.sheet.drawing.marks import Line, Mark, Text

ROW = 4.5
"""Height of a line of words [mm]."""
BASE = 1.3
"""From the foot of a line of words up to their base line [mm]."""
PAD = 1.2
"""On either side of words in a cell [mm]."""
STRONG = 0.35
"""Width of the line under the names of the columns [mm]."""

SPACE = 180.0
"""The widest that a table may be [mm]: an A4 page less its margins."""
AGAIN = ", continued"

Cells = tuple[tuple[str, ...], ...]


@dataclass(frozen=True)
class Grid:
    """A heading, the names of the columns, rows of words.

    The columns named in `figures` are set to the right; their cells are not broken, nor are those of the
    columns in `whole`. Where somebody is to write, rows are at least `least` [mm] high, and the columns in
    `blank` at least so wide [mm]. Without names of columns there is no line for them. `fixed` [mm] are the
    widths of the columns where they are those of the table it was split from.
    """

    heading: str
    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    figures: frozenset[int] = frozenset()
    least: float = ROW
    blank: Mapping[int, float] = field(default_factory=dict)
    whole: frozenset[int] = frozenset()
    fixed: tuple[float, ...] = ()

    @cached_property
    def widths(self) -> tuple[float, ...]:
        """Of the columns [mm], made narrower where they ask for more than the page has."""
        if self.fixed:
            return self.fixed
        columns = [
            Column(
                [row[k] for row in (self.columns, *self.rows)],
                self.blank.get(k, 0.0),
                k in self.figures | self.whole,
            )
            for k in range(len(self.columns))
        ]
        within = widths_within(columns, SPACE - 2.0 * PAD * len(columns))
        return tuple(wide + 2.0 * PAD for wide in within)

    @cached_property
    def head(self) -> Cells:
        """The names of the columns in lines."""
        return self._cells(self.columns)

    @cached_property
    def cells(self) -> tuple[Cells, ...]:
        """Every row's cells in lines."""
        return tuple(self._cells(row) for row in self.rows)

    def _cells(self, row: Sequence[str]) -> Cells:
        return tuple(
            tuple(wrapped(broken(words, wide - 2.0 * PAD), LETTERS, wide - 2.0 * PAD + 1e-6)) or ("",)
            for words, wide in zip(row, self.widths, strict=True)
        )

    @cached_property
    def heights(self) -> tuple[float, ...]:
        """Of the rows [mm]."""
        return tuple(max(self.least, ROW * max(len(cell) for cell in row)) for row in self.cells)

    @property
    def above(self) -> float:
        """Height of the heading and the columns' names [mm]."""
        return (ROW + 1.0 if self.heading else 0.0) + self._named

    @property
    def _named(self) -> float:
        """Height of the line of the columns' names [mm]."""
        return ROW * max(len(cell) for cell in self.head) if any(self.columns) else 0.0

    @property
    def height(self) -> float:
        """In one piece [mm]."""
        return self.above + sum(self.heights)

    def fitting(self, height: float) -> int:
        """How many of the first rows go into a height [mm]."""
        left, count = height - self.above, 0
        for row in self.heights:
            if row > left + 1e-6:
                break
            left, count = left - row, count + 1
        return count

    def split(self, count: int) -> "tuple[Grid, Grid]":
        """The first rows, and the others under the heading again; columns keep their widths."""
        again = self.heading if self.heading.endswith(AGAIN) or not self.heading else self.heading + AGAIN
        first = replace(self, rows=self.rows[:count], fixed=self.widths)
        return first, replace(self, heading=again, rows=self.rows[count:], fixed=self.widths)

    def marks(self, at: Point) -> Iterator[Mark]:
        """The table with its upper left corner at a point [mm]."""
        left, top = at
        if self.heading:
            yield Text(self.heading, (left, top - ROW + BASE), LETTERS)
            top -= ROW + 1.0
        right, level = left + sum(self.widths), top
        yield Line((left, top), (right, top), "frame")
        if self._named:
            yield from self._row(self.head, (left, level))
            level -= self._named
            yield Line((left, level), (right, level), "frame", STRONG)
        for row, high in zip(self.cells, self.heights, strict=True):
            yield from self._row(row, (left, level))
            level -= high
            yield Line((left, level), (right, level), "frame")
        edge = left
        for wide in (0.0, *self.widths):
            edge += wide
            yield Line((edge, top), (edge, level), "frame")

    def _row(self, row: Cells, at: Point) -> Iterator[Text]:
        left, top = at
        for place, (cell, wide) in enumerate(zip(row, self.widths, strict=True)):
            for number, words in enumerate(cell):
                if words:
                    base = top - ROW * (number + 1) + BASE
                    if place in self.figures:
                        yield Text(words, (left + wide - PAD, base), LETTERS, "right")
                    else:
                        yield Text(words, (left + PAD, base), LETTERS)
            left += wide
