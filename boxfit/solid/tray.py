"""The tray as a solid in the car's coordinates [mm].

The section of the sheet is drawn along each side of every outline, cut to a mitre at both ends, and joined
to its neighbours and to the flat of the floor. Faces then meet exactly, which the kernel joins reliably;
crossing two whole profiles instead leaves it with surfaces that only touch. The floor joint is bent where
the tray says so, else square as it is welded. Where the outline widens, the walls above stand square on a
step floor.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from math import sqrt
from typing import TYPE_CHECKING

from boxfit.bay import Point, Vector
from boxfit.box.parts import LedgeBar, Plate, StepFloor, Tray
from boxfit.box_details import reflex_corners
from boxfit.box_shape import grown
from boxfit.solid.cutouts import cut_out
from boxfit.solid.shapes import (
    block_shape,
    drilled,
    face_between,
    only_solid,
    plate_shape,
    prism_shape,
    shape_list,
)
from boxfit.surface import Outline

if TYPE_CHECKING:
    from OCP.TopoDS import TopoDS_Shape

Corner = tuple[Point, Point | None]
"""A point of the section and, where an arc leads to the next one, a point half way along it.

Sections count outwards from the outside of the wall, and upwards in the car.
"""
SPARE = 1.0
"""How far [mm] beyond the section the room of a side reaches, so that no face of both coincides."""


@dataclass(frozen=True)
class _Band:
    """The walls of one outline: the bottom one has the floor's bend, the top one the flange."""

    tray: Tray
    plate: Plate
    first: bool
    last: bool

    @property
    def ledges(self) -> tuple[LedgeBar, ...]:
        """The ledges inside these walls, lowest first."""
        bottom, top = self.plate.bottom, self.plate.top
        return tuple(bar for bar in self.tray.ledges if bottom < bar.outside.top <= top)

    @property
    def inwards(self) -> float:
        """How far [mm] the section reaches in from the outside."""
        bars = (self.tray.thickness + bar.width for bar in self.ledges)
        return max([_floor_corner(self.tray), *bars])

    @property
    def outwards(self) -> float:
        """How far [mm] the section reaches out from the outside."""
        return self.tray.flange if self.last else 0.0


@dataclass(frozen=True)
class _Side:
    """One side of a band's outline.

    `axis` is the one it faces along, 0 or 1, and `sign` whether towards its low (-1) or high (1) end. `start`
    and `end` are its corners, in the direction of the other axis; `turns` are 1 at a convex corner, else -1.
    """

    axis: int
    sign: int
    start: Point
    end: Point
    turns: tuple[int, int]

    @property
    def length(self) -> float:
        """From corner to corner [mm]."""
        return self.end[1 - self.axis] - self.start[1 - self.axis]

    def point(self, end: int, outwards: float) -> Point:
        """Where the mitre at an end, 0 or 1, is so far [mm] outwards of the side."""
        across = self.start[self.axis] + self.sign * outwards
        corner = (self.start, self.end)[end][1 - self.axis]
        along = corner + (-1.0, 1.0)[end] * self.turns[end] * outwards
        return (across, along) if self.axis == 0 else (along, across)


def tray_shape(tray: Tray) -> "TopoDS_Shape":
    """Floor, walls and flange with their bends, ledges welded in, drilled for the rivet-nuts, cut out."""
    from OCP.BOPAlgo import BOPAlgo_GlueFull
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Fuse
    from OCP.ShapeUpgrade import ShapeUpgrade_UnifySameDomain

    pieces = [_side(band, side) for band in _bands(tray) for side in _sides(band.plate.outline)]
    pieces += [_step_floor(floor) for floor in tray.step_floors]
    pieces += [block_shape(rib) for rib in tray.ribs]
    join = BRepAlgoAPI_Fuse()
    join.SetArguments(shape_list([_floor(tray)]))
    join.SetTools(shape_list(pieces))
    if not tray.step_floors and not tray.ribs:
        join.SetGlue(BOPAlgo_GlueFull)
    join.Build()
    tidy = ShapeUpgrade_UnifySameDomain(only_solid(join.Shape()))
    tidy.Build()
    rim = tray.bands[-1].top
    whole = drilled(tidy.Shape(), tray.holes, tray.hole_diameter, (rim - tray.thickness, rim))
    return cut_out(whole, tray.cutouts, tray.thickness)


def _bands(tray: Tray) -> tuple[_Band, ...]:
    """The walls, from the floor to the rim."""
    last = len(tray.bands) - 1
    return tuple(_Band(tray, band, place == 0, place == last) for place, band in enumerate(tray.bands))


def _sides(outline: Outline) -> list[_Side]:
    """Those that face front first, then rear, left, right."""
    reflex = reflex_corners(outline)
    found: list[_Side] = []
    for one, other in zip(outline, outline[1:] + outline[:1], strict=True):
        axis = 0 if one[0] == other[0] else 1
        start, end = sorted((one, other))
        # counter-clockwise: a side that runs to the left faces front, one that runs forwards faces right
        sign = 1 if (one == start) == (axis == 0) else -1
        turns = (-1 if start in reflex else 1, -1 if end in reflex else 1)
        found.append(_Side(axis, sign, start, end, turns))
    return sorted(found, key=lambda side: (side.axis, -side.sign))


