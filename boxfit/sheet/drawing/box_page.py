"""The first sheet of a box: three views of it closed, what is fixed to it outside, and its parts list."""

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from boxfit.bay import Block, Vector
from boxfit.box.whole import BuiltBox
from boxfit.sheet.drawing.arrange import Item as Tabled
from boxfit.sheet.drawing.arrange import arranged
from boxfit.sheet.drawing.balloons import RING, Item, balloons
from boxfit.sheet.drawing.board import Board
from boxfit.sheet.drawing.box_items import BoxItem, parts_list
from boxfit.sheet.drawing.formed_page import tray_spans
from boxfit.sheet.drawing.marks import Arrow, Line, Mark, Page, Text
from boxfit.sheet.drawing.pointing import DOWN, FORWARD, Look, shown_place
from boxfit.sheet.drawing.section_page import plane_of
from boxfit.sheet.drawing.three_views import Span, View, Views, draw_views, views_of
from boxfit.sheet.drawing.title import Title

if TYPE_CHECKING:
    from OCP.TopoDS import TopoDS_Shape

SHELLS = ("tray", "lid", "cover plate")
AT_EDGE = 0.02
TRAY_EDGE = 0.3
"""Lid and tray are pointed at within this part [-] of their width from the edge."""
ROOM_FOR_RINGS = 18.0
"""Paper [mm] at the right of the views."""


def box_page(built: BuiltBox, items: tuple[BoxItem, ...], title: Title, notes: tuple[str, ...]) -> Page:
    """The sheet with three views, parts list and notes."""
    outer = [one for one in items if not one.inside]
    shapes = [shape for one in outer for shape in one.shapes]
    bodies = [block_solid(one.body) for one in built.parts.fittings.bought]
    views = views_of((*shapes, *bodies), False, lambda *_: _spans(built))
    tables: tuple[Tabled, ...] = (parts_list(items), notes)

    def size_at(scale: float) -> tuple[float, float]:
        wide, high = views.paper(scale)
        return (wide + ROOM_FOR_RINGS, high)

    chosen = arranged(size_at, tables)
    board = chosen.board(title)
    left, bottom, right, top = chosen.views
    places = draw_views(board, views, chosen.scale, (left, bottom, right - ROOM_FOR_RINGS, top))
    board.add(_cutting_line(built, places[1], views))
    _rings(board, outer, built, places, views)
    return board.page()


def _spans(built: BuiltBox) -> tuple[tuple[Span, ...], tuple[Span, ...], tuple[Span, ...]]:
    """Walls, flange and floor to lid, all within what stands out from the box."""
    walls, flange = built.parts.tray.outside, built.parts.tray.flange
    steps = tray_spans(built.parts.tray)[2]
    plan = [
        ((walls.low[axis], walls.high[axis]), (walls.low[axis] - flange, walls.high[axis] + flange))
        for axis in (0, 1)
    ]
    return (plan[0], plan[1], (*steps, (built.box.low[2], built.box.high[2])))


def block_solid(block: Block) -> "TopoDS_Shape":
    """A cuboid, for what is bought."""
    from OCP.BRepPrimAPI import BRepPrimAPI_MakeBox
    from OCP.gp import gp_Pnt

    return BRepPrimAPI_MakeBox(gp_Pnt(*block.low), gp_Pnt(*block.high)).Solid()


def _rings(
    board: Board, items: Sequence[BoxItem], built: BuiltBox, places: tuple[View, View, View], views: Views
) -> None:
    """Tray, lid and cover plate numbered beside the view from the rear, others where they are seen."""
    _, above, rear = places
    low, high = views.low, views.high
    aside, rest = [], []
    for one in items:
        fixed = [block for other in items for block in _bodies(other, one)]
        if one.name in SHELLS:
            aside.append(Item(one.item, rear.at(_edge(one, built, fixed))))
            continue
        hiding = [*_shell_blocks(built), *fixed]
        from_above = [above.at(place) for place in _shown(one, hiding, DOWN)]
        from_rear = [rear.at(place) for place in _shown(one, hiding, FORWARD)]
        if from_rear and not from_above:
            aside.append(Item(one.item, max(from_rear)))
        else:
            rest.append(Item(one.item, max(from_above, default=above.at(one.middle))))
    edge = rear.at(low)
    balloons(board, aside, edge[0] + 10.0, (edge[1] + RING, rear.at(high)[1] + 6.0))
    right, bottom = above.at((high[0], low[1], low[2]))
    balloons(board, rest, right + 18.0, (bottom, above.at(high)[1]))


def _edge(item: BoxItem, built: BuiltBox, fixed: Sequence[Block]) -> Vector:
    """Near the right edge of the view from the rear; on a tray where nothing fixed to it is in the way."""
    (x, low, bottom), (_, high, top) = item.extents[0].low, item.extents[0].high
    edge = (x, low + AT_EDGE * (high - low), (bottom + top) / 2.0)
    if item.name != "tray":
        return edge
    (x, low, bottom), (far, high, top) = built.parts.tray.outside.low, built.parts.tray.outside.high
    strip = Block((x, low, bottom), (far, low + TRAY_EDGE * (high - low), top))
    return shown_place(strip, fixed, FORWARD) or edge


def _shell_blocks(built: BuiltBox) -> tuple[Block, Block]:
    """Walls, and all from the flange up."""
    walls, flange = built.parts.tray.outside, built.parts.tray.flange
    low = (walls.low[0] - flange, walls.low[1] - flange, walls.high[2] - built.parts.tray.thickness)
    return walls, Block(low, (walls.high[0] + flange, walls.high[1] + flange, built.box.high[2]))


def _bodies(item: BoxItem, looked_at: BoxItem) -> tuple[Block, ...]:
    """What of an item may hide another."""
    return () if item is looked_at or item.name in SHELLS else item.extents


def _shown(item: BoxItem, hiding: Sequence[Block], look: Look) -> list[Vector]:
    """For each piece of an item that is seen, a place on it."""
    places = (shown_place(block, hiding, look) for block in item.extents)
    return [place for place in places if place is not None]


def _cutting_line(built: BuiltBox, above: View, views: Views) -> Iterator[Mark]:
    """Where section A-A is cut, in the view from above: line, arrows and letters, outside of the box."""
    y = plane_of(built.parts.tray)
    for x, way in ((views.low[0], -1.0), (views.high[0], 1.0)):
        edge, level = above.at((x, y, 0.0))
        start, end = edge + way * 1.0, edge + way * 6.0
        yield Line((start, level), (end, level), "visible")
        yield Line((end, level - 6.0), (end, level), "dimension")
        yield Arrow((end, level), 90.0)
        yield Text("A", (end + way * 1.5, level - 6.0), 3.5, "left" if way > 0.0 else "right")
