"""The demo car as it would have to be built to stay put at 20 g: every check passes, no module lost.

A variant for this test alone: what it takes is told in the keys that are changed here.
"""

import shutil
from pathlib import Path

import pytest

from boxfit.box.fittings_json import fittings_as_data
from boxfit.box.retention.whole import retention_of
from boxfit.box.whole import built_boxes
from boxfit.files.car import read_car
from boxfit.files.layout_json import layout_as_data
from boxfit.files.module import read_module
from boxfit.judge.fittings import judge_fittings
from boxfit.layout import Layout
from boxfit.retention.rules import rules_of
from boxfit.search.find import find_layout

ROOT = Path(__file__).parents[2]
BOX = {
    "material": '"aluminium-5083"',
    "process": '"welded"',
    "thickness": "5.0",
    "flange": "27.0",
}
MORE = """
foot_width = 120.0
foot_thickest = 10.0
doubler_thickest = 8.0
hold_down_material = "stainless-1.4301"
hold_down_thickness = 2.0
hold_down_bar_thickness = 4.0
"""
REAR = """[box]
liner = 2.5
headroom = 8.5
stiffening_depth = 27.0
stiffening_floor_depth = 10.0
stiffening_thickness = 10.0

[survey]"""
MOUNTS = {" 290.0, 300.0]": " 302.0, 300.0]", " -142.0, 300.0]": " -154.0, 300.0]"}
ENDS = {"[-432.0, ": "[-425.0, ", "[-175.0, ": "[-180.0, "}


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo car with other keys."""
    car = tmp_path_factory.mktemp("cars") / "dunlin-850"
    shutil.copytree(ROOT / "bays" / "dunlin-850", car)
    text = (car / "car.toml").read_text("utf-8")
    head, box = text.split("[box]", 1)
    lines = box.split("\n")
    for number, line in enumerate(lines):
        key = line.split(" = ")[0]
        if key in BOX:
            lines[number] = f"{key} = {BOX[key]}"
        if key == "gasket_thickness":
            lines[number] += MORE
    (car / "car.toml").write_text(f"{head}[box]" + "\n".join(lines), "utf-8")
    front = (car / "front.toml").read_text("utf-8")
    for old, new in {**MOUNTS, **ENDS}.items():
        assert front.count(old) == 2
        front = front.replace(old, new)
    (car / "front.toml").write_text(front, "utf-8")
    rear = (car / "rear.toml").read_text("utf-8")
    (car / "rear.toml").write_text(rear.replace("[survey]", REAR, 1), "utf-8")
    return car


def test_every_check_passes_and_no_module_is_lost(folder: Path) -> None:
    car, module = read_car(folder), read_module(ROOT / "modules" / "heron-44.toml")
    layout, usual = find_layout(car, module), find_layout(read_car(ROOT / "bays" / "dunlin-850"), module)
    assert isinstance(layout, Layout)
    assert isinstance(usual, Layout)
    assert layout.count == usual.count
    assert layout.target_met
    built = built_boxes(car, module, layout)
    uses = retention_of(rules_of(car), module, built).uses
    assert [f"{use.item}, {use.check}: {use.utilisation:.2f}" for use in uses if not use.passes] == []
    kinds = [strip.kind for one in built for strip in one.parts.fittings.strips]
    assert kinds.count("foot") == 8
    assert kinds.count("stiffening bar") > 0
    assert judge_fittings(fittings_as_data(built), car, module, layout_as_data(layout)) == ()
    notes = [note for one in built for note in one.parts.fittings.notes]
    assert not any("no room for the" in note for note in notes)
