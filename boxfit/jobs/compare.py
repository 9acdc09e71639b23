"""Every module in one car, side by side."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from boxfit.car import Car
from boxfit.jobs.going_on import NothingFitsError, Tell
from boxfit.jobs.laid_out import laid_out
from boxfit.module import Module

if TYPE_CHECKING:
    from boxfit.search.watch import Watch


def compared(car: Car, modules: Sequence[Module], watch: "Watch", tell: Tell) -> tuple[str, str]:
    """Every module in this car side by side: the table and the same as CSV."""
    from boxfit.report.compare import Row, compare_csv, compare_table, row_of

    rows: list[Row] = []
    for module in modules:
        tell(f"searching with {module.name}")
        try:
            rows.append(row_of(car, module, laid_out(car, module, watch)))
        except NothingFitsError as nothing:
            rows.append(row_of(car, module, None, " ".join(nothing.reasons)))
    return compare_table(tuple(rows)), compare_csv(tuple(rows))
