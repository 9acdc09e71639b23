"""How boxes, modules and bays are drawn in any view, without words."""

from collections.abc import Iterable, Sequence
from typing import TypeVar

from boxfit.bay import Bay, BoxRules, Keepout, Point
from boxfit.layout import Layout, PlacedBox, PlacedModule
from boxfit.report.area import Area, area_of
from boxfit.report.look import BAY, BOX, FLANGE, KEEPOUT, MODULE, OPENING, OPENING_EDGE
from boxfit.report.panel import Panel
from boxfit.report.paper import Sheet
from boxfit.report.projection import (
    PLAN,
    bay_outline,
    extents,
    keepout_outline,
    opening_outline,
    rectangle,
)

Solid = TypeVar("Solid", PlacedBox, PlacedModule)


def boxes_of(layout: Layout, bay: Bay) -> tuple[PlacedBox, ...]:
    """The boxes the layout puts into the bay."""
    return next((found.boxes for found in layout.bays if found.name == bay.name), ())


def draw_bay(sheet: Sheet, panel: Panel, bay: Bay) -> None:
    """The room, the keep-outs as far as they lie near it, and the opening."""
    sheet.face(panel.outline(bay_outline(panel.view, bay)), BAY)
    draw_keepouts(sheet, panel, bay)
    draw_opening(sheet, panel, bay)


def draw_keepouts(sheet: Sheet, panel: Panel, bay: Bay) -> None:
    """The keep-outs as far as they lie near the room."""
    for keepout in bay.keepouts:
        outline = clipped(panel, bay, keepout)
        if outline:
            sheet.face(panel.outline(outline), KEEPOUT)


def draw_opening(sheet: Sheet, panel: Panel, bay: Bay) -> None:
    """The way in: its outline where the view faces it, otherwise a thick line on its side."""
    if bay.opening:
        opening = panel.outline(opening_outline(panel.view, bay, bay.opening))
        if len(opening) > 2:
            sheet.face(opening, OPENING)
        else:
            sheet.line(opening, OPENING_EDGE)


def clipped(panel: Panel, bay: Bay, keepout: Keepout) -> tuple[Point, ...]:
    """A keep-out's outline, cut off a little outside the bay; empty where it lies further out."""
    from shapely import Polygon, box

    room = area_of(rectangle(panel.view, *extents(bay))).inset(-3.0 * panel.scale)
    near = Polygon(keepout_outline(panel.view, keepout)).intersection(box(*_bounds(room)))
    return tuple((x, y) for x, y in list(near.exterior.coords)[:-1]) if near.area > 0 else ()


def _bounds(area: Area) -> tuple[float, float, float, float]:
    return (area.left, area.bottom, area.right, area.top)


def flange_block(box: PlacedBox, rules: BoxRules) -> PlacedBox:
    """The lid with the flange beneath it, as a block: it stands out by the flange on all four sides."""
    (x, y, _), (far_x, far_y, top) = box.low, box.high
    out = rules.flange
    bottom = top - rules.lid_thickness - rules.thickness
    return PlacedBox((x - out, y - out, bottom), (far_x + out, far_y + out, top), ())


def draw_boxes(sheet: Sheet, panel: Panel, boxes: Sequence[PlacedBox], rules: BoxRules) -> None:
    """Boxes opened towards the reader: outside, flange, modules, the nearest on top."""
    for box in nearest_last(panel, boxes):
        lid = flange_block(box, rules)
        flange = panel.block(lid.low, lid.high)
        if panel.view is PLAN:
            sheet.face(flange.corners, FLANGE)
        sheet.face(panel.block(box.low, box.high).corners, BOX)
        for module in nearest_last(panel, box.modules):
            sheet.face(panel.block(module.low, module.high).corners, MODULE)
        if panel.view is not PLAN:
            sheet.face(flange.corners, FLANGE)


def nearest_last(panel: Panel, solids: Iterable[Solid]) -> list[Solid]:
    """The solids in the order to draw them in."""
    return sorted(solids, key=lambda solid: panel.view.nearness(solid.low, solid.high))
