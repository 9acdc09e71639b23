"""The command line answers at once, and the main job is done soon after its tools have loaded."""

import shlex
from pathlib import Path

from tests.benchmarks.measure import ROOT, Measured, bare_import, best_of, fresh_python, told

BOXFIT = ("-c", "from boxfit.cli import main; main()")


def main_job() -> list[str]:
    """The words after `boxfit` of the build command in the README's first block of commands."""
    block = (ROOT / "README.md").read_text(encoding="utf-8").split("```sh\n", 1)[1].split("```", 1)[0]
    command = block.replace("\\\n", " ").partition("boxfit build")[2].splitlines()[0].partition("&&")[0]
    return ["build", *shlex.split(command, comments=True)]


def test_help() -> None:
    """The help page within 3 times a bare import of typer."""
    pages: set[str] = set()
    ours = best_of(5, lambda: pages.add(fresh_python([*BOXFIT, "--help"])))
    assert all("build" in page for page in pages)
    row = Measured("boxfit --help", "import typer", bare_import("typer"), ours, 3.0)
    assert told(row) <= row.aim


def test_main_job(tmp_path: Path) -> None:
    """The README's build, every file written and judged, within 12 times a bare import of cadquery.

    The aim was 4 while a build wrote a layout, solids and pictures. It is 12 since each build also makes all
    that the shops ask for: fittings, flats, stock sheets, lists, drawings as PDF and DXF, templates and
    printed aids.
    """
    command = [*BOXFIT, *main_job(), "--out", str(tmp_path)]
    ours = best_of(3, lambda: fresh_python(command))
    row = Measured("the README's build", "import cadquery", bare_import("cadquery"), ours, 12.0)
    assert list(tmp_path.rglob("layout.json"))
    assert told(row) <= row.aim
