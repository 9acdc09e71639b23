"""The three views against hand-made cases and against each other."""

from dataclasses import replace
from math import isclose, pi

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon

from boxfit.bay import Cylinder, Keepout, Opening, Shell, Surface
from boxfit.report.area import area_of
from boxfit.report.projection import (
    PLAN,
    REAR,
    SIDE,
    VIEWS,
    bay_outlines,
    bay_points,
    cylinder_points,
    extents,
    keepout_outlines,
    opening_outline,
)
from tests.report.samples import rectangle, roadster
from tests.report.shells import ball, prism_surface, scanned

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
    side = area_of(keepout_outlines(SIDE, bar)[0])
    assert (round(side.width, 1), round(side.height, 1)) == (40.0, 200.0)
    plan = area_of(keepout_outlines(PLAN, bar)[0])
    assert (round(plan.width, 1), round(plan.height, 1)) == (40.0, 40.0)


def test_bay_is_its_outline_in_plan_and_a_rectangle_elsewhere() -> None:
    bay = roadster()[0].bays[0]
    assert len(bay_outlines(PLAN, bay)[0]) == 4
    side = area_of(bay_outlines(SIDE, bay)[0])
    assert (side.left, side.right, side.bottom, side.top) == (-250.0, 420.0, 260.0, 640.0)


def test_opening_is_a_hole_where_faced_and_a_line_elsewhere() -> None:
    bay = roadster()[0].bays[0]
    up = Opening("up", ((-100.0, -50.0), (100.0, -50.0), (100.0, 50.0), (-100.0, 50.0)))
    assert len(opening_outline(PLAN, bay, up)) == 4
    assert opening_outline(SIDE, bay, up) == ((-100.0, 640.0), (100.0, 640.0))
    left = Opening("left")
    assert opening_outline(PLAN, bay, left) == ((-250.0, -400.0), (420.0, -400.0))
    assert len(opening_outline(SIDE, bay, left)) == 4


def test_a_room_of_any_shape_shows_its_own_outlines() -> None:
    boot = scanned()
    assert extents(boot) == ((-2550.0, -480.0, 330.0), (-1990.0, 480.0, 700.0))
    (side,) = bay_outlines(SIDE, boot)
    assert set(side) == {(2550.0, 330.0), (1990.0, 330.0), (1990.0, 700.0), (2400.0, 700.0)}
    (rear,) = bay_outlines(REAR, boot)
    assert area_of(rear).corners == ((-480.0, 330.0), (480.0, 330.0), (480.0, 700.0), (-480.0, 700.0))
    (plan,) = bay_outlines(PLAN, boot)
    assert area_of(plan).corners == ((1990.0, -480.0), (2550.0, -480.0), (2550.0, 480.0), (1990.0, 480.0))
    assert set(bay_points(SIDE, boot)) == set(side)


def test_a_room_in_several_parts_is_shown_in_several() -> None:
    boot = scanned()
    assert isinstance(boot.room, Shell)
    parts = (rectangle((0.0, 0.0), (9.0, 9.0)), rectangle((20.0, 0.0), (24.0, 4.0)))
    split = replace(boot, room=replace(boot.room, plan=parts))
    assert len(bay_outlines(PLAN, split)) == 2
    assert len(bay_points(PLAN, split)) == 8


def silhouette(surface: Surface) -> list[Polygon]:
    """What a surface covers in plan."""
    keepout = Keepout("any", surface, 10.0)
    return [Polygon(outline) for outline in keepout_outlines(PLAN, keepout)]


def test_a_solid_of_few_triangles_is_joined_exactly() -> None:
    post = prism_surface(((0.0, 0.0), (30.0, 0.0), (30.0, 20.0), (0.0, 20.0)), 5.0, 15.0, 2)
    (seen,) = silhouette(post)
    assert seen.equals(Polygon([(0.0, 0.0), (-30.0, 0.0), (-30.0, -20.0), (0.0, -20.0)]))


@given(st.integers(8, 60), st.floats(0.5, 500.0))
@settings(max_examples=12, deadline=None)
def test_a_ball_is_round_however_many_triangles_it_has(rings: int, radius: float) -> None:
    """A ball of many flat sides is a little smaller than its round; paint is right to within a cell."""
    (seen,) = silhouette(ball((100.0, -50.0, 0.0), radius, rings))
    assert abs(seen.centroid.x + 100.0) < 0.01 * radius
    assert abs(seen.centroid.y - 50.0) < 0.01 * radius
    assert 0.93 * pi * radius**2 < seen.area < 1.01 * pi * radius**2
    assert len(seen.exterior.coords) < 200


def test_solids_apart_have_an_outline_each_the_largest_first() -> None:
    small, large = ball((0.0, 0.0, 0.0), 10.0, 40), ball((100.0, 0.0, 0.0), 30.0, 40)
    both = Surface(
        np.concatenate([small.points, large.points]),
        np.concatenate([small.triangles, large.triangles + len(small.points)]),
    )
    first, second = silhouette(both)
    assert first.area > 2500.0
    assert 250.0 < second.area < 400.0
