"""Stiffened panels by hand, and what must always hold of them."""

from dataclasses import replace
from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxfit.retention.panel import Panel
from boxfit.retention.stiffened import (
    MOST_GAP,
    STITCH,
    STITCH_GAP,
    Stiffened,
    ribbed,
    stitches,
    uses_of_stiffened,
)
from boxfit.retention.use import Use
from boxfit.standards.strengths import STRENGTHS

ALUMINIUM = STRENGTHS["aluminium-5754"]
WALL = Panel("left wall", (400.0, 200.0), 2.5, ALUMINIUM)
ONE = Stiffened(WALL, 200.0, (100.0,) * 4, 20.0, 5.0, 190.0, 5.0, "box.stiffening_depth")
PRESSURE = 0.05


def used(one: Stiffened, check: str, pressure: float = PRESSURE) -> Use:
    return next(use for use in uses_of_stiffened(one, "it", "left", pressure) if check in use.check)


def test_a_bar_by_hand() -> None:
    """M = 0.05 x 100 x 200^2 / 8 = 25000 N mm; 15 thicknesses x sqrt(235/80 x 70/210) each side: 79.2 mm."""
    wide = 5.0 + 2.0 * 15.0 * sqrt(235.0 / 80.0 * 70.0 / 210.0) * 2.5
    assert ONE.with_bar == pytest.approx(wide)
    sheet, bar = wide * 2.5, 100.0
    centre = (sheet * 1.25 + bar * 12.5) / (sheet + bar)
    second = (
        5.0 * 20.0**3 / 12.0
        + wide * 2.5**3 / 12.0
        + sheet * (centre - 1.25) ** 2
        + bar * (12.5 - centre) ** 2
    )
    assert used(ONE, "bar bent").load == pytest.approx(25000.0 * (22.5 - centre) / second)
    assert used(ONE, "bar bent").resistance == pytest.approx(80.0 / 1.1)
    flow = 500.0 * sheet * (centre - 1.25) / second  # N on a millimetre where the shear is 500 N
    made = stitches(190.0, 2.5)
    welded = used(ONE, "stitch")
    assert welded.load == pytest.approx(flow * made.pitch / 60.0)
    assert welded.resistance == pytest.approx(0.7 * 2.5 * 190.0 / (sqrt(3.0) * 1.25))
    past = used(ONE, "past")
    assert past.load == pytest.approx(500.0 * 5.0 / (wide * 2.5**2 / 4.0 * 80.0 / 1.1))


def test_sheet_between_bars_by_hand() -> None:
    """Roark, 200 by 100: 0.6102 q b^2 / t^2 = 48.8 MPa across; the bar's bending along it is added."""
    local = 0.6102 * 0.05 * 100.0**2 / 2.5**2
    section = ribbed(20.0, 5.0, ONE.with_bar, 2.5)
    along = 25000.0 * section.to_sheet / section.second_moment
    assert used(ONE, "between").load == pytest.approx(sqrt(local**2 + along**2 + local * along))


def test_the_widest_bay_and_the_bar_beside_it_tell() -> None:
    uneven = replace(ONE, bays=(60.0, 180.0, 100.0, 60.0))
    assert uneven.between.size == (180.0, 200.0)
    assert uneven.carried == 140.0
    assert uneven.worst(PRESSURE) > ONE.worst(PRESSURE)


def test_a_softened_alloy_is_counted_soft() -> None:
    strong = replace(ONE, panel=replace(WALL, metal=STRENGTHS["aluminium-6082"]))
    assert used(strong, "bar bent").resistance == pytest.approx(125.0 / 1.1)


def test_remedies_are_what_passes() -> None:
    heavy = 0.067
    remedy = used(ONE, "between", heavy).remedy
    depth = float(remedy.split("box.stiffening_depth = ")[1].split(";")[0])
    assert not ONE.passes(heavy)
    assert replace(ONE, depth=depth).passes(heavy)
    crowded = replace(ONE, bays=(60.0, 260.0, 80.0))
    assert "widest bay of 260 mm" in used(crowded, "between", heavy).remedy
    assert "frame" in used(ONE, "between", 5.0).remedy


def test_where_bars_give_way_it_is_told() -> None:
    slim = replace(ONE, depth=6.0, span=380.0, length=370.0)
    assert "the bar sags" in used(slim, "bar bent").beyond
    assert used(replace(ONE, depth=40.0), "bar bent").beyond == ""


@given(st.floats(20.0, 2000.0), st.floats(0.5, 12.0))
def test_stitches_reach_both_ends_and_leave_no_wide_gap(length: float, thinner: float) -> None:
    made = stitches(length, thinner)
    assert made.pitch * (made.count - 1) + made.length == pytest.approx(length)
    if made.count > 1:
        assert made.length == STITCH
        assert made.pitch - made.length <= min(STITCH_GAP * thinner, MOST_GAP) + 1e-6


@given(st.floats(8.0, 60.0), st.floats(2.0, 10.0), st.floats(1.01, 2.0))
def test_a_deeper_or_thicker_bar_is_used_less(depth: float, thickness: float, more: float) -> None:
    one = replace(ONE, depth=depth, thickness=thickness)
    for better in (replace(one, depth=depth * more), replace(one, thickness=thickness * more)):
        assert used(better, "bar bent").load < used(one, "bar bent").load
