"""The tray as a solid in the car's coordinates [mm].

As it is made: the section of the sheet is drawn along each of the four sides, cut to a mitre at both ends,
and joined to its neighbours and to the flat of the floor. Faces then meet exactly, which the kernel joins
reliably; crossing two whole profiles instead leaves it with surfaces that only touch.
"""

from collections.abc import Iterator
from math import dist, sqrt
from typing import TYPE_CHECKING

from boxfit.bay import Block, Point, Vector
from boxfit.box.parts import Tray
from boxfit.solid.shapes import block_shape, drilled, only_solid, shape_list

if TYPE_CHECKING:
    from OCP.TopoDS import TopoDS_Face, TopoDS_Shape

Corner = tuple[Point, Point | None]
"""A point of the section and, where an arc leads to the next one, a point half way along it.

Sections count outwards from the outside of the wall, and upwards in the car.
"""
Side = tuple[int, int]
"""The axis that a side faces along, 0 or 1, and whether towards its low (-1) or high (1) end."""
SIDES: tuple[Side, ...] = ((0, 1), (0, -1), (1, 1), (1, -1))


def tray_shape(tray: Tray) -> "TopoDS_Shape":
    """Floor, walls and flange with their bends, ledges welded in, drilled for the rivet-nuts."""
    from OCP.BOPAlgo import BOPAlgo_GlueFull
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Fuse
    from OCP.ShapeUpgrade import ShapeUpgrade_UnifySameDomain

    join = BRepAlgoAPI_Fuse()
    join.SetArguments(shape_list([_floor(tray)]))
    join.SetTools(shape_list([_side(tray, side) for side in SIDES]))
    join.SetGlue(BOPAlgo_GlueFull)
    join.Build()
    tidy = ShapeUpgrade_UnifySameDomain(only_solid(join.Shape()))
    tidy.Build()
    rim = tray.outside.high[2]
    return drilled(tidy.Shape(), tray.holes, tray.hole_diameter, (rim - tray.thickness, rim))


def _outer_radius(tray: Tray) -> float:
    """How far [mm] the corner between floor and wall reaches in from the outside."""
    return (tray.bend_radius or 0.0) + tray.thickness


def _floor(tray: Tray) -> "TopoDS_Shape":
    """The flat of the floor."""
    low, high, inset = tray.outside.low, tray.outside.high, _outer_radius(tray)
    return block_shape(
        Block(
            (low[0] + inset, low[1] + inset, low[2]),
            (high[0] - inset, high[1] - inset, low[2] + tray.thickness),
        )
    )


def _quarter(centre: Point, radius: float, towards: tuple[int, int]) -> Point:
    """The middle of a quarter circle about `centre` that bulges `towards` one quadrant."""
    reach = radius * sqrt(0.5)
    return (centre[0] + reach * towards[0], centre[1] + reach * towards[1])


def _section(tray: Tray) -> tuple[Corner, ...]:
    """The sheet cut across one side, from the flat of the floor up the outside and back down the inside."""
    return (*_outside(tray), *_inside(tray))


def _outside(tray: Tray) -> Iterator[Corner]:
    """Outer side of the bend at the floor, the wall, underside and edge of the flange."""
    floor, rim, outer = tray.outside.low[2], tray.outside.high[2], _outer_radius(tray)
    if tray.bend_radius is None:
        yield (-outer, floor), None
        yield (0.0, floor), None
    else:
        yield (-outer, floor), _quarter((-outer, floor + outer), outer, (1, -1))
        yield (0.0, floor + outer), None
    if tray.flange:
        under, radius = rim - tray.thickness, tray.bend_radius or 0.0
        yield (0.0, under - radius), _quarter((radius, under - radius), radius, (-1, 1))
        yield (radius, under), None
        yield (tray.flange, under), None
    yield (tray.flange, rim), None


