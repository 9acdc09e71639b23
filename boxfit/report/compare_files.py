"""A comparison as files for other programs: one row to a line as CSV, and everything as JSON."""

import csv
import io
import json
from collections.abc import Sequence
from dataclasses import asdict

from boxfit.report.compare import how_counted
from boxfit.report.compare_order import weighed
from boxfit.report.compare_rows import CompareRow

_PLACES = 6
FIGURES = (
    "count", "series", "parallel", "energy", "mass", "energy_by_mass", "volts_empty", "volts_nominal",
    "volts_full", "front_share", "share_error", "target_met", "boxes", "corners", "height_left",
    "litres_left", "sheet_mass", "cost", "bound", "proven", "best",
)  # fmt: skip
"""The columns that every comparison has, after those of the changes."""


def compare_csv(rows: Sequence[CompareRow]) -> str:
    """The rows as comma-separated text, numbers to three places, empty where not known.

    A column for each key that is varied comes after the module, one for each limit after the figures.
    """
    keys = tuple(dict.fromkeys(key for row in rows for key, _ in row.variation))
    limits = tuple(dict.fromkeys((one.limit, one.unit) for row in rows for one in row.margins))
    heads = [f"left to {limit} [{unit or '-'}]" for limit, unit in limits]
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(["module", "stem", *keys, *FIGURES, *heads, "reason", "notes"])
    for row in rows:
        changes = dict(row.variation)
        left = {(one.limit, one.unit): one.left for one in row.margins}
        cells: list[object] = [changes.get(key) for key in keys]
        cells += [getattr(row, name) for name in FIGURES]
        cells += [left.get(limit) for limit in limits]
        writer.writerow([row.module, row.stem, *map(_plain, cells), row.reason, " ".join(row.notes)])
    return text.getvalue()


def compare_json(car: str, rows: Sequence[CompareRow]) -> str:
    """The rows of a car with everything known of them, keys as in `CompareRow`, and how it was counted."""
    names = weighed([row for row in rows if row.fits and row.target_met])
    told = {
        "car": car,
        "weighed": list(names),
        "counted": how_counted(rows),
        "rows": [_tidy(asdict(row)) for row in rows],
    }
    return json.dumps(told, indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def _plain(value: object) -> str:
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    return f"{round(value, 3) + 0.0:.10g}" if isinstance(value, float) else str(value)


def _tidy(value: object) -> object:
    """Figures rounded to a millionth, in whatever they stand, and zero without a sign."""
    if isinstance(value, float):
        return round(value, _PLACES) + 0.0
    if isinstance(value, dict):
        return {key: _tidy(one) for key, one in value.items()}
    return [_tidy(one) for one in value] if isinstance(value, tuple | list) else value
