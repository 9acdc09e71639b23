"""What a file said of how boxes are built. Lengths [mm]."""

from typing import Annotated

from boxfit.files import bounds
from boxfit.files.kinds import Allowance, MaterialWord, ProcessWord, ShapeWord, Sheet, number, whole
from boxfit.files.said import Said


class SaidBox(Said):
    """A [box] table of a car or a bay; what is left out is taken from elsewhere."""

    material: MaterialWord | None = None
    process: ProcessWord | None = None
    shape: ShapeWord | None = None
    thickness: Sheet | None = None
    bend_radius: Annotated[float, number(bounds.BEND_RADIUS)] | None = None
    flange: Allowance | None = None
    lid_thickness: Sheet | None = None
    clearance: Allowance | None = None
    liner: Allowance | None = None
    gap: Allowance | None = None
    headroom: Allowance | None = None
    tiers: Annotated[int, whole(bounds.TIERS)] | None = None
    boxes: Annotated[int, whole(bounds.BOXES)] | None = None
    gasket_width: Allowance | None = None
    gasket_thickness: Allowance | None = None
    cover_material: MaterialWord | None = None
