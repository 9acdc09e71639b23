"""A car of one bay with no allowance at all, as files, and the real command run on it. All invented."""

import json
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from typer.testing import CliRunner

from boxfit.cli import app
from boxfit.files.together import read_together
from boxfit.jobs import laid_out as jobs_laid_out
from boxfit.jobs import write_layout

ROOT = Path(__file__).parents[2]
UNIT = 10.0
"""Millimetres for one unit of an instance."""

CAR = """name = "Hold"
bays = ["hold.toml"]
wheelbase = 2000.0
track = {{ front = 1200.0, rear = 1200.0 }}

[box]
material = "aluminium-5754"
process = "welded"
shape = "rectangular"
thickness = 0.0
bend_radius = 0.0
flange = 0.0
lid_thickness = 0.0
clearance = 0.0
liner = 0.0
gap = 0.0
headroom = 0.0
tiers = {tiers}
boxes = {boxes}
"""
BAY = """name = "hold"

[survey]
kind = "prism"
tolerance = 0.0
outline = [[0.0, 0.0], [{x}, 0.0], [{x}, {y}], [0.0, {y}]]
floor = 0.0
top = {z}
"""
PIECE = """name = "Piece"
size = {{ length = {a}, width = {b}, height = {c} }}
mass = 1.0
energy = 1.0
capacity = 10.0
voltage = {{ empty = 3.0, nominal = 3.6, full = 4.2 }}
up = {up}
spacing = 0.0
"""


@dataclass(frozen=True)
class Hold:
    """A room and a piece to be counted in it, both [units]; upright only where no other way is allowed."""

    room: tuple[int, int, int]
    piece: tuple[int, int, int]
    tiers: int = 1
    boxes: int = 1
    every_way_up: bool = False

    def write(self, folder: Path) -> list[str]:
        """The files of car, bay and module; the words after `boxfit` that lay them out."""
        car = folder / "hold"
        car.mkdir()
        x, y, z = (side * UNIT for side in self.room)
        a, b, c = (side * UNIT for side in self.piece)
        up = '["height", "width", "length"]' if self.every_way_up else '["height"]'
        (car / "car.toml").write_text(CAR.format(tiers=self.tiers, boxes=self.boxes), encoding="utf-8")
        (car / "hold.toml").write_text(BAY.format(x=x, y=y, z=z), encoding="utf-8")
        (folder / "piece.toml").write_text(PIECE.format(a=a, b=b, c=c, up=up), encoding="utf-8")
        return ["layout", str(car), "--module", str(folder / "piece.toml"), "--out", str(folder / "out")]


def laid_out(hold: Hold, folder: Path) -> dict[str, Any]:
    """What layout.json says after the command has run in this process."""
    result = CliRunner().invoke(app, hold.write(folder))
    assert result.exit_code == 0, result.output
    return _written(folder)


def laid_out_untold(hold: Hold, folder: Path) -> dict[str, Any]:
    """The same by the job behind the command: files read, layout judged and written, nothing printed.

    Telling in which order hundreds of bricks are connected takes longer than finding their places.
    """
    _, car, _, module, *_ = hold.write(folder)
    the_car, (the_module,) = read_together(Path(car), [module])
    found = jobs_laid_out(the_car, the_module)
    write_layout(the_car, the_module, found, folder / "out" / "hold" / "piece")
    return _written(folder)


def laid_out_apart(hold: Hold, folder: Path) -> dict[str, Any]:
    """The same after the command has run in a process of its own."""
    command = [sys.executable, "-m", "boxfit.cli", *hold.write(folder)]
    subprocess.run(command, cwd=ROOT, check=True, capture_output=True)
    return _written(folder)


def _written(folder: Path) -> dict[str, Any]:
    found: dict[str, Any] = json.loads((folder / "out" / "hold" / "piece" / "layout.json").read_bytes())
    return found
