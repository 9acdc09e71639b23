"""How boxes, modules and bays are drawn in any view, without words."""

from collections.abc import Iterable, Sequence
from typing import TypeVar

from boxfit.bay import Bay, BoxRules, Keepout
from boxfit.box_shape import rectangles
from boxfit.layout import Layout, PlacedBox, PlacedModule
from boxfit.report.area import Area, area_of
from boxfit.report.bands import bands, slab
from boxfit.report.drawn_box import Drawn, drawn_box
from boxfit.report.look import (
    BAY,
    BOX,
    FLANGE,
    HOT,
    KEEPOUT,
    MODULE,
    MOVING,
    OPENING,
    OPENING_EDGE,
    STEP,
    STEP_HIDDEN,
    Ink,
)
from boxfit.report.panel import Panel
from boxfit.report.paper import Sheet
from boxfit.report.projection import (
    PLAN,
    View,
    bay_outlines,
    extents,
    keepout_outlines,
    opening_outline,
    rectangle,
)
from boxfit.surface import Outline

Solid = TypeVar("Solid", PlacedBox, PlacedModule)


def boxes_of(layout: Layout, bay: Bay) -> tuple[PlacedBox, ...]:
    """The boxes the layout puts into the bay."""
    return next((found.boxes for found in layout.bays if found.name == bay.name), ())


def draw_bay(sheet: Sheet, panel: Panel, bay: Bay) -> None:
    """The room, the keep-outs as far as they lie near it, and the opening."""
    for outline in bay_outlines(panel.view, bay):
        sheet.face(panel.outline(outline), BAY)
    draw_keepouts(sheet, panel, bay)
    draw_opening(sheet, panel, bay)


def draw_keepouts(sheet: Sheet, panel: Panel, bay: Bay) -> None:
    """The keep-outs as far as they lie near the room."""
    for keepout in bay.keepouts:
        for outline in clipped(panel, bay, keepout):
            sheet.face(panel.outline(outline), keepout_ink(keepout))


def keepout_ink(keepout: Keepout) -> Ink:
    """How a keep-out is drawn: what moves and what gets hot differ from plain metal."""
    return {"moving": MOVING, "hot": HOT}.get(keepout.reason, KEEPOUT)


def keepout_legend(bays: Iterable[Bay]) -> tuple[tuple[Ink, str], ...]:
    """The kinds of keep-outs that the bays have, with what they are."""
    inks = {keepout_ink(keepout) for bay in bays for keepout in bay.keepouts}
    kinds = ((KEEPOUT, "keep-out"), (MOVING, "moving part"), (HOT, "hot part"))
    return tuple((ink, words) for ink, words in kinds if ink in inks)


def step_legend(views: Iterable[View], bays: Iterable[Bay], layout: Layout) -> tuple[tuple[Ink, str], ...]:
    """What the dashed lines in boxes are; nothing where none is drawn in the views."""
    placed = [(box, bay.box) for bay in bays for box in boxes_of(layout, bay)]
    dashed = any(outside(view, box, rules).hidden for view in views for box, rules in placed)
    return ((STEP_HIDDEN, "step, hidden"),) if dashed else ()


def full_name(keepout: Keepout) -> str:
    """A keep-out's name, with the reason for its room and whether it may give way.

    >>> from boxfit.bay import Block
    >>> full_name(Keepout("boot hinge", Block((0, 0, 0), (1, 1, 1)), 28.0, reason="moving"))
    'boot hinge (moving)'
    """
    added = [words for words in (keepout.reason, "negotiable" if keepout.negotiable else "") if words]
    return f"{keepout.name} ({', '.join(added)})" if added else keepout.name


def draw_opening(sheet: Sheet, panel: Panel, bay: Bay) -> None:
    """The way in: its outline where the view faces it, otherwise a thick line on its side."""
    if bay.opening:
        opening = panel.outline(opening_outline(panel.view, bay, bay.opening))
        if len(opening) > 2:
            sheet.face(opening, OPENING)
        else:
            sheet.line(opening, OPENING_EDGE)


