"""The parts of a box as the workshop makes them: frozen descriptions in the car's coordinates [mm]."""

from dataclasses import dataclass

from boxfit.bay import Block, Point, Vector
from boxfit.box.fitting import NO_FITTINGS, Cutout, Fittings
from boxfit.surface import Outline


@dataclass(frozen=True)
class Plate:
    """What lies within an outline between two levels [mm]; `low` and `high` are the corners of its extent."""

    outline: Outline
    bottom: float
    top: float

    @property
    def low(self) -> Vector:
        """The low corner of the extent [mm]."""
        return (min(x for x, _ in self.outline), min(y for _, y in self.outline), self.bottom)

    @property
    def high(self) -> Vector:
        """The high corner of the extent [mm]."""
        return (max(x for x, _ in self.outline), max(y for _, y in self.outline), self.top)


@dataclass(frozen=True)
class LedgeBar:
    """A bar welded all round the inside of the walls under a shelf; `width` [mm] is how far it reaches in."""

    outside: Plate
    width: float


@dataclass(frozen=True)
class StepFloor:
    """The sheet that wider walls stand on, welded on top of the narrower ones, whose inside is its `hole`."""

    plate: Plate
    hole: Outline


@dataclass(frozen=True)
class Tray:
    """Floor, walls and flange of one sheet, corners welded square; a stepped one widens over step floors.

    `bands` [mm] are the outside of the walls from the floor to the rim, one for each different outline.
    `bend_radius` [mm] is the inside radius at floor and flange, None where the corners are square and
    nothing is folded. The flange stands `flange` [mm] outwards at the rim. `holes` are for rivet-nuts, those
    at the corners first, where the mitre's weld runs: drilled once welded and ground flush. `cutouts` go
    through walls and floor.
    """

    name: str
    material: str
    bands: tuple[Plate, ...]
    step_floors: tuple[StepFloor, ...]
    thickness: float
    bend_radius: float | None
    flange: float
    holes: tuple[Point, ...]
    hole_diameter: float
    ledges: tuple[LedgeBar, ...]
    cutouts: tuple[Cutout, ...] = ()

    @property
    def outside(self) -> Block:
        """The extent [mm] of floor and walls; ends at the rim."""
        lows, highs = zip(*((band.low, band.high) for band in self.bands), strict=True)
        (x, y, z), (a, b, top) = map(min, zip(*lows, strict=True)), map(max, zip(*highs, strict=True))
        return Block((x, y, z), (a, b, top))


@dataclass(frozen=True)
class Lid:
    """A flat plate on the flange; `holes` for its screws, those at the corners first."""

    name: str
    material: str
    plate: Plate
    holes: tuple[Point, ...]
    hole_diameter: float


@dataclass(frozen=True)
class CoverPlate:
    """A flat plate over the lid on round studs, fixed to it, that stand on the lid."""

    name: str
    material: str
    plate: Plate
    studs: tuple[Point, ...]
    stud_diameter: float
    stud_height: float


@dataclass(frozen=True)
class Shelf:
    """A flat sheet that an upper tier stands on."""

    name: str
    material: str
    plate: Plate


@dataclass(frozen=True)
class LinerSheet:
    """One sheet of the liner: "floor", "front wall tier 1" and so on, numbered where several look one way."""

    name: str
    sheet: Plate


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
    fittings: Fittings = NO_FITTINGS