def _floor_corner(tray: Tray) -> float:
    """How far [mm] the corner between floor and wall reaches in from the outside."""
    return (tray.floor_radius or 0.0) + tray.thickness


def _floor(tray: Tray) -> "TopoDS_Shape":
    """The flat of the floor."""
    bottom = tray.bands[0].bottom
    flat = grown(tray.bands[0].outline, -_floor_corner(tray))
    return plate_shape(Plate(flat, bottom, bottom + tray.thickness))


def _step_floor(floor: StepFloor) -> "TopoDS_Shape":
    """The sheet under a step, open over the walls below."""
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Cut

    hole = prism_shape(floor.hole, (floor.plate.bottom - SPARE, floor.plate.top + SPARE))
    return only_solid(BRepAlgoAPI_Cut(plate_shape(floor.plate), hole).Shape())


def _quarter(centre: Point, radius: float, towards: tuple[int, int]) -> Point:
    """The middle of a quarter circle about `centre` that bulges `towards` one quadrant."""
    reach = radius * sqrt(0.5)
    return (centre[0] + reach * towards[0], centre[1] + reach * towards[1])


def _section(band: _Band) -> tuple[Corner, ...]:
    """The sheet cut across one side, from the floor up the outside and back down the inside."""
    return (*_outside(band), *_inside(band))


def _outside(band: _Band) -> Iterator[Corner]:
    """Outer side of the bend at the floor, the wall, underside and edge of the flange."""
    tray, floor, rim = band.tray, band.plate.bottom, band.plate.top
    outer = _floor_corner(tray)
    if not band.first:
        yield (0.0, floor + tray.thickness), None
    elif tray.floor_radius is None:
        yield (-outer, floor), None
        yield (0.0, floor), None
    else:
        yield (-outer, floor), _quarter((-outer, floor + outer), outer, (1, -1))
        yield (0.0, floor + outer), None
    if band.outwards:
        under, radius = rim - tray.thickness, tray.bend_radius or 0.0
        yield (0.0, under - radius), _quarter((radius, under - radius), radius, (-1, 1))
        yield (radius, under), None
        yield (tray.flange, under), None
    yield (band.outwards, rim), None


def _inside(band: _Band) -> Iterator[Corner]:
    """Top of the flange and its bend, the wall with its ledges, inner side of the bend at the floor."""
    tray, floor, rim, wall = band.tray, band.plate.bottom, band.plate.top, -band.tray.thickness
    radius, corner = tray.bend_radius or 0.0, _floor_corner(tray)
    outer = radius + tray.thickness
    if band.outwards and tray.bend_radius is not None:
        yield (radius, rim), _quarter((radius, rim - outer), outer, (-1, 1))
        yield (wall, rim - outer), None
    else:
        yield (wall, rim), None
    for bar in reversed(band.ledges):
        top, bottom = bar.outside.top, bar.outside.bottom
        yield (wall, top), None
        yield (wall - bar.width, top), None
        yield (wall - bar.width, bottom), None
        yield (wall, bottom), None
    if band.first:
        inside = corner - tray.thickness
        yield (wall, floor + corner), _quarter((-corner, floor + corner), inside, (1, -1))
        yield (-corner, floor + tray.thickness), None
    else:
        yield (wall, floor + tray.thickness), None


def _side(band: _Band, side: _Side) -> "TopoDS_Shape":
    """One side of the walls, mitred at both ends."""
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Common
    from OCP.BRepPrimAPI import BRepPrimAPI_MakePrism
    from OCP.gp import gp_Vec

    axis = side.axis
    spare = SPARE + (band.outwards if side.turns == (1, 1) else max(band.outwards, band.inwards))
    start, length = side.start[1 - axis] - spare, side.length + 2.0 * spare

    def place(point: Point) -> Vector:
        """Where a point of the section lies in the car, at the end where drawing starts."""
        across = side.start[axis] + side.sign * point[0]
        return (across, start, point[1]) if axis == 0 else (start, across, point[1])

    along = gp_Vec(0.0, length, 0.0) if axis == 0 else gp_Vec(length, 0.0, 0.0)
    corners = tuple((place(point), place(arc) if arc else None) for point, arc in _section(band))
    drawn = BRepPrimAPI_MakePrism(face_between(corners), along).Shape()
    return only_solid(BRepAlgoAPI_Common(drawn, _mitre(band, side)).Shape())


def _mitre(band: _Band, side: _Side) -> "TopoDS_Shape":
    """The room of one side: all that is nearer to it than to its neighbours, at 45 degrees."""
    inwards = _before_mitres_meet(band.inwards, side, 1)
    outwards = _before_mitres_meet(band.outwards, side, -1)
    corners = (
        side.point(0, -inwards),
        side.point(0, outwards),
        side.point(1, outwards),
        side.point(1, -inwards),
    )
    return prism_shape(corners, (band.plate.bottom - SPARE, band.plate.top + SPARE))


def _before_mitres_meet(reach: float, side: _Side, turn: int) -> float:
    """Past what the section reaches [mm], yet short of where the mitres meet if both ends turn that way."""
    meet = side.length / 2.0 if side.turns == (turn, turn) else reach + 2.0 * SPARE
    return min(reach + SPARE, (reach + meet) / 2.0)
