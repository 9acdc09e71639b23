"""What a plane across the car cuts of a solid: faces in the picture of the main view, and their hatching."""

from collections.abc import Iterator
from itertools import pairwise
from math import cos, hypot, radians, sin
from typing import TYPE_CHECKING

import shapely

from boxfit.bay import Point
from boxfit.sheet.drawing.marks import Line

if TYPE_CHECKING:
    from OCP.TopoDS import TopoDS_Edge, TopoDS_Shape

DIGITS = 3
"""Points of neighbouring edges are alike to so many decimals."""
CURVED = 8
"""Short lines for a curved edge."""


def cut_faces(shape: "TopoDS_Shape", y: float) -> list[shapely.Polygon]:
    """The faces [mm, x and z] that the plane at `y` [mm], upright along the car, cuts of solids."""
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Section
    from OCP.gp import gp_Dir, gp_Pln, gp_Pnt
    from OCP.TopAbs import TopAbs_EDGE
    from OCP.TopExp import TopExp_Explorer
    from OCP.TopoDS import TopoDS

    cut = BRepAlgoAPI_Section(shape, gp_Pln(gp_Pnt(0.0, y, 0.0), gp_Dir(0.0, -1.0, 0.0)), False)
    cut.Build()
    explorer = TopExp_Explorer(cut.Shape(), TopAbs_EDGE)
    lines: list[shapely.LineString] = []
    while explorer.More():
        lines += [shapely.LineString(pair) for pair in pairwise(_points(TopoDS.Edge_s(explorer.Current())))]
        explorer.Next()
    found = [face for face in shapely.polygonize(lines).geoms if isinstance(face, shapely.Polygon)]
    return [face for face in found if _is_inside(shape, face.representative_point(), y)]


def _points(edge: "TopoDS_Edge") -> list[Point]:
    """Points along an edge, x and z [mm]; ends alike for edges that meet."""
    from OCP.BRepAdaptor import BRepAdaptor_Curve
    from OCP.GeomAbs import GeomAbs_Line

    curve = BRepAdaptor_Curve(edge)
    first, last = curve.FirstParameter(), curve.LastParameter()
    steps = 1 if curve.GetType() == GeomAbs_Line else CURVED
    found: list[Point] = []
    for step in range(steps + 1):
        at = curve.Value(first + (last - first) * step / steps)
        point = (round(at.X(), DIGITS) + 0.0, round(at.Z(), DIGITS) + 0.0)
        if not found or found[-1] != point:
            found.append(point)
    return found


def _is_inside(shape: "TopoDS_Shape", point: shapely.Point, y: float) -> bool:
    """Whether a place of the plane lies in a solid."""
    from OCP.BRepClass3d import BRepClass3d_SolidClassifier
    from OCP.gp import gp_Pnt
    from OCP.TopAbs import TopAbs_IN, TopAbs_SOLID
    from OCP.TopExp import TopExp_Explorer

    explorer = TopExp_Explorer(shape, TopAbs_SOLID)
    while explorer.More():
        place = gp_Pnt(point.x, y, point.y)
        if BRepClass3d_SolidClassifier(explorer.Current(), place, 1e-6).State() == TopAbs_IN:
            return True
        explorer.Next()
    return False


def outline_marks(face: shapely.Polygon) -> Iterator[Line]:
    """The outline of a face as visible lines."""
    for ring in (face.exterior, *face.interiors):
        for one, other in pairwise(ring.coords):
            yield Line((one[0], one[1]), (other[0], other[1]), "visible")


def hatching(face: shapely.Polygon, apart: float, turn: float) -> Iterator[Line]:
    """Thin lines across a face, so far `apart` and turned by `turn` [degrees]: ISO 128-50, from memory."""
    if face.is_empty:
        return
    x, y, a, b = face.bounds
    reach = hypot(a - x, b - y)
    along, across = (cos(radians(turn)), sin(radians(turn))), (-sin(radians(turn)), cos(radians(turn)))
    middle = ((x + a) / 2.0, (y + b) / 2.0)
    away = middle[0] * across[0] + middle[1] * across[1]
    on = middle[0] * along[0] + middle[1] * along[1]
    step = -int(reach / apart) - 1
    while step <= int(reach / apart) + 1:
        level = (round(away / apart) + step) * apart
        start, end = (
            (
                level * across[0] + (on + sign * reach) * along[0],
                level * across[1] + (on + sign * reach) * along[1],
            )
            for sign in (-1.0, 1.0)
        )
        crossed = shapely.LineString([start, end]).intersection(face)
        for piece in getattr(crossed, "geoms", [crossed]):
            if isinstance(piece, shapely.LineString) and piece.length > 0.1:
                ends = piece.coords
                yield Line(ends[0], ends[-1], "hatch")
        step += 1
