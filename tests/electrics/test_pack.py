"""The pack's own figures, by hand for an invented module."""

from dataclasses import replace

import pytest

from boxfit.car import Car, Window
from boxfit.electrics.pack import amperes, box_energies, insulation, split_of, volts, window_uses
from boxfit.electrics.strings import Pack
from boxfit.module import Current, Module, Voltage

HERON = Module(
    name="Heron 44",
    stem="heron-44",
    length=355.0,
    width=151.0,
    height=108.0,
    mass=11.6,
    energy=2.2,
    capacity=50.0,
    voltage=Voltage(33.0, 44.0, 50.4),
    up=("height",),
    spacing=2.0,
    current=Current(100.0, 250.0),
)


def test_three_in_series_and_three_beside() -> None:
    found = amperes(HERON, Pack(3, 3))
    assert found is not None
    assert (found.continuous, found.peak, found.module_peak) == (300.0, 750.0, 250.0)
    assert volts(HERON, 3).full == pytest.approx(151.2)


def test_no_current_told_is_no_current_reckoned() -> None:
    assert amperes(replace(HERON, current=None), Pack(3, 3)) is None


@pytest.mark.parametrize(("series", "before", "after"), [(1, 1, 0), (3, 2, 1), (6, 3, 3)])
def test_the_disconnect_halves_a_string(series: int, before: int, after: int) -> None:
    found = split_of(HERON, series)
    assert (found.before, found.after) == (before, after)
    assert max(found.volts_before, found.volts_after) == pytest.approx(before * 50.4)


def test_what_the_voltage_asks_for() -> None:
    """151.2 V: 15.1 and 75.6 kilohm (R100); creepage row 160 V, degree 3, group III: 2.5, twice that 5.0."""
    found = insulation(151.2)
    assert found.class_b
    assert (found.isolation, found.isolation_together) == pytest.approx((15120.0, 75600.0))
    assert (found.creepage, found.creepage_reinforced, found.clearance) == (2.5, 5.0, 1.5)


def test_windows_tell_what_is_left() -> None:
    car = Car("c", "c", 2000.0, 1200.0, 1200.0, (), windows=(Window("inverter", 80.0, 160.0),))
    (use,) = window_uses(car, volts(HERON, 3))
    assert (use.left_below, use.left_above) == pytest.approx((19.0, 8.8))


def test_energy_by_box() -> None:
    assert box_energies(HERON, (3, 6)) == pytest.approx((6.6, 13.2))
