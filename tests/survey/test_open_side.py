"""Which triangles the opening takes: the same as the sides of an outline, and steady on rough scans."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from boxfit.bay import Opening, Way
from boxfit.space.opening import TOWARDS, walls_beside
from boxfit.surface import Outline, Surface
from boxfit.survey.open_side import opening_takes
from tests.survey.tubs import block, noisy

UPRIGHT: list[Way] = ["front", "rear", "left", "right"]
L_SHAPED = ((0.0, 0.0), (400.0, 0.0), (400.0, 200.0), (200.0, 200.0), (200.0, 500.0), (0.0, 500.0))
U_SHAPED = ((0, 0), (600, 0), (600, 400), (450, 400), (450, 150), (150, 150), (150, 400), (0, 400))
BAY_WINDOW = ((0, 0), (300, 0), (360, 60), (380, 200), (360, 340), (300, 400), (100, 400), (0, 300))


def prism(outline: Outline, edge: float) -> Surface:
    """An upright prism, triangulated with edges of at most so much."""
    import trimesh

    whole = trimesh.creation.extrude_polygon(shapely.Polygon(outline), 60.0, engine="manifold")
    points, triangles = trimesh.remesh.subdivide_to_size(  # type: ignore[no-untyped-call]
        whole.vertices, whole.faces, edge
    )
    joined = trimesh.Trimesh(points, triangles, process=True)
    return Surface(np.array(joined.vertices), np.array(joined.faces))


def on_open_sides(surface: Surface, outline: Outline, way: Way) -> np.ndarray[tuple[int], np.dtype[np.bool_]]:
    """By the rule for the sides of an outline: the upright triangles that lie on none of the walls left."""
    middles = surface.corners.mean(axis=1)
    walls = shapely.MultiLineString(walls_beside(outline, Opening(way)))
    spans = np.ptp(surface.corners[:, :, 2], axis=1)
    on_walls = shapely.distance(shapely.points(middles[:, :2]), walls) < 1e-6
    found: np.ndarray[tuple[int], np.dtype[np.bool_]] = (spans > 1e-9) & ~on_walls
    return found


@pytest.mark.parametrize("edge", [10_000.0, 70.0, 12.0])
@pytest.mark.parametrize("way", UPRIGHT)
@pytest.mark.parametrize("outline", [L_SHAPED, U_SHAPED, BAY_WINDOW], ids=["L", "U", "bay window"])
def test_sides_are_taken_as_those_of_an_outline(outline: Outline, way: Way, edge: float) -> None:
    surface = prism(outline, edge)
    assert (opening_takes(surface, way, 3.0) == on_open_sides(surface, outline, way)).all()


@st.composite
def outlines(draw: st.DrawFn) -> Outline:
    """Outlines round a middle, with corners at whole millimetres and of any depth."""
    count = draw(st.integers(3, 9))
    depths = draw(st.lists(st.integers(60, 400), min_size=count, max_size=count))
    angles = 2 * np.pi * np.arange(count) / count
    corners = [(round(d * np.cos(a)), round(d * np.sin(a))) for d, a in zip(depths, angles, strict=True)]
    return tuple((float(x), float(y)) for x, y in corners)


@given(outlines(), st.sampled_from(UPRIGHT), st.sampled_from([10_000.0, 90.0, 30.0]))
@settings(max_examples=60, deadline=None)
def test_any_outline_agrees(outline: Outline, way: Way, edge: float) -> None:
    surface = prism(outline, edge)
    assert (opening_takes(surface, way, 0.0) == on_open_sides(surface, outline, way)).all()


@given(outlines(), st.sampled_from([10_000.0, 40.0]))
@settings(max_examples=20, deadline=None)
def test_up_and_down_take_top_and_floor_alone(outline: Outline, edge: float) -> None:
    surface = prism(outline, edge)
    ends = np.ptp(surface.corners[:, :, 2], axis=1) < 1e-9
    top = surface.corners[:, 0, 2] > 30.0
    assert (opening_takes(surface, "up", 3.0) == (ends & top)).all()
    assert (opening_takes(surface, "down", 3.0) == (ends & ~top)).all()


def test_the_sides_an_opening_takes_are_the_same_names_everywhere() -> None:
    cube = block((0.0, 0.0, 0.0), (100.0, 100.0, 100.0), 50.0)
    middles = cube.corners.mean(axis=1)
    for way, (x, y) in TOWARDS.items():
        ahead = middles[:, 0] * x + middles[:, 1] * y
        taken = opening_takes(cube, next(one for one in UPRIGHT if one == way), 1.0)
        assert (taken == (ahead > ahead.max() - 1e-9)).all()


def test_a_shelf_behind_the_outermost_side_is_not_open() -> None:
    surface = prism(L_SHAPED, 10_000.0)
    taken = opening_takes(surface, "left", 3.0)
    assert surface.corners[taken][:, :, 1].min() == 500.0
    assert surface.corners[taken][:, :, 0].max() == 200.0


@pytest.mark.parametrize("edge", [2.5, 4.0, 6.0])
@pytest.mark.parametrize("noise", [0.5, 1.0, 2.0])
def test_a_rough_top_is_open_all_over_and_rough_walls_are_not(edge: float, noise: float) -> None:
    even = block((0.0, 0.0, 0.0), (160.0, 130.0, 90.0), edge)
    middles = even.corners.mean(axis=1)
    taken = opening_takes(noisy(even, noise), "up", 3.0)
    from_rim = np.minimum(middles, (160.0, 130.0, 90.0) - middles)[:, :2].min(axis=1)
    assert taken[(middles[:, 2] == 90.0) & (from_rim > 5.0)].all()
    assert middles[taken][:, 2].min() > 90.0 - 10.0
    assert taken[middles[:, 2] < 90.0].sum() < 0.05 * taken.sum()


@pytest.mark.parametrize("noise", [0.5, 1.0, 1.5])
def test_a_rough_shoulder_behind_the_outermost_side_is_not_open(noise: float) -> None:
    even = prism(tuple((x / 4, y / 4) for x, y in L_SHAPED), 5.0)
    taken = opening_takes(noisy(even, noise), "left", 3.0)
    middles = even.corners.mean(axis=1)
    assert not taken[middles[:, 1] < 110.0].any()
    inner = (np.abs(middles[:, 0] - 25.0) < 20.0) & (np.abs(middles[:, 2] - 30.0) < 25.0)
    assert taken[inner & (middles[:, 1] > 124.999)].all()
