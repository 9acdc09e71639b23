"""Tables and notes on a sheet."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from boxfit.bay import Point
from boxfit.sheet.drawing.letters import cut_to, width_of, wrapped
from boxfit.sheet.drawing.marks import Line, Mark, Text

LETTERS = 2.5
"""Height of words [mm]."""
ROW = 4.8
"""Height of a row [mm]."""
PAD = 1.2
"""On either side of words in a cell [mm]."""
BETWEEN = 5.0
"""Between the columns that a long table is broken into, and between tables [mm]."""


@dataclass(frozen=True)
class Table:
    """A heading, the names of the columns, and rows of words."""

    heading: str
    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]

    @property
    def widths(self) -> tuple[float, ...]:
        """Of the columns [mm], as their widest words ask."""
        cells = (self.columns, *self.rows)
        found = [max(width_of(row[place], LETTERS) for row in cells) for place in range(len(self.columns))]
        return tuple(wide + 2.0 * PAD for wide in found)

    @property
    def width(self) -> float:
        """Of the table where it stands in one piece [mm]."""
        return max(sum(self.widths), width_of(self.heading, LETTERS))


def fitted(table: Table, width: float) -> Table:
    """The table with the last column's words cut so that it is no wider [mm]."""
    over = sum(table.widths) - width
    if over <= 0.0:
        return table
    room = table.widths[-1] - over - 2.0 * PAD
    rows = tuple((*row[:-1], cut_to(row[-1], LETTERS, room)) for row in table.rows)
    return Table(cut_to(table.heading, LETTERS, width), table.columns, rows)


def pieces(table: Table, width: float, height: float) -> list[Table]:
    """The table in as many pieces side by side as the width [mm] takes, all rows in them if the height does.

    As few as the height [mm] asks for, evenly filled.
    """
    most = max(1, int((width + BETWEEN) // (table.width + BETWEEN)))
    in_height = max(1, int(height / ROW) - 2)
    wanted = min(most, -(-len(table.rows) // in_height)) if table.rows else 1
    each = -(-len(table.rows) // max(1, wanted)) if table.rows else 0
    return [
        Table(table.heading if start == 0 else "", table.columns, table.rows[start : start + each])
        for start in range(0, max(1, len(table.rows)), max(1, each))
    ]


def height_of(table: Table) -> float:
    """How high [mm] a table in one piece is, its heading included."""
    return ROW * (len(table.rows) + 2)


def table_marks(table: Table, at: Point) -> Iterator[Mark]:
    """The table with its upper left corner at a point [mm]."""
    left, top = at
    yield Text(table.heading, (left, top - ROW + 1.3), LETTERS)
    top -= ROW
    widths = table.widths
    right, bottom = left + sum(widths), top - ROW * (len(table.rows) + 1)
    for row in range(len(table.rows) + 2):
        y = top - ROW * row
        yield Line((left, y), (right, y), "frame", 0.35 if row == 1 else None)
    edge = left
    for wide in (0.0, *widths):
        edge += wide
        yield Line((edge, top), (edge, bottom), "frame")
    for number, cells in enumerate((table.columns, *table.rows)):
        x = left
        for words, wide in zip(cells, widths, strict=True):
            if words:
                yield Text(words, (x + PAD, top - ROW * number - ROW + 1.3), LETTERS)
            x += wide


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
