"""Places for a box in a bay, against the judge who measures the box set there."""

from dataclasses import replace

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from boxfit.bay import Bay, Block, Keepout, Opening, Point, Prism, Way
from boxfit.judge.insertion import judge_insertion
from boxfit.judge.places import judge_place
from boxfit.space.free import BoxLevels, plan_room
from tests.box.samples import RULES
from tests.space.strategies import OUTLINES, BoxSize, bays, sizes, tenths

SPARE = 0.15
"""Room [mm] that curves drawn with tangents may cost."""


def is_clear(bay: Bay, size: BoxSize, corner: Point) -> bool:
    box = size.at(bay, *corner)
    return not judge_place(box) and (bay.opening is None or not judge_insertion(box, bay.opening))


def free(bay: Bay, size: BoxSize) -> shapely.Geometry:
    return plan_room(bay, size.levels(bay)).places(size.width, size.depth)


@settings(max_examples=150)
@given(st.data())
def test_every_place_keeps_all_distances_and_gets_in(data: st.DataObject) -> None:
    bay = data.draw(bays())
    size = data.draw(sizes(bay))
    region = free(bay, size)
    corners = [tuple(point) for point in shapely.get_coordinates(region)[:40].tolist()]
    if not region.is_empty:
        corners.append(region.representative_point().coords[0])
    for corner in corners:
        assert is_clear(bay, size, corner), corner


def roomier(bay: Bay) -> Bay:
    """The bay with `SPARE` more asked everywhere."""
    return replace(
        bay,
        tolerance=bay.tolerance + SPARE,
        distance=bay.distance + SPARE,
        keepouts=tuple(replace(one, distance=one.distance + SPARE) for one in bay.keepouts),
    )


@settings(max_examples=150)
@given(st.data())
def test_no_place_with_room_to_spare_is_missed(data: st.DataObject) -> None:
    bay = data.draw(bays())
    size = data.draw(sizes(bay))
    region = free(bay, size)
    asked = roomier(bay)
    for _ in range(12):
        corner = (data.draw(tenths(-400, 390)), data.draw(tenths(-300, 290)))
        if size.bottom - bay.room.floor >= asked.distance <= bay.room.top - size.bottom - size.height:
            assert not is_clear(asked, size, corner) or region.covers(shapely.Point(corner))


WAYS: tuple[tuple[Way, Point], ...] = (
    ("front", (1.0, 0.0)),
    ("rear", (-1.0, 0.0)),
    ("left", (0.0, 1.0)),
    ("right", (0.0, -1.0)),
)
PLAIN = Bay("bay", Prism(OUTLINES[0], 200.0, 600.0), 3.0, 13.0, replace(RULES, flange=0.0))
BOX = BoxSize(100.0, 80.0, 120.0, 300.0)


def spot(bay: Bay, x: float, y: float, size: BoxSize = BOX) -> bool:
    """Whether the middle of the box may lie at x, y; agreed by space and judge."""
    corner = (x - size.width / 2, y - size.depth / 2)
    by_space = bool(free(bay, size).covers(shapely.Point(corner)))
    assert by_space == is_clear(bay, size, corner)
    return by_space


@pytest.mark.parametrize(("way", "towards"), WAYS)
def test_a_block_bars_the_way_out_behind_it_only(way: Way, towards: Point) -> None:
    post = Keepout("post", Block((-20.0, -20.0, 310.0), (20.0, 20.0, 350.0)), 13.0)
    bay = replace(PLAIN, keepouts=(post,), opening=Opening(way))
    dx, dy = towards
    assert not spot(bay, -150.0 * dx, -150.0 * dy)
    assert spot(bay, 150.0 * dx, 150.0 * dy)
    aside = (abs(dy) * 150.0, abs(dx) * 150.0)
    assert spot(bay, -150.0 * dx + aside[0], -150.0 * dy + aside[1])


