"""Tables and notes on a sheet."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from boxfit.bay import Point
from boxfit.sheet.drawing.letters import width_of, wrapped
from boxfit.sheet.drawing.marks import Line, Mark, Text

LETTERS = 2.5
"""Height of words [mm]."""
ROW = 4.8
"""Height of a row [mm]."""
PAD = 1.2
"""On either side of words in a cell [mm]."""
BETWEEN = 5.0
"""Between the columns that a long table is broken into, and between tables [mm]."""


FEW = 5
"""A table is not broken into pieces of fewer rows."""
WIDEST = 46.0
"""Words in a cell wider than this [mm] go on in a further line, where a table does not say otherwise."""


@dataclass(frozen=True)
class Table:
    """A heading, the names of the columns, and rows of words."""

    heading: str
    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    widest: float = WIDEST

    @cached_property
    def cells(self) -> tuple[tuple[tuple[str, ...], ...], ...]:
        """The lines of words in every cell, row by row."""
        return tuple(
            tuple(tuple(wrapped(words, LETTERS, self.widest)) or ("",) for words in row) for row in self.rows
        )

    @property
    def widths(self) -> tuple[float, ...]:
        """Of the columns [mm], as their widest words ask."""
        found = [width_of(words, LETTERS) for words in self.columns]
        for row in self.cells:
            found = [
                max(wide, *(width_of(words, LETTERS) for words in cell))
                for wide, cell in zip(found, row, strict=True)
            ]
        return tuple(wide + 2.0 * PAD for wide in found)

    @property
    def width(self) -> float:
        """Of the table where it stands in one piece [mm]."""
        return max(sum(self.widths), width_of(self.heading, LETTERS))

    @property
    def lines(self) -> tuple[int, ...]:
        """How many lines every row takes."""
        return tuple(max(len(cell) for cell in row) for row in self.cells)


def pieces(table: Table, width: float, height: float) -> list[Table]:
    """The table in as few pieces side by side as go into a width and a height [mm], evenly filled.

    Too few where it does not go in: the pieces are then too high.
    """
    most = max(1, int((width + BETWEEN + 1e-6) // (table.width + BETWEEN)))
    most = min(most, -(-len(table.rows) // FEW))
    for count in range(1, most + 1):
        found = _broken(table, count)
        if max(height_of(piece) for piece in found) <= height:
            return found
    return _broken(table, most)


def _broken(table: Table, count: int) -> list[Table]:
    """A table in so many pieces of about as many lines each."""
    each, found, taken = -(-sum(table.lines) // count), list[list[int]]([[]]), 0
    for row, lines in enumerate(table.lines):
        if found[-1] and taken + lines > each and len(found) < count:
            found.append([])
            taken = 0
        found[-1].append(row)
        taken += lines
    return [
        replace(
            table,
            heading=table.heading if place == 0 else "",
            rows=tuple(table.rows[row] for row in rows),
        )
        for place, rows in enumerate(found)
    ]


def height_of(table: Table) -> float:
    """How high [mm] a table in one piece is, its heading included."""
    return ROW * (sum(table.lines) + 2)


def table_marks(table: Table, at: Point) -> Iterator[Mark]:
    """The table with its upper left corner at a point [mm]."""
    left, top = at
    if table.heading:
        yield Text(table.heading, (left, top - ROW + 1.3), LETTERS)
    top -= ROW
    widths = table.widths
    right, level = left + sum(widths), top
    yield Line((left, top), (right, top), "frame")
    head = tuple((words,) for words in table.columns)
    for place, (cells, lines) in enumerate(zip((head, *table.cells), (1, *table.lines), strict=True)):
        x = left
        for cell, wide in zip(cells, widths, strict=True):
            for number, words in enumerate(cell):
                if words:
                    yield Text(words, (x + PAD, level - ROW * (number + 1) + 1.3), LETTERS)
            x += wide
        level -= ROW * lines
        yield Line((left, level), (right, level), "frame", 0.35 if place == 0 else None)
    edge = left
    for wide in (0.0, *widths):
        edge += wide
        yield Line((edge, top), (edge, level), "frame")


def note_lines(notes: Sequence[str], width: float) -> list[str]:
    """Notes as lines no wider than `width` [mm], each note with a dash before it."""
    lines: list[str] = []
    for note in notes:
        first, *others = wrapped(note, LETTERS, width - 4.0) or [""]
        lines += [f"– {first}", *(f"   {other}" for other in others)]
    return lines


def note_marks(lines: Sequence[str], at: Point) -> Iterator[Text]:
    """Lines of words under one another from an upper left corner [mm]."""
    for place, words in enumerate(lines):
        yield Text(words, (at[0], at[1] - ROW * (place + 1) + 1.3), LETTERS)
