"""Plates, studs, ledges and liner as solids in the car's coordinates [mm]."""

from math import dist
from typing import TYPE_CHECKING

from boxfit.bay import Block, Point, Vector
from boxfit.box.hold_down_place import meets
from boxfit.box.parts import Lid, Liner, Plate, Shelf
from boxfit.surface import Outline

if TYPE_CHECKING:
    from OCP.TopoDS import TopoDS_Face, TopoDS_Shape
    from OCP.TopTools import TopTools_ListOfShape


def block_shape(block: Block) -> "TopoDS_Shape":
    """A cuboid."""
    from OCP.BRepPrimAPI import BRepPrimAPI_MakeBox
    from OCP.gp import gp_Pnt

    return BRepPrimAPI_MakeBox(gp_Pnt(*block.low), gp_Pnt(*block.high)).Solid()


def blocks_shape(blocks: tuple[Block, ...]) -> "TopoDS_Shape":
    """Cuboids side by side, each a solid of its own."""
    return _side_by_side([block_shape(block) for block in blocks])


def _side_by_side(shapes: list["TopoDS_Shape"]) -> "TopoDS_Shape":
    """One shape by itself, several kept together."""
    return shapes[0] if len(shapes) == 1 else _compound(shapes)


def plate_shape(plate: Plate) -> "TopoDS_Shape":
    """A plate of any outline."""
    if len(plate.outline) == 4:
        return block_shape(Block(plate.low, plate.high))
    return prism_shape(plate.outline, (plate.bottom, plate.top))


def prism_shape(outline: Outline, up: tuple[float, float]) -> "TopoDS_Shape":
    """All within straight lines between the corners of an outline, between two levels [mm]."""
    from OCP.BRepPrimAPI import BRepPrimAPI_MakePrism
    from OCP.gp import gp_Vec

    base = face_between(tuple(((x, y, up[0]), None) for x, y in outline))
    return BRepPrimAPI_MakePrism(base, gp_Vec(0.0, 0.0, up[1] - up[0])).Shape()


def face_between(corners: tuple[tuple[Vector, Vector | None], ...]) -> "TopoDS_Face":
    """The flat face inside lines and arcs between corners; corners that coincide count once.

    An arc leads from a corner to the next over the point given with it.
    """
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


def shelf_shape(shelf: Shelf) -> "TopoDS_Shape":
    """A plain sheet."""
    return plate_shape(shelf.plate)


def lid_shape(lid: Lid) -> "TopoDS_Shape":
    """The plate with its screw holes, and the studs that stand on it."""
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Fuse

    top = lid.plate.top
    plate = drilled(plate_shape(lid.plate), lid.holes, lid.hole_diameter, (lid.plate.bottom, top))
    if lid.stud is None:
        return plate
    collar = top + lid.stud.collar_height
    join = BRepAlgoAPI_Fuse()
    join.SetArguments(shape_list([plate]))
    collars = _round_bars(lid.studs, lid.stud.collar, (top, collar))
    threads = _round_bars(lid.studs, lid.stud.thread, (collar, collar + lid.stud.thread_height))
    join.SetTools(shape_list([collars, threads]))
    join.Build()
    return only_solid(join.Shape())


def liner_shape(liner: Liner) -> "TopoDS_Shape":
    """All sheets of the liner, each with its notches."""
    return _side_by_side([_notched(plate_shape(sheet.sheet), sheet.sheet, liner) for sheet in liner.sheets])


def _notched(shape: "TopoDS_Shape", plate: Plate, liner: Liner) -> "TopoDS_Shape":
    """A sheet of liner less what reaches into a notch."""
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Cut

    notches = [notch for notch in liner.notches if meets(Block(plate.low, plate.high), notch)]
    if not notches:
        return shape
    cut = BRepAlgoAPI_Cut()
    cut.SetArguments(shape_list([shape]))
    cut.SetTools(shape_list([block_shape(notch) for notch in notches]))
    cut.Build()
    return only_solid(cut.Shape())


def drilled(
    shape: "TopoDS_Shape", holes: tuple[Point, ...], diameter: float, up: tuple[float, float]
) -> "TopoDS_Shape":
    """A solid with upright holes through the sheet between two levels [mm]."""
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Cut

    if not holes:
        return shape
    # 1 mm past both faces, so that no face of the tool lies in one of the sheet
    drills = _round_bars(holes, diameter, (up[0] - 1.0, up[1] + 1.0))
    return only_solid(BRepAlgoAPI_Cut(shape, drills).Shape())


def only_solid(shape: "TopoDS_Shape") -> "TopoDS_Shape":
    """The one solid in the result of a cut or a fuse; raises ValueError if it fell to pieces."""
    from OCP.TopAbs import TopAbs_SOLID
    from OCP.TopExp import TopExp_Explorer

    found = []
    explorer = TopExp_Explorer(shape, TopAbs_SOLID)
    while explorer.More():
        found.append(explorer.Current())
        explorer.Next()
    if len(found) != 1:
        raise ValueError(f"a part must be one solid (got {len(found)})")
    return found[0]


def shape_list(shapes: list["TopoDS_Shape"]) -> "TopTools_ListOfShape":
    """Shapes in the kernel's own kind of list."""
    from OCP.TopTools import TopTools_ListOfShape

    listed = TopTools_ListOfShape()
    for shape in shapes:
        listed.Append(shape)
    return listed


def _round_bars(points: tuple[Point, ...], diameter: float, up: tuple[float, float]) -> "TopoDS_Shape":
    """Upright round bars between two levels [mm]."""
    from OCP.BRepPrimAPI import BRepPrimAPI_MakeCylinder
    from OCP.gp import gp_Ax2, gp_Dir, gp_Pnt

    axes = [gp_Ax2(gp_Pnt(x, y, up[0]), gp_Dir(0.0, 0.0, 1.0)) for x, y in points]
    height = up[1] - up[0]
    return _compound([BRepPrimAPI_MakeCylinder(axis, diameter / 2.0, height).Solid() for axis in axes])


def _compound(shapes: list["TopoDS_Shape"]) -> "TopoDS_Shape":
    """Shapes kept together."""
    from OCP.BRep import BRep_Builder
    from OCP.TopoDS import TopoDS_Compound

    whole, builder = TopoDS_Compound(), BRep_Builder()
    builder.MakeCompound(whole)
    for shape in shapes:
        builder.Add(whole, shape)
    return whole
