"""Every module in a car and its variations, side by side."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from boxfit.jobs.going_on import Count
from boxfit.jobs.sweep import Means, layout_of, swept
from boxfit.module import Module

if TYPE_CHECKING:
    from boxfit.files.together import VariedCar
    from boxfit.report.compare_rows import CompareRow

COMPARE_CSV, COMPARE_JSON = "compare.csv", "compare.json"


@dataclass(frozen=True)
class Comparison:
    """The rows in the order asked for, the same as plain text, and the file that holds them."""

    rows: "tuple[CompareRow, ...]"
    text: str
    file: Path

    @property
    def fits(self) -> bool:
        """Whether anything fits at all."""
        return any(row.fits for row in self.rows)


def refuse_order(order: str) -> None:
    """Raises InputError where the rows cannot be sorted by that word."""
    from boxfit.files.near import among
    from boxfit.files.problems import InputError, Problem
    from boxfit.files.shown import shown
    from boxfit.report.compare_order import AS_GIVEN, ORDERS

    known = (*ORDERS, AS_GIVEN)
    if order not in known:
        raise InputError([Problem("--sort", "", "is not a known order", shown(order), among(order, known))])


def compare(
    cars: "Sequence[VariedCar]", modules: Sequence[Module], means: Means, order: str, count: Count
) -> Comparison:
    """Every module in every variation of one car, side by side; writes compare.csv, .json and .html.

    Raises as `swept` does.
    """
    from boxfit.files.results import write_whole
    from boxfit.report.compare import compare_table
    from boxfit.report.compare_files import compare_csv, compare_json
    from boxfit.report.compare_order import in_order, with_best
    from boxfit.report.page.compare import COMPARE_PAGE, compare_page

    rows = in_order(with_best(rows_of(cars, modules, means, count)), order)
    folder = means.out / cars[0].car.folder
    write_whole(folder / COMPARE_JSON, compare_json(cars[0].car.name, rows).encode())
    write_whole(folder / COMPARE_CSV, compare_csv(rows).encode())
    write_whole(folder / COMPARE_PAGE, compare_page(rows, cars[0].car.name).encode())
    return Comparison(rows, compare_table(rows), folder / COMPARE_CSV)


def rows_of(
    cars: "Sequence[VariedCar]", modules: Sequence[Module], means: Means, count: Count
) -> "tuple[CompareRow, ...]":
    """The rows by module, then by variation, as named. Raises as `swept` does."""
    from boxfit.report.compare_rows import row_of, row_that_fails

    found = swept([one.car for one in cars], modules, means, count)
    rows: list[CompareRow] = []
    for (place, which), finding in sorted(found.items(), key=lambda one: (one[0][1], one[0][0])):
        varied, module = cars[place], modules[which]
        layout = layout_of(finding, varied.car, module)
        if layout is None:
            rows.append(row_that_fails(module, varied.variation, finding.reasons))
        else:
            rows.append(row_of(varied.car, module, layout, varied.variation))
    return tuple(rows)
