"""The first sheet of a box: three views of it closed, what is fixed to it outside, and its parts list."""

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from boxfit.bay import Block, Point
from boxfit.box.whole import BuiltBox
from boxfit.sheet.drawing.arrange import Item as Tabled
from boxfit.sheet.drawing.arrange import arranged
from boxfit.sheet.drawing.balloons import RING, Item, balloons
from boxfit.sheet.drawing.board import Board
from boxfit.sheet.drawing.box_items import BoxItem, parts_list
from boxfit.sheet.drawing.formed_page import tray_spans
from boxfit.sheet.drawing.marks import Arrow, Line, Mark, Page, Text
from boxfit.sheet.drawing.section_page import plane_of
from boxfit.sheet.drawing.three_views import Span, View, Views, draw_views, views_of
from boxfit.sheet.drawing.title import Title

if TYPE_CHECKING:
    from OCP.TopoDS import TopoDS_Shape

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
    _rings(board, outer, places, views)
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


def _rings(board: Board, items: Sequence[BoxItem], places: tuple[View, View, View], views: Views) -> None:
    """Tray, lid and cover plate numbered beside the view from the rear, all others beside that from above."""
    _, above, rear = places
    shells = [one for one in items if one.name in ("tray", "lid", "cover plate")]
    others = [one for one in items if one not in shells]
    low, high = views.low, views.high
    edge = rear.at((low[0], low[1], low[2]))
    top = rear.at(high)[1]
    aside = [Item(one.item, _edge(one, rear, views)) for one in shells]
    balloons(board, aside, edge[0] + 10.0, (edge[1] + RING, top + 6.0))
    right, bottom = above.at((high[0], low[1], low[2]))
    rest = [Item(one.item, above.at(one.middle)) for one in others]
    balloons(board, rest, right + 18.0, (bottom, above.at(high)[1]))


def _edge(item: BoxItem, rear: View, views: Views) -> Point:
    """A place on a part near the right edge of the view from the rear."""
    x, y, z = item.middle
    part = 0.2 if item.name == "tray" else 0.02
    return rear.at((x, views.low[1] + part * (y - views.low[1]) * 2.0, z))


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