def _inside(tray: Tray) -> Iterator[Corner]:
    """Top of the flange and its bend, the wall with its ledges, inner side of the bend at the floor."""
    floor, rim, wall = tray.outside.low[2], tray.outside.high[2], -tray.thickness
    radius, outer = tray.bend_radius or 0.0, _outer_radius(tray)
    if tray.flange and tray.bend_radius is not None:
        yield (radius, rim), _quarter((radius, rim - outer), outer, (-1, 1))
        yield (wall, rim - outer), None
    else:
        yield (wall, rim), None
    for bar in reversed(tray.ledges):
        top, bottom = bar.outside.high[2], bar.outside.low[2]
        yield (wall, top), None
        yield (wall - bar.width, top), None
        yield (wall - bar.width, bottom), None
        yield (wall, bottom), None
    yield (wall, floor + outer), _quarter((-outer, floor + outer), radius, (1, -1))
    yield (-outer, floor + tray.thickness), None


def _side(tray: Tray, side: Side) -> "TopoDS_Shape":
    """One side of the tray, mitred at both ends."""
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Common
    from OCP.BRepPrimAPI import BRepPrimAPI_MakePrism
    from OCP.gp import gp_Vec

    axis, sign = side
    low, high = tray.outside.low, tray.outside.high
    face = high[axis] if sign > 0 else low[axis]
    spare = tray.flange + 1.0
    start, length = low[1 - axis] - spare, high[1 - axis] - low[1 - axis] + 2.0 * spare

    def place(point: Point) -> Vector:
        """Where a point of the section lies in the car, at the end where drawing starts."""
        across = face + sign * point[0]
        return (across, start, point[1]) if axis == 0 else (start, across, point[1])

    along = gp_Vec(0.0, length, 0.0) if axis == 0 else gp_Vec(length, 0.0, 0.0)
    corners = tuple((place(point), place(arc) if arc else None) for point, arc in _section(tray))
    drawn = BRepPrimAPI_MakePrism(_face(corners), along).Shape()
    return only_solid(BRepAlgoAPI_Common(drawn, _mitre(tray, side)).Shape())


def _mitre(tray: Tray, side: Side) -> "TopoDS_Shape":
    """The room of one side: all that is nearer to it than to its neighbours, at 45 degrees."""
    from OCP.BRepPrimAPI import BRepPrimAPI_MakePrism
    from OCP.gp import gp_Vec

    axis, sign = side
    (x, y, z), (to_x, to_y, to_z) = tray.outside.low, tray.outside.high
    inwards = max([_outer_radius(tray), *(tray.thickness + bar.width for bar in tray.ledges)]) + 1.0
    outwards = tray.flange + 1.0
    ends = {-1: ((x, -1.0), (y, -1.0)), 1: ((to_x, 1.0), (to_y, 1.0))}

    def plan(other: int, grow: float) -> Vector:
        """A corner of the plan grown by so much, at this side and at one of its neighbours."""
        own, neighbour = ends[sign][axis], ends[other][1 - axis]
        across, along = own[0] + own[1] * grow, neighbour[0] + neighbour[1] * grow
        return (across, along, z - 1.0) if axis == 0 else (along, across, z - 1.0)

    corners = (plan(-1, -inwards), plan(-1, outwards), plan(1, outwards), plan(1, -inwards))
    base = _face(tuple((corner, None) for corner in corners))
    return BRepPrimAPI_MakePrism(base, gp_Vec(0.0, 0.0, to_z - z + 2.0)).Shape()


def _face(corners: tuple[tuple[Vector, Vector | None], ...]) -> "TopoDS_Face":
    """The flat face inside lines and arcs between corners; corners that coincide count once."""
    from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeEdge, BRepBuilderAPI_MakeFace, BRepBuilderAPI_MakeWire
    from OCP.GC import GC_MakeArcOfCircle
    from OCP.gp import gp_Pnt

    wire = BRepBuilderAPI_MakeWire()
    for (here, arc), (there, _) in zip(corners, (*corners[1:], corners[0]), strict=True):
        if dist(here, there) < 1e-6:
            continue
        start, end = gp_Pnt(*here), gp_Pnt(*there)
        if arc is None:
            wire.Add(BRepBuilderAPI_MakeEdge(start, end).Edge())
        else:
            curve = GC_MakeArcOfCircle(start, gp_Pnt(*arc), end).Value()
            wire.Add(BRepBuilderAPI_MakeEdge(curve).Edge())
    return BRepBuilderAPI_MakeFace(wire.Wire(), True).Face()
