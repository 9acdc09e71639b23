"""Folded strips as solids in the car's coordinates [mm]."""

from collections.abc import Iterator
from math import sqrt
from typing import TYPE_CHECKING

from boxfit.bay import Vector
from boxfit.box.fitting import DIRECTIONS, Strip, StripHole
from boxfit.box.strip_legs import Leg, hole_middle, legs_of, moved, turned_back
from boxfit.solid.shapes import face_between, only_solid, shape_list

if TYPE_CHECKING:
    from OCP.TopoDS import TopoDS_Shape

PAST = 1.0
"""Drills reach this far [mm] past both faces, so that no face of theirs lies in one of the sheet."""


def strip_shape(strip: Strip) -> "TopoDS_Shape":
    """The strip with its bends, and its holes drilled."""
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Cut
    from OCP.BRepPrimAPI import BRepPrimAPI_MakePrism
    from OCP.gp import gp_Vec

    legs = legs_of(strip)
    if strip.rounded:
        section, way, far = face_between(tuple(_rounded(strip, legs[0]))), legs[0].inwards, strip.thickness
    else:
        section = face_between((*_outside(strip, legs), *_inside(strip, legs)))
        way, far = DIRECTIONS[strip.along], strip.width
    x, y, z = (part * far for part in way)
    plain = BRepPrimAPI_MakePrism(section, gp_Vec(x, y, z)).Shape()
    if not strip.holes:
        return plain
    cut = BRepAlgoAPI_Cut()
    cut.SetArguments(shape_list([plain]))
    cut.SetTools(shape_list([_drill(strip, legs[hole.leg], hole) for hole in strip.holes]))
    cut.Build()
    return only_solid(cut.Shape())


def _rounded(strip: Strip, leg: Leg) -> Iterator[tuple[Vector, Vector | None]]:
    """Round the outside of a plate whose far corners are rounded."""
    radius, along = strip.rounded, DIRECTIONS[strip.along]
    reach = radius * (1.0 - sqrt(0.5))

    def at(out: float, wide: float) -> Vector:
        return moved(leg.start, (leg.way, out), (along, wide))

    yield at(0.0, 0.0), None
    yield at(leg.length - radius, 0.0), at(leg.length - reach, reach)
    yield at(leg.length, radius), None
    yield at(leg.length, strip.width - radius), at(leg.length - reach, strip.width - reach)
    yield at(leg.length - radius, strip.width), None
    yield at(0.0, strip.width), None


def _arc(strip: Strip, leg: Leg, radius: float) -> Vector:
    """The middle of the bend at the end of a leg, so far [mm] from what it turns about."""
    outer = strip.radius + strip.thickness
    turning = moved(leg.start, (leg.way, leg.length - outer), (leg.inwards, outer))
    reach = radius * sqrt(0.5)
    return moved(turning, (leg.way, reach), (turned_back(leg.inwards), reach))


def _outside(strip: Strip, legs: tuple[Leg, ...]) -> Iterator[tuple[Vector, Vector | None]]:
    """From the first edge to the last, over the outside of the bends."""
    outer = strip.radius + strip.thickness
    for place, leg in enumerate(legs):
        yield moved(leg.start, (leg.way, leg.before)), None
        arc = _arc(strip, leg, outer) if place < len(legs) - 1 else None
        yield moved(leg.start, (leg.way, leg.length - leg.after)), arc


def _inside(strip: Strip, legs: tuple[Leg, ...]) -> Iterator[tuple[Vector, Vector | None]]:
    """From the last edge back to the first, over the inside of the bends."""
    for place, leg in reversed(list(enumerate(legs))):
        inside = (leg.inwards, strip.thickness)
        yield moved(leg.start, (leg.way, leg.length - leg.after), inside), None
        arc = _arc(strip, legs[place - 1], strip.radius) if place and strip.radius else None
        yield moved(leg.start, (leg.way, leg.before), inside), arc


def _drill(strip: Strip, leg: Leg, hole: StripHole) -> "TopoDS_Shape":
    """A round bar through the leg."""
    from OCP.BRepPrimAPI import BRepPrimAPI_MakeCylinder
    from OCP.gp import gp_Ax2, gp_Dir, gp_Pnt

    base = moved(hole_middle(strip, hole), (leg.inwards, -PAST))
    axis = gp_Ax2(gp_Pnt(*base), gp_Dir(*leg.inwards))
    return BRepPrimAPI_MakeCylinder(axis, hole.diameter / 2.0, strip.thickness + 2.0 * PAST).Solid()
