"""What a car file said of the shops that make its boxes. Lengths [mm]; what is left out is usual practice."""

from typing import Annotated

from pydantic import AfterValidator, Field, ValidationInfo, field_validator

from boxfit.files import bounds
from boxfit.files.bounds import Bounds
from boxfit.files.kinds import Allowance, listed, number, wrong
from boxfit.files.said import Said
from boxfit.files.shown import shown

Side = Annotated[float, number(bounds.MACHINE)]
SheetSides = Annotated[list[Side], listed("two numbers [length, width]", 2, 2)]
BedSides = Annotated[list[Annotated[float, number(bounds.BED)]], listed("three numbers [x, y, z]", 3, 3)]
Small = Annotated[float, number(bounds.WORKING)]


class SaidFoldedK(Said):
    """A row of the shop's own table: sheet and inside radius [mm], and the K [-] it found."""

    thickness: Annotated[float, number(Bounds(0.1, bounds.SHEET.high, "mm"))]
    radius: Annotated[float, number(bounds.BEND_RADIUS)]
    k: Annotated[float, number(bounds.K_FACTOR)]


def _no_row_twice(rows: list[SaidFoldedK]) -> list[SaidFoldedK]:
    seen: set[tuple[float, float]] = set()
    for row in rows:
        if (row.thickness, row.radius) in seen:
            pair = f"thickness {shown(row.thickness)} with radius {shown(row.radius)}"
            raise wrong(f"must name nothing twice: {pair} is repeated", "leave one of the two out")
        seen.add((row.thickness, row.radius))
    return rows


KTable = Annotated[list[SaidFoldedK], AfterValidator(_no_row_twice)]


class SaidFoldShop(Said):
    """A [fold_shop] table."""

    sheet: SheetSides | None = None
    brake: Side | None = None
    least_flange: Allowance | None = None
    weld_gap: Small | None = None
    weld_bead: Small | None = None
    part_gap: Allowance | None = None
    sheet_edge: Allowance | None = None
    k: KTable = Field(default_factory=list)

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
    joint: Small | None = None
    least_wall: Annotated[float, number(bounds.PRINTED_WALL)] | None = None


class SaidTolerances(Said):
    """A [tolerances] table: plus or minus [mm], `fold_angle` [degrees]."""

    module: Small | None = None
    liner: Small | None = None
    cut: Small | None = None
    fold: Small | None = None
    fold_angle: Annotated[float, number(bounds.FOLD_ANGLE)] | None = None
    weld: Small | None = None
    printed: Small | None = None
