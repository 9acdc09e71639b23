"""Outlines of a room in plan, from the side and from behind."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from boxfit.surface import Outline, Surface
from boxfit.survey.views import PLAN, VIEWS, outlines_of, outlines_of_cells
from tests.survey.tubs import block, noisy

places = st.integers(-500, 500).map(lambda tenths: tenths / 10)
points = st.tuples(places, places, places)


def hull(corners: list[tuple[float, float, float]]) -> Surface:
    """The convex hull of points, closed and outward."""
    import trimesh

    found = trimesh.PointCloud(corners).convex_hull  # type: ignore[no-untyped-call]
    return Surface(np.array(found.vertices), np.array(found.faces))


def holds(outline: Outline, surface: Surface, axes: tuple[int, int], slack: float) -> bool:
    """Whether an outline goes round every point of a surface."""
    flat = shapely.points(surface.points[:, list(axes)])
    return bool((shapely.distance(flat, shapely.Polygon(outline)) <= slack).all())


def ends(outline: Outline) -> tuple[float, ...]:
    found = np.array(outline)
    return (*found.min(axis=0), *found.max(axis=0))


def test_a_block_shows_three_rectangles() -> None:
    plan, side, rear = outlines_of(block((1.0, 2.0, 3.0), (4.1, 6.0, 8.0), 1.0))
    assert plan == (((1.0, 2.0), (4.1, 2.0), (4.1, 6.0), (1.0, 6.0)),)
    assert side == (((1.0, 3.0), (4.1, 3.0), (4.1, 8.0), (1.0, 8.0)),)
    assert rear == (((2.0, 3.0), (6.0, 3.0), (6.0, 8.0), (2.0, 8.0)),)


def test_an_l_shows_its_notch_and_keeps_its_corners_as_they_are() -> None:
    outline = ((0.1, 0.2), (900.7, 0.3), (900.7, 400.9), (500.3, 400.9), (500.3, 800.11), (0.1, 800.11))
    assert outlines_of(prism(outline), [PLAN]) == ((outline,),)


def prism(outline: Outline, *holes: Outline) -> Surface:
    """An upright prism, triangulated as coarsely as can be."""
    import trimesh

    shape = trimesh.creation.extrude_polygon(shapely.Polygon(outline, holes), 100.0, engine="manifold")
    return Surface(np.array(shape.vertices), np.array(shape.faces))


def test_two_parts_stand_one_after_the_other_and_a_speck_is_left_out() -> None:
    solids = [block((x, 0, 0), (x + size, size, size)) for x, size in ((0, 50), (100, 100), (300, 4))]
    offsets = np.cumsum([0] + [len(solid.points) for solid in solids])
    triangles = [solid.triangles + start for solid, start in zip(solids, offsets[:-1], strict=True)]
    whole = Surface(np.concatenate([solid.points for solid in solids]), np.concatenate(triangles))
    (plan,) = outlines_of(whole, [PLAN])
    assert [ends(outline) for outline in plan] == [(100, 0, 200, 100), (0, 0, 50, 50)]


@given(st.lists(points, min_size=8, max_size=30, unique=True))
@settings(max_examples=40, deadline=None)
def test_an_exact_outline_goes_round_every_point_and_ends_where_they_end(
    corners: list[tuple[float, float, float]],
) -> None:
    surface = hull([*corners, (-60.0, -60.0, -60.0), (60.0, -60.0, 0.0), (0.0, 60.0, 0.0), (0.0, 0.0, 60.0)])
    for axes, (outline,) in zip(VIEWS, outlines_of(surface), strict=True):
        flat = surface.points[:, list(axes)]
        assert holds(outline, surface, axes, 2e-6)
        assert ends(outline) == pytest.approx((*flat.min(axis=0), *flat.max(axis=0)), abs=3e-6)
        assert shapely.Polygon(outline).exterior.is_ccw
        assert shapely.Polygon(outline).area == pytest.approx(shapely.MultiPoint(flat).convex_hull.area)


@given(st.floats(0, 3), st.sampled_from([0.0, 0.5, 2.0]))
@settings(max_examples=12, deadline=None)
def test_the_outline_of_a_large_surface_holds_it_and_is_little_larger(angle: float, noise: float) -> None:
    fine = block((0.0, 0.0, 0.0), (300.0, 200.0, 100.0), 5.0)
    turn = np.array(
        [[np.cos(angle), -np.sin(angle), 0.0], [np.sin(angle), np.cos(angle), 0.0], [0.0, 0.0, 1.0]]
    )
    surface = noisy(Surface(fine.points @ turn.T, fine.triangles), noise)
    assert len(surface.triangles) > 3000
    for axes, (outline,) in zip(VIEWS, outlines_of(surface), strict=True):
        flat = surface.points[:, list(axes)]
        assert holds(outline, surface, axes, 1e-9)
        assert ends(outline) == (*flat.min(axis=0), *flat.max(axis=0))
        true = shapely.MultiPoint(flat).convex_hull
        assert shapely.Polygon(outline).difference(true.buffer(5.0)).area == 0.0
        assert len(outline) < 400


def test_long_edges_are_followed_all_along() -> None:
    coarse = block((0.0, 0.0, 0.0), (50.0, 50.0, 50.0), 2.0)
    long = Surface(coarse.points * [10.0, 10.0, 1.0], coarse.triangles)
    (plan,) = outlines_of(long, [PLAN])
    assert plan == (((0.0, 0.0), (500.0, 0.0), (500.0, 500.0), (0.0, 500.0)),)


def test_an_outline_of_cells_is_cut_to_its_block() -> None:
    cells = np.ones((4, 3), dtype=bool)
    found = outlines_of_cells(cells, np.array([-1.0, -1.0]), 2.0, np.array([[0.0, 0.0], [6.5, 4.0]]))
    assert found == (((0.0, 0.0), (6.5, 0.0), (6.5, 4.0), (0.0, 4.0)),)


def test_a_hole_right_through_is_left_out() -> None:
    around = ((0.0, 0.0), (300.0, 0.0), (300.0, 200.0), (0.0, 200.0))
    hole = ((100.0, 50.0), (200.0, 50.0), (200.0, 150.0), (100.0, 150.0))
    assert outlines_of(prism(around, hole), [PLAN]) == ((around,),)