@pytest.mark.parametrize(("way", "low", "high"), [("up", 520.0, 540.0), ("down", 220.0, 240.0)])
def test_a_block_above_or_below_bars_the_way_up_or_down(way: Way, low: float, high: float) -> None:
    post = Keepout("post", Block((-20.0, -20.0, low), (20.0, 20.0, high)), 13.0)
    bay = replace(PLAIN, keepouts=(post,), opening=Opening(way))
    assert not spot(bay, 0.0, 0.0)
    assert spot(bay, 150.0, 0.0)
    other: Way = "down" if way == "up" else "up"
    assert spot(replace(bay, opening=Opening(other)), 0.0, 0.0)
    # hand: the way keeps the survey's 3 mm, not the clearance: 20 + 3 + half of 100
    assert spot(bay, 73.001, 0.0)
    assert not spot(bay, 72.9, 0.0)


@pytest.mark.parametrize(
    ("way", "axis"),
    [("up", "xy"), ("down", "xy"), ("front", "yz"), ("rear", "yz"), ("left", "xz"), ("right", "xz")],
)
def test_the_hole_is_passed_with_the_tolerance_and_no_more(way: Way, axis: str) -> None:
    """The box is 100 x 80 x 120 about (0, 0, 360): its middle may move 10 where the hole is 26 larger."""
    half = {"x": 50.0, "y": 40.0, "z": 60.0}
    middle = {"x": 0.0, "y": 0.0, "z": 360.0}
    (a, c), (b, d) = ((middle[k] - half[k] - 13.0, middle[k] + half[k] + 13.0) for k in axis)
    bay = replace(PLAIN, opening=Opening(way, ((a, b), (c, b), (c, d), (a, d))))
    assert spot(bay, 0.0, 0.0)
    for k, step in (("x", (1.0, 0.0)), ("y", (0.0, 1.0))):
        for sign in (1.0, -1.0):
            assert spot(bay, 9.999 * sign * step[0], 9.999 * sign * step[1])
            assert spot(bay, 10.1 * sign * step[0], 10.1 * sign * step[1]) is (k not in axis)
    if "z" in axis:
        low = replace(BOX, bottom=290.001)
        assert spot(bay, 0.0, 0.0, low)
        assert not spot(bay, 0.0, 0.0, replace(BOX, bottom=289.9))
        assert not spot(bay, 0.0, 0.0, replace(BOX, bottom=310.1))


def test_both_arms_of_a_bay_lead_out_at_the_front() -> None:
    """Two arms end at the bay's last plane: either is open."""
    bay = replace(PLAIN, room=Prism(OUTLINES[4], 200.0, 600.0), opening=Opening("front"))
    assert spot(bay, 300.0, 210.0)
    assert spot(bay, 300.0, -200.0)


@pytest.mark.parametrize("flange", [0.0, 22.0])
def test_a_bay_just_as_large_as_its_box(flange: float) -> None:
    """Box 100 x 80 x 120, distance 13 all round, and the flange beyond the walls."""
    a, b = 50.0 + flange + 13.0, 40.0 + flange + 13.0
    outline = ((-a, -b), (a, -b), (a, b), (-a, b))
    bay = Bay("bay", Prism(outline, 287.0, 433.0), 3.0, 13.0, replace(RULES, flange=flange))
    corners = shapely.get_coordinates(free(bay, BOX))
    assert len(corners)
    assert abs(corners - (-50.0, -40.0)).max() <= 1e-5
    assert is_clear(bay, BOX, (-50.0, -40.0))
    for larger in (replace(BOX, width=100.01), replace(BOX, depth=80.01), replace(BOX, height=120.01)):
        assert free(bay, larger).is_empty


def test_levels_outside_the_room_leave_nothing() -> None:
    low, high = 213.0, 587.0
    assert plan_room(PLAIN, BoxLevels(low, high, high)).inside
    assert not plan_room(PLAIN, BoxLevels(low - 0.01, high, high)).inside
    assert not plan_room(PLAIN, BoxLevels(low, high, high + 0.01)).inside
