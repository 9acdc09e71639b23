"""Copper cable: IEC 60228 class 5 as three makers print it, and a welding-cable table (facts, section 7)."""

import pytest

from boxfit.standards.conductors import (
    CONDUCTORS,
    TEMPERATURE_COEFFICIENT,
    Conductor,
    conductor_for,
    resistance,
)

PLAIN = {16: 1.21, 25: 0.780, 35: 0.554, 50: 0.386, 70: 0.272, 95: 0.206, 120: 0.161}
TINNED = {16: 1.24, 25: 0.795, 35: 0.565, 50: 0.393, 70: 0.277, 95: 0.210, 120: 0.164}
RATINGS = {16: 117, 25: 157, 35: 196, 50: 248, 70: 309, 95: 374, 120: None}
"""IS 9857:1990, heat-resisting cover, 100 % duty; one maker's page."""


@pytest.mark.parametrize("conductor", CONDUCTORS, ids=lambda one: f"{one.section:g}")
def test_tables(conductor: Conductor) -> None:
    section = int(conductor.section)
    told = (conductor.plain, conductor.tinned, conductor.rating)
    assert told == (PLAIN[section], TINNED[section], RATINGS[section])


def test_all_sections_are_there() -> None:
    assert [one.section for one in CONDUCTORS] == sorted(PLAIN)


def test_warm_copper() -> None:
    """A maker's correction to 20 C of 0.833 at 70 C: R70 = 1.2005 R20, ours 1.1965 (within 0.5 %)."""
    one = CONDUCTORS[0]
    assert resistance(one, 1000.0, 70.0) / resistance(one, 1000.0) == pytest.approx(1.0 / 0.833, rel=0.005)
    assert TEMPERATURE_COEFFICIENT == 0.00393


def test_drop_and_heat_worked_out() -> None:
    """70 mm2, a loop of 10 m, 200 A: 0.544 V and 108.8 W at 20 C."""
    seventy = next(one for one in CONDUCTORS if one.section == 70.0)
    ohm = resistance(seventy, 10_000.0)
    assert (200.0 * ohm, 200.0**2 * ohm) == pytest.approx((0.544, 108.8))


def test_the_thinnest_that_is_rated() -> None:
    assert [conductor_for(amperes) for amperes in (117.0, 117.1, 375.0)] == [
        CONDUCTORS[0],
        CONDUCTORS[1],
        None,
    ]
