"""Cover plate and gasket as solids in the car's coordinates [mm]."""

from typing import TYPE_CHECKING

from boxfit.box.parts import CoverPlate, Gasket, Plate, Tray
from boxfit.box_shape import grown
from boxfit.solid.shapes import drilled, only_solid, plate_shape, prism_shape
from boxfit.solid.tray import tray_shape
from boxfit.surface import Outline

if TYPE_CHECKING:
    from OCP.TopoDS import TopoDS_Shape

SPARE = 1.0
"""How far [mm] a cut runs past the faces, so that no face of the tool lies in one of the part."""


def cover_plate_shape(cover: CoverPlate) -> "TopoDS_Shape":
    """The plate with its returned edges, corners closed, and the holes for its studs."""
    plate = cover.plate
    shape = _returned(cover) if cover.returned else plate_shape(plate)
    return drilled(shape, cover.holes, cover.hole_diameter, (plate.bottom, plate.top))


def _returned(cover: CoverPlate) -> "TopoDS_Shape":
    """A shallow tray without flange, made on its face and turned over about the x axis."""
    from OCP.BRepBuilderAPI import BRepBuilderAPI_Transform
    from OCP.gp import gp_Trsf

    tray = Tray(
        name=cover.name,
        material=cover.material,
        bands=(Plate(_turned(cover.plate.outline), 0.0, cover.height),),
        step_floors=(),
        thickness=cover.thickness,
        bend_radius=cover.bend_radius,
        floor_radius=cover.bend_radius,
        flange=0.0,
        holes=(),
        hole_diameter=cover.hole_diameter,
        ledges=(),
    )
    over = gp_Trsf()
    over.SetValues(1.0, 0.0, 0.0, 0.0, 0.0, -1.0, 0.0, 0.0, 0.0, 0.0, -1.0, cover.plate.top)
    return only_solid(BRepBuilderAPI_Transform(tray_shape(tray), over, True).Shape())


def _turned(outline: Outline) -> Outline:
    """The outline seen from below, still counter-clockwise."""
    return tuple((x, -y) for x, y in reversed(outline))


def gasket_shape(gasket: Gasket) -> "TopoDS_Shape":
    """The gasket as it lies pressed, its corners square."""
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Cut

    half = gasket.width / 2.0
    whole = prism_shape(grown(gasket.path, half), (gasket.bottom, gasket.top))
    inside = prism_shape(grown(gasket.path, -half), (gasket.bottom - SPARE, gasket.top + SPARE))
    return only_solid(BRepAlgoAPI_Cut(whole, inside).Shape())
