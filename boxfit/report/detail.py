"""One bay, large: its room, keep-outs by letter, boxes with their sizes, and the numbered modules."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from boxfit.bay import Bay, Point
from boxfit.car import Car
from boxfit.layout import Layout, PlacedBox
from boxfit.report.area import Area, area_of
from boxfit.report.balloons import draw_balloons, draw_hidden, key_words
from boxfit.report.box_names import box_names, write_beside_modules
from boxfit.report.columns import counted
from boxfit.report.dimension import depth, draw_across, draw_upright, reach
from boxfit.report.drawn_box import Drawn
from boxfit.report.labels import draw_numbers, groups
from boxfit.report.lines import drawn_lines
from boxfit.report.look import HEADING, SMALL, SMALL_LEFT, SMALL_RIGHT
from boxfit.report.marks import Paper, arrow_areas, draw_marks, figure, marks_of
from boxfit.report.numbering import Numbered, numbered, runs
from boxfit.report.panel import Panel, fitted_panel
from boxfit.report.paper import Sheet
from boxfit.report.parts import (
    boxes_of,
    clipped,
    covered_areas,
    draw_bay,
    draw_boxes,
    flange_block,
    outside,
)
from boxfit.report.projection import View, bay_points, opening_outline, rectangle
from boxfit.report.sizes import Spans, box_spans

LINE = 4.0
"""From one line of small words to the next [mm of paper]."""
KEY_SHARE = 0.4
"""The key takes at most this part of a cell's height."""
Margins = tuple[float, float, float, float]


def draw_detail(sheet: Sheet, car: Car, layout: Layout, bay: Bay, view: View, cell: Area) -> None:
    """Draw one bay of the layout into a place on the sheet, with what is left at every face."""
    boxes = boxes_of(layout, bay)
    key = wrapped(sheet, key_words(bay), cell)
    room = Area(cell.left, cell.bottom + LINE * len(key) + 1.0, cell.right, cell.top - 6.0)
    panel, spans, drawing = _fitted(sheet, bay, boxes, view, room)
    draw_bay(sheet, panel, bay)
    draw_boxes(sheet, panel, boxes, bay.box)
    thin = draw_across(sheet, spans.across, drawing.bottom)
    thin += draw_upright(sheet, spans.upright, drawing.right)
    modules = [found for found in numbered(layout) if found.bay == bay.name]
    covered = [area for box in boxes for area in covered_areas(panel, box, bay.box)]
    for box in boxes:
        sheet.taken.extend(_edges(panel, outside(view, box, bay.box)))
    draw_hidden(sheet, panel, bay)
    left = draw_numbers(sheet, groups(panel, modules), room, covered)
    marks = marks_of(view, bay, car, layout)
    arrows = arrow_areas(panel, marks)
    paper = Paper(room)
    # A plain box by itself leaves room enough: its figures stand right at their arrows.
    if len(boxes) > 1 or any(box.is_stepped for box in boxes):
        sheet.taken.extend((*thin, *arrows))
        lines = drawn_lines(panel, bay, boxes, opened=True)
        write_beside_modules(sheet, box_names(panel, boxes, bay.box), lines, room, covered)
        paper = Paper(room, lines)
    draw_balloons(sheet, panel, bay, room, covered)
    sheet.taken.extend(arrows)
    draw_marks(sheet, panel, marks, paper, figure)
    told = "; ".join(_held(modules, len(boxes))) or "stays empty"
    told += f"; no room for {counted(len(left), 'label')}" if left else ""
    _draw_caption(sheet, cell, bay.name, f"{told}   1:{panel.scale:g}")
    for row, words in enumerate(key):
        height = cell.bottom + LINE * (len(key) - row - 0.5)
        sheet.write(words, (cell.left, height), SMALL_LEFT)


def _held(modules: Sequence[Numbered], boxes: int) -> Iterator[str]:
    """Which modules a bay holds; of several boxes which each of them does."""
    for box in range(1, boxes + 1):
        numbers = [found.number for found in modules if found.box == box]
        noun = f"module{'s' if len(numbers) > 1 else ''}"
        yield f"{noun if boxes == 1 else f'box {box}: {noun}'} {runs(numbers)}"


def wrapped(sheet: Sheet, entries: Sequence[str], cell: Area) -> tuple[str, ...]:
    """Entries joined into as few lines as fit the cell's width; one too long by itself is cut short.

    Lines that would take more than their part of the cell's height are left out, and told.
    """
    lines: list[str] = []
    for entry in entries:
        longer = f"{lines[-1]};  {entry}" if lines else entry
        if lines and sheet.measure(longer, SMALL_LEFT)[0] <= cell.width:
            lines[-1] = longer
        else:
            lines.append(sheet.fitted(entry, SMALL_LEFT, cell.width))
    most = max(int(KEY_SHARE * cell.height / LINE), 1)
    if len(lines) > most:
        lines = [*lines[: most - 1], f"and {counted(len(lines) - most + 1, 'line')} more in the check"]
    return tuple(lines)


def _fitted(
    sheet: Sheet, bay: Bay, boxes: Sequence[PlacedBox], view: View, room: Area
) -> tuple[Panel, Spans, Area]:
    """The panel in its place, the box sizes, and the part of the paper they are measured from."""
    flats: list[Point] = list(bay_points(view, bay))
    for box in boxes:
        lid = flange_block(box, bay.box)
        flats += [*rectangle(view, box.low, box.high), *rectangle(view, lid.low, lid.high)]
    if bay.opening:
        flats += opening_outline(view, bay, bay.opening)
    margins = (0.0, 0.0, 0.0, 0.0)
    beside: list[Point] = []
    for _ in range(3):
        left, bottom, right, top = margins
        into = Area(room.left + left, room.bottom + bottom, room.right - right, room.top - top).inset(2.0)
        panel = fitted_panel(view, [*flats, *beside], into)
        shown = [outline for keepout in bay.keepouts for outline in clipped(panel, bay, keepout)]
        beside = [point for outline in shown for point in outline]
        spans, drawing = box_spans(panel, boxes, bay.box), area_of(panel.outline([*flats, *beside]))
        margins = _margins(sheet, spans, drawing, margins)
    return panel, spans, drawing


def _margins(sheet: Sheet, spans: Spans, drawing: Area, before: Margins) -> Margins:
    """The paper [mm] the dimensions take left, below, right and above; never less than before."""
    past_right = max((reach(sheet, span)[1] for span in spans.across), default=0.0) - drawing.right
    past_top = max((reach(sheet, span)[1] for span in spans.upright), default=0.0) - drawing.top
    needed = (0.0, depth(sheet, spans.across), max(depth(sheet, spans.upright), past_right), past_top)
    left, bottom, right, top = map(max, before, needed)
    return (left, bottom, right, top)


def _edges(panel: Panel, body: Drawn) -> Iterator[Area]:
    """Thin strips along the sides and the steps of a box, for words to keep off."""
    for line in ((*body.outline, body.outline[0]), *body.edges, *body.hidden):
        for ends in pairwise(panel.outline(line)):
            yield area_of(ends).inset(-0.2)


def _draw_caption(sheet: Sheet, cell: Area, name: str, told: str) -> None:
    height = cell.top - 2.5
    told = sheet.fitted(told, SMALL, cell.width * 0.6)
    width = sheet.measure(told, SMALL)[0]
    sheet.write(sheet.fitted(name, HEADING, cell.width - width - 3.0), (cell.left, height), HEADING)
    sheet.write(told, (cell.right, height), SMALL_RIGHT)
