"""Templates on pages of a home printer: true to scale, with strips that overlap and marks that must meet."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil
from string import ascii_uppercase

from boxfit.bay import Point
from boxfit.sheet.drawing.letters import cut_to, wrapped
from boxfit.sheet.drawing.marks import Circle, Drawing, Line, Mark, Page, Text
from boxfit.sheet.drawing.paper import A3, A4, Paper
from boxfit.sheet.template import Template

MARGIN = 8.0
"""Paper [mm] that printers leave white (common practice, no source)."""
FOOT, ASIDE = 26.0, 9.0
"""Room [mm] for words and one bar under the window, and for the other bar right of it."""
OVERLAP = 10.0
"""How far [mm] neighbours overlap."""
CROSS = 4.0
"""Half the width [mm] of a register mark."""
BAR = 100.0
"""Length [mm] of the bars that show whether a page is true to scale."""
WIDE, THIN = 0.5, 0.1
"""Widths [mm] of lines to cut along, and of those round a window."""
MAP = (42.0, 21.0)
"""Room [mm] for the map of pages."""
CHECK = (
    "Print at 100 %, check both bars before trusting it. Lay register marks on one another. A working aid."
)


@dataclass(frozen=True)
class Tiling:
    """How a template is shared out: paper [mm], rows from the top, columns, low corner of all windows.

    Each page shows a window of the template; neighbours overlap.
    """

    size: Point
    rows: int
    columns: int
    corner: Point

    @property
    def window(self) -> Point:
        """What of the template one page shows [mm]."""
        return window_of(self.size)

    def low(self, row: int, column: int) -> Point:
        """The low corner [mm of the template] of a page's window; row and column count from 0."""
        wide, deep = self.window
        from_below = self.rows - 1 - row
        return (
            self.corner[0] + column * (wide - OVERLAP),
            self.corner[1] + from_below * (deep - OVERLAP),
        )


def template_drawings(templates: tuple[Template, ...]) -> tuple[Drawing, Drawing]:
    """All templates on A4 and, the same, on A3."""
    return (_drawing("templates-a4", templates, A4), _drawing("templates-a3", templates, A3))


def _drawing(stem: str, templates: tuple[Template, ...], paper: Paper) -> Drawing:
    return Drawing(stem, tuple(page for one in templates for page in pages_of(one, paper)))


def window_of(size: Point) -> Point:
    """What a page of this size [mm] shows of a template."""
    return (size[0] - 2.0 * MARGIN - ASIDE, size[1] - 2.0 * MARGIN - FOOT)


def tiling_of(template: Template, paper: Paper) -> Tiling:
    """The way round of the paper that takes fewer pages, upright where both take as many."""
    short, long = sorted((paper.width, paper.height))
    ways = [_tiling(template, size) for size in ((short, long), (long, short))]
    return min(ways, key=lambda way: way.rows * way.columns)


def _tiling(template: Template, size: Point) -> Tiling:
    """So many pages that the template fits, with it in their middle."""
    low, high = template.extent
    lines = 1.0  # no line on the very edge of a window
    counts, corner = [], []
    for start, end, window in zip(low, high, window_of(size), strict=True):
        count = max(1, ceil((end - start + 2.0 * lines - OVERLAP) / (window - OVERLAP) - 1e-9))
        counts.append(count)
        corner.append((start + end) / 2.0 - (count * (window - OVERLAP) + OVERLAP) / 2.0)
    return Tiling(size, counts[1], counts[0], (corner[0], corner[1]))


def pages_of(template: Template, paper: Paper) -> Iterator[Page]:
    """The pages on which a line of the template lies, row by row."""
    tiling = tiling_of(template, paper)
    shown = {
        (row, column): lines
        for row in range(tiling.rows)
        for column in range(tiling.columns)
        if (lines := tuple(_seen(template, tiling, (row, column))))
    }
    for place, lines in shown.items():
        marks = (*lines, *_frame(tiling.window), *_strips(tiling, place), *_bars(tiling.window))
        yield Page(tiling.size, (*marks, *_words(template, tiling, place), *_map(tiling, place, set(shown))))


