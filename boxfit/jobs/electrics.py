"""The electrics: worked out, judged, and written as data, lists and drawings."""

from pathlib import Path
from typing import TYPE_CHECKING

from boxfit.car import Car
from boxfit.jobs.going_on import JudgedWrongError
from boxfit.layout import Layout
from boxfit.module import Module

if TYPE_CHECKING:
    from boxfit.box.whole import BuiltBox
    from boxfit.box.wiring.figures import Electrics


def judged_electrics(
    car: Car, module: Module, layout: Layout, built: "tuple[BuiltBox, ...]", folder: Path
) -> "Electrics":
    """All figures, and electrics.json with them. Raises JudgedWrongError."""
    from boxfit.box.wiring.electrics_json import electrics_as_data, electrics_bytes
    from boxfit.box.wiring.figures import electrics_of
    from boxfit.files.layout_json import layout_as_data
    from boxfit.judge.electrics import judge_electrics

    found = electrics_of(car, module, layout, built)
    if findings := judge_electrics(electrics_as_data(found), car, module, layout_as_data(layout)):
        raise JudgedWrongError(findings)
    (folder / "electrics.json").write_bytes(electrics_bytes(found))
    return found


def write_electrics(found: "Electrics", folder: Path, drawings: Path) -> list[str]:
    """strings.csv, electrics.csv, single-line diagram and plan of strings; returns the summary's block.

    Raises OSError where a file cannot be written.
    """
    from boxfit.report.electrics_text import electrics_csv, electrics_lines, strings_csv
    from boxfit.sheet.drawing.pdf import pdf_of
    from boxfit.sheet.drawing.svg import svg_of
    from boxfit.sheet.single_line import single_line_drawing
    from boxfit.sheet.strings_plan import strings_drawing

    (folder / "strings.csv").write_bytes(strings_csv(found).encode())
    (folder / "electrics.csv").write_bytes(electrics_csv(found).encode())
    for drawing in (single_line_drawing(found), strings_drawing(found)):
        (drawings / f"{drawing.stem}.pdf").write_bytes(pdf_of(drawing))
        for place, page in enumerate(drawing.pages, start=1):
            number = f"-{place}" if len(drawing.pages) > 1 else ""
            (drawings / f"{drawing.stem}{number}.svg").write_bytes(svg_of(page, drawing.stem).encode())
    return electrics_lines(found)
