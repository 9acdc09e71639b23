"""The three views against hand-made cases and against each other."""

from math import isclose

from hypothesis import given
from hypothesis import strategies as st

from boxfit.bay import Cylinder, Keepout, Opening
from boxfit.report.area import area_of
from boxfit.report.projection import (
    PLAN,
    REAR,
    SIDE,
    VIEWS,
    bay_outline,
    cylinder_points,
    keepout_outline,
    opening_outline,
)
from tests.report.samples import roadster

COORDINATES = st.tuples(*[st.floats(-1000, 1000, allow_nan=False) for _ in range(3)])


def test_views_look_the_way_they_say() -> None:
    """The front of the car is left in plan and side; its left is below in plan and left from behind."""
    front, left, top = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)
    assert PLAN.flat(front) == (-1.0, 0.0)
    assert PLAN.flat(left) == (0.0, -1.0)
    assert SIDE.flat(front) == (-1.0, 0.0)
    assert SIDE.flat(top) == (0.0, 1.0)
    assert REAR.flat(left) == (-1.0, 0.0)
    assert REAR.flat(top) == (0.0, 1.0)


def test_no_view_is_a_mirror_image() -> None:
    """Across, upwards and towards the reader make a right-handed set."""
    for view in VIEWS:
        rows = [[0, 0, 0] for _ in range(3)]
        for row, (axis, way) in zip(rows, (view.across, view.upwards, view.nearer), strict=True):
            row[axis] = way
        (a, b, c), (d, e, f), (g, h, i) = rows
        assert a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g) == 1


@given(COORDINATES, COORDINATES, st.floats(1, 200))
def test_cylinder_points_lie_half_a_diameter_from_the_axis(
    start: tuple[float, float, float], end: tuple[float, float, float], diameter: float
) -> None:
    length = sum((b - a) ** 2 for a, b in zip(start, end, strict=True)) ** 0.5
    if length < 1.0:
        return
    for x, y, z in cylinder_points(Cylinder(start, end, diameter), 8)[:8]:
        arm = (x - start[0], y - start[1], z - start[2])
        along = sum(a * (b - c) for a, b, c in zip(arm, end, start, strict=True)) / length
        assert abs(along) < 1e-6
        assert isclose(sum(a * a for a in arm) ** 0.5, diameter / 2, rel_tol=1e-9)


def test_upright_bar_is_round_from_above_and_square_from_the_side() -> None:
    bar = Keepout("post", Cylinder((0.0, 0.0, 100.0), (0.0, 0.0, 300.0), 40.0), 10.0)
    side = area_of(keepout_outline(SIDE, bar))
    assert (round(side.width, 1), round(side.height, 1)) == (40.0, 200.0)
    plan = area_of(keepout_outline(PLAN, bar))
    assert (round(plan.width, 1), round(plan.height, 1)) == (40.0, 40.0)


def test_bay_is_its_outline_in_plan_and_a_rectangle_elsewhere() -> None:
    bay = roadster()[0].bays[0]
    assert len(bay_outline(PLAN, bay)) == 4
    side = area_of(bay_outline(SIDE, bay))
    assert (side.left, side.right, side.bottom, side.top) == (-250.0, 420.0, 260.0, 640.0)


def test_opening_is_a_hole_where_faced_and_a_line_elsewhere() -> None:
    bay = roadster()[0].bays[0]
    up = Opening("up", ((-100.0, -50.0), (100.0, -50.0), (100.0, 50.0), (-100.0, 50.0)))
    assert len(opening_outline(PLAN, bay, up)) == 4
    assert opening_outline(SIDE, bay, up) == ((-100.0, 640.0), (100.0, 640.0))
    left = Opening("left")
    assert opening_outline(PLAN, bay, left) == ((-250.0, -400.0), (420.0, -400.0))
    assert len(opening_outline(SIDE, bay, left)) == 4
