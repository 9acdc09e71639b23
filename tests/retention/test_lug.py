"""A lifting lug worked by hand, its remedies tried, and more load never on the unsafe side."""

from dataclasses import replace
from math import cos, hypot, radians, sqrt, tan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxfit.retention.lug import CHECKS, FRAME, Lug, checks_of, share, uses_of_lug
from boxfit.standards.strengths import STRENGTHS

METAL = STRENGTHS["aluminium-5754"]
LUG = Lug("lug 1", 1600.0, 6.0, 60.0, 38.0, 22.0, METAL, (500.0, 150.0), 2.5, METAL)
SLOPE = radians(15.0)


def test_by_hand() -> None:
    """6 x 60 with its pin 38 off a wall 2.5 thick and 150 high: every sum again from its parts."""
    found = {use.check: use for use in uses_of_lug(LUG)}
    assert len(found) == len(CHECKS)
    sling, across = 1600.0 / cos(SLOPE), 1600.0 * tan(SLOPE)
    design = 80.0 / 1.1
    assert found["bearing of the shackle's pin"].load == pytest.approx(sling)
    assert found["bearing of the shackle's pin"].resistance == pytest.approx(1.5 * 6.0 * 12.0 * design)
    left = min(20.0 * cos(SLOPE) - 7.0 - 28.0 / 3.0, 9.0 - 14.0 / 3.0)
    assert found["hole torn out"].resistance == pytest.approx(left * 2.0 * 6.0 * design)
    bent = 1600.0 * 38.0 / (6.0 * 60.0**2 / 4.0) + across * 38.0 / (60.0 * 36.0 / 4.0)
    sheared = sqrt(3.0) * 1600.0 / 360.0
    assert found["lug bent"].load == pytest.approx((bent + sheared) / design)
    out = 3.0 * 1600.0 * 38.0 / 3600.0 + across * 38.0 / 360.0
    weld = hypot(out, 1600.0 / 120.0, across / 120.0)
    assert found["weld of the lug"].load == pytest.approx(weld)
    assert found["weld of the lug"].resistance == pytest.approx(0.7 * 2.5 * 190.0 / sqrt(3.0) / 1.25)
    pressing = 1600.0 * 38.0 / 45.0
    assert found["weld under the flange"].load == pytest.approx(pressing / 44.0)
    assert found["wall beside the weld"].resistance == pytest.approx(2.5 * design / sqrt(3.0))
    half, whole = (design * 6.25 / (1.0 - b) * (2.0 * 6.0 / 150.0 + 4.0 * sqrt(1.0 - b)) for b in (0.2, 0.4))
    assert found["wall at the lug"].load == pytest.approx(pressing / half + across / whole)
    assert all(use.pull == "lifted" and "2006/42/EC" in use.rule for use in found.values())


def test_without_a_flange_the_wall_bears_more_and_no_flange_is_checked() -> None:
    bare = replace(LUG, flange=0.0)
    assert len(checks_of(bare)) == len(checks_of(LUG)) - 1
    loads = [
        next(use.load for use in uses_of_lug(lug) if use.check == "wall at the lug") for lug in (LUG, bare)
    ]
    assert loads[1] > loads[0]


@pytest.mark.parametrize("check", [check.name for check in CHECKS])
def test_what_does_not_pass_is_told_with_what_would(check: str) -> None:
    """Each check is brought to 1.3 by load alone; the first change told passes it, the frame stands last."""
    before = next(use for use in uses_of_lug(LUG) if use.check == check)
    heavy = replace(LUG, load=LUG.load * 1.3 / before.utilisation)
    use = next(use for use in uses_of_lug(heavy) if use.check == check)
    assert not use.passes
    assert use.remedy.endswith(FRAME)
    words = use.remedy.split(";")[0].split()
    if words[0] == "lugs":
        size = {"high": "height", "thick": "thickness"}[words[-1]]
        changed = replace(heavy, **{size: float(words[1])})  # type: ignore[arg-type]
        assert next(use for use in uses_of_lug(changed) if use.check == check).passes


def test_a_load_beyond_all_leaves_the_frame() -> None:
    assert {use.remedy for use in uses_of_lug(replace(LUG, load=1e7))} == {FRAME}


@given(st.floats(1.0, 50000.0), st.floats(1.0, 5.0))
def test_more_load_never_uses_less(load: float, more: float) -> None:
    light = replace(LUG, load=load)
    assert share(replace(light, load=load * more)) >= share(light) - 1e-12


@given(st.floats(30.0, 70.0), st.floats(1.0, 1.4))
def test_a_higher_lug_is_never_used_more(height: float, more: float) -> None:
    low = replace(LUG, height=height)
    assert share(replace(low, height=height * more)) <= share(low) + 1e-12
