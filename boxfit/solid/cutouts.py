"""Cutouts through walls and floor of a tray, as solids that are taken away. [mm]"""

from math import sqrt
from typing import TYPE_CHECKING

from boxfit.bay import Point, Vector
from boxfit.box.cutouts import extent_on_face
from boxfit.box.fitting import DIRECTIONS, Cutout
from boxfit.solid.shapes import face_between, only_solid, shape_list

if TYPE_CHECKING:
    from OCP.TopoDS import TopoDS_Shape

SPARE = 1.0
"""How far [mm] past the outside the tool reaches; it ends with the sheet: ledges and ribs stay whole."""
FACE_AXES: dict[str, tuple[int, int]] = {
    "front": (1, 2),
    "rear": (1, 2),
    "left": (0, 2),
    "right": (0, 2),
    "up": (0, 1),
    "down": (0, 1),
}
"""The axes that run along a face and up it; x and y in a floor."""


def cut_out(shape: "TopoDS_Shape", cutouts: tuple[Cutout, ...], thickness: float) -> "TopoDS_Shape":
    """A solid of sheet without what is cut out of it; raises ValueError where it falls to pieces."""
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Cut

    if not cutouts:
        return shape
    cut = BRepAlgoAPI_Cut()
    cut.SetArguments(shape_list([shape]))
    cut.SetTools(shape_list([_tool(cutout, thickness) for cutout in cutouts]))
    cut.Build()
    return only_solid(cut.Shape())


def _tool(cutout: Cutout, thickness: float) -> "TopoDS_Shape":
    """What goes through the sheet from outside to inside."""
    from OCP.BRepPrimAPI import BRepPrimAPI_MakeCylinder, BRepPrimAPI_MakePrism
    from OCP.gp import gp_Ax2, gp_Dir, gp_Pnt, gp_Vec

    x, y, z = DIRECTIONS[cutout.looks]
    deep = thickness + SPARE
    a, b, c = (at + SPARE * way for at, way in zip(cutout.at, (x, y, z), strict=True))
    if cutout.diameter:
        axis = gp_Ax2(gp_Pnt(a, b, c), gp_Dir(-x, -y, -z))
        return BRepPrimAPI_MakeCylinder(axis, cutout.diameter / 2.0, deep).Solid()
    face = face_between(_corners(cutout, (a, b, c)))
    return BRepPrimAPI_MakePrism(face, gp_Vec(-x * deep, -y * deep, -z * deep)).Shape()


def _corners(cutout: Cutout, middle: Vector) -> tuple[tuple[Vector, Vector | None], ...]:
    """A rectangle with round corners about a place: its points, each with one on the arc that follows it."""
    (left, low), (right, high) = extent_on_face(cutout)
    along, up = FACE_AXES[cutout.looks]

    def place(point: Point) -> Vector:
        found = list(middle)
        found[along] += point[0]
        found[up] += point[1]
        return (found[0], found[1], found[2])

    corners: list[tuple[Vector, Vector | None]] = []
    # counter-clockwise from the low right corner; `first` and `last` lead from the corner to the arc's ends
    for corner, first, last in (
        ((right, low), (-1.0, 0.0), (0.0, 1.0)),
        ((right, high), (0.0, -1.0), (-1.0, 0.0)),
        ((left, high), (1.0, 0.0), (0.0, -1.0)),
        ((left, low), (0.0, 1.0), (1.0, 0.0)),
    ):
        if cutout.corner <= 0.0:
            corners.append((place(corner), None))
            continue
        r, part = cutout.corner, cutout.corner * (1.0 - sqrt(0.5))
        start = (corner[0] + r * first[0], corner[1] + r * first[1])
        end = (corner[0] + r * last[0], corner[1] + r * last[1])
        half = (corner[0] + part * (first[0] + last[0]), corner[1] + part * (first[1] + last[1]))
        corners += [(place(start), place(half)), (place(end), None)]
    return tuple(corners)
