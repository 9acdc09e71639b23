"""layout.json in the shape of the contract, and back."""

import json
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boxfit.car import Car, PointMass
from boxfit.files.layout_back import layout_from_data
from boxfit.files.layout_json import layout_as_data, layout_bytes
from boxfit.files.module import read_module
from boxfit.layout import BayLayout, Layout, PlacedBox, PlacedModule, Tier, Weights
from boxfit.module import Module, stances
from tests.samples import MODULE, write_module
from tests.strategies import layouts, modules

CAR = Car("Dunlin 850", "dunlin-850", 2180.0, 1180.0, 1160.0, ())


@pytest.fixture
def heron(tmp_path: Path) -> Module:
    return read_module(write_module(tmp_path, MODULE))


def one_module_layout(heron: Module) -> Layout:
    placed = PlacedModule(stances(heron)[0], (0.1 + 0.2, -1e-9, 10.0))
    box = PlacedBox((0.0, -5.0, 4.5), (365.0, 156.0, 160.0), (Tier(10.0, 138.0, (placed,)),))
    bays = (BayLayout("front bay", (box,)), BayLayout("rear bay", ()))
    weights = Weights(11.6, 5.25, 300.0, 310.0, 610.0, 0.4918032786885246, 0.5, (-1107.0, 0.0, None))
    return Layout(
        "Dunlin 850", "Heron 44", 1, 1, 1, 2.2, 1, True, False, bays, weights, ("rear bay: too low",)
    )


def test_the_file_line_by_line(heron: Module) -> None:
    text = layout_bytes(one_module_layout(heron)).decode()
    assert text.startswith('{\n  "car": "Dunlin 850",\n  "module": "Heron 44",\n  "count": 1,\n')
    assert text.endswith('  "notes": [\n    "rear bay: too low"\n  ]\n}\n')
    data = json.loads(text)
    assert ", ".join(data) == (
        "car, module, count, series, parallel, energy, bound, proven, target_met, "
        "bays, weights, alternatives, notes"
    )
    assert data["bays"] == [
        {
            "name": "front bay",
            "boxes": [
                {
                    "outside": {"low": [0, -5, 4.5], "high": [365, 156, 160]},
                    "corners": 4,
                    "modules": [
                        {
                            "low": [0.3, 0, 10],
                            "high": [355.3, 151, 118],
                            "up": "height",
                            "length_along": "x",
                            "faces": {"x": "front", "y": "left", "z": "top"},
                        }
                    ],
                    "tiers": [{"stands_on": 10, "height": 138, "count": 1}],
                }
            ],
        },
        {"name": "rear bay", "boxes": []},
    ]
    assert data["weights"] == {
        "front_axle": 300,
        "rear_axle": 310,
        "gross": 610,
        "front_share": 0.491803,
        "left_share": 0.5,
        "centre_of_mass": [-1107, 0, None],
        "modules": 11.6,
        "boxes": 5.25,
    }
    assert (data["alternatives"], data["proven"], data["target_met"]) == ([], True, False)
    assert "-0.0" not in text


def test_weights_not_known_are_null(heron: Module) -> None:
    layout = Layout("a", heron.name, 0, 0, 0, 0.0, 0, True, True, (), Weights(0.0, 0.0))
    weights = layout_as_data(layout)["weights"]
    assert isinstance(weights, dict)
    assert list(weights.values()) == [None, None, None, None, None, None, 0.0, 0.0]


@settings(max_examples=50, deadline=None)
@given(data=st.data())
def test_written_and_read_back_it_is_the_same(data: st.DataObject) -> None:
    module = data.draw(modules())
    layout = data.draw(layouts(module))
    held = layout_bytes(layout)
    again = layout_from_data(json.loads(held), CAR, module)
    assert again == layout
    assert layout_bytes(again) == held


def test_what_was_kept_is_told_only_where_something_was(heron: Module) -> None:
    plain = one_module_layout(heron)
    assert b"reserve" not in layout_bytes(plain)
    kept = replace(plain, reserve=(PointMass("link cables", 9.1, (-1224.5, 66.2, 634.9)),))
    held = json.loads(layout_bytes(kept))
    assert held["reserve"] == [{"name": "link cables", "mass": 9.1, "at": [-1224.5, 66.2, 634.9]}]
    assert layout_from_data(held, CAR, heron).reserve == kept.reserve


def test_a_layout_of_another_module_is_refused(heron: Module) -> None:
    data = layout_as_data(one_module_layout(heron))
    with pytest.raises(ValueError, match="a layout of Avocet in Dunlin 850, not of Heron 44 in Dunlin 850"):
        layout_from_data({**data, "module": "Avocet"}, CAR, heron)
    turned = json.loads(json.dumps(data).replace('"z": "top"', '"z": "front"'))
    with pytest.raises(ValueError, match="Heron 44 cannot stand with height up"):
        layout_from_data(turned, CAR, heron)
    short = json.loads(json.dumps(data).replace('"count": 1}', '"count": 0}'))
    with pytest.raises(ValueError, match="the tiers count other than the 1 modules listed"):
        layout_from_data(short, CAR, heron)
