"""Readings against the forecast: errors put in on purpose are named."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxfit.weight.corners import Corners, corners_of
from boxfit.weight.scales import SCALE, Item, weighing
from tests.weight.test_corners import CAR

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
    assert found.agrees == all(abs(wheel) <= SCALE for wheel in found.off.each)
