"""What lies where on the stock sheets, as a list."""

from collections.abc import Iterator

from boxfit.sheet.csv_text import csv_text, figure
from boxfit.sheet.stock import Nesting, Sheet

HEADS = (
    "sheet",
    "long",
    "short",
    "edge",
    "gap",
    "number",
    "part",
    "copy",
    "x",
    "y",
    "wide",
    "deep",
    "turned",
)
"""Lengths in [mm]; x, y is the low corner of the part's extent from the sheet's own."""


def sheets_csv(nesting: Nesting) -> str:
    """A row for every part on every sheet."""
    return csv_text(HEADS, (row for sheet in nesting.sheets for row in _rows(sheet)))


def _rows(sheet: Sheet) -> Iterator[tuple[str, ...]]:
    stock = sheet.stock
    of_sheet = (sheet.name, *(f"{value:g}" for value in (*stock.size, stock.edge, stock.gap)))
    for one in sheet.placed:
        places = (figure(value, 3) for value in (*one.at, *one.size))
        turned = "90" if one.turned else "0"
        yield (*of_sheet, one.part.number, one.part.flat.name, str(one.copy), *places, turned)


def stock_words(nesting: Nesting) -> tuple[str, ...]:
    """What is bought and how well it is used, a sentence for each sort of sheet, then what was given up."""
    told = []
    for use in nesting.uses:
        stock, last = use.stock, use.sheets[-1]
        shares = ", ".join(f"{sheet.utilisation * 100.0:.0f} %" for sheet in use.sheets)
        count = f"{len(use.sheets)} sheet" + ("s" if len(use.sheets) > 1 else "")
        strip = " x ".join(f"{side:.0f}" for side in last.remainder)
        told.append(
            f"{count} of {stock.material} {stock.thickness:g} mm, {stock.size[0]:g} x {stock.size[1]:g} mm, "
            f"{use.mass_bought:.1f} kg bought (by area no fewer than {use.least_sheets} would do); used for "
            f"parts: {shares}; strip left whole on the last: {strip} mm{use.offcut}"
        )
    large = (f"{one.flat.name}: larger than the sheet, laid out on none" for one in nesting.too_large)
    return (*told, *nesting.notes, *large)
