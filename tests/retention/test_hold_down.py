"""A hold-down worked by hand, and plates with what is told of them beyond linear theory."""

from dataclasses import replace
from math import hypot, pi, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxfit.retention.bars import angle_section
from boxfit.retention.hold_down import HoldDown, Tapped, uses_of_hold_down
from boxfit.retention.panel import Panel, use_of_panel, use_of_screws, use_of_seam
from boxfit.standards.strengths import STRENGTHS

METAL = STRENGTHS["aluminium-5754"]
BAR = HoldDown(
    name="hold-down 1",
    mass=11.6,
    flat=13.0,
    upright=25.0,
    uprights=1,
    thickness=2.5,
    metal=METAL,
    span=140.0,
    over=302.0,
    arm=4.0,
    screws=3,
    lever=10.0,
    out=8.0,
    tapped=Tapped(6.0, 25.0, 14.0, METAL, 2.5, METAL),
    end_plates=False,
)
FLOOR = Panel("floor", (400.0, 400.0), 2.5, METAL)


def test_by_hand() -> None:
    found = {use.check: use for use in uses_of_hold_down(BAR, "up", 1138.0)}
    line = 1138.0 / 302.0
    modulus = angle_section(13.0, 25.0, 2.5).modulus
    assert found["bar bent"].load == pytest.approx(line * 140.0**2 / 8.0 / modulus)
    assert found["flat leg bent"].load == pytest.approx(line * 4.0 / (2.5**2 / 4.0))
    share = line * 140.0
    by_hand = share / (0.6 * 800 * 20.1 / 1.25) + share * 0.8 / (0.9 * 800 * 20.1 / 1.25) / 1.4
    assert found["screws"].load == pytest.approx(by_hand, rel=2e-3)
    assert found["thread in its block"].resistance == pytest.approx(
        pi * 6.0 * 0.75 * 6.0 * 190.0 / (sqrt(3.0) * 1.25)
    )
    weld = hypot(share / (25.0 + 28.0), share * 14.0 / 14.0 / 25.0)
    assert found["weld of the blocks"].load == pytest.approx(weld)
    assert "weld of the end plates" not in found


def test_an_overloaded_bar_is_told_with_a_remedy() -> None:
    found = list(uses_of_hold_down(replace(BAR, span=450.0, end_plates=True), "up", 20000.0))
    assert not all(use.passes for use in found)
    assert all(use.remedy for use in found if not use.passes)


@given(st.floats(1.0, 50000.0), st.floats(1.0, 5.0))
def test_more_load_never_uses_less(force: float, more: float) -> None:
    pairs = zip(uses_of_hold_down(BAR, "up", force), uses_of_hold_down(BAR, "up", force * more), strict=True)
    assert all(heavy.utilisation >= light.utilisation * (1.0 - 1e-9) for light, heavy in pairs)


def test_a_floor_by_hand() -> None:
    """Square, 0.2874 q b^2 / t^2, and 0.0444 q b^4 / (E t^3) = 0.83 mm: linear up to 1.25 mm."""
    use = use_of_panel(FLOOR, "the modules on it", "down", 0.0008)
    assert use.load == pytest.approx(0.2874 * 0.0008 * 400.0**2 / 6.25)
    assert use.resistance == pytest.approx(80.0 / 1.1)
    assert (use.passes, use.beyond) == (True, "")


def test_beyond_linear_theory_it_is_told() -> None:
    use = use_of_panel(FLOOR, "the modules on it", "down", 0.02)
    assert not use.passes
    assert "safe side" in use.beyond
    assert "Timoshenko" in use.beyond
    # 0.2874 x 0.02 x 160000 / t^2 = 72.7 asks 3.6 mm; two to one 0.6102 x 0.02 x 40000 / 6.25 = 78
    assert use.remedy.startswith("4 mm thick; or 2 stiffening bars")


@given(st.floats(1e-5, 0.5), st.floats(1.0, 5.0), st.floats(0.1, 5.0))
def test_pressure_and_sheet(pressure: float, more: float, thicker: float) -> None:
    one = use_of_panel(FLOOR, "x", "down", pressure).utilisation
    assert use_of_panel(FLOOR, "x", "down", pressure * more).utilisation >= one
    stouter = replace(FLOOR, thickness=FLOOR.thickness + thicker)
    assert use_of_panel(stouter, "x", "down", pressure).utilisation <= one


def test_seams_and_screws() -> None:
    seam = use_of_seam("corner", "front", 5000.0, (100.0, 2.5), METAL)
    assert seam.resistance == pytest.approx(2.5 * 100.0 * 80.0 / (sqrt(3.0) * 1.1))
    assert use_of_seam("corner", "front", 50000.0, (100.0, 2.5), METAL).remedy.endswith("instead of 100")
    assert use_of_screws("lid", "up", 8100.0, (4, 2000.0)).remedy == "5 screws instead of 4"
    bare = use_of_screws("lid", "up", 8100.0, (0, 2000.0))
    assert not bare.passes
    assert bare.remedy == "5 screws instead of none, on a flange wide enough for them: box.flange"
