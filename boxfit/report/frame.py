"""The frame of a page: border, title strip and scale bar."""

from boxfit.bay import Point
from boxfit.layout import Layout
from boxfit.report.area import Area
from boxfit.report.look import (
    FRAME,
    LEFT,
    RULE,
    SMALL_LEFT,
    Ink,
    Lettering,
)
from boxfit.report.panel import Panel
from boxfit.report.paper import PAGE, Sheet
from boxfit.report.projection import View

BORDER = PAGE.inset(8.0)
TITLE = Area(BORDER.left, BORDER.bottom, BORDER.right, BORDER.bottom + 20.0)
LINE = 4.2
AID = "Working aid, not an approval"


Cells = tuple[tuple[str, str], tuple[str, str], tuple[str, str]]
"""The three parts of the title strip, each with its first and second line."""


def draw_title(sheet: Sheet, layout: Layout, view: View, panel: Panel) -> None:
    """Border and title strip: whose car, which modules, how many, the view, the scale bar."""
    count = f"{layout.count} × {layout.module}: {layout.series} in series × {layout.parallel} parallel"
    cells = (
        (f"{layout.car} with {layout.module}", f"{count}, {layout.energy:.4g} kWh"),
        (view.title, "Millimetres; the modules' numbers are the same in all views"),
        (AID, ""),
    )
    draw_strip(sheet, cells, panel.scale, "whole car")


def draw_strip(sheet: Sheet, cells: Cells, scale: float, scaled: str) -> None:
    """Border and title strip with its words, and the scale bar with what is drawn at that scale."""
    sheet.line((*BORDER.corners, BORDER.corners[0]), FRAME)
    sheet.line(((TITLE.left, TITLE.top), (TITLE.right, TITLE.top)), FRAME)
    walls = (TITLE.left, TITLE.left + 150.0, TITLE.left + 285.0, TITLE.right)
    for wall in walls[1:-1]:
        sheet.line(((wall, TITLE.bottom), (wall, TITLE.top)), RULE)
    for left, right, (first, second) in zip(walls[:-1], walls[1:], cells, strict=True):
        for words, lettering, height in (
            (first, Lettering(11.0, bold=True, anchor="left"), 13.5),
            (second, LEFT, 6.0),
        ):
            if words:
                short = _shrunk(sheet, words, lettering, right - left - 7.0)
                sheet.write(short[0], (left + 3.5, TITLE.bottom + height), short[1])
    _draw_scale_bar(sheet, scale, scaled, (walls[2] + 3.5, TITLE.bottom + 4.0))


def _shrunk(sheet: Sheet, words: str, lettering: Lettering, width: float) -> tuple[str, Lettering]:
    """The words in smaller letters where they are too long, cut short where that is not enough."""
    size = lettering.size
    while size > 7.5 and sheet.measure(words, Lettering(size, bold=lettering.bold))[0] > width:
        size -= 0.5
    smaller = Lettering(size, bold=lettering.bold, anchor="left")
    return sheet.fitted(words, smaller, width), smaller


def _draw_scale_bar(sheet: Sheet, scale: float, scaled: str, corner: Point) -> None:
    """A bar of four parts, a round number of millimetres long; `scaled` is what has that scale."""
    left, bottom = corner
    lengths = (4000, 2000, 1000, 800, 400, 200, 100, 40, 20, 8, 4)
    length = next((n for n in lengths if n / scale <= 60.0), lengths[-1])
    part = length / scale / 4
    for k in range(4):
        strip = Area(left + k * part, bottom, left + (k + 1) * part, bottom + 1.4)
        sheet.face(strip.corners, Ink(FRAME.colour, 0.4, fill=FRAME.colour if k % 2 == 0 else "#ffffff"))
    before, behind = f"{length} mm, ", f" 1:{scale:g} on A3"
    room = TITLE.right - left - 3.5 - sheet.measure(before + behind, SMALL_LEFT)[0]
    sheet.write(before + sheet.fitted(scaled, SMALL_LEFT, room) + behind, (left, bottom + 4.2), SMALL_LEFT)
