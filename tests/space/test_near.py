"""Shortest ways to triangles: hand cases, the judge's own geometry, and what a face looks at."""

from itertools import pairwise, product
from math import hypot, sqrt

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from trimesh.remesh import subdivide_to_size

from boxfit.bay import Block, Prism, Surface, Vector
from boxfit.judge.distance import Cuboid
from boxfit.judge.triangle import triangle_distances as judged
from boxfit.space.distance import FACES, Face, face_of, outwards, solid_distance
from boxfit.space.inside import is_room, is_solid
from boxfit.space.near import ahead, nearest
from boxfit.space.triangle import triangle_gaps
from tests.judge.strategies import cuboids
from tests.report.shells import ball, prism_surface

UNIT = Block((0.0, 0.0, 0.0), (1.0, 1.0, 1.0))
faces = st.sampled_from(FACES)
points = st.tuples(*[st.floats(-400.0, 400.0)] * 3)
triangles = st.lists(st.tuples(points, points, points), min_size=1, max_size=6)
ROOM = prism_surface(((-500.0, -400.0), (0.0, -400.0), (0.0, 400.0), (-500.0, 400.0)), 200.0, 500.0, 3)
LOOKED_AT: tuple[tuple[Face, float], ...] = (
    ("front", 42.0),
    ("left", 250.0),
    ("top", 100.0),
    ("bottom", 25.0),
)
BODY = Block((-300.0, -150.0, 225.0), (-42.0, 150.0, 400.0))


def surface(*corners: tuple[Vector, Vector, Vector]) -> Surface:
    """Triangles that share no points."""
    return Surface(np.array(corners).reshape(-1, 3), np.arange(3 * len(corners)).reshape(-1, 3))


def seen(block: Block, face: Face, around: Surface) -> float | None:
    """How far off that is what a face of the block looks at."""
    gap = ahead(face_of(block, face), *outwards(face), around)
    return None if gap is None else gap.distance


@pytest.mark.parametrize(
    ("corners", "distance"),
    [
        (((4.0, 0.2, 0.2), (9.0, 5.0, 0.0), (9.0, 0.0, 5.0)), 3.0),  # hand: the triangle's tip to a face
        (((4.0, -9.0, -9.0), (4.0, 20.0, -9.0), (4.0, -9.0, 20.0)), 3.0),  # hand: its inside to a face
        (((3.0, 4.0, -9.0), (3.0, 4.0, 9.0), (30.0, 40.0, 0.0)), hypot(2.0, 3.0)),  # hand: edge to edge
        (((4.0, 0.0, 0.0), (0.0, 4.0, 0.0), (0.0, 0.0, 4.0)), 1.0 / sqrt(3.0)),  # hand: inside to a corner
        (((0.5, -9.0, -9.0), (0.5, 20.0, -9.0), (0.5, -9.0, 20.0)), 0.0),  # hand: cuts through
        (((0.5, 0.5, -9.0), (0.5, 0.5, 9.0), (0.5, 0.6, 9.0)), 0.0),  # hand: pierces top and bottom
        (((0.2, 0.2, 0.2), (0.4, 0.2, 0.2), (0.2, 0.4, 0.2)), 0.0),  # hand: lies within
        (((5.0, 0.0, 0.0), (5.0, 0.0, 0.0), (5.0, 0.0, 0.0)), 4.0),  # hand: a mere point
    ],
)
def test_triangles_by_hand(corners: tuple[Vector, Vector, Vector], distance: float) -> None:
    gap = nearest(UNIT, surface(corners))
    assert gap.distance == pytest.approx(distance, abs=1e-9)


@settings(max_examples=80)
@given(cuboids(), triangles, faces)
def test_triangles_as_the_judge_has_them(
    cuboid: Cuboid, corners: list[tuple[Vector, Vector, Vector]], face: Face
) -> None:
    """The judge walks along edges from crossing to crossing, this here halves them."""
    block = Block(cuboid.low, cuboid.high)
    for one in (block, face_of(block, face)):
        at, to = triangle_gaps(one, np.array(corners))
        found = np.linalg.norm(at - to, axis=1)
        assert found == pytest.approx(judged(Cuboid(one.low, one.high), np.array(corners)), abs=1e-6)
        assert (at >= np.array(one.low) - 1e-9).all()
        assert (at <= np.array(one.high) + 1e-9).all()
        assert nearest(one, surface(*corners)).distance == pytest.approx(found.min(), abs=1e-9)


@settings(max_examples=40)
@given(cuboids(), triangles)
def test_no_sampled_point_is_nearer(cuboid: Cuboid, corners: list[tuple[Vector, Vector, Vector]]) -> None:
    """And the nearest of a fine grid of them is little further off."""
    low, high = np.array(cuboid.low), np.array(cuboid.high)
    shares = np.array([(a, b, 40 - a - b) for a, b in product(range(41), repeat=2) if a + b <= 40]) / 40.0
    sampled = np.einsum("sk,tkj->tsj", shares, np.array(corners))
    off = np.linalg.norm(sampled - np.clip(sampled, low, high), axis=2).min()
    found = nearest(Block(cuboid.low, cuboid.high), surface(*corners)).distance
    longest = max(np.linalg.norm(np.subtract(t[k], t[k - 1])) for t in corners for k in range(3))
    assert found - 1e-9 <= off <= found + longest / 40.0


def test_faces_look_at_their_own_side_of_a_room() -> None:
    """The floor lies 25 under the box; the walls do not answer for it."""
    found = {face: seen(BODY, face, ROOM) for face in FACES}
    assert found == {
        "front": 42.0, "rear": 200.0, "left": 250.0, "right": 250.0, "top": 100.0, "bottom": 25.0
    }  # fmt: skip


