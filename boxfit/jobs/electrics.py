"""The electrics: worked out, judged, and written as data, lists and drawings."""

from pathlib import Path
from typing import TYPE_CHECKING

from boxfit.jobs.going_on import refuse_faulty
from boxfit.layout import Layout

if TYPE_CHECKING:
    from boxfit.box.wiring.figures import Electrics


def write_judged_electrics(found: "Electrics", layout: Layout, folder: Path) -> None:
    """electrics.json, judged. Raises JudgedWrongError."""
    from boxfit.box.wiring.electrics_json import electrics_as_data, electrics_bytes
    from boxfit.files.layout_json import layout_as_data
    from boxfit.judge.electrics import judge_electrics

    refuse_faulty(judge_electrics(electrics_as_data(found), found.car, found.module, layout_as_data(layout)))
    (folder / "electrics.json").write_bytes(electrics_bytes(found))


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
