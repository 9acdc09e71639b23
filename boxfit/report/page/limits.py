"""What the car allows beside what the layout takes of it."""

from collections.abc import Iterator
from pathlib import Path

from boxfit.car import Car
from boxfit.layout import Layout
from boxfit.module import Module
from boxfit.report.kept_text import proven_with
from boxfit.report.page.html import Cell, table
from boxfit.report.page.lists import WHEELS, rows_of
from boxfit.weight.demands import SHARE_STEP

HEADS = ("limit", "allowed", "found", "left")
PLATE = ("front axle", "rear axle", "gross")


def limits_table(car: Car, module: Module, layout: Layout, folder: Path) -> str:
    """Windows of voltage, target, maker's plate, and the most modules that could go in."""
    return table("What was asked and what was found", HEADS, [*_limits(car, module, layout, folder)])


def _limits(car: Car, module: Module, layout: Layout, folder: Path) -> Iterator[tuple[Cell, ...]]:
    empty, full = layout.series * module.voltage.empty, layout.series * module.voltage.full
    for window in car.windows:
        left = min(empty - window.low, window.high - full)
        yield (
            f"{window.name} voltage",
            f"{window.low:g} to {window.high:g} V",
            f"{empty:.1f} to {full:.1f} V",
            _left(left, f"{left:.1f} V"),
        )
    share, target = layout.weights.front_share, car.target
    if target and share is not None:
        left = target.tolerance - round(abs(share - target.front_share), SHARE_STEP)
        asked = f"{target.front_share:.3f} ± {target.tolerance:.3f}"
        what = "front share, as searched" + (" with what was kept" if layout.reserve else "")
        yield (what, asked, f"{share:.3f}", _left(left, f"{left:.3f}"))
    yield from _plate(car, folder)
    proven = ("proven best" if layout.proven else "not proven best") + proven_with(layout)
    yield ("modules", f"{layout.bound} at most", f"{layout.count}", proven)


def _plate(car: Car, folder: Path) -> Iterator[tuple[Cell, ...]]:
    """The maker's plate against the car with everything aboard, every part as built."""
    rows = rows_of(folder, WHEELS.file)
    for what, most in zip(
        PLATE, (car.limits.front_axle, car.limits.rear_axle, car.limits.gross), strict=True
    ):
        if most is None:
            continue
        if not rows:
            yield (what, f"{most:g} kg", "not known, the car was not weighed", "-")
            continue
        load = float(rows[-1][f"{what} [kg]"])
        yield (
            what,
            f"{most:g} kg",
            f"{load:.1f} kg, {rows[-1]['state']}",
            _left(most - load, f"{most - load:.1f} kg"),
        )


def _left(value: float, words: str) -> Cell:
    """What is left, marked and told where it is less than nothing."""
    return (f"{words}: OVER", "short") if value < -1e-9 else words
