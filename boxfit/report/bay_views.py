"""A sheet for every surveyed bay: plan, side and rear view at one scale, to check with the tape measure."""

from itertools import chain, count
from pathlib import Path

from boxfit.bay import Bay
from boxfit.box.names import file_stem
from boxfit.car import Car
from boxfit.report.area import Area
from boxfit.report.bay_figures import WIDTH, draw_bay_figures, figures_height
from boxfit.report.bay_panel import ABOVE, BELOW, BESIDE, bay_size, draw_bay_view
from boxfit.report.frame import AID, BORDER, TITLE, draw_strip
from boxfit.report.look import RULE, SCALES
from boxfit.report.paper import Sheet, plain_settings
from boxfit.report.projection import PLAN, REAR, SIDE

WORK = Area(BORDER.left + 4.0, TITLE.top + 3.0, BORDER.right - 4.0, BORDER.top - 3.0)
GUTTER = 3.0
"""Paper left on either side of the lines between the views [mm]."""


def write_bay_views(car: Car, folder: Path) -> tuple[Path, ...]:
    """Draw every bay of the car into an existing folder; gives the files, SVG before PNG, bay by bay.

    The files are named by the bays. Nothing in them depends on the day, the machine or the user's
    settings. Raises OSError where the folder cannot be written.
    """
    written: list[Path] = []
    with plain_settings():
        for bay in car.bays:
            written += drawn_bay(car, bay).save(folder / (file_stem(bay.name) or "bay"))
    return tuple(written)


def drawn_bay(car: Car, bay: Bay) -> Sheet:
    """One sheet: side view under the plan, rear view beside the side view, figures beside the plan."""
    sheet = Sheet()
    scale = bay_scale(bay)
    left, right, upper, lower = _needed(bay, scale)
    wall = WORK.left + left + (WORK.width - left - right) / 2
    parting = WORK.top - upper - (WORK.height - upper - lower) / 2
    sheet.line(((BORDER.left, parting), (BORDER.right, parting)), RULE)
    sheet.line(((wall, TITLE.top), (wall, BORDER.top)), RULE)
    draw_bay_figures(sheet, bay, Area(wall + GUTTER, parting + GUTTER, WORK.right, WORK.top))
    draw_bay_view(sheet, bay, PLAN, scale, Area(WORK.left, parting + GUTTER, wall - GUTTER, WORK.top))
    draw_bay_view(sheet, bay, SIDE, scale, Area(WORK.left, WORK.bottom, wall - GUTTER, parting - GUTTER))
    draw_bay_view(sheet, bay, REAR, scale, Area(wall + GUTTER, WORK.bottom, WORK.right, parting - GUTTER))
    cells = (
        (f"{bay.name}, {car.name}", "The bay as surveyed: plan, side and rear; sizes in millimetres"),
        ("Measure again before cutting", "Set out from the car's axes, not from the paper"),
        (AID, ""),
    )
    draw_strip(sheet, cells, scale, "all views")
    return sheet


def bay_scale(bay: Bay) -> float:
    """The largest usual scale, as 1:n, at which all three views and the figures fit the sheet."""
    smaller = (SCALES[-1] * 2.0**k for k in count(1))
    return next(scale for scale in chain(SCALES, smaller) if _fits(bay, scale))


def _fits(bay: Bay, scale: float) -> bool:
    left, right, upper, lower = _needed(bay, scale)
    return left + right <= WORK.width and upper + lower <= WORK.height


def _needed(bay: Bay, scale: float) -> tuple[float, float, float, float]:
    """Paper [mm] needed: width of the left and the right column, height of the upper and the lower row."""
    length, width, height = ((size + 2 * bay.tolerance) / scale for size in bay_size(bay))
    beside, above = 2 * BESIDE + GUTTER, ABOVE + BELOW + GUTTER
    upper = max(width + above, figures_height(bay) + GUTTER)
    return (length + beside, max(width + beside, WIDTH + GUTTER), upper, height + above)
