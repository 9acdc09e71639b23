"""The parts of a box as the workshop makes them: frozen descriptions in the car's coordinates [mm]."""

from dataclasses import dataclass
from typing import Literal

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
    """Floor, walls and flange, corners welded; a stepped one widens over step floors.

    `bands` [mm] are the outside of the walls from the floor to the rim, one for each different outline.
    `bend_radius` [mm] is the inside radius at the flange, None where nothing is folded; `floor_radius` [mm]
    that at the floor of a tray made of one blank, None where walls are welded square to the floor (see
    box_blank.py). The flange stands `flange` [mm] outwards at the rim. `holes` are for rivet-nuts, those
    at the corners first, where the mitre's weld runs: drilled once welded and ground flush. `cutouts` go
    through walls and floor, and through the `ribs` that a printed tray has inside.
    """

    name: str
    material: str
    bands: tuple[Plate, ...]
    step_floors: tuple[StepFloor, ...]
    thickness: float
    bend_radius: float | None
    floor_radius: float | None
    flange: float
    holes: tuple[Point, ...]
    hole_diameter: float
    ledges: tuple[LedgeBar, ...]
    cutouts: tuple[Cutout, ...] = ()
    ribs: tuple[Block, ...] = ()

    @property
    def outside(self) -> Block:
        """The extent [mm] of floor and walls; ends at the rim."""
        lows, highs = zip(*((band.low, band.high) for band in self.bands), strict=True)
        (x, y, z), (a, b, top) = map(min, zip(*lows, strict=True)), map(max, zip(*highs, strict=True))
        return Block((x, y, z), (a, b, top))


@dataclass(frozen=True)
class Gasket:
    """A strip of closed-cell foam on the flange, closed round the box inside the lid screws.

    `path` [mm] is its middle; it lies between the levels `bottom` and `top` [mm] once pressed. `width` and
    `thickness` [mm] are as bought, `order` [mm] is the length to order.
    """

    name: str
    material: str
    path: Outline
    width: float
    thickness: float
    bottom: float
    top: float
    order: float

    @property
    def pressed(self) -> float:
        """Its thickness [mm] under the lid."""
        return self.top - self.bottom


@dataclass(frozen=True)
class Stud:
    """A stud that stands on the lid: a round collar that carries the cover plate, and a thread [mm]."""

    collar: float
    collar_height: float
    thread: float
    thread_height: float


@dataclass(frozen=True)
class Lid:
    """A flat plate on the flange; `holes` for its screws, those at the corners first.

    `studs` are where studs for the cover plate are fixed on its top, bonded or stud-welded and not through
    it (common practice, no source); none without a cover plate.
    """

    name: str
    material: str
    plate: Plate
    holes: tuple[Point, ...]
    hole_diameter: float
    studs: tuple[Point, ...] = ()
    stud: Stud | None = None


NutKind = Literal["dome nut", "low nut"]


@dataclass(frozen=True)
class CoverPlate:
    """The dress plate over lid and lid screws, held on the lid's studs by nuts: it comes off with lid shut.

    `plate` [mm] is the outside of its flat, returned edges included; those hang down from it to `height`
    [mm] below its top and are square where `bend_radius` [mm] is None. Without returned edges `height` is
    the sheet's thickness. `holes` are for the studs.
    """

    name: str
    material: str
    plate: Plate
    height: float
    bend_radius: float | None
    holes: tuple[Point, ...]
    hole_diameter: float
    nut: NutKind

    @property
    def thickness(self) -> float:
        """Of its sheet [mm]."""
        return self.plate.top - self.plate.bottom

    @property
    def returned(self) -> bool:
        """Whether it has returned edges."""
        return self.height > self.thickness + 1e-9


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
    """Insulating sheets on the floor and inside the walls; what reaches into a notch is cut off them."""

    name: str
    material: str
    sheets: tuple[LinerSheet, ...]
    notches: tuple[Block, ...] = ()


Part = Tray | Lid | Gasket | CoverPlate | Shelf | Liner


@dataclass(frozen=True)
class BoxParts:
    """All parts of one box.

    `cover_plate` is None where it is left out; `cover_plate_lacking` [mm] then says how much height is
    missing for it. `gasket` is None where none is asked. `notes` tell what could not be made as the trade
    would have it.
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
    gasket: Gasket | None = None
