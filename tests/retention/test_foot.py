"""A foot worked by hand, check by check, and what must always hold of feet."""

from dataclasses import replace
from math import pi, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxfit.retention.foot import Body, Foot, OnWall, Part
from boxfit.retention.foot_checks import ALWAYS, SCREWED, WELDED, checks_of
from boxfit.retention.foot_remedies import uses_of_foot
from boxfit.standards.strengths import STRENGTHS

STEEL = STRENGTHS["steel-s235"]
ANGLE = Foot(
    name="foot",
    at=(0.0, 0.0, 0.0),
    axis=(0.0, 0.0, 1.0),
    aside=(1.0, 0.0, 0.0),
    towards=(0.0, 1.0, 0.0),
    bolt=8.0,
    grade="8.8",
    washer=20.0,
    hole=9.0,
    metal=STEEL,
    thickness=4.0,
    width=60.0,
    arm=12.0,
    edge=15.0,
    trough=False,
    off=20.0,
    start=18.0,
    along=40.5,
    wall=OnWall(45.0, (400.0, 150.0), 2.0, STEEL),
    body=Body(1.2, STRENGTHS["steel-dc01"]),
)
TROUGH = replace(ANGLE, trough=True, off=50.0, start=8.0, along=10.5)
SCREWS = replace(ANGLE, wall=replace(ANGLE.wall, screws=2, apart=30.0, from_end=12.0))
DESIGN = 235.0 / 1.1
PULLED: Part = (3000.0, 1000.0, 500.0)


def shares(foot: Foot, part: Part) -> dict[str, float]:
    found = {}
    for check in checks_of(foot):
        load, resistance, _ = check.sum(foot, part)
        found[check.name] = load / resistance
    return found


def test_an_angle_by_hand() -> None:
    """Every figure from the formulae beside it, As of M8 36.6 mm2."""
    found = shares(ANGLE, PULLED)
    across = sqrt(1000.0**2 + 500.0**2)
    levered = 3000.0 * (1.0 + 12.0 / (2.0 * 15.0))
    sheared, pulled = across / (0.6 * 800 * 36.6 / 1.25), levered / (0.9 * 800 * 36.6 / 1.25)
    assert found["bolt"] == pytest.approx(sheared + pulled / 1.4, rel=1e-3)
    bearing = 2.5 * (15.0 / 27.0) * 1.0 * 360.0 * 8.0 * 4.0 / 1.25
    assert found["bearing in the foot"] == pytest.approx(across / bearing)
    thin = 2.5 * 1.0 * ((0.8 * 1.2 + 1.5) / 2.5) * 270.0 * 8.0 * 1.2 / 1.25
    assert found["bearing in the body sheet"] == pytest.approx(across / thin)
    assert found["pull-through of the body sheet"] == pytest.approx(levered / (20.0 * 1.2 * 270.0 / 1.25))
    # half a T-stub: 2 m l / a, l the width as 4 x 12 + 1.25 x 15 = 66.75 is more
    assert found["foot bent at the bolt"] == pytest.approx(3000.0 / (2.0 * 60.0 * 16.0 / 4.0 * DESIGN / 12.0))
    flat, edgewise = 60.0 * 16.0 / 4.0 * DESIGN, 4.0 * 3600.0 / 4.0 * DESIGN
    by_hand = 500.0 * (18.0 - 2.0) / flat + 1000.0 * 20.0 / edgewise
    by_hand += sqrt(3.0) * sqrt(3000.0**2 + 1000.0**2) / (240.0 * DESIGN) + 500.0 / (240.0 * DESIGN)
    assert found["foot bent across"] == pytest.approx(by_hand)
    turning = 500.0 * 40.5 + 3000.0 * 20.0
    out = 500.0 / 90.0 + 3.0 * turning / 45.0**2 + 1000.0 * 20.0 / 60.0 / 45.0
    up = 3000.0 / 90.0 + 1000.0 * 40.5 / 60.0 / 45.0
    bears = 0.7 * 2.0 * 360.0 / (sqrt(3.0) * 1.25)
    assert found["weld of the foot"] == pytest.approx(sqrt(out**2 + up**2 + (1000.0 / 90.0) ** 2) / bears)
    beside = 2.0 * 235.0 / (sqrt(3.0) * 1.1)
    assert found["wall beside the weld"] == pytest.approx(sqrt(up**2 + (1000.0 / 90.0) ** 2) / beside)


