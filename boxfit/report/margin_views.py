"""Sheets of margins: every box in its bay, plan, side and rear, with what is left at every face."""

from dataclasses import replace
from itertools import chain, count

from boxfit.bay import Bay
from boxfit.car import Car
from boxfit.layout import Layout
from boxfit.report.area import Area, area_of
from boxfit.report.balloons import draw_balloons, draw_hidden, key_words
from boxfit.report.box_names import box_names, write_in_middle
from boxfit.report.detail import wrapped
from boxfit.report.figures import draw_swatch
from boxfit.report.frame import AID, BORDER, TITLE, draw_strip
from boxfit.report.lines import drawn_lines
from boxfit.report.look import (
    BAY,
    BOX,
    FIGURE,
    FIGURE_SHORT,
    FLANGE,
    HEADING,
    MARK_GROUND,
    MARK_TIGHTEST,
    OPENING,
    RULE,
    SCALES,
    SMALL_LEFT,
)
from boxfit.report.margin_text import survey_short
from boxfit.report.margins import Margin, margins
from boxfit.report.marks import Paper, arrow_areas, draw_marks, figure, marks_of
from boxfit.report.panel import Panel
from boxfit.report.paper import Sheet
from boxfit.report.parts import (
    boxes_of,
    covered_areas,
    draw_bay,
    draw_closed,
    flange_block,
    keepout_legend,
    step_legend,
)
from boxfit.report.projection import VIEWS, View, extents, rectangle

ROWS = 3
"""The most bays on a sheet."""
LEGEND = 8.0
"""Paper kept for the legend [mm]."""
HEAD, FOOT = 13.0, 4.0
"""Paper kept over a row of views for its words, and under it for each line of its key [mm]."""
ROUND, OVER = 22.0, 12.0
"""Paper kept on either side of every view, and over and under it together, for figures [mm]."""
LETTERS = 18
"""Letters kept of an obstacle's name."""


def drawn_margins(car: Car, layout: Layout) -> tuple[Sheet, ...]:
    """As many sheets as the bays with boxes need."""
    bays = [bay for bay in car.bays if boxes_of(layout, bay)]
    return tuple(_drawn(car, layout, bays[k : k + ROWS]) for k in range(0, len(bays), ROWS))


def _drawn(car: Car, layout: Layout, bays: list[Bay]) -> Sheet:
    sheet = Sheet()
    work = Area(BORDER.left + 4.0, TITLE.top + 2.0, BORDER.right - 4.0, BORDER.top - 2.0)
    _draw_legend(sheet, bays, layout, work)
    height = (work.height - LEGEND) / len(bays)
    scales = []
    for number, bay in enumerate(bays):
        top = work.top - number * height
        row = Area(work.left, top - height, work.right, top)
        scales.append(_draw_row(sheet, car, layout, bay, row))
        sheet.line(((BORDER.left, row.bottom), (BORDER.right, row.bottom)), RULE)
    cells = (
        (f"{layout.car} with {layout.module}", "What is left at every face of every box, in millimetres"),
        ("Margins: plan, side and rear of every bay", "Beyond the allowance: survey's tolerance + clearance"),
        (AID, ""),
    )
    draw_strip(sheet, cells, scales[0], bays[0].name)
    return sheet


