"""Modules side by side for one car."""

import csv
import io
from dataclasses import dataclass

from boxfit.car import Car
from boxfit.layout import Layout
from boxfit.module import Module
from boxfit.report.columns import listed, table
from boxfit.report.parts import boxes_of


@dataclass(frozen=True)
class Row:
    """One module's best layout; all but `module` and `reason` is None where nothing fits.

    Energy [kWh], masses [kg] of modules and boxes together, volts [V] of the whole string, `height_left`
    [mm] between the highest box and where the bay's own distance begins. `reason` says why nothing fits,
    or what the search noted.
    """

    module: str
    reason: str = ""
    count: int | None = None
    series: int | None = None
    parallel: int | None = None
    energy: float | None = None
    mass: float | None = None
    front_share: float | None = None
    volts_empty: float | None = None
    volts_full: float | None = None
    height_left: float | None = None
    proven: bool | None = None


HEADS = ("module", "count", "strings", "kWh", "kg", "front share", "V empty-full", "mm left above", "proven")
CSV_HEADS = (
    "module", "count", "series", "parallel", "energy", "mass", "front_share",
    "volts_empty", "volts_full", "height_left", "proven", "reason",
)  # fmt: skip


def row_of(car: Car, module: Module, layout: Layout | None, reason: str = "") -> Row:
    """The row of one module; `layout` is None where nothing fits."""
    if layout is None:
        return Row(module.name, reason)
    return Row(
        module=module.name,
        reason=reason,
        count=layout.count,
        series=layout.series,
        parallel=layout.parallel,
        energy=layout.energy,
        mass=layout.weights.modules + layout.weights.boxes,
        front_share=layout.weights.front_share,
        volts_empty=layout.series * module.voltage.empty,
        volts_full=layout.series * module.voltage.full,
        height_left=height_left(car, layout),
        proven=layout.proven,
    )


def height_left(car: Car, layout: Layout) -> float | None:
    """The least height [mm] between a box and where its bay's own distance begins; None without boxes."""
    free = [bay.room.top - bay.distance - box.high[2] for bay in car.bays for box in boxes_of(layout, bay)]
    return min(free, default=None)


def compare_table(rows: tuple[Row, ...]) -> str:
    """The rows as plain text in columns, in the order given; reasons and notes stand below."""
    lines = table([HEADS, *(_cells(row) for row in rows)])
    told = [f"{row.module}: {row.reason}" for row in rows if row.reason]
    return "\n".join([*lines, *([""] if told else []), *listed(told)]) + "\n"


def compare_csv(rows: tuple[Row, ...]) -> str:
    """The rows as comma-separated text, numbers to three places, empty where not known."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(CSV_HEADS)
    for row in rows:
        writer.writerow([_plain(getattr(row, head)) for head in CSV_HEADS])
    return text.getvalue()


def _cells(row: Row) -> tuple[str, ...]:
    strings = "-" if row.series is None else f"{row.series} x {row.parallel}"
    volts = "-" if row.volts_empty is None else f"{row.volts_empty:.0f}-{row.volts_full:.0f}"
    proven = "-" if row.proven is None else ("yes" if row.proven else "no")
    count = "-" if row.count is None else str(row.count)
    figures = (_figure(row.energy, 1), _figure(row.mass, 0), _figure(row.front_share, 3))
    return (row.module, count, strings, *figures, volts, _figure(row.height_left, 0), proven)


def _figure(value: float | None, places: int) -> str:
    return "-" if value is None else f"{value:.{places}f}"


def _plain(value: str | float | None) -> str:
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    return f"{round(value, 3):.10g}" if isinstance(value, float) else str(value)
