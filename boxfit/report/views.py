"""Pictures of a layout: plan, side and rear, each as SVG and PNG."""

from pathlib import Path

from boxfit.bay import Bay
from boxfit.car import Car
from boxfit.layout import Layout
from boxfit.report.area import Area
from boxfit.report.detail import draw_detail
from boxfit.report.figures import draw_figures
from boxfit.report.frame import BORDER, TITLE, draw_title
from boxfit.report.look import RULE
from boxfit.report.margin_views import drawn_margins
from boxfit.report.overview import Scene, draw_overview
from boxfit.report.paper import Sheet, plain_settings
from boxfit.report.projection import VIEWS, View, extents

MARGIN = 5.0
MARGINS = "margins"
"""The name of the sheet of margins."""
WHOLE_CAR = 0.46
"""The share of the page's height that the whole car and the figures take."""
FIGURES = 130.0
"""The width of the figures beside the whole car [mm of paper]."""


def write_views(car: Car, layout: Layout, folder: Path) -> tuple[Path, ...]:
    """Draw plan, side, rear and margins into an existing folder; gives the files, SVG before PNG for each.

    Margins take a further sheet for every three bays with boxes: margins, margins-2 and so on.

    Nothing in the files depends on the day, the machine or the user's settings. Raises OSError where the
    folder cannot be written.
    """
    written: list[Path] = []
    with plain_settings():
        for view in VIEWS:
            written += drawn(car, layout, view).save(folder / view.name)
        for number, sheet in enumerate(drawn_margins(car, layout), start=1):
            written += sheet.save(folder / (MARGINS if number == 1 else f"{MARGINS}-{number}"))
    return tuple(written)


def drawn(car: Car, layout: Layout, view: View) -> Sheet:
    """One page: the whole car and the figures above, every bay large beneath."""
    sheet = Sheet()
    work = Area(BORDER.left + MARGIN, TITLE.top + MARGIN, BORDER.right - MARGIN, BORDER.top - MARGIN)
    parting = work.top - WHOLE_CAR * work.height
    wall = work.right - FIGURES
    panel = draw_overview(sheet, Scene(car, layout, view), Area(work.left, parting, wall - MARGIN, work.top))
    draw_figures(sheet, car, layout, view, Area(wall, parting + 2.0, work.right, work.top))
    sheet.line(((BORDER.left, parting), (BORDER.right, parting)), RULE)
    sheet.line(((wall - MARGIN / 2, parting), (wall - MARGIN / 2, BORDER.top)), RULE)
    cells = cells_for(car, view, Area(work.left, work.bottom - 2.0, work.right, parting - 2.0))
    for bay, cell in zip(car.bays, cells, strict=True):
        draw_detail(sheet, car, layout, bay, view, cell)
        if cell.right < work.right - 1.0:
            sheet.line(((cell.right + MARGIN, cell.bottom), (cell.right + MARGIN, cell.top)), RULE)
    draw_title(sheet, layout, view, panel)
    return sheet


def cells_for(car: Car, view: View, room: Area) -> tuple[Area, ...]:
    """A place for each bay, three to a row at most, the wider bays wider within bounds."""
    rows = [car.bays[k : k + 3] for k in range(0, len(car.bays), 3)]
    height = room.height / max(len(rows), 1)
    cells: list[Area] = []
    for number, row in enumerate(rows):
        top = room.top - number * height
        shares = _shares(row, view)
        left = room.left
        for share in shares:
            right = left + share * (room.width - 2 * MARGIN * (len(row) - 1))
            cells.append(Area(left, top - height, right, top))
            left = right + 2 * MARGIN
    return tuple(cells)


def _shares(bays: tuple[Bay, ...], view: View) -> tuple[float, ...]:
    """How a row is shared out: by the bays' widths in the view, none under half or over double the mean."""
    axis = view.across[0]
    widths = [high[axis] - low[axis] for low, high in map(extents, bays)]
    mean = sum(widths) / len(widths)
    bounded = [min(max(width, 0.6 * mean), 1.6 * mean) for width in widths]
    return tuple(width / sum(bounded) for width in bounded)