def test_the_wall_by_hand() -> None:
    """Yield lines of a patch 45 x 60 in a wall 150 high; the turning on half the patch, twice per length."""

    def bears(high: float, wide: float) -> float:
        share = high / 150.0
        return DESIGN * 4.0 / (1.0 - share) * (2.0 * wide / 150.0 + 4.0 * sqrt(1.0 - share))

    turning, tipping = 500.0 * 40.5 + 3000.0 * 20.0, 1000.0 * 20.0
    by_hand = (
        500.0 / bears(45.0, 60.0) + turning / 22.5 / bears(22.5, 60.0) + tipping / 30.0 / bears(45.0, 30.0)
    )
    assert shares(ANGLE, PULLED)["wall at the foot"] == pytest.approx(by_hand)


def test_wall_screws_by_hand() -> None:
    """Two M6, As 20.1 mm2, 30 mm apart and 12 from the end, the leg bearing on the wall 33 mm below them."""
    turning = 500.0 * 40.5 + 3000.0 * 20.0
    sheared = sqrt((3000.0 / 2.0 + 1000.0 * 40.5 / 30.0) ** 2 + 500.0**2)
    pulled = 500.0 / 2.0 + turning / 33.0 / 2.0 + 1000.0 * 20.0 / 30.0
    by_hand = sheared / (0.6 * 800 * 20.1 / 1.25) + pulled / (0.9 * 800 * 20.1 / 1.25) / 1.4
    assert shares(SCREWS, PULLED)["wall screws"] == pytest.approx(by_hand, rel=2e-3)


def test_a_trough_bends_over_its_gap() -> None:
    """500 N along the wall at 50 mm and 3000 N off it at 8 - 2 mm."""
    flat = 60.0 * 16.0 / 4.0 * DESIGN
    bent = shares(TROUGH, (3000.0, 0.0, 500.0))["foot bent across"]
    plain = sqrt(3.0) * 500.0 / (240.0 * DESIGN) + 3000.0 / (240.0 * DESIGN)
    assert bent == pytest.approx((500.0 * 50.0 + 3000.0 * 6.0) / flat + plain)


def test_what_presses_on_the_body_pulls_no_bolt() -> None:
    found = shares(ANGLE, (-3000.0, 0.0, 0.0))
    for name in ("bolt", "pull-through of the body sheet", "foot bent at the bolt"):
        assert found[name] == 0.0


def test_a_spreading_plate_helps_once_it_is_stiff() -> None:
    bare = ALWAYS[3].sum(ANGLE, PULLED)[1]
    plated = [
        ALWAYS[3].sum(
            replace(ANGLE, body=replace(ANGLE.body, plate=80.0, plate_thickness=t, plate_metal=STEEL)), PULLED
        )[1]
        for t in (1.0, 6.0)
    ]
    assert plated[0] == bare
    assert plated[1] > bare
    assert bare == pytest.approx(min(0.6 * pi, 1.0) * 20.0 * 1.2 * 270.0 / 1.25)


def test_remedies_are_tried() -> None:
    """A remedy by thickness passes when it is done, and the sheet before it does not."""
    heavy: Part = (9000.0, 0.0, 0.0)
    use = next(use for use in uses_of_foot(ANGLE, "up", heavy, 4) if use.check == "foot bent at the bolt")
    assert not use.passes
    assert use.remedy == "feet 5 mm thick; or 1 more mount spread alike"
    assert shares(replace(ANGLE, thickness=5.0), heavy)["foot bent at the bolt"] <= 1.0
    tried = [use.remedy for use in uses_of_foot(SCREWS, "up", (9000.0, 9000.0, 9000.0), 4) if not use.passes]
    assert all(tried)


forces = st.tuples(st.floats(-20000.0, 20000.0), st.floats(0.0, 20000.0), st.floats(0.0, 20000.0))


@given(st.sampled_from([ANGLE, TROUGH, SCREWS]), forces, st.floats(1.0, 5.0))
def test_more_load_never_uses_less(foot: Foot, part: Part, more: float) -> None:
    pull, aside, towards = part
    light, heavy = shares(foot, part), shares(foot, (pull * more, aside * more, towards * more))
    assert all(heavy[name] >= light[name] * (1.0 - 1e-9) for name in light)


@given(st.sampled_from([ANGLE, TROUGH]), forces, st.floats(0.1, 8.0))
def test_a_thicker_foot_is_never_bent_more(foot: Foot, part: Part, more: float) -> None:
    thin, thick = shares(foot, part), shares(replace(foot, thickness=foot.thickness + more), part)
    for name in ("foot bent at the bolt", "foot bent across", "bearing in the foot", "weld of the foot"):
        assert thick[name] <= thin[name] * (1.0 + 1e-9)


def test_every_check_is_asked_of_some_foot() -> None:
    names = {check.name for check in (*checks_of(ANGLE), *checks_of(SCREWS))}
    assert names == {check.name for check in (*ALWAYS, *WELDED, *SCREWED)}
