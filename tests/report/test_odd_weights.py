"""Odd weights: each is told where it is, and only there."""

from dataclasses import replace

import pytest

from boxfit.car import Car, CornerWeights, Limits, RaisedAxle
from boxfit.report.check_text import check_text
from boxfit.report.odd_weights import odd_weights
from tests.report.samples import roadster

CAR = roadster()[0]


def told(car: Car) -> list[str]:
    return list(odd_weights(car))


def test_a_sound_car_is_not_odd() -> None:
    assert told(CAR) == []
    assert told(replace(CAR, weighed=None)) == []


@pytest.mark.parametrize("twist", [-18.0, 18.0])
def test_a_twisted_car_is_told(twist: float) -> None:
    read = CornerWeights(128.0 + twist, 126.5 - twist, 109.0 - twist, 111.5 + twist, 420.0)
    (line,) = told(replace(CAR, weighed=read))
    assert line.startswith("car.toml: weighed: front right and rear left carry 0.")
    little = CornerWeights(
        *(128.0 + twist / 6, 126.5 - twist / 6, 109.0 - twist / 6, 111.5 + twist / 6), 420.0
    )
    assert told(replace(CAR, weighed=little)) == []


def test_a_low_raise_is_told_with_its_error() -> None:
    raised = RaisedAxle("front", 200.0, 223.0, 280.0)
    (line,) = told(replace(CAR, weighed=CornerWeights(128.0, 126.5, 109.0, 111.5, 400.0, raised)))
    assert "weighed.raised: the height may be out by 100 mm; raise the axle higher" in line
    high = replace(raised, height=600.0)
    assert told(replace(CAR, weighed=CornerWeights(128.0, 126.5, 109.0, 111.5, 400.0, high))) == []


def test_a_plate_that_is_full_without_any_pack_is_told() -> None:
    """By hand: 475 kg and a motor of 54 with two people of 75 are 679 kg."""
    (line,) = told(replace(CAR, limits=Limits(gross=670.0)))
    assert line == (
        "car.toml: limits.gross: 670 kg leave nothing for a pack: with all that is fitted and carried "
        "there are 679.0 kg on it already"
    )
    assert told(replace(CAR, limits=Limits(gross=680.0))) == []
    (axle,) = told(replace(CAR, limits=Limits(rear_axle=300.0)))
    assert axle.startswith("car.toml: limits.rear_axle: 300 kg leave nothing")


def test_check_tells_the_height_and_its_source() -> None:
    raised = RaisedAxle("front", 500.0, 227.7, 280.0)
    car = replace(CAR, weighed=CornerWeights(128.0, 126.5, 109.0, 111.5, 420.2, raised))
    words = " ".join(check_text(car).split())
    assert "weighed.raised: centre of mass 420 mm above ground, give or take 39" in words
    assert "raised-axle method, an open textbook" in words
