"""One view of a surveyed bay in its place on the sheet: sizes, corners, axes, centre line and letters."""

from __future__ import annotations

from typing import TYPE_CHECKING

from boxfit.bay import Bay, Point
from boxfit.report.area import Area, area_of
from boxfit.report.balloons import draw_balloons
from boxfit.report.bay_survey import corners, draw_survey, moved_room, told
from boxfit.report.columns import counted
from boxfit.report.dimension import FIRST, STEP, Span, draw_across, draw_upright
from boxfit.report.look import AXLE, FRAME, HEADING, SMALL, SMALL_LEFT, SMALL_RIGHT, Ink
from boxfit.report.panel import Panel
from boxfit.report.paper import Sheet
from boxfit.report.parts import clipped
from boxfit.report.placing import around, clear_of, lead, place
from boxfit.report.projection import PLAN, REAR, View, bay_points, extents

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

CAPTION = 6.0
"""Paper kept for the view's name [mm]."""
ABOVE = CAPTION + 8.0
OFF = 2.0
"""Sizes keep this much further off, so that keep-outs cut off outside the room stay clear [mm of paper]."""
BELOW = OFF + FIRST + STEP
BESIDE = 30.0
"""Paper kept above, below, and on either side of the room for figures [mm]."""
ARROW = 8.0
"""Length of an axis arrow [mm of paper]."""
CORNERS = 12
"""The most corners whose coordinates are written."""


def bay_size(bay: Bay) -> tuple[float, float, float]:
    """Length, width and height [mm] of the block round the room."""
    low, high = extents(bay)
    return (high[0] - low[0], high[1] - low[1], high[2] - low[2])


def draw_bay_view(sheet: Sheet, bay: Bay, view: View, scale: float, cell: Area) -> None:
    """Draw one view of the bay at 1:`scale` into the middle of its place."""
    panel = _panel(bay, view, scale, cell)
    room = area_of(panel.outline(bay_points(view, bay)))
    draw_survey(sheet, panel, bay)
    _draw_axes(sheet, view, Area(cell.right - 15.0, cell.top - 15.0, cell.right, cell.top))
    _draw_centre_line(sheet, panel, bay, room)
    _draw_sizes(sheet, panel, bay, room)
    draw_balloons(sheet, panel, bay, cell, ())
    left = _write_corners(sheet, panel, bay, cell)
    _write_caption(sheet, panel, left, Area(cell.left, cell.top - CAPTION, cell.right - 16.0, cell.top))


def _panel(bay: Bay, view: View, scale: float, cell: Area) -> Panel:
    """The view with the room in the middle of what its figures leave of the cell."""
    into = Area(cell.left + BESIDE, cell.bottom + BELOW, cell.right - BESIDE, cell.top - ABOVE)
    (x, y), (across, upwards) = into.centre, area_of(bay_points(view, bay)).centre
    return Panel(view, scale, (x - across / scale, y - upwards / scale))


def _draw_axes(sheet: Sheet, view: View, into: Area) -> None:
    """Two arrows, the ways in which the car's coordinates grow in this view."""
    (across, way), (upwards, turn) = view.across, view.upwards
    foot = (
        into.right - 1.5 if way < 0 else into.left + 1.5,
        into.top - 1.5 if turn < 0 else into.bottom + 1.5,
    )
    sheet.taken.append(into)
    for axis, (x, y) in ((across, (float(way), 0.0)), (upwards, (0.0, float(turn)))):
        tip = (foot[0] + ARROW * x, foot[1] + ARROW * y)
        sheet.line((foot, tip), FRAME)
        back = (tip[0] - 2.2 * x, tip[1] - 2.2 * y)
        barbs = ((back[0] + 0.8 * y, back[1] + 0.8 * x), (back[0] - 0.8 * y, back[1] - 0.8 * x))
        sheet.face((tip, *barbs), Ink(FRAME.colour, 0.3, fill=FRAME.colour))
        sheet.write("xyz"[axis], (tip[0] + 2.2 * x, tip[1] + 2.2 * y), SMALL)


