"""Distances to surfaces of triangles as two libraries of others have them.

Source: the documented behaviour of `manifold3d.Manifold.min_gap` (3.5: "the minimum gap between two
manifolds ... between 0 and searchLength", solids, so 0 where one is in the other) and of
`trimesh.triangles.closest_point` (5.2: "the closest point on the surface of each triangle", after C. Ericson,
"Real-Time Collision Detection"). The two cubes at a gap of the square root of 2 are manifold's own example.
"""

from math import sqrt

import numpy as np
import pytest
import trimesh
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from manifold3d import Manifold

from boxfit.bay import Surface, Vector
from boxfit.judge.distance import Cuboid
from boxfit.judge.inside import is_in_solids, solids_distance
from boxfit.judge.triangle import triangle_distances
from tests.judge.strategies import cuboids, triangles, vectors

FAR = 6000.0
CLOUDS = st.lists(vectors, min_size=4, max_size=10)


def as_manifold(block: Cuboid) -> Manifold:
    size = [high - low for low, high in zip(block.low, block.high, strict=True)]
    return Manifold.cube(size).translate(block.low)


def as_surface(solid: Manifold, inward: bool = False) -> Surface:
    mesh = solid.to_mesh64()
    triangles = np.array(mesh.tri_verts, dtype=np.int64)
    return Surface(np.array(mesh.vert_properties)[:, :3], triangles[:, ::-1] if inward else triangles)


def test_two_cubes() -> None:
    other = as_surface(Manifold.cube([1.0, 1.0, 1.0]).translate([2.0, 2.0, 0.0]))
    found = solids_distance(Cuboid((0.0, 0.0, 0.0), (1.0, 1.0, 1.0)), other, FAR)
    assert found == pytest.approx(sqrt(2.0), abs=1e-12)


@settings(max_examples=150)
@given(cuboids(), CLOUDS, cuboids(), st.booleans())
def test_gap_to_a_solid_with_a_piece_cut_out(
    block: Cuboid, cloud: list[Vector], cut: Cuboid, inward: bool
) -> None:
    solid = Manifold.hull_points(np.array(cloud)) - as_manifold(cut)
    assume(solid.volume() > 1000.0)
    expected = as_manifold(block).min_gap(solid, FAR)
    assert solids_distance(block, as_surface(solid, inward), FAR) == pytest.approx(expected, abs=1e-3)


@settings(max_examples=60)
@given(cuboids(), CLOUDS, CLOUDS, st.booleans())
def test_gap_to_two_solids_that_may_overlap(
    block: Cuboid, one: list[Vector], other: list[Vector], inward: bool
) -> None:
    solids = [Manifold.hull_points(np.array(cloud)) for cloud in (one, other)]
    assume(all(solid.volume() > 1000.0 for solid in solids))
    first, second = as_surface(solids[0]), as_surface(solids[1], inward)
    both = Surface(
        np.concatenate([first.points, second.points]),
        np.concatenate([first.triangles, second.triangles + len(first.points)]),
    )
    expected = min(as_manifold(block).min_gap(solid, FAR) for solid in solids)
    assert solids_distance(block, both, FAR) == pytest.approx(expected, abs=1e-3)


@given(vectors, triangles())
def test_point_to_triangle(point: Vector, corners: tuple[Vector, Vector, Vector]) -> None:
    closest = trimesh.triangles.closest_point(np.array([corners]), np.array([point]))[0]  # type: ignore[no-untyped-call]
    assume(np.isfinite(closest).all())
    expected = float(np.linalg.norm(closest - point))
    found = float(triangle_distances(Cuboid(point, point), np.array([corners]))[0])
    assert found == pytest.approx(expected, abs=1e-6)


@settings(max_examples=60)
@given(cuboids(), CLOUDS)
def test_what_two_solids_share_lies_in_both(block: Cuboid, cloud: list[Vector]) -> None:
    solid = Manifold.hull_points(np.array(cloud))
    assume(solid.volume() > 1000.0)
    middle = [(low + high) / 2 for low, high in zip(block.low, block.high, strict=True)]
    speck = Manifold.cube([0.01, 0.01, 0.01], True).translate(middle)
    shared = (speck ^ solid).volume() / speck.volume()
    assume(shared < 1e-9 or shared > 1.0 - 1e-9)
    x, y, z = middle
    assert is_in_solids(as_surface(solid), (x, y, z)) is (shared > 0.5)
