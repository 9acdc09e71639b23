"""The figures beside the whole car: box sizes, masses, the balance point, the notes, and the legend."""

from collections.abc import Iterator
from math import ceil
from textwrap import wrap

from boxfit.bay import Bay, Point
from boxfit.car import Car
from boxfit.layout import Layout, PlacedBox
from boxfit.report.area import Area
from boxfit.report.balance import balance_words
from boxfit.report.columns import counted, tenths
from boxfit.report.kept_text import proven_with
from boxfit.report.look import (
    BAY,
    BOX,
    FLANGE,
    KEEPOUT,
    MARK,
    MODULE,
    MODULE_HIDDEN,
    OPENING,
    SMALL,
    SMALL_LEFT,
    Ink,
    Lettering,
)
from boxfit.report.paper import Sheet
from boxfit.report.parts import boxes_of, flange_block, keepout_legend, step_legend
from boxfit.report.projection import View
from boxfit.report.shape_words import shape_words, tier_extent

LINE = 4.2
"""From one line to the next [mm of paper]."""
LETTERS = 78
"""Letters of the notes to a line; they fit the width at the lettering used."""
STOPS = (0.0, 0.28, 0.54, 0.71, 0.83, 0.93)
"""Where the columns start, as shares of the width."""
AIR = 1.5
"""Paper between one column and the next [mm]."""
COLUMNS, SWATCH = 4, 4.5
"""Columns of the legend, and from one of its lines to the next [mm of paper]."""
Legend = tuple[tuple[Ink, str], ...]
LEGEND: Legend = (
    (BAY, "bay as surveyed"),
    (OPENING, "opening"),
    (BOX, "box outside"),
    (FLANGE, "flange and lid"),
    (MODULE, "module"),
    (MODULE_HIDDEN, "(n) partly hidden"),
    (MARK, "+n: mm left"),
)


def draw_figures(sheet: Sheet, car: Car, layout: Layout, view: View, room: Area) -> None:
    """Write the figures from the top of the place, and the legend at its bottom."""
    legend = _legend(car, layout, view)
    _draw_legend(sheet, legend, room)
    names = room.width * STOPS[1] - AIR
    rows = [*_box_rows(sheet, car, layout, names), ("",), *((words,) for words in _words(car, layout))]
    space = int((room.height - 3.0 - SWATCH * ceil(len(legend) / COLUMNS)) / LINE)
    if len(rows) > space:
        rows = [*rows[: space - 1], (f"and {len(rows) - space + 1} lines more in the summary",)]
    for number, row in enumerate(rows):
        height = room.top - LINE * (number + 0.6)
        lettering = Lettering(7.5, bold=number == 0, anchor="left")
        ends = (*STOPS[1 : len(row)], 1.0)
        for words, start, end in zip(row, STOPS[: len(row)], ends, strict=True):
            short = sheet.fitted(words, lettering, room.width * (end - start) - AIR)
            if short:
                sheet.write(short, (room.left + room.width * start, height), lettering)


def _box_rows(sheet: Sheet, car: Car, layout: Layout, width: float) -> Iterator[tuple[str, ...]]:
    """The boxes with their sizes; a bay's name is cut short to `width` [mm], never the box's number."""
    yield ("box", "outside l × w × h", "over flange", "modules", "front", "floor")
    for bay in car.bays:
        boxes = boxes_of(layout, bay)
        for number, box in enumerate(boxes, start=1):
            which = f", box {number}" if len(boxes) > 1 else ""
            left = width - sheet.measure(which, SMALL)[0]
            yield (sheet.fitted(bay.name, SMALL, left) + which, *_sizes(bay, box))
            if box.is_stepped:
                yield from ((f"    {words}",) for words in _shape(bay, box))
    yield ("front: of the box, ahead of the front axle; floor: of the box, above ground",)


def _shape(bay: Bay, box: PlacedBox) -> Iterator[str]:
    """What a stepped box looks like, tier by tier where they differ."""
    yield shape_words(box, bay.box)
    for place in range(1, len(box.tiers) + 1):
        if words := tier_extent(box, place):
            yield f"tier {place}: {words.replace(' x ', ' × ')}"


def _sizes(bay: Bay, box: PlacedBox) -> tuple[str, ...]:
    length, width, height = (high - low for low, high in zip(box.low, box.high, strict=True))
    lid = flange_block(box, bay.box)
    over = f"{tenths(lid.high[0] - lid.low[0])} × {tenths(lid.high[1] - lid.low[1])}"
    size = " × ".join(map(tenths, (length, width, height)))
    return (size, over, str(len(box.modules)), f"{box.high[0]:.0f}", f"{box.low[2]:.0f}")


def _words(car: Car, layout: Layout) -> Iterator[str]:
    """Masses, balance, how good the layout is, and its notes."""
    weights = layout.weights
    yield f"modules {weights.modules:.1f} kg, boxes {weights.boxes:.1f} kg"
    if weights.front_axle is not None and weights.rear_axle is not None:
        yield f"front axle {weights.front_axle:.0f} kg, rear axle {weights.rear_axle:.0f} kg"
    if weights.front_share is not None:
        target = car.target
        wanted = f" (target {target.front_share:.3f} ± {target.tolerance:.3f})" if target else ""
        yield f"front share {weights.front_share:.3f}{wanted}"
    first, *rest = balance_words(car, layout)
    yield first if weights.centre_of_mass is None else f"balance point {first}"
    yield from (f"    {line}" for line in rest)
    proof = ("proven" if layout.proven else "not proven") + proven_with(layout)
    yield f"at most {counted(layout.bound, 'module')}: {proof}"
    for note in layout.notes:
        yield from wrap(note, LETTERS)


def _legend(car: Car, layout: Layout, view: View) -> Legend:
    """What the inks stand for; of the keep-outs the kinds that there are, or a plain one."""
    kinds = keepout_legend(car.bays) or ((KEEPOUT, "keep-out"),)
    steps = step_legend((view,), car.bays, layout)
    return (*LEGEND[:1], *kinds, *LEGEND[1:], *steps)


def _draw_legend(sheet: Sheet, legend: Legend, room: Area) -> None:
    step, rows = room.width / COLUMNS, ceil(len(legend) / COLUMNS)
    for number, (ink, words) in enumerate(legend):
        row, column = divmod(number, COLUMNS)
        height = room.bottom + 2.0 + SWATCH * (rows - 1 - row)
        draw_swatch(sheet, ink, words, (room.left + column * step, height), step - 9.0)


def draw_swatch(sheet: Sheet, ink: Ink, words: str, at: Point, width: float) -> None:
    """A sample of an ink, its left end at `at`, and what it stands for in at most `width` [mm]."""
    left, height = at
    swatch = Area(left, height - 1.3, left + 6.0, height + 1.3)
    if ink.fill:
        sheet.face(swatch.corners, ink)
    else:
        sheet.line(((swatch.left, height), (swatch.right, height)), ink)
    sheet.write(sheet.fitted(words, SMALL, width), (left + 7.5, height), SMALL_LEFT)
