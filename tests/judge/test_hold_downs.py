"""The judge of hold-downs clears what is right, and finds each thing that is spoilt."""

from collections.abc import Callable
from copy import deepcopy
from functools import cache
from typing import Any

import pytest

from boxfit.box.fittings_json import fittings_as_data
from boxfit.box.whole import built_boxes
from boxfit.files.layout_json import layout_as_data
from boxfit.judge.finding import CODES
from boxfit.judge.hold_downs import judge_hold_downs
from tests.box.samples import HERON, car_and_layout

Data = dict[str, Any]


@cache
def clear() -> tuple[Data, Data]:
    """Fittings and layout of two bays with a box each, two tiers in both."""
    car, layout = car_and_layout()
    return fittings_as_data(built_boxes(car, HERON, layout)), layout_as_data(layout)


def told(spoil: Callable[[Data], object]) -> list[tuple[str, str]]:
    """Codes and places, once the first box's fittings are spoilt."""
    fittings, layout = deepcopy(clear())
    spoil(fittings["boxes"][0])
    car, _ = car_and_layout()
    return [(one.code, one.place) for one in judge_hold_downs(fittings, car, HERON, layout)]


def strip(box: Data, kind: str, number: int = 0) -> Data:
    """A strip of a box."""
    found: Data = [one for one in box["strips"] if one["kind"] == kind][number]
    return found


def moved(kind: str, axis: int, by: float) -> Callable[[Data], object]:
    """The first strip of a kind moved [mm]."""

    def spoil(box: Data) -> None:
        strip(box, kind)["start"][axis] += by

    return spoil


def without_bars(box: Data) -> None:
    """All bars taken out."""
    box["strips"] = [one for one in box["strips"] if one["kind"] != "hold-down"]


def test_what_is_right_is_clear() -> None:
    assert told(len) == []
    assert sum(one["kind"] == "hold-down" for one in clear()[0]["boxes"][0]["strips"]) == 4


@pytest.mark.parametrize(
    ("spoil", "code"),
    [
        pytest.param(moved("hold-down", 2, -3.0), "hold-down-meets", id="bar into the modules"),
        pytest.param(moved("hold-down", 1, 5.0), "hold-down-meets", id="bar into the room between strips"),
        pytest.param(moved("hold-down", 2, 20.0), "hold-down-outside", id="bar into the shelf"),
        pytest.param(moved("hold-down", 2, 6.0), "hold-down-missing", id="bar floats above the pad"),
        pytest.param(moved("hold-down", 1, -8.0), "hold-down-outside", id="bar into the wall"),
        pytest.param(moved("hold-down bracket", 1, 3.0), "hold-down-meets", id="block into its bar"),
        pytest.param(moved("hold-down bracket", 1, -3.0), "hold-down-outside", id="block into the wall"),
        pytest.param(moved("hold-down", 0, 200.0), "hold-down-missing", id="bar beside its modules"),
        pytest.param(
            lambda box: strip(box, "hold-down").update(width=150.0), "hold-down-missing", id="bar too short"
        ),
        pytest.param(without_bars, "hold-down-missing", id="no bars"),
    ],
)
def test_each_fault_is_found(spoil: Callable[[Data], object], code: str) -> None:
    codes = {found for found, _ in told(spoil)}
    assert code in codes
    assert codes <= set(CODES)


def test_a_module_without_its_bar_is_named_once_for_each_edge() -> None:
    """Without bars each of six modules lacks both edges."""
    found = [place for code, place in told(without_bars) if code == "hold-down-missing"]
    assert len(found) == 12
    assert len(set(found)) == 6


def test_what_is_told_not_to_be_held_is_let_pass() -> None:
    def told_so(box: Data) -> None:
        without_bars(box)
        box["notes"].append("front bay box 1, tier 1: modules 1-6 not held down: too low")

    assert told(told_so) == []


def test_other_boxes_than_those_laid_out_are_refused() -> None:
    fittings, layout = deepcopy(clear())
    car, _ = car_and_layout()
    fittings["boxes"].pop()
    assert [one.code for one in judge_hold_downs(fittings, car, HERON, layout)] == ["name"]
    assert {one.code for one in judge_hold_downs({}, car, HERON, layout)} == {"malformed"}
