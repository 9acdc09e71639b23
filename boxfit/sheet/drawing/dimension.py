"""Dimensions after ISO 129-1 (from memory): extension lines, arrowheads, the figure above the line."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from boxfit.bay import Point
from boxfit.sheet.drawing.board import Board, Placing
from boxfit.sheet.drawing.letters import width_of
from boxfit.sheet.drawing.marks import ARROW, Arrow, Line, Mark, Text

GAP, BEYOND = 1.0, 2.0
"""Between a feature and its extension line, and how far that runs past the dimension line [mm]."""
FIRST_ROW, ROW = 9.0, 7.0
"""From a view to its first dimension line, and from one to the next [mm]."""
HEIGHT = 2.5
"""Of figures [mm]."""
ABOVE_LINE = 0.9
"""Between a figure and its line [mm]."""
TRIES = 12
"""So many rows outwards are tried."""


@dataclass(frozen=True)
class Measured:
    """Two places of a view [mm of paper] and what is written between them.

    `upright` where heights are measured: the dimension line then stands at the left or right. `row` [mm] is
    where the line is: its y where it lies, its x where it stands. `outwards`, 1 or -1, is where further rows
    are. Where the figure does not go between the arrows it stands at the end that `beside` says, if it can.
    """

    start: Point
    end: Point
    words: str
    row: float
    outwards: int
    upright: bool = False
    beside: int = 1


def figure(length: float) -> str:
    """A length [mm] as it is written: to a tenth, whole where it is.

    >>> figure(120.0), figure(3.25), figure(0.04)
    ('120', '3.3', '0')
    """
    rounded = round(length + 1e-9, 1)
    return f"{rounded:.0f}" if rounded == int(rounded) else f"{rounded:.1f}"


def dimension(board: Board, measured: Measured) -> bool:
    """Draws a dimension in the first row outwards where it overlaps nothing; False where there is none."""
    return board.place(_ways(measured, 0))


def dimensions(board: Board, several: Sequence[Measured]) -> bool:
    """Draws dimensions of which some are led past others; False where one overlaps something.

    All extension lines come first, so that every figure can keep clear of them.
    """
    for one in several:
        board.add(_extensions(one, one.row))
    return all([board.place([*_in_row(one, one.row, False), *_ways(one, 1)]) for one in several])


def _ways(measured: Measured, first: int) -> Iterator[Placing]:
    """Row by row outwards; in each the figure between the arrows if there is room, else beside them."""
    for step in range(first, TRIES):
        yield from _in_row(measured, measured.row + measured.outwards * ROW * step, True)


def _extensions(measured: Measured, row: float) -> list[Mark]:
    """Both extension lines to a row."""
    axis = 1 if measured.upright else 0
    return [_extension(point, row, axis) for point in (measured.start, measured.end)]


def _in_row(measured: Measured, row: float, extended: bool) -> Iterator[Placing]:
    """The ways in one row, with extension lines where they are not there yet."""
    axis = 1 if measured.upright else 0
    start, end = sorted((measured.start[axis], measured.end[axis]))
    wide = width_of(measured.words, HEIGHT)
    lines = _extensions(measured, row) if extended else []
    if end - start >= wide + 1.0 and end - start >= 2.0 * ARROW + 1.0:
        inner: list[Mark] = [
            _line(start, end, row, axis),
            _arrow(start, row, axis, -1),
            _arrow(end, row, axis, 1),
        ]
        for shift in _shifts((end - start - wide) / 2.0 - 0.5):
            text = _text(measured.words, (start + end) / 2.0 + shift, row, axis)
            yield Placing(text, (*lines, *inner))
        return
    reach = 2.0 * ARROW
    heads: tuple[Mark, ...] = (_arrow(start, row, axis, 1), _arrow(end, row, axis, -1))
    for side in (measured.beside, -measured.beside):
        for further in (0.0, 4.0, 8.0, 12.0):
            far = reach + further + wide + 1.0
            low_end = start - (reach if side > 0 else far)
            high_end = end + (far if side > 0 else reach)
            out = reach + further + wide / 2.0
            text = _text(measured.words, end + out if side > 0 else start - out, row, axis)
            yield Placing(text, (*lines, _line(low_end, high_end, row, axis), *heads))


def _shifts(most: float) -> Iterator[float]:
    """Along the line from its middle, so far [mm] at most either way."""
    yield 0.0
    step = 2.0
    while step <= most:
        yield step
        yield -step
        step += 2.0


def _place(along: float, across: float, axis: int) -> Point:
    return (along, across) if axis == 0 else (across, along)


def _line(start: float, end: float, row: float, axis: int) -> Line:
    return Line(_place(start, row, axis), _place(end, row, axis), "dimension")


def _extension(point: Point, row: float, axis: int) -> Line:
    """From a feature to a little past the dimension line."""
    across = point[1 - axis]
    way = 1.0 if row > across else -1.0
    start, end = across + way * GAP, row + way * BEYOND
    return Line(_place(point[axis], start, axis), _place(point[axis], end, axis), "dimension")


def _arrow(at: float, row: float, axis: int, sign: int) -> Arrow:
    turn = 90.0 * axis
    return Arrow(_place(at, row, axis), turn if sign > 0 else turn + 180.0)


def _text(words: str, along: float, row: float, axis: int) -> Text:
    """Above a lying line; left of a standing one, read from the right."""
    if axis == 0:
        return Text(words, (along, row + ABOVE_LINE), HEIGHT, "middle")
    return Text(words, (row - ABOVE_LINE, along), HEIGHT, "middle", 90.0)
