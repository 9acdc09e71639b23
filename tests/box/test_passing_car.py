"""The demo car with boxes stiff enough to stay put at 20 g: every check passes, no module is lost."""

from pathlib import Path

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


def test_every_check_passes_and_no_module_is_lost() -> None:
    module = read_module(ROOT / "modules" / "heron-44.toml")
    car, plain = (read_car(ROOT / "bays" / name) for name in ("dunlin-850-stiff", "dunlin-850"))
    layout, usual = find_layout(car, module), find_layout(plain, module)
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