def _draw_row(sheet: Sheet, car: Car, layout: Layout, bay: Bay, row: Area) -> float:
    """One bay in its three views at one scale, which is given back."""
    key = wrapped(sheet, key_words(bay), row)
    room = Area(row.left, row.bottom + FOOT * len(key) + 1.0, row.right, row.top - HEAD)
    sizes = [area_of(_points(view, bay, layout)) for view in VIEWS]
    scale = _scale(sizes, room)
    start = sheet.write(f"{bay.name}   1:{scale:g}", (row.left, row.top - 3.5), HEADING).right + 4.0
    words = survey_short(margins(car, layout), car, bay)
    sheet.write(sheet.fitted(words, SMALL_LEFT, row.right - start), (start, row.top - 3.5), SMALL_LEFT)
    for line, words in enumerate(key):
        sheet.write(words, (row.left, row.bottom + FOOT * (len(key) - line - 0.5)), SMALL_LEFT)
    spare = (room.width - sum(size.width / scale for size in sizes)) / len(sizes)
    left = room.left
    for view, size in zip(VIEWS, sizes, strict=True):
        cell = Area(left, room.bottom, left + size.width / scale + spare, room.top)
        (x, y), (across, upwards) = cell.centre, size.centre
        sheet.write(view.title.partition(",")[0], (cell.centre[0] - 4.0, row.top - 9.0), SMALL_LEFT)
        panel = Panel(view, scale, (x - across / scale, y - upwards / scale))
        _draw_view(sheet, car, layout, bay, panel, cell.inset(1.0))
        left = cell.right
    return scale


def _points(view: View, bay: Bay, layout: Layout) -> list[tuple[float, float]]:
    """The corners of all that must be in the picture: room and boxes."""
    points = list(rectangle(view, *extents(bay)))
    for box in boxes_of(layout, bay):
        lid = flange_block(box, bay.box)
        points += [*rectangle(view, box.low, box.high), *rectangle(view, lid.low, lid.high)]
    return points


def _scale(sizes: list[Area], room: Area) -> float:
    """The largest usual scale, as 1:n, at which the views stand side by side with room for the figures."""
    across, upright = sum(size.width for size in sizes), max(size.height for size in sizes)
    smaller = (SCALES[-1] * 2.0**k for k in count(1))
    return next(
        scale
        for scale in chain(SCALES, smaller)
        if across / scale + 2 * ROUND * len(sizes) <= room.width and upright / scale + OVER <= room.height
    )


def _draw_view(sheet: Sheet, car: Car, layout: Layout, bay: Bay, panel: Panel, cell: Area) -> None:
    boxes = boxes_of(layout, bay)
    draw_bay(sheet, panel, bay)
    draw_closed(sheet, panel, boxes, bay.box)
    draw_hidden(sheet, panel, bay)
    covered = [area for box in boxes for area in covered_areas(panel, box, bay.box)]
    marks = marks_of(panel.view, bay, car, layout)
    sheet.taken.extend(arrow_areas(panel, marks))
    draw_balloons(sheet, panel, bay, cell, covered)
    write_in_middle(sheet, box_names(panel, boxes, bay.box))
    draw_marks(sheet, panel, marks, Paper(cell, drawn_lines(panel, bay, boxes, opened=False)), _words)


def _words(margin: Margin) -> str:
    name = margin.obstacle
    return f"{figure(margin)} {name if len(name) <= LETTERS else name[: LETTERS - 1] + '…'}"


def _draw_legend(sheet: Sheet, bays: list[Bay], layout: Layout, work: Area) -> None:
    height = work.bottom + LEGEND / 2 - 1.0
    kinds = ((BAY, "bay"), *keepout_legend(bays), (OPENING, "opening"), (BOX, "box"), (FLANGE, "flange, lid"))
    steps = step_legend(VIEWS, bays, layout)
    left = work.left
    for ink, words in (*kinds, *steps):
        width = sheet.measure(words, SMALL_LEFT)[0] + 1.0
        draw_swatch(sheet, ink, words, (left, height), width)
        left += width + 11.0
    for lettering, ink, sample, words in (
        (FIGURE, MARK_GROUND, "+7.0 wall", "left beyond the allowance"),
        (FIGURE, MARK_TIGHTEST, "+7.0 wall", "tightest of the bay"),
        (FIGURE_SHORT, MARK_GROUND, "+7.0 wall", "short if the survey is out by twice its tolerance"),
    ):
        spot = sheet.write(sample, (left, height), replace(lettering, anchor="left"))
        sheet.face(spot.inset(-0.6).corners, ink)
        left = sheet.write(words, (spot.right + 2.0, height), SMALL_LEFT).right + 5.0