def _draw_centre_line(sheet: Sheet, panel: Panel, bay: Bay, room: Area) -> None:
    """The car's centre line, named, where it crosses the room in plan or rear view."""
    low, high = extents(bay)
    if panel.view not in (PLAN, REAR) or not low[1] < 0.0 < high[1]:
        return
    x, y = panel.at((0.0, 0.0, 0.0))
    if panel.view is PLAN:
        start, end, lettering = (room.left - 4.0, y), (room.right + 2.0, y), SMALL_RIGHT
        named = (start[0] - 1.0, y)
    else:
        start, end, lettering = (x, room.top + 4.0), (x, room.bottom - 2.0), SMALL
        named = (x, start[1] + 2.2)
    sheet.line((start, end), AXLE)
    sheet.taken.append(area_of((start, end)).inset(-0.2))
    sheet.write("centre line", named, lettering)


def _draw_sizes(sheet: Sheet, panel: Panel, bay: Bay, room: Area) -> None:
    """The block round the room, across below it and upright on its right, clear of the band."""
    size = bay_size(bay)
    across, upright = size[panel.view.across[0]], size[panel.view.upwards[0]]
    off = OFF + bay.tolerance / panel.scale
    before = len(sheet.taken)
    draw_across(sheet, (Span(room.left, room.right, told(across)),), room.bottom - off)
    draw_upright(sheet, (Span(room.bottom, room.top, told(upright)),), room.right + off)
    sheet.taken.extend([area.inset(-1.2) for area in sheet.taken[before:]])
    reach = off + FIRST + 1.0
    ends: tuple[tuple[Point, Point], ...] = (
        ((room.left, room.bottom), (room.left, room.bottom - reach)),
        ((room.right, room.bottom), (room.right, room.bottom - reach)),
        ((room.right, room.bottom), (room.right + reach, room.bottom)),
        ((room.right, room.top), (room.right + reach, room.top)),
    )
    sheet.taken.extend(area_of(line).inset(-0.4) for line in ends)


def _write_caption(sheet: Sheet, panel: Panel, left: int, into: Area) -> None:
    """Name and scale of the view, corners `left` out, and as much as fits of how the view is taken."""
    name, _, way = panel.view.title.partition(", ")
    height = into.centre[1]
    start = sheet.write(f"{name}   1:{panel.scale:g}", (into.left, height), HEADING).right + 4.0
    words = f"{counted(left, 'corner')} only in the bay's file; {way}" if left else way
    short = sheet.fitted(words, SMALL_LEFT, into.right - start)
    sheet.write(short, (start, height), SMALL_LEFT)


def _write_corners(sheet: Sheet, panel: Panel, bay: Bay, cell: Area) -> int:
    """Write the corners' coordinates outside the room, each with a thin line; gives how many are left out."""
    within = Area(cell.left, cell.bottom, cell.right, cell.top - CAPTION)
    drawn = _drawn(panel, bay)
    found = corners(panel.view, bay)
    written = 0
    for flat, words in found[:CORNERS]:
        at = panel.put(flat)
        target = area_of((at, at)).inset(-0.3)
        spot = place(sheet, words, clear_of(drawn, sheet, words, around(target, SMALL)), within)
        if spot:
            lead(sheet, spot, target)
            written += 1
    return len(found) - written


def _drawn(panel: Panel, bay: Bay) -> BaseGeometry:
    """The paper that the room with its band and the keep-outs cover."""
    from shapely import Polygon, unary_union

    outlines = [*moved_room(panel.view, bay, bay.tolerance)]
    outlines += [outline for keepout in bay.keepouts for outline in clipped(panel, bay, keepout)]
    return unary_union([Polygon(panel.outline(outline)) for outline in outlines])
