"""Inside and outside of surfaces, against trimesh as a general reference library."""

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from boxfit.bay import Block, Prism
from boxfit.space.inside import is_room, is_solid
from boxfit.surface import Surface
from tests.judge.surfaces import together
from tests.space.strategies import OUTLINES
from tests.surfaces import block_surface, finer, prism_surface

tenths = st.integers(-4500, 4500).map(lambda number: number / 10.0)


@settings(max_examples=200)
@given(st.sampled_from(OUTLINES), st.sampled_from([np.inf, 100.0]), st.tuples(tenths, tenths, tenths))
def test_a_place_in_a_prism_is_in_its_surface(
    outline: tuple[tuple[float, float], ...], longest: float, place: tuple[float, float, float]
) -> None:
    import shapely

    x, y, z = place
    room = prism_surface(Prism(outline, 0.0, 400.0))
    room = finer(room, longest) if longest < np.inf else room
    edge = shapely.Polygon(outline).boundary.distance(shapely.Point(x, y))
    if edge > 1e-6 and abs(z) > 1e-6 and abs(z - 400.0) > 1e-6:
        inside = shapely.Polygon(outline).contains(shapely.Point(x, y)) and 0.0 < z < 400.0
        assert is_room(room, place) == is_solid(room, place) == inside


def test_a_ball_holds_what_trimesh_says_it_holds() -> None:
    from trimesh import Trimesh, creation

    ball: Trimesh = creation.icosphere(subdivisions=3, radius=100.0)
    surface = Surface(np.asarray(ball.vertices), np.asarray(ball.faces, dtype=np.int64))
    places = np.random.default_rng(1).uniform(-120.0, 120.0, (300, 3))
    within = np.linalg.norm(places, axis=1)
    for place in places[(within < 98.0) | (within > 100.1)]:
        x, y, z = (float(value) for value in place)
        assert is_room(surface, (x, y, z)) == (np.linalg.norm(place) < 99.0)


def test_pillars_overlaps_and_parts_wound_inward() -> None:
    room = block_surface(Block((0.0, 0.0, 0.0), (100.0, 100.0, 100.0)))
    pillar = Block((40.0, 40.0, 10.0), (60.0, 60.0, 90.0))
    turned = Surface(block_surface(pillar).points, block_surface(pillar).triangles[:, ::-1])
    for inner in (block_surface(pillar), turned):
        both = together(room, inner)
        assert is_room(both, (20.0, 20.0, 50.0))
        assert not is_room(both, (50.0, 50.0, 50.0))
        assert is_solid(both, (50.0, 50.0, 50.0))


def test_a_place_straight_below_corners_and_edges_is_counted_once() -> None:
    block = finer(block_surface(Block((0.0, 0.0, 0.0), (80.0, 80.0, 80.0))), 15.0)
    for x in (5.0, 10.0, 20.0, 40.0):
        assert is_room(block, (x, x, 40.0))
        assert not is_room(block, (x, x, 90.0))
