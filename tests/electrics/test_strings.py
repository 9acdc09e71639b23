"""Whole strings inside every window, at empty and at full."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxfit.car import Car, Window
from boxfit.electrics.strings import Pack, packs, series_allowed
from boxfit.module import Module, Voltage


def car(*windows: Window) -> Car:
    return Car("Dunlin 850", "dunlin-850", 2180.0, 1180.0, 1160.0, (), windows=windows)


def module(empty: float, nominal: float, full: float) -> Module:
    volts = Voltage(empty, nominal, full)
    return Module("Heron", "heron", 355.0, 151.0, 108.0, 11.6, 2.2, 50.0, volts, ("height",), 2.0)


HERON = module(33.0, 44.0, 50.4)
INVERTER = Window("inverter", 80.0, 160.0)
CHARGER = Window("charger", 80.0, 140.0)


def test_windows_by_hand() -> None:
    # hand: 2 x 33 = 66 V is too low, 3 x 50.4 = 151.2 V fits, 4 x 50.4 = 201.6 V is too high
    assert series_allowed(car(INVERTER), HERON, 99) == (3,)
    assert series_allowed(car(INVERTER, CHARGER), HERON, 99) == ()
    assert series_allowed(car(), HERON, 4) == (1, 2, 3, 4)


def test_full_charge_decides_and_not_nominal() -> None:
    """Six of 57 V nominal are 342 V, but 403 V at full: over a 350 V limit. Common practice, no source."""
    plover = module(45.0, 57.0, 67.2)
    assert series_allowed(car(Window("inverter", 0.0, 350.0)), plover, 99) == (1, 2, 3, 4, 5)


def test_a_string_exactly_at_the_ends_of_a_window_fits() -> None:
    """Sums such as 3 x 0.1 carry the noise of binary fractions."""
    tenth = module(0.1, 0.15, 0.2)
    assert series_allowed(car(Window("inverter", 0.3, 0.6)), tenth, 9) == (3,)
    assert series_allowed(car(Window("inverter", 99.0, 151.2)), HERON, 9) == (3,)


def test_packs_largest_first_with_the_longest_string() -> None:
    wide = car(Window("inverter", 60.0, 210.0))  # hand: 2, 3 or 4 in series
    assert packs(wide, HERON, 9) == (
        Pack(3, 3), Pack(4, 2), Pack(3, 2), Pack(4, 1), Pack(3, 1), Pack(2, 1),
    )  # fmt: skip
    assert [pack.count for pack in packs(wide, HERON, 9)] == [9, 8, 6, 4, 3, 2]


def test_without_windows_one_string_of_any_length() -> None:
    assert packs(car(), HERON, 3) == (Pack(3, 1), Pack(2, 1), Pack(1, 1))
    assert packs(car(), HERON, 0) == ()


def test_no_string_where_none_is_allowed() -> None:
    assert packs(car(INVERTER, CHARGER), HERON, 99) == ()
    assert packs(car(INVERTER), HERON, 2) == ()


@given(st.integers(0, 60), st.integers(1, 400), st.integers(0, 400), st.integers(1, 60), st.integers(0, 20))
def test_every_pack_is_whole_strings_within_the_window(
    most: int, low: int, wide: int, empty: int, above: int
) -> None:
    window = Window("inverter", float(low), float(low + wide))
    one = module(float(empty), empty + above / 2, float(empty + above))
    found = packs(car(window), one, most)
    counts = [pack.count for pack in found]
    assert counts == sorted(set(counts), reverse=True)
    for pack in found:
        assert 1 <= pack.count <= most
        assert low <= pack.series * empty
        assert pack.series * (empty + above) <= low + wide
    allowed = [s for s in range(1, most + 1) if low <= s * empty and s * (empty + above) <= low + wide]
    assert set(counts) == {s * p for s in allowed for p in range(1, most // s + 1)}
    for pack in found:
        assert pack.series == max(s for s in allowed if pack.count % s == 0)


@pytest.mark.parametrize("parallel", [1, 2, 5])
def test_count_is_series_times_parallel(parallel: int) -> None:
    assert Pack(3, parallel).count == 3 * parallel
