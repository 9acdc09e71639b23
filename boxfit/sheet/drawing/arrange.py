"""Which sheet, which scale, and where on it views, tables and notes go."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from boxfit.bay import Point
from boxfit.sheet.drawing.board import Area, Board
from boxfit.sheet.drawing.letters import width_of
from boxfit.sheet.drawing.paper import A0, A1, A2, A3, Paper
from boxfit.sheet.drawing.tables import (
    BETWEEN,
    LETTERS,
    ROW,
    Table,
    height_of,
    note_lines,
    note_marks,
    pieces,
    table_marks,
)
from boxfit.sheet.drawing.title import TITLE_HEIGHT, TITLE_WIDTH, Title

SCALES = (1.0, 0.5, 0.2, 0.1, 0.05, 0.02, 0.01)
"""ISO 5455, reductions, from memory."""
PAPERS = (A3, A2, A1, A0)
INSET = 6.0
"""What is drawn stays this far [mm] off the frame, clear of the centring marks."""
SLIM = 70.0
"""A column is no slimmer than this [mm]."""
COLUMN = 100.0
"""A column for notes alone is so wide [mm]."""
NARROW_NOTES = 120.0
"""Notes are set no wider than this [mm]."""
WHOLE = 0.6
"""What takes more than this part of an area's width keeps all of it below for itself."""
Item = Table | tuple[str, ...]
"""A table, or notes."""


@dataclass(frozen=True)
class Placed:
    """A table in one piece, or notes in lines, with its upper left corner [mm]."""

    item: Table | tuple[str, ...]
    at: Point


@dataclass(frozen=True)
class Arranged:
    """A sheet chosen: scale [-], the area for the views [mm], and where tables and notes stand."""

    paper: Paper
    scale: float
    views: Area
    placed: tuple[Placed, ...]

    @property
    def ratio(self) -> str:
        """The scale as it is written."""
        return scale_words(self.scale)

    @property
    def centre(self) -> Point:
        """The middle of the area for the views [mm]."""
        left, bottom, right, top = self.views
        return ((left + right) / 2.0, (bottom + top) / 2.0)

    def board(self, title: Title) -> Board:
        """The sheet with its title block, tables and notes."""
        board = Board(self.paper, replace(title, scale=title.scale or self.ratio))
        for one in self.placed:
            if isinstance(one.item, Table):
                board.add(table_marks(one.item, one.at))
            else:
                board.add(note_marks(one.item, one.at))
        return board


def scale_words(scale: float) -> str:
    """A scale as it is written.

    >>> scale_words(0.2), scale_words(2.0)
    ('1:5', '2:1')
    """
    return f"{scale:.0f}:1" if scale >= 1.0 else f"1:{1.0 / scale:.0f}"


def arranged(
    size_at: Callable[[float], Point],
    items: Sequence[Item],
    least: float = 0.1,
    largest: float = 1.0,
) -> Arranged:
    """The first sheet, A3 before larger ones, that takes everything at a scale [-] of at least `least`.

    `size_at` tells how much paper [mm] the views take at a scale, their dimensions included; of scales the
    largest up to `largest` that goes is taken. Where nothing goes at that, the largest sheet at less.
    """
    for bound in (least, SCALES[-1] / 10.0):
        for paper in PAPERS if bound == least else PAPERS[::-1]:
            for scale in SCALES:
                if bound <= scale <= largest:
                    for views, slots in _ways(paper, items):
                        wide, high = size_at(scale)
                        fits = wide <= views[2] - views[0] and high <= views[3] - views[1]
                        placed = _flowed_somehow(items, slots) if fits else None
                        if placed is not None:
                            return Arranged(paper, scale, views, placed)
    raise ValueError("no sheet is large enough for this drawing")


def _ways(paper: Paper, items: Sequence[Item]) -> Iterator[tuple[Area, tuple[Area, ...]]]:
    """Area for the views, and areas for tables and notes; those above the title block last."""
    left, bottom, right, top = paper.frame
    left, bottom, right, top = left + INSET, bottom + INSET, right - INSET, top - INSET
    above, beside = bottom - INSET + TITLE_HEIGHT + INSET, right + INSET - TITLE_WIDTH - INSET
    strip = (left, bottom, beside, above - INSET)
    yield (left, above, right, top), (strip,)
    wides = sorted(
        {COLUMN, *(max(item.width, SLIM) for item in items if isinstance(item, Table) and item.rows)}
    )
    for wide in wides:
        column = right - wide
        if column - BETWEEN > beside:
            yield (left, above, column - BETWEEN, top), (strip, (column, above, right, top))
            yield (left, above, column - BETWEEN, top), ((column, above, right, top), strip)
    yield (left, bottom, beside, top), ((beside + INSET, above, right, top),)
    yield (left, bottom, left, bottom), ((left, bottom, beside, top), (beside + INSET, above, right, top))
    for wide in wides:  # columns that reach over the title block, for tables as wide that are also high
        column = right - wide
        if left < column - BETWEEN <= beside:
            yield (left, above, column - BETWEEN, top), ((column, above, right, top), strip)


def _flowed_somehow(items: Sequence[Item], slots: Sequence[Area]) -> tuple[Placed, ...] | None:
    """Tables in as few pieces as go, else in as many as stand side by side."""
    few = flowed(items, slots, False)
    return few if few is not None else flowed(items, slots, True)


def flowed(items: Sequence[Item], slots: Sequence[Area], broken: bool) -> tuple[Placed, ...] | None:
    """Tables and notes set into areas [mm], one under the other; None where they do not all go in.

    `broken` where tables are cut into as many pieces side by side as the width takes.
    """
    free = list(slots)
    found: list[Placed] = []
    for item in (one for one in items if one and not (isinstance(one, Table) and not one.rows)):
        for place, slot in enumerate(free):
            set_here = _set(item, slot, broken)
            if set_here is not None:
                found += set_here
                free[place : place + 1] = _left_over(slot, set_here)
                break
        else:
            return None
    return tuple(found)


def _left_over(slot: Area, placed: Sequence[Placed]) -> list[Area]:
    """What of an area is left below and beside what stands in its upper left corner."""
    left, bottom, right, top = slot
    below = top - max(_height(one.item) for one in placed) - BETWEEN
    beside = max(one.at[0] + _width(one.item) for one in placed) + BETWEEN
    if beside - left > WHOLE * (right - left):
        return [(left, bottom, right, below), (beside, below + BETWEEN, right, top)]
    return [(left, bottom, beside - BETWEEN, below), (beside, bottom, right, top)]


def _set(item: Item, area: Area, broken: bool) -> list[Placed] | None:
    """An item at the upper left of an area [mm]; None where it is too large."""
    left, bottom, right, top = area
    width, height = right - left, top - bottom
    if not isinstance(item, Table):
        lines = tuple(note_lines(item, min(width, NARROW_NOTES)))
        return [Placed(lines, (left, top))] if ROW * len(lines) <= height and width >= 40.0 else None
    if item.width > width + 1e-6:
        return None
    parts = pieces(item, width, ROW * 3.0 if broken else height)
    if max(height_of(part) for part in parts) > height:
        return None
    return [Placed(part, (left + place * (item.width + BETWEEN), top)) for place, part in enumerate(parts)]


def _height(item: Table | tuple[str, ...]) -> float:
    """How high [mm] what was set is."""
    return height_of(item) if isinstance(item, Table) else ROW * len(item)


def _width(item: Table | tuple[str, ...]) -> float:
    """How wide [mm] what was set is."""
    if isinstance(item, Table):
        return item.width
    return max(width_of(line, LETTERS) for line in item)
