"""The sums of retention, written and judged, and what is said of swelling and heat."""

from pathlib import Path
from typing import TYPE_CHECKING

from boxfit.car import Car
from boxfit.jobs.going_on import refuse_faulty
from boxfit.module import Module

if TYPE_CHECKING:
    from boxfit.box.whole import BuiltBox


def write_retention(car: Car, module: Module, built: "tuple[BuiltBox, ...]", folder: Path) -> list[str]:
    """retention.csv and retention-forces.csv beside mass.json; returns its blocks of the summary.

    Raises JudgedWrongError where what was written does not balance.
    """
    from boxfit.box.retention.whole import retention_of
    from boxfit.judge.retention import judge_retention
    from boxfit.report.heat_text import heat_lines
    from boxfit.report.retention_text import forces_csv, retention_csv, retention_lines
    from boxfit.retention.rules import rules_of

    retention = retention_of(rules_of(car), module, built)
    (folder / "retention.csv").write_bytes(retention_csv(retention).encode())
    (folder / "retention-forces.csv").write_bytes(forces_csv(retention).encode())
    refuse_faulty(judge_retention(folder))
    return [*retention_lines(retention), "", *heat_lines(built, module)]
