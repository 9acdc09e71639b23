"""What is seen of a solid from one side: its edges, visible and hidden, as marks [mm of the thing]."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import degrees
from typing import TYPE_CHECKING

from boxfit.bay import Point, Vector
from boxfit.sheet.drawing.lines import tidied
from boxfit.sheet.drawing.marks import Arc, Circle, Line, Style, heading

if TYPE_CHECKING:
    from OCP.BRepAdaptor import BRepAdaptor_Curve
    from OCP.TopoDS import TopoDS_Shape

Drawn = Line | Arc | Circle


@dataclass(frozen=True)
class Side:
    """Where the eye is: `eye` points from the thing to it, `right` to the right of the picture."""

    name: str
    eye: Vector
    right: Vector

    @property
    def up(self) -> Vector:
        """The way that is up in the picture."""
        (a, b, c), (x, y, z) = self.eye, self.right
        return (b * z - c * y, c * x - a * z, a * y - b * x)

    def flat(self, at: Vector) -> Point:
        """A place of the thing in the picture [mm]."""
        return (
            sum(one * other for one, other in zip(self.right, at, strict=True)),
            sum(one * other for one, other in zip(self.up, at, strict=True)),
        )


FROM_RIGHT = Side("view from the right", (0.0, -1.0, 0.0), (1.0, 0.0, 0.0))
FROM_ABOVE = Side("view from above", (0.0, 0.0, 1.0), (1.0, 0.0, 0.0))
FROM_REAR = Side("view from the rear", (-1.0, 0.0, 0.0), (0.0, -1.0, 0.0))
"""The main view looks at the right side of the car, front to the right. In first angle (ISO 5456-2) the view
from above stands below it, and that from its left, which is the rear of the car, to its right."""


def seen(shapes: "tuple[TopoDS_Shape, ...]", side: Side, hidden: bool) -> tuple[Drawn, ...]:
    """The edges that show from one side, and with `hidden` those behind; outlines of rounds too."""
    from OCP.gp import gp_Ax2, gp_Dir, gp_Pnt
    from OCP.HLRAlgo import HLRAlgo_Projector
    from OCP.HLRBRep import HLRBRep_Algo, HLRBRep_HLRToShape

    hiding = HLRBRep_Algo()
    for shape in shapes:
        hiding.Add(shape)
    axes = gp_Ax2(gp_Pnt(0.0, 0.0, 0.0), gp_Dir(*side.eye), gp_Dir(*side.right))
    hiding.Projector(HLRAlgo_Projector(axes))
    hiding.Update()
    hiding.Hide()
    found = HLRBRep_HLRToShape(hiding)
    marks = [
        mark for edges in (found.VCompound(), found.OutLineVCompound()) for mark in _marks(edges, "visible")
    ]
    if hidden:
        behind = (found.HCompound(), found.OutLineHCompound())
        marks += [mark for edges in behind for mark in _marks(edges, "hidden")]
    return tidied(marks)


def _marks(edges: "TopoDS_Shape | None", style: Style) -> Iterator[Drawn]:
    """Flat edges as marks; nothing where there are none."""
    from OCP.BRepAdaptor import BRepAdaptor_Curve
    from OCP.BRepLib import BRepLib
    from OCP.TopAbs import TopAbs_EDGE
    from OCP.TopExp import TopExp_Explorer
    from OCP.TopoDS import TopoDS

    if edges is None or edges.IsNull():
        return
    BRepLib.BuildCurves3d_s(edges)
    explorer = TopExp_Explorer(edges, TopAbs_EDGE)
    while explorer.More():
        yield from marks_of_curve(BRepAdaptor_Curve(TopoDS.Edge_s(explorer.Current())), style)
        explorer.Next()


def marks_of_curve(curve: "BRepAdaptor_Curve", style: Style) -> Iterator[Drawn]:
    """A curve in the plane of the picture as a line, an arc or a circle, any other by short lines."""
    from OCP.GeomAbs import GeomAbs_Circle, GeomAbs_Line

    first, last = curve.FirstParameter(), curve.LastParameter()
    kind = curve.GetType()
    if kind == GeomAbs_Line:
        yield Line(_at(curve, first), _at(curve, last), style)
    elif kind == GeomAbs_Circle:
        yield _round(curve, style)
    else:
        points = [_at(curve, first + (last - first) * step / 12.0) for step in range(13)]
        for one, other in pairwise(points):
            yield Line(one, other, style)


def _at(curve: "BRepAdaptor_Curve", parameter: float) -> Point:
    """A point of a curve."""
    point = curve.Value(parameter)
    return (point.X(), point.Y())


def _round(curve: "BRepAdaptor_Curve", style: Style) -> Arc | Circle:
    """A circle or a part of one, counter-clockwise on paper whichever way it runs in space."""
    circle = curve.Circle()
    centre, radius = circle.Location(), circle.Radius()
    middle = (centre.X(), centre.Y())
    turn = degrees(curve.LastParameter() - curve.FirstParameter())
    if turn > 359.99:
        return Circle(middle, radius, style)
    start, end = _at(curve, curve.FirstParameter()), _at(curve, curve.LastParameter())
    if circle.Axis().Direction().Z() < 0.0:
        start, end = end, start
    return Arc(middle, radius, heading(middle, start) % 360.0, heading(middle, end) % 360.0, style)