def label(place: tuple[int, int]) -> str:
    """What a page is called: its row's letter and its column's number.

    >>> label((0, 2)), label((27, 0))
    ('A3', 'AB1')
    """
    row, column = place
    first = ascii_uppercase[row // 26 - 1] if row >= 26 else ""
    return f"{first}{ascii_uppercase[row % 26]}{column + 1}"


def _on_page(tiling: Tiling, place: tuple[int, int], point: Point) -> Point:
    """A point of the template on a page."""
    low = tiling.low(*place)
    return (MARGIN + point[0] - low[0], MARGIN + FOOT + point[1] - low[1])


def _seen(template: Template, tiling: Tiling, place: tuple[int, int]) -> Iterator[Line]:
    """The template's lines within a page's window."""
    wide, deep = tiling.window
    low, high = (MARGIN, MARGIN + FOOT), (MARGIN + wide, MARGIN + FOOT + deep)
    for line in template.lines:
        start, end = (_on_page(tiling, place, point) for point in (line.start, line.end))
        part = clipped(start, end, low, high)
        if part:
            yield Line(*part, line.style, WIDE if line.style == "visible" else None)


def clipped(start: Point, end: Point, low: Point, high: Point) -> tuple[Point, Point] | None:
    """What of a straight line lies within a rectangle; None where nothing does.

    >>> clipped((-1.0, 1.0), (3.0, 1.0), (0.0, 0.0), (2.0, 2.0))
    ((0.0, 1.0), (2.0, 1.0))
    """
    enters, leaves = 0.0, 1.0
    for one, other, least, most in zip(start, end, low, high, strict=True):
        along = other - one
        if along == 0.0:
            if not least <= one <= most:
                return None
            continue
        first, last = sorted(((least - one) / along, (most - one) / along))
        enters, leaves = max(enters, first), min(leaves, last)
    if enters >= leaves:
        return None
    (x, y), (a, b) = start, end
    return (
        (x + (a - x) * enters, y + (b - y) * enters),
        (x + (a - x) * leaves, y + (b - y) * leaves),
    )


def _frame(window: Point) -> Iterator[Line]:
    """The window's edge."""
    low, high = (MARGIN, MARGIN + FOOT), (MARGIN + window[0], MARGIN + FOOT + window[1])
    points = (low, (high[0], low[1]), high, (low[0], high[1]))
    for one, other in zip(points, points[1:] + points[:1], strict=True):
        yield Line(one, other, "frame", THIN)


def _strips(tiling: Tiling, place: tuple[int, int]) -> Iterator[Mark]:
    """Where neighbours overlap: the strip's inner edge, and register marks in its middle."""
    (wide, deep), (row, column) = tiling.window, place
    left, bottom = MARGIN, MARGIN + FOOT
    across = [OVERLAP] * (column > 0) + [wide - OVERLAP] * (column < tiling.columns - 1)
    for x in across:
        middle = OVERLAP / 2.0 if x == OVERLAP else wide - OVERLAP / 2.0
        yield Line((left + x, bottom), (left + x, bottom + deep), "hatch", THIN)
        for share in (0.25, 0.75):
            yield from _register((left + middle, bottom + share * deep))
    upwards = [OVERLAP] * (row < tiling.rows - 1) + [deep - OVERLAP] * (row > 0)
    for y in upwards:
        middle = OVERLAP / 2.0 if y == OVERLAP else deep - OVERLAP / 2.0
        yield Line((left, bottom + y), (left + wide, bottom + y), "hatch", THIN)
        for share in (0.25, 0.75):
            yield from _register((left + share * wide, bottom + middle))


def _register(at: Point) -> Iterator[Mark]:
    """A cross in a circle."""
    x, y = at
    yield Circle(at, CROSS / 2.0, "dimension")
    yield Line((x - CROSS, y), (x + CROSS, y), "dimension")
    yield Line((x, y - CROSS), (x, y + CROSS), "dimension")


def _bars(window: Point) -> Iterator[Mark]:
    """A bar of a hundred millimetres along the foot, and one up the right side, with marks every ten."""
    x, y = MARGIN, MARGIN + 12.0
    yield Line((x, y), (x + BAR, y), "visible")
    right, low = MARGIN + window[0] + 3.0, MARGIN + FOOT
    yield Line((right, low), (right, low + BAR), "visible")
    for step in range(11):
        at, long = BAR / 10.0 * step, 3.0 if step % 10 == 0 else 1.5
        yield Line((x + at, y), (x + at, y + long), "visible")
        yield Line((right, low + at), (right + long, low + at), "visible")
    yield Text(f"{BAR:g} mm", (x + BAR + 2.0, y), 2.5)
    yield Text(f"{BAR:g} mm", (right + 1.5, low + BAR + 2.0), 2.5, "left", 90.0)


def _words(template: Template, tiling: Tiling, place: tuple[int, int]) -> Iterator[Mark]:
    """What this is, how its lines are meant, how to print it, which page it is."""
    room = tiling.size[0] - 2.0 * MARGIN - MAP[0] - 18.0
    often = f", cut {template.cut}" if template.cut > 1 else ""
    yield Text(cut_to(f"{template.box}: {template.side}{often}", 3.2, room), (MARGIN, MARGIN + 19.0), 3.2)
    for line, words in enumerate(wrapped(template.legend, 1.8, room)[:2]):
        yield Text(words, (MARGIN, MARGIN + 7.0 - 3.0 * line), 1.8)
    yield Text(cut_to(CHECK, 1.8, room), (MARGIN, MARGIN + 0.8), 1.8)
    yield Text(label(place), (tiling.size[0] - MARGIN - MAP[0] - 3.0, MARGIN + 10.0), 5.0, "right")


def _map(tiling: Tiling, place: tuple[int, int], shown: set[tuple[int, int]]) -> Iterator[Mark]:
    """All pages as they lie on the floor, those printed as cells, a dot on this one."""
    cell = min(MAP[0] / tiling.columns, MAP[1] / tiling.rows, 7.0)
    left, top = tiling.size[0] - MARGIN - MAP[0], MARGIN + 1.0 + MAP[1]
    for row, column in sorted(shown):
        x, y = left + column * cell, top - (row + 1) * cell
        points = ((x, y), (x + cell, y), (x + cell, y + cell), (x, y + cell))
        for one, other in zip(points, points[1:] + points[:1], strict=True):
            yield Line(one, other, "frame")
        if (row, column) == place:
            yield Circle((x + cell / 2.0, y + cell / 2.0), cell / 4.0, "visible", filled=True)
