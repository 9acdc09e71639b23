"""What a car file said of the shops that make its boxes. Lengths [mm]; what is left out is usual practice."""

from typing import Annotated

from pydantic import AfterValidator, Field, ValidationInfo, field_validator

from boxfit.files import bounds
from boxfit.files.bounds import Bounds
from boxfit.files.kinds import Allowance, Price, listed, number, wrong
from boxfit.files.said import Said
from boxfit.files.shown import shown

Side = Annotated[float, number(bounds.MACHINE)]
SheetSides = Annotated[list[Side], listed("two numbers [length, width]", 2, 2)]
BedSides = Annotated[list[Annotated[float, number(bounds.BED)]], listed("three numbers [x, y, z]", 3, 3)]
Small = Annotated[float, number(bounds.WORKING)]


class SaidFoldedK(Said):
    """A row of the shop's own table: sheet and inside radius [mm], and the K [-] it found."""

    thickness: Annotated[float, number(Bounds(0.1, bounds.SHEET.high, "mm"))]
    """Of the sheet [mm]."""
    radius: Annotated[float, number(bounds.BEND_RADIUS)]
    """Inside of the bend [mm]."""
    k: Annotated[float, number(bounds.K_FACTOR)]
    """Where the neutral line lies, as a part of the thickness."""


def _no_row_twice(rows: list[SaidFoldedK]) -> list[SaidFoldedK]:
    seen: set[tuple[float, float]] = set()
    for row in rows:
        if (row.thickness, row.radius) in seen:
            pair = f"thickness {shown(row.thickness)} with radius {shown(row.radius)}"
            raise wrong(f"must name nothing twice: {pair} is repeated", "leave one of the two out")
        seen.add((row.thickness, row.radius))
    return rows


KTable = Annotated[list[SaidFoldedK], AfterValidator(_no_row_twice)]


class SaidSheetPrices(Said):
    """What a kilogram of a sheet costs, in the money of all prices; a row for each material of a box."""

    aluminium_5754: Price | None = Field(default=None, alias="aluminium-5754")
    """Of a kilogram."""
    aluminium_5083: Price | None = Field(default=None, alias="aluminium-5083")
    """Of a kilogram."""
    aluminium_5052: Price | None = Field(default=None, alias="aluminium-5052")
    """Of a kilogram."""
    aluminium_6082: Price | None = Field(default=None, alias="aluminium-6082")
    """Of a kilogram."""
    aluminium_5005: Price | None = Field(default=None, alias="aluminium-5005")
    """Of a kilogram."""
    steel_s235: Price | None = Field(default=None, alias="steel-s235")
    """Of a kilogram."""
    steel_dc01: Price | None = Field(default=None, alias="steel-dc01")
    """Of a kilogram."""
    stainless_1_4301: Price | None = Field(default=None, alias="stainless-1.4301")
    """Of a kilogram."""
    abs: Price | None = Field(default=None, alias="abs")
    """Of a kilogram."""
    petg: Price | None = Field(default=None, alias="petg")
    """Of a kilogram."""
    pla: Price | None = Field(default=None, alias="pla")
    """Of a kilogram."""
    hdpe: Price | None = Field(default=None, alias="hdpe")
    """Of a kilogram."""


class SaidFoldShop(Said):
    """A [fold_shop] table."""

    sheet: SheetSides | None = None
    """The stock sheet, [length, width] [mm]."""
    brake: Side | None = None
    """Longest fold the brake makes [mm]."""
    least_flange: Allowance | None = None
    """Shortest leg the brake holds [mm]; 3 t + r where left out."""
    weld_gap: Small | None = None
    """Between edges before they are welded [mm]."""
    weld_bead: Small | None = None
    """What a weld fills of a corner inside [mm]."""
    part_gap: Allowance | None = None
    """Between parts on a sheet [mm]."""
    sheet_edge: Allowance | None = None
    """Left free round a sheet [mm]."""
    k: KTable = Field(default_factory=list)
    """The shop's own test bends; DIN 6935 where none fits."""
    price: SaidSheetPrices | None = None
    """What a kilogram of each sheet costs; for boxfit compare."""

    @field_validator("sheet_edge")
    @classmethod
    def _leaves_some_sheet(cls, edge: float | None, info: ValidationInfo) -> float | None:
        sheet = info.data.get("sheet")
        if edge and sheet and 2.0 * edge >= min(sheet):
            raise wrong(
                f"must be below half of the sheet's shorter side {shown(min(sheet))}", "correct this or sheet"
            )
        return edge


class SaidPrintShop(Said):
    """A [print_shop] table."""

    bed: BedSides | None = None
    """What the printer's bed takes, [x, y, z] [mm]."""
    joint: Small | None = None
    """Air at each side of a keyed joint [mm]."""
    least_wall: Annotated[float, number(bounds.PRINTED_WALL)] | None = None
    """Thinnest wall that prints [mm]."""


class SaidTolerances(Said):
    """A [tolerances] table: plus or minus [mm], `fold_angle` [degrees]."""

    module: Small | None = None
    """Each dimension of a module [mm]."""
    liner: Small | None = None
    """The liner's thickness [mm]."""
    cut: Small | None = None
    """Each cut edge [mm]."""
    fold: Small | None = None
    """Each bend's place [mm]."""
    fold_angle: Annotated[float, number(bounds.FOLD_ANGLE)] | None = None
    """Each bend's angle [degrees]."""
    weld: Small | None = None
    """Each welded seam [mm]."""
    printed: Small | None = None
    """Each printed dimension [mm]."""
