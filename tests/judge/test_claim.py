"""Data of any kind gives findings, never an error."""

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boxfit.judge.finding import CODES
from boxfit.judge.layout import judge_layout
from tests.judge.samples import CAR, MODULE, layout
from tests.strategies import junk


def paths(data: Any) -> list[tuple[Any, ...]]:
    """Every place in the data, as keys and numbers from the top."""
    keys = list(data) if isinstance(data, dict) else list(range(len(data))) if isinstance(data, list) else []
    return [(key, *rest) for key in keys for rest in [(), *paths(data[key])]]


def replaced(path: tuple[Any, ...], value: object) -> dict[str, Any]:
    data = layout()
    inner: Any = data
    for key in path[:-1]:
        inner = inner[key]
    inner[path[-1]] = value
    return data


@settings(deadline=None)
@given(st.sampled_from(paths(layout())), junk)
def test_any_value_anywhere(path: tuple[Any, ...], value: object) -> None:
    findings = judge_layout(replaced(path, value), CAR, MODULE)
    assert {finding.code for finding in findings} <= set(CODES)


@settings(deadline=None)
@given(junk)
def test_anything_for_a_layout(value: object) -> None:
    data = value if isinstance(value, dict) else {"car": value}
    assert {finding.code for finding in judge_layout(data, CAR, MODULE)} == {"malformed"}


@pytest.mark.parametrize(
    ("path", "value", "place"),
    [
        (("bays", 0, "boxes", 0, "outside", "low", 1), "x", "bays.0.boxes.0.outside.low.1"),
        (("bays", 0, "boxes", 0, "modules"), [], "bays.0.boxes.0.modules"),
        (("bays", 0, "boxes", 0, "modules", 2, "up"), "depth", "bays.0.boxes.0.modules.2.up"),
        (("bays", 0, "boxes", 0, "outside", "low"), [0.0, 500.0, 0.0], "bays.0.boxes.0.outside"),
        (("proven",), 1, "proven"),
        (("energy",), float("nan"), "energy"),
    ],
)
def test_place_names_the_key(path: tuple[Any, ...], value: object, place: str) -> None:
    findings = judge_layout(replaced(path, value), CAR, MODULE)
    assert [(finding.code, finding.place) for finding in findings] == [("malformed", place)]