@settings(max_examples=30)
@given(st.integers(0, 2**32 - 1), st.floats(0.0, 1.0, allow_subnormal=False))
def test_a_rough_floor_is_not_taken_for_a_wall(seed: int, rough: float) -> None:
    """Points of a scan are up to 1 mm out; the walls still answer for walls."""
    out = np.random.default_rng(seed).uniform(-rough, rough, ROOM.points.shape)
    around = Surface(ROOM.points + out, ROOM.triangles)
    for face, distance in LOOKED_AT:
        assert seen(BODY, face, around) == pytest.approx(distance, abs=2.0 * rough + 1e-6)


@pytest.mark.parametrize(("side", "rough"), [(6.0, 0.7), (15.0, 2.0), (30.0, 3.0)])
def test_nor_is_that_of_a_fine_scan(side: float, rough: float) -> None:
    """By hand: the last cell of floor before the wall may answer for it, 15 to 30 nearer, and 25 below."""
    points, triangles = subdivide_to_size(ROOM.points, ROOM.triangles, side)  # type: ignore[no-untyped-call]
    used, index = np.unique(np.round(points, 6), axis=0, return_inverse=True)
    out = np.random.default_rng(7).uniform(-rough, rough, used.shape)
    around = Surface(used + out, index.reshape(-1)[triangles])
    for face, distance in LOOKED_AT:
        found = seen(BODY, face, around)
        assert found is not None
        assert min(distance, hypot(max(distance - 2.0 * side - 3.0, 0.0), 25.0)) - 3.0 * rough <= found
        assert found <= distance + 3.0 * rough


@pytest.mark.parametrize("pieces", [1, 2, 7])
def test_a_thin_lip_ahead_is_seen_edge_on(pieces: int) -> None:
    """A level sheet 0.0 thick sticks out of the front wall to 12 before the box, at half its height."""
    ends = np.linspace(-90.0, 90.0, pieces + 1)
    lip = [
        triangle
        for a, b in pairwise(ends)
        for triangle in (
            ((-30.0, a, 310.0), (0.0, a, 310.0), (0.0, b, 310.0)),
            ((-30.0, a, 310.0), (0.0, b, 310.0), (-30.0, b, 310.0)),
        )
    ]
    both = np.concatenate([ROOM.corners, np.array(lip)]).reshape(-1, 3)
    used, index = np.unique(both, axis=0, return_inverse=True)
    around = Surface(used, index.reshape(-1, 3))
    assert seen(BODY, "front", around) == pytest.approx(12.0)
    assert seen(BODY, "left", around) == pytest.approx(250.0)
    assert seen(BODY, "bottom", around) == 25.0


def test_a_tip_ahead_is_seen() -> None:
    """A needle 0.2 thick from the front wall to 20 before the box."""
    needle = surface(((-22.0, 0.0, 300.0), (0.0, -0.1, 300.0), (0.0, 0.1, 300.0)))
    assert seen(BODY, "front", needle) == pytest.approx(20.0)
    assert seen(BODY, "rear", needle) is None


@settings(max_examples=40)
@given(points.filter(lambda p: max(map(abs, p)) > 60.0))
def test_the_nearest_of_all_lies_ahead_of_some_face(middle: Vector) -> None:
    """Nothing is overlooked: the shortest way of the block is that of one of its faces."""
    block = Block((-20.0, -25.0, -10.0), (20.0, 25.0, 10.0))
    solid = ball(middle, 30.0)
    whole = nearest(block, solid).distance
    found = [distance for face in FACES if (distance := seen(block, face, solid)) is not None]
    assert min(found) == pytest.approx(whole, abs=1e-6)


@given(points)
def test_inside_and_outside(point: Vector) -> None:
    x, y, z = point
    inside = -500.0 < x < 0.0 and -400.0 < y < 400.0 and 200.0 < z < 500.0
    depth = min(abs(x + 500.0), abs(x), abs(y + 400.0), abs(y - 400.0), abs(z - 200.0), abs(z - 500.0))
    if depth > 1e-6:
        assert is_room(ROOM, point) == is_solid(ROOM, point) == inside
        turned = Surface(ROOM.points, ROOM.triangles[:, ::-1])
        assert is_room(turned, point) == is_solid(turned, point) == inside


def test_a_block_within_a_solid_meets_it() -> None:
    solid = ball((0.5, 0.5, 0.5), 300.0)
    assert solid_distance(UNIT, solid) == 0.0
    far = Block((0.0, 0.0, 400.5), (1.0, 1.0, 410.0))
    assert solid_distance(far, solid) == pytest.approx(100.0, abs=0.1)


def test_a_surface_without_triangles_is_refused() -> None:
    with pytest.raises(ValueError, match="without triangles"):
        nearest(UNIT, Surface(np.zeros((0, 3)), np.zeros((0, 3), dtype=np.int64)))


def test_prisms_are_cut_into_closed_surfaces() -> None:
    """The sample for other tests is sound: its triangles go round the prism's volume."""
    prism = Prism(((0.0, 0.0), (30.0, 0.0), (30.0, 20.0), (0.0, 20.0)), 5.0, 15.0)
    corners = prism_surface(prism.outline, prism.floor, prism.top, 2).corners
    volume = np.einsum("ij,ij->", corners[:, 0], np.cross(corners[:, 1], corners[:, 2])) / 6.0
    assert volume == pytest.approx(6000.0)
