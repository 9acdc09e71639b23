"""Link cables as solids: a round swept along straight stretches and round corners."""

from itertools import chain
from math import dist
from typing import TYPE_CHECKING

from boxfit.bay import Vector
from boxfit.box.wiring.route import Route
from boxfit.box.wiring.wiring import LinkCable, Wiring
from boxfit.solid.body import Body, Form, Group
from boxfit.solid.colours import COLOURS

if TYPE_CHECKING:
    from OCP.gp import gp_Pnt
    from OCP.TopoDS import TopoDS_Shape, TopoDS_Wire

CABLES = "link cables"
"""The name of all of them together."""


def cable_shape(route: Route) -> "TopoDS_Shape":
    """The solid of a cable in the car's coordinates [mm]."""
    from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeEdge, BRepBuilderAPI_MakeFace, BRepBuilderAPI_MakeWire
    from OCP.BRepOffsetAPI import BRepOffsetAPI_MakePipe
    from OCP.gp import gp_Ax2, gp_Circ, gp_Dir

    start, on = route.points[:2]
    way = gp_Dir(*(b - a for a, b in zip(start, on, strict=True)))
    circle = gp_Circ(gp_Ax2(_point(start), way), route.across / 2.0)
    edge = BRepBuilderAPI_MakeEdge(circle).Edge()
    face = BRepBuilderAPI_MakeFace(BRepBuilderAPI_MakeWire(edge).Wire()).Face()
    return BRepOffsetAPI_MakePipe(_middle(route), face).Shape()


def _middle(route: Route) -> "TopoDS_Wire":
    """The middle of the cable as a wire."""
    from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeEdge, BRepBuilderAPI_MakeWire
    from OCP.GC import GC_MakeArcOfCircle

    ends = [route.points[0], *chain(*((arc.start, arc.end) for arc in route.arcs)), route.points[-1]]
    wire = BRepBuilderAPI_MakeWire()
    for place, (one, other) in enumerate(zip(ends[::2], ends[1::2], strict=True)):
        if dist(one, other) > 1e-6:
            wire.Add(BRepBuilderAPI_MakeEdge(_point(one), _point(other)).Edge())
        if place < route.corners:
            arc = route.arcs[place]
            curve = GC_MakeArcOfCircle(_point(arc.start), _point(arc.middle), _point(arc.end)).Value()
            wire.Add(BRepBuilderAPI_MakeEdge(curve).Edge())
    return wire.Wire()


def _point(at: Vector) -> "gp_Pnt":
    from OCP.gp import gp_Pnt

    return gp_Pnt(*at)


def cable_group(wiring: Wiring) -> Group | None:
    """All cables whose way was found, orange, as a group of the assembly; None where there is none."""
    bodies = tuple(_body(cable, route) for cable, route in wiring.routed)
    return Group(CABLES, bodies) if bodies else None


def _body(cable: LinkCable, route: Route) -> Body:
    return Body(cable.name, Form(cable.name, cable_shape(route), COLOURS["link cable"]))
