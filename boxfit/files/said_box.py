"""What a file said of how boxes are built. Lengths [mm]."""

from typing import Annotated

from boxfit.files import bounds
from boxfit.files.kinds import Allowance, MaterialWord, ProcessWord, ShapeWord, Sheet, number, whole
from boxfit.files.said import Said


class SaidBox(Said):
    """A [box] table of a car or a bay; what is left out is taken from elsewhere."""

    material: MaterialWord | None = None
    """What sheet or print the box is made of."""
    process: ProcessWord | None = None
    """How it is made: folded, welded from plates, or printed."""
    shape: ShapeWord | None = None
    """Plain boxes, or stepped ones too where they hold more."""
    thickness: Sheet | None = None
    """Of walls and floor [mm]."""
    bend_radius: Annotated[float, number(bounds.BEND_RADIUS)] | None = None
    """Inside of every bend [mm]."""
    flange: Allowance | None = None
    """How far the rim that carries the lid stands outwards [mm]."""
    lid_thickness: Sheet | None = None
    """Of the lid [mm]."""
    clearance: Allowance | None = None
    """From the box to the body and to what stays there [mm]."""
    liner: Allowance | None = None
    """Of the lining of floor and walls [mm]."""
    gap: Allowance | None = None
    """From a module to the liner at its sides [mm]."""
    headroom: Allowance | None = None
    """From a module and the room it needs above to the lid or the next shelf [mm]."""
    tiers: Annotated[int, whole(bounds.TIERS)] | None = None
    """Levels of modules in one box, at most."""
    boxes: Annotated[int, whole(bounds.BOXES)] | None = None
    """Boxes in one bay, at most."""
    gasket_width: Allowance | None = None
    """Of the gasket between flange and lid [mm]; no gasket where left out."""
    gasket_thickness: Allowance | None = None
    """Of the gasket before the lid presses it [mm]."""
    stiffening_depth: Annotated[float, number(bounds.STIFFENING)] | None = None
    """Of stiffening bars outside on the walls [mm]; none there where 0 or left out."""
    stiffening_floor_depth: Annotated[float, number(bounds.STIFFENING)] | None = None
    """Of those under the floor [mm]; as deep as on the walls where left out."""
    stiffening_thickness: Annotated[float, number(bounds.STIFFENING_SHEET)] | None = None
    """Of the flat bar they are sawn from [mm]; 5 where left out."""
    foot_thickest: Annotated[float, number(bounds.FOOT_SHEET)] | None = None
    """Of feet where the usual sheet does not bear [mm]; always the usual where left out."""
    foot_width: Annotated[float, number(bounds.FOOT_WIDTH)] | None = None
    """Of feet [mm]; 60 where left out."""
    doubler_thickest: Annotated[float, number(bounds.FOOT_SHEET)] | None = None
    """Of plates under feet where the wall does not bear [mm]; none where 0 or left out."""
    hold_down_material: MaterialWord | None = None
    """What hold-downs are folded of, where it is another than the box."""
    hold_down_thickness: Annotated[float, number(bounds.FOOT_SHEET)] | None = None
    """Of their sheet [mm]; that of the box where 0 or left out."""
    hold_down_bar_thickness: Annotated[float, number(bounds.FOOT_SHEET)] | None = None
    """Of those from wall to wall [mm]; that of the others where 0 or left out."""
    cover_material: MaterialWord | None = None
    """What the cover plate is made of, where it is another than the box."""
