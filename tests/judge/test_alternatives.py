"""One alternative judged in full, against the car it belongs to."""

from collections.abc import Callable
from copy import deepcopy
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boxfit.bay import Block, Keepout
from boxfit.car import Car
from boxfit.judge.finding import CODES
from boxfit.judge.layout import judge_alternative, judge_layout
from tests.judge.samples import BAY, CAR, MODULE, Data, layout
from tests.judge.stepped import L_CAR, STEPPED, TUNNEL_CAR, l_layout, two_tiers
from tests.judge.test_claim import paths
from tests.strategies import junk


def as_alternative(data: Data) -> Data:
    """A layout as one of its own alternatives."""
    kept = {key: value for key, value in data.items() if key not in ("car", "module", "alternatives")}
    return {"what": "the same", "difference": "nothing", **kept}


def changed(car: Car, **changes: object) -> Car:
    return replace(car, bays=(replace(car.bays[0], **changes), *car.bays[1:]))  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("data", "car"),
    [(layout(), CAR), (l_layout(), L_CAR), (two_tiers(), TUNNEL_CAR)],
    ids=["plain", "L", "step"],
)
def test_clear_by_itself_and_in_its_layout(data: Data, car: Car) -> None:
    assert judge_alternative(as_alternative(data), car, MODULE) == ()
    assert judge_layout(data | {"alternatives": [as_alternative(data)] * 2}, car, MODULE) == ()


def test_without_a_keepout_it_is_clear_and_with_it_not() -> None:
    in_the_way = Keepout("shelf", Block((-300.0, -50.0, 300.0), (-280.0, 0.0, 310.0)), 13.0, negotiable=True)
    with_it = changed(CAR, keepouts=(*BAY.keepouts, in_the_way))
    one = as_alternative(layout())
    assert {finding.code for finding in judge_alternative(one, with_it, MODULE)} == {
        "keepout-clearance",
        "insertion",
    }
    assert judge_alternative(one, CAR, MODULE) == ()


def test_another_shape_is_judged_by_the_changed_car() -> None:
    plain = changed(L_CAR, box=replace(STEPPED, shape="rectangular"))
    one = as_alternative(l_layout())
    assert [finding.code for finding in judge_alternative(one, plain, MODULE)] == ["shape"]
    # the main layout's own car says nothing of it
    main = two_tiers() | {"alternatives": [one]}
    assert judge_layout(main, TUNNEL_CAR, MODULE) == ()


def test_equal_outlines_count_once_and_are_plain() -> None:
    data = two_tiers()
    told_box = data["bays"][0]["boxes"][0]
    told_box["tiers"][0]["outline"] = told_box["tiers"][1]["outline"]
    told_box["corners"] = 4
    for shape in ("stepped", "rectangular"):
        car = changed(TUNNEL_CAR, box=replace(STEPPED, shape=shape), keepouts=())
        assert judge_alternative(as_alternative(data), car, MODULE) == ()


def without(key: str) -> Callable[[Data], object]:
    return lambda one: one.pop(key)


def emptied(one: Data) -> None:
    one["difference"] = ""


def elsewhere(one: Data) -> None:
    one["bays"][0]["name"] = "roof"


def lighter(one: Data) -> None:
    one["weights"]["modules"] -= 1.0


@pytest.mark.parametrize(
    ("change", "code", "place"),
    [
        (without("what"), "malformed", "what"),
        (without("difference"), "malformed", "difference"),
        (emptied, "malformed", "difference"),
        (without("bays"), "malformed", "bays"),
        (elsewhere, "name", "bays"),
        (lighter, "weights", "modules"),
    ],
)
def test_what_is_wrong_is_told(change: Callable[[Data], object], code: str, place: str) -> None:
    one = deepcopy(as_alternative(l_layout()))
    change(one)
    assert [(finding.code, finding.place) for finding in judge_alternative(one, L_CAR, MODULE)] == [
        (code, place)
    ]


def test_a_malformed_alternative_makes_the_layout_malformed() -> None:
    one = as_alternative(l_layout())
    del one["difference"]
    findings = judge_layout(l_layout() | {"alternatives": [one]}, L_CAR, MODULE)
    assert [(finding.code, finding.place) for finding in findings] == [
        ("malformed", "alternatives.0.difference")
    ]


STEP = two_tiers() | {"alternatives": [as_alternative(l_layout())]}


@settings(deadline=None)
@given(st.sampled_from(paths(STEP)), junk)
def test_any_value_anywhere(path: tuple[object, ...], value: object) -> None:
    data = deepcopy(STEP)
    inner = data
    for key in path[:-1]:
        inner = inner[key]  # type: ignore[index]
    inner[path[-1]] = value  # type: ignore[index]
    assert {finding.code for finding in judge_layout(data, TUNNEL_CAR, MODULE)} <= set(CODES)


numbers = st.one_of(st.sampled_from([-710.5, -589.5, -488.5, -210.5, -129.5]), st.floats(-1e9, 1e9))


@settings(deadline=None)
@given(st.lists(st.tuples(numbers, numbers), max_size=9), st.integers(0, 1))
def test_any_outline(outline: list[tuple[float, float]], tier: int) -> None:
    data = two_tiers()
    data["bays"][0]["boxes"][0]["tiers"][tier]["outline"] = outline
    codes = {finding.code for finding in judge_layout(data, TUNNEL_CAR, MODULE)}
    assert codes <= set(CODES)
    told = two_tiers()["bays"][0]["boxes"][0]["tiers"][tier]["outline"]
    turned = [told[k:] + told[:k] for k in range(4)]
    assert (not codes) is ([list(corner) for corner in outline] in turned)
