"""Pins and lifting against what is printed: EN 1993-1-8 tables 3.9 and 3.10 on public copies.

The working coefficient of 4 of directive 2006/42/EC is from memory, as its text was not found to be read.
"""

import pytest

from boxfit.standards.lifting import (
    CARRYING,
    HOLE,
    PIN,
    WORKING_COEFFICIENT,
    pin_bearing,
    pin_torn_out,
    upright_share,
)


def test_bearing_of_a_pin_is_one_and_a_half_times_its_face() -> None:
    """Fb,Rd = 1.5 t d fy / gamma M0, here with 1.1 for gamma M0: 1.5 x 10 x 20 x 275 / 1.1."""
    assert pin_bearing(20.0, 10.0, 275.0) == pytest.approx(75000.0)


@pytest.mark.parametrize("force", [5000.0, 20000.0, 50000.0])
def test_least_ends_of_table_3_9_bear_just_their_force(force: float) -> None:
    """a = F g / (2 t fy) + 2 d0 / 3 and c = F g / (2 t fy) + d0 / 3, each by itself and both together."""
    thick, yields, hole = 10.0, 235.0, 22.0
    strip = force * 1.1 / (2.0 * thick * yields)
    ahead, beside = strip + 2.0 * hole / 3.0, strip + hole / 3.0
    for one, other in ((ahead, beside), (ahead, 1e3), (1e3, beside)):
        assert pin_torn_out(one, other, hole, (thick, yields)) == pytest.approx(force)


def test_type_b_of_the_table_is_what_type_a_bears() -> None:
    """Table 3.9 type B: t >= 0.7 sqrt(F g / fy) and d0 = 2.5 t, 2.5 d0 wide, 1.6 d0 from middle to end.

    Type A counts from the hole's edge; the two agree within 3 %.
    """
    thick, yields = 10.0, 235.0
    hole = 2.5 * thick
    force = (thick / 0.7) ** 2 * yields / 1.1
    found = pin_torn_out(1.6 * hole - hole / 2.0, 1.25 * hole - hole / 2.0, hole, (thick, yields))
    assert found == pytest.approx(force, rel=0.03)


def test_half_the_mass_four_times_over() -> None:
    assert (WORKING_COEFFICIENT, CARRYING, HOLE, PIN) == (4.0, 2, 14.0, 12.0)
    assert upright_share(100.0) == pytest.approx(100.0 / 2.0 * 9.81 * 4.0)
