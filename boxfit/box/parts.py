"""The parts of a box as the workshop makes them: frozen descriptions in the car's coordinates [mm]."""

from dataclasses import dataclass

from boxfit.bay import Block, Point


@dataclass(frozen=True)
class LedgeBar:
    """A bar welded all round the inside of the walls under a shelf; `width` [mm] is how far it reaches in."""

    outside: Block
    width: float


@dataclass(frozen=True)
class Tray:
    """Floor, walls and flange of one sheet, corners welded square; `outside` [mm] ends at the rim.

    `bend_radius` [mm] is the inside radius at floor and flange, None where the corners are square and
    nothing is folded. The flange stands `flange` [mm] outwards at the rim. `holes` are for rivet-nuts, the
    first four at the corners, where the mitre's weld runs: drilled once welded and ground flush.
    """

    name: str
    material: str
    outside: Block
    thickness: float
    bend_radius: float | None
    flange: float
    holes: tuple[Point, ...]
    hole_diameter: float
    ledges: tuple[LedgeBar, ...]


@dataclass(frozen=True)
class Lid:
    """A flat plate on the flange; `holes` for its screws, the first four at the corners."""

    name: str
    material: str
    plate: Block
    holes: tuple[Point, ...]
    hole_diameter: float


@dataclass(frozen=True)
class CoverPlate:
    """A flat plate over the lid on round studs, fixed to it, that stand on the lid."""

    name: str
    material: str
    plate: Block
    studs: tuple[Point, ...]
    stud_diameter: float
    stud_height: float


@dataclass(frozen=True)
class Shelf:
    """A flat sheet that an upper tier stands on."""

    name: str
    material: str
    plate: Block


@dataclass(frozen=True)
class LinerSheet:
    """One sheet of the liner: "floor", "front wall tier 1" and so on."""

    name: str
    sheet: Block


@dataclass(frozen=True)
class Liner:
    """Insulating sheets on the floor and inside the walls."""

    name: str
    material: str
    sheets: tuple[LinerSheet, ...]


Part = Tray | Lid | CoverPlate | Shelf | Liner


@dataclass(frozen=True)
class BoxParts:
    """All parts of one box.

    `cover_plate` is None where it is left out; `cover_plate_lacking` [mm] then says how much height is
    missing for it. `notes` tell what could not be made as the trade would have it.
    """

    name: str
    tray: Tray
    lid: Lid
    cover_plate: CoverPlate | None
    cover_plate_lacking: float
    shelves: tuple[Shelf, ...]
    liner: Liner | None
    notes: tuple[str, ...]
