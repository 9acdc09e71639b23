"""Stock sheets with the parts that are cut from them."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from math import ceil

from boxfit.bay import Point
from boxfit.sheet.flat import Contour, Corner, Flat
from boxfit.standards.materials import MATERIALS
from boxfit.workshop import FoldShop

CLOSE = 1e-6
OFFCUT = 0.5
"""Up to this share of the last sheet's length an offcut is worth asking for (our own)."""


@dataclass(frozen=True)
class Wanted:
    """A flat to be cut, its part number, and who cuts it."""

    flat: Flat
    number: str
    shop: FoldShop


@dataclass(frozen=True, order=True)
class Stock:
    """A sort of sheet [mm]: `size` is its long and its short side.

    Parts keep `edge` [mm] from its edge and `gap` [mm] from one another. It is rolled along its long side
    (common practice, no source).
    """

    material: str
    thickness: float
    size: Point
    edge: float
    gap: float

    @property
    def usable(self) -> Point:
        """Length and depth [mm] that parts may take up."""
        return (self.size[0] - 2.0 * self.edge, self.size[1] - 2.0 * self.edge)

    @property
    def area(self) -> float:
        """Of the whole sheet [mm2]."""
        return self.size[0] * self.size[1]

    @property
    def mass(self) -> float:
        """Of the whole sheet [kg]; 0 where the material's density is not known.

        >>> round(Stock("aluminium-5754", 2.5, (2500.0, 1250.0), 10.0, 8.0).mass, 2)
        20.78
        """
        known = MATERIALS.get(self.material)
        return self.area * self.thickness * known.density * 1e-9 if known else 0.0

    def takes(self, wide: float, deep: float) -> bool:
        """Whether a blank [mm] lies on the sheet this way round."""
        return wide <= self.usable[0] + CLOSE and deep <= self.usable[1] + CLOSE


@dataclass(frozen=True)
class Placed:
    """Where a part lies on its sheet: the low corner of its extent [mm] from the sheet's own.

    `turned` by a quarter to the left; `copy` counts from 1 where several alike are cut.
    """

    part: Wanted
    copy: int
    at: Point
    turned: bool

    @property
    def size(self) -> Point:
        """The extent [mm] as it lies."""
        wide, deep = self.part.flat.size
        return (deep, wide) if self.turned else (wide, deep)

    @property
    def flat(self) -> Flat:
        """The part's own flat where it lies on the sheet."""
        flat = turned_left(self.part.flat) if self.turned else self.part.flat
        low_x = min(corner.x for corner in flat.contours[0])
        low_y = min(corner.y for corner in flat.contours[0])
        return moved(flat, (self.at[0] - low_x, self.at[1] - low_y))


@dataclass(frozen=True)
class Sheet:
    """One stock sheet, counted from 1 among those of its material and thickness."""

    stock: Stock
    number: int
    placed: tuple[Placed, ...]

    @property
    def name(self) -> str:
        """What it is called in files and drawings.

        >>> Sheet(Stock("steel-dc01", 1.5, (2000.0, 1000.0), 10.0, 8.0), 2, ()).name
        'sheet-steel-dc01-1.5-2'
        """
        return f"sheet-{self.stock.material}-{self.stock.thickness:g}-{self.number}"

    @property
    def used_length(self) -> float:
        """How far [mm] along the sheet its parts reach, from its edge on."""
        return max(one.at[0] + one.size[0] for one in self.placed)

    @property
    def remainder(self) -> Point:
        """The strip [mm] left whole beyond the last part and its gap: along the sheet, and its full depth."""
        return (max(0.0, self.stock.size[0] - self.used_length - self.stock.gap), self.stock.size[1])

    @property
    def utilisation(self) -> float:
        """What becomes parts, openings and holes cut out, as a share [-] of the sheet."""
        return sum(one.part.flat.area for one in self.placed) / self.stock.area


@dataclass(frozen=True)
class StockUse:
    """All sheets of one sort, and the fewest that the parts' own areas would fill."""

    stock: Stock
    sheets: tuple[Sheet, ...]

    @property
    def least_sheets(self) -> int:
        """A lower bound: the parts' areas, openings and holes cut out, over what one sheet has to give."""
        parts = sum(one.part.flat.area for sheet in self.sheets for one in sheet.placed)
        wide, deep = self.stock.usable
        return max(1, ceil(parts / (wide * deep) - CLOSE))

    @property
    def mass_bought(self) -> float:
        """Of all sheets [kg]."""
        return self.stock.mass * len(self.sheets)

    @property
    def offcut(self) -> str:
        """Words on the piece that would do for the last sheet, empty where that is most of it anyhow."""
        last = self.sheets[-1]
        long = last.used_length + self.stock.edge
        if long > OFFCUT * self.stock.size[0]:
            return ""
        instead = "for the last " if len(self.sheets) > 1 else ""
        return f"; {instead}an offcut of {ceil(long)} x {self.stock.size[1]:g} mm would do"


@dataclass(frozen=True)
class Nesting:
    """Everything laid out: by sort of sheet, and what no sheet takes. `notes` tell what was given up."""

    uses: tuple[StockUse, ...]
    too_large: tuple[Wanted, ...] = ()
    notes: tuple[str, ...] = ()

    @property
    def sheets(self) -> tuple[Sheet, ...]:
        """All sheets in order."""
        return tuple(sheet for use in self.uses for sheet in use.sheets)


def turned_left(flat: Flat) -> Flat:
    """The flat turned by a quarter to the left about the origin.

    >>> turned_left(Flat("strip", "steel-dc01", 1.5, ((Corner(3.0, 1.0),),), (0.0, 0.0, 0.0))).contours
    ((Corner(x=-1.0, y=3.0, bulge=0.0),),)
    """
    return _each_point(flat, lambda point: (-point[1], point[0]))


def moved(flat: Flat, by: Point) -> Flat:
    """The flat moved [mm]."""
    return _each_point(flat, lambda point: (point[0] + by[0], point[1] + by[1]))


def _each_point(flat: Flat, to: Callable[[Point], Point]) -> Flat:
    """The flat with each of its points taken somewhere else, nothing stretched or mirrored."""

    def contour(one: Contour) -> Contour:
        return tuple(Corner(*to((corner.x, corner.y)), corner.bulge) for corner in one)

    return replace(
        flat,
        contours=tuple(contour(one) for one in flat.contours),
        holes=tuple(replace(hole, at=to(hole.at)) for hole in flat.holes),
        bends=tuple(replace(bend, start=to(bend.start), end=to(bend.end)) for bend in flat.bends),
        marks=tuple(replace(mark, at=to(mark.at)) for mark in flat.marks),
        lines=tuple(tuple(map(to, line)) for line in flat.lines),
    )
