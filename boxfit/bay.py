"""A bay as believed: its room, what stays in it, how boxes are built and brought in.

Distances are settled here once, on the way in: `Bay.distance` and `Keepout.distance` already hold
survey tolerance plus clearance, so nothing further down adds them again.
"""

from dataclasses import dataclass, field
from typing import Literal

from boxfit.surface import Point, Shell, Surface, Vector
from boxfit.workshop import (
    USUAL_FOLD_SHOP,
    USUAL_PRINT_SHOP,
    USUAL_TOLERANCES,
    FoldShop,
    PrintShop,
    Tolerances,
)

__all__ = [
    "Bay",
    "Block",
    "BoxRules",
    "Cylinder",
    "Keepout",
    "Mount",
    "Opening",
    "Point",
    "Prism",
    "Process",
    "Room",
    "Shape",
    "Shell",
    "Solid",
    "Surface",
    "Vector",
    "Way",
]

Way = Literal["up", "down", "front", "rear", "left", "right"]
Process = Literal["folded", "welded", "printed"]
Shape = Literal["rectangular", "stepped"]


@dataclass(frozen=True)
class Prism:
    """Room between two levels [mm], `outline` [mm] seen from above, counter-clockwise, not closed."""

    outline: tuple[Point, ...]
    floor: float
    top: float


@dataclass(frozen=True)
class Block:
    """A solid with faces square to the axes, from `low` to `high` [mm]."""

    low: Vector
    high: Vector


@dataclass(frozen=True)
class Cylinder:
    """A round bar with flat ends between two points [mm], of any direction."""

    start: Vector
    end: Vector
    diameter: float


Room = Prism | Shell
Solid = Block | Cylinder | Surface
"""What stays in a bay. A surface as a keep-out bounds solids, which may overlap; nothing may be inside."""


@dataclass(frozen=True)
class Keepout:
    """A solid that stays in the bay; a box keeps `distance` [mm] from it, tolerance included.

    `reason` says why it needs more room than plain metal, such as "moving" or "hot"; empty where it does not.
    """

    name: str
    solid: Solid
    distance: float
    negotiable: bool = False
    reason: str = ""


@dataclass(frozen=True)
class Opening:
    """The side the box comes in from; `outline` [mm] is the hole, None where the whole side is open.

    The outline is (x, y) for up and down, (y, z) for front and rear, (x, z) for left and right.
    """

    way: Way
    outline: tuple[Point, ...] | None = None


ADDED = {"added": True}
"""Marks a field that older files do not have: files/made_from.py passes it by while it is as it was."""


@dataclass(frozen=True)
class BoxRules:
    """How the workshop builds a box [mm]; `tiers` and `boxes` are the most allowed in a bay.

    `asked` is False where neither car nor bay has a [box] table: a layout then keeps no allowance of
    its own and nothing can be built. A gasket of `gasket_width` and `gasket_thickness` [mm], as bought, lies
    between flange and lid, none where either is 0. `cover_material` is empty where the cover plate is of the
    box's own material. Stiffening bars stand `stiffening_depth` [mm] out from the walls and
    `stiffening_floor_depth` [mm] down from the floor, as deep as on the walls where that is None. Feet are
    `foot_width` [mm] wide where that has room, and of sheet up to `foot_thickest` [mm] where the usual does
    not bear; plates up to `doubler_thickest` [mm] are welded on the wall under feet where the wall does not.
    Hold-downs are of the box's own sheet where `hold_down_material` is empty, as thick where
    `hold_down_thickness` [mm] is 0; those from wall to wall as thick as the others where
    `hold_down_bar_thickness` [mm] is 0.
    """

    material: str
    process: Process
    shape: Shape
    thickness: float
    bend_radius: float
    flange: float
    lid_thickness: float
    clearance: float
    liner: float
    gap: float
    headroom: float
    tiers: int
    boxes: int
    asked: bool = True
    gasket_width: float = 0.0
    gasket_thickness: float = 0.0
    cover_material: str = ""
    fold_shop: FoldShop = USUAL_FOLD_SHOP
    print_shop: PrintShop = USUAL_PRINT_SHOP
    tolerances: Tolerances = USUAL_TOLERANCES
    stiffening_depth: float = field(default=0.0, metadata=ADDED)
    stiffening_floor_depth: float | None = field(default=None, metadata=ADDED)
    stiffening_thickness: float = field(default=5.0, metadata=ADDED)
    foot_thickest: float = field(default=0.0, metadata=ADDED)
    foot_width: float = field(default=60.0, metadata=ADDED)
    doubler_thickest: float = field(default=0.0, metadata=ADDED)
    hold_down_material: str = field(default="", metadata=ADDED)
    hold_down_thickness: float = field(default=0.0, metadata=ADDED)
    hold_down_bar_thickness: float = field(default=0.0, metadata=ADDED)

    @property
    def bars_beside(self) -> float:
        """How far [mm] stiffening bars stand out from the walls; nothing on a printed box."""
        return 0.0 if self.process == "printed" else self.stiffening_depth

    @property
    def bars_below(self) -> float:
        """How far [mm] stiffening bars stand down from the floor; nothing under a printed box."""
        own = self.stiffening_floor_depth
        return 0.0 if self.process == "printed" else self.stiffening_depth if own is None else own

    @property
    def reach(self) -> float:
        """How far [mm] flange or stiffening bars, whichever is wider, stand out from the walls."""
        return max(self.flange, self.bars_beside)

    @property
    def gasket_pressed(self) -> float:
        """What is left of the gasket's thickness [mm] under the lid: a third is pressed away.

        Common practice, no source.
        """
        return self.gasket_thickness * 2.0 / 3.0 if self.gasket_width > 0.0 else 0.0

    @property
    def rim_below_top(self) -> float:
        """From the top of the lid down to the rim of the tray [mm]: lid and pressed gasket."""
        return self.lid_thickness + self.gasket_pressed


@dataclass(frozen=True)
class Mount:
    """A place of the body that a box may be bolted to.

    `at` [mm] is the middle of the hole on the surface that the foot lies on; `faces` is the way that surface
    looks. `bolt` is its thread [mm], `body_thickness` [mm] the sheet there; `drilled` says that the hole is
    new, so that it goes on the list of holes drilled.
    """

    name: str
    at: Vector
    faces: Way
    bolt: float
    body_thickness: float
    drilled: bool


@dataclass(frozen=True)
class Bay:
    """A compartment that may hold boxes. A box keeps `distance` [mm] from every surface of the room.

    `tolerance` [mm] is how far the survey may be out; it is already part of every `distance`.
    """

    name: str
    room: Room
    tolerance: float
    distance: float
    box: BoxRules
    keepouts: tuple[Keepout, ...] = ()
    opening: Opening | None = None
    mounts: tuple[Mount, ...] = ()
