"""A small valid car folder and module file to write, change and spoil. Everything in them is invented."""

import json
from collections.abc import Mapping
from pathlib import Path

CAR = """\
name = "Dunlin 850"
bays = ["front.toml", "rear.toml"]
wheelbase = 2180.0
track = { front = 1180.0, rear = 1160.0 }

[weighed]
front_left = 128.0
front_right = 126.5
rear_left = 109.0
rear_right = 111.5
height_of_mass = 420.0

[[fitted]]
name = "drive motor"
mass = 54.0
at = [-310.0, 0.0, 360.0]

[[carried]]
name = "driver"
mass = 75.0
at = [-1240.0, -330.0, 480.0]

[[carried]]
name = "luggage"
mass = 20
at = [-1900.0, 0.0, 600.0]

[target]
front_share = 0.50
tolerance = 0.02
with = ["driver"]

[limits]
front_axle = 480.0
rear_axle = 520.0
gross = 950.0

[electrics]
inverter_voltage = [80.0, 160.0]
charger_voltage = [80.0, 170.0]

[box]
material = "aluminium-5754"
process = "folded"
shape = "rectangular"
thickness = 2.5
bend_radius = 2.5
flange = 22.0
lid_thickness = 2.0
clearance = 10.0
liner = 3.0
gap = 4.0
headroom = 5.0
tiers = 2
boxes = 1
"""

FRONT = """\
name = "front bay"

[survey]
tolerance = 3.0
kind = "prism"
outline = [[250.0, -400.0], [250.0, 400.0], [-420.0, 340.0], [-420.0, -340.0]]
floor = 260.0
top = 640.0

[opening]
way = "up"

[[keepout]]
name = "steering column"
kind = "cylinder"
from = [200.0, 310.0, 300.0]
to = [-420.0, 330.0, 520.0]
diameter = 60.0
clearance = 15.0
negotiable = false
"""

REAR = """\
name = "rear bay"

[survey]
tolerance = 4.0
kind = "block"
low = [-2500.0, -400.0, 300.0]
high = [-2000.0, 400.0, 600.0]

[[keepout]]
name = "hinge"
kind = "block"
low = [-2050.0, 350.0, 560.0]
high = [-2000.0, 400.0, 600.0]

[box]
clearance = 12.0
"""

MODULE = """\
name = "Heron 44"
size = { length = 355.0, width = 151.0, height = 108.0 }
mass = 11.6
energy = 2.2
capacity = 50.0
voltage = { empty = 33.0, nominal = 44.0, full = 50.4 }
current = { continuous = 100.0, peak = 250.0 }
up = ["height"]
spacing = 2.0
room = { top = 30.0 }
"""

CAR_FILES = {"car.toml": CAR, "front.toml": FRONT, "rear.toml": REAR}


def write_car(root: Path, files: Mapping[str, str] = CAR_FILES) -> Path:
    """Writes root/bays/dunlin-850 and root/modules/heron-44.toml; returns the car folder."""
    folder = root / "bays" / "dunlin-850"
    folder.mkdir(parents=True)
    for name, text in files.items():
        (folder / name).write_text(text, encoding="utf-8")
    write_module(root / "modules", MODULE)
    return folder


def write_module(folder: Path, text: str) -> Path:
    """Writes heron-44.toml into the folder; returns its path."""
    folder.mkdir(exist_ok=True)
    path = folder / "heron-44.toml"
    path.write_text(text, encoding="utf-8")
    return path


def changed(text: str, old: str, new: str) -> str:
    """The text with `old`, which must be there, replaced once."""
    assert old in text, f"{old!r} is not in the sample"
    return text.replace(old, new, 1)


def toml_text(table: Mapping[str, object]) -> str:
    """The table as a TOML file, inner tables between braces."""
    return "".join(f"{_quoted(key)} = {_value(value)}\n" for key, value in table.items())


def _value(value: object) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return _quoted(value)
    if isinstance(value, list):
        return f"[{', '.join(_value(each) for each in value)}]"
    if isinstance(value, dict):
        return f"{{ {', '.join(f'{_quoted(key)} = {_value(each)}' for key, each in value.items())} }}"
    return repr(value)


def _quoted(text: str) -> str:
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")
