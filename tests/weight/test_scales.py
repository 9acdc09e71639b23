"""Readings against the forecast: errors put in on purpose are named."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxfit.car import USUAL_SCALE
from boxfit.weight.corners import Corners, corners_of
from boxfit.weight.scales import Item, given_as, weighing
from tests.weight.test_corners import CAR, WEIGHED

ITEMS = (
    Item("front box", 45.0, (-250.0, 0.0, 450.0)),
    Item("rear box", 80.0, (-1700.0, -30.0, 520.0)),
    Item("motor", 54.0, (-310.0, 0.0, 360.0)),
)
FORECAST = Corners(190.0, 188.0, 172.0, 176.0)


def read_with(*extra: tuple[float, tuple[float, float, float]]) -> Corners:
    more = corners_of(CAR, extra)
    return Corners(*(one + two for one, two in zip(FORECAST.each, more.each, strict=True)))


def test_readings_as_forecast_need_no_hint() -> None:
    found = weighing(CAR, FORECAST, Corners(190.5, 187.6, 172.9, 175.2), ITEMS)
    assert found.agrees
    assert found.hints == ()
    assert found.at is None


def test_a_heavy_box_is_named_with_its_error() -> None:
    found = weighing(CAR, FORECAST, read_with((12.0, (-1700.0, -30.0, 0.0))), ITEMS)
    assert not found.agrees
    first = found.hints[0]
    assert (first.item, first.error) == ("rear box", "heavier by")
    assert first.figure == pytest.approx(12.0)
    assert first.left == pytest.approx(0.0, abs=1e-9)
    assert found.at == pytest.approx((-1700.0, -30.0))


def test_a_box_put_elsewhere_is_named_with_its_distance() -> None:
    moved = read_with((-80.0, (-1700.0, -30.0, 0.0)), (80.0, (-1550.0, -30.0, 0.0)))
    first = weighing(CAR, FORECAST, moved, ITEMS).hints[0]
    assert (first.item, first.error) == ("rear box", "further forward by")
    assert first.figure == pytest.approx(150.0)


def test_sideways_too() -> None:
    moved = read_with((-80.0, (-1700.0, -30.0, 0.0)), (80.0, (-1700.0, -130.0, 0.0)))
    first = weighing(CAR, FORECAST, moved, ITEMS).hints[0]
    assert (first.item, first.error, round(first.figure)) == ("rear box", "further right by", 100)


@given(st.tuples(*(st.floats(-30, 30) for _ in range(4))))
def test_hints_explain_more_than_nothing(off: tuple[float, ...]) -> None:
    read = Corners(*(one + two for one, two in zip(FORECAST.each, off, strict=True)))
    found = weighing(CAR, FORECAST, read, ITEMS)
    worst = sum(one * one for one in off) ** 0.5
    assert all(0.0 <= hint.left < worst + 1e-9 and hint.figure >= 0.0 for hint in found.hints)
    assert [hint.left for hint in found.hints] == sorted(hint.left for hint in found.hints)
    assert found.agrees == all(abs(wheel) <= 2.0 * USUAL_SCALE for wheel in found.off.each)


@pytest.mark.parametrize(("amount", "pair"), [(15.0, "front left and rear right"), (-15.0, "front right")])
def test_a_twisted_car_is_no_mass(amount: float, pair: str) -> None:
    """By hand: what the front's track of 1180 takes off one side, the rear's of 1160 gives back."""
    rear = amount * 1180.0 / 1160.0
    wheels = zip(FORECAST.each, (amount, -amount, -rear, rear), strict=True)
    found = weighing(CAR, FORECAST, Corners(*(one + two for one, two in wheels)), ITEMS)
    first = found.hints[0]
    assert (first.item, first.unit, round(first.figure, 6)) == ("springs or an uneven floor", "kg", 15.0)
    assert pair in first.error
    assert found.at is None


def test_scales_that_are_further_out_agree_with_more() -> None:
    rough = replace(CAR, weighed=replace(WEIGHED, scale_error=3.0))
    read = Corners(195.5, 188.0, 172.0, 176.0)
    assert weighing(rough, FORECAST, read, ITEMS).agrees
    assert not weighing(CAR, FORECAST, read, ITEMS).agrees


def test_wheels_given_in_another_order_are_noticed() -> None:
    """Rear before front: the first two readings are the rear wheels'."""
    forecast = Corners(210.0, 190.0, 150.0, 120.0)
    assert given_as(forecast, Corners(151.0, 120.0, 209.0, 191.0)) == (2, 3, 0, 1)
    assert given_as(forecast, Corners(211.0, 189.0, 151.0, 119.0)) is None
    assert given_as(forecast, Corners(230.0, 190.0, 150.0, 120.0)) is None