def clipped(panel: Panel, bay: Bay, keepout: Keepout) -> tuple[Outline, ...]:
    """A keep-out's outlines, cut off a little outside the bay; none where it lies further out."""
    from shapely import Polygon, box

    room = area_of(rectangle(panel.view, *extents(bay))).inset(-3.0 * panel.scale)
    parts: list[Outline] = []
    for outline in keepout_outlines(panel.view, keepout):
        near = Polygon(outline).intersection(box(*_bounds(room)))
        pieces = [piece for piece in getattr(near, "geoms", [near]) if piece.area > 0]
        parts += [tuple((x, y) for x, y in list(piece.exterior.coords)[:-1]) for piece in pieces]
    return tuple(parts)


def _bounds(area: Area) -> tuple[float, float, float, float]:
    return (area.left, area.bottom, area.right, area.top)


def flange_block(box: PlacedBox, rules: BoxRules) -> PlacedBox:
    """The lid with the flange beneath it, as a block: it stands out by the flange on all four sides.

    Of a stepped box, the block round it.
    """
    (x, y, _), (far_x, far_y, top) = box.low, box.high
    out = rules.flange
    bottom = top - rules.rim_below_top - rules.thickness
    return PlacedBox((x - out, y - out, bottom), (far_x + out, far_y + out, top), ())


def draw_boxes(sheet: Sheet, panel: Panel, boxes: Sequence[PlacedBox], rules: BoxRules) -> None:
    """Boxes opened towards the reader: outside, flange, modules, the nearest on top."""
    for box in nearest_last(panel, boxes):
        body, flange = outside(panel.view, box, rules), lid_outside(panel.view, box, rules)
        if panel.view is PLAN:
            sheet.face(panel.outline(flange.outline), FLANGE)
        sheet.face(panel.outline(body.outline), BOX)
        for module in nearest_last(panel, box.modules):
            sheet.face(panel.block(module.low, module.high).corners, MODULE)
        if panel.view is not PLAN:
            sheet.face(panel.outline(flange.outline), FLANGE)
        draw_steps(sheet, panel, body)


def draw_closed(sheet: Sheet, panel: Panel, boxes: Sequence[PlacedBox], rules: BoxRules) -> None:
    """Boxes without what is in them, the nearest on top."""
    for box in nearest_last(panel, boxes):
        body, flange = outside(panel.view, box, rules), lid_outside(panel.view, box, rules)
        layers = [(body, BOX), (flange, FLANGE)]
        for drawn, ink in reversed(layers) if panel.view is PLAN else layers:
            sheet.face(panel.outline(drawn.outline), ink)
        draw_steps(sheet, panel, body)


def draw_steps(sheet: Sheet, panel: Panel, body: Drawn) -> None:
    """The edges of steps within a box's outline, dashed where they are hidden."""
    for lines, ink in ((body.hidden, STEP_HIDDEN), (body.edges, STEP)):
        for line in lines:
            sheet.line(panel.outline(line), ink)


def outside(view: View, box: PlacedBox, rules: BoxRules) -> Drawn:
    """What floor, walls and lid of a box show."""
    return drawn_box(view, bands(box, rules))


def lid_outside(view: View, box: PlacedBox, rules: BoxRules) -> Drawn:
    """What the lid of a box and the flange beneath it show."""
    return drawn_box(view, (slab(box, rules),))


def covered_areas(panel: Panel, box: PlacedBox, rules: BoxRules) -> tuple[Area, ...]:
    """The paper that floor, walls and lid of a box cover, as areas side by side."""
    found = rectangles(outside(panel.view, box, rules).outline)
    return tuple(area_of(panel.outline(corners)) for corners in found)


def nearest_last(panel: Panel, solids: Iterable[Solid]) -> list[Solid]:
    """The solids in the order to draw them in."""
    return sorted(solids, key=lambda solid: panel.view.nearness(solid.low, solid.high))
