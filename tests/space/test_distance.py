"""Shortest distances: hand cases, the judge's own geometry, and another program's gap to a bar."""

from math import cos, dist, hypot, pi, sqrt
from typing import get_args

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from manifold3d import Manifold

from boxfit.bay import Block, Cylinder, Point
from boxfit.judge.cylinder import cylinder_distance as judged_from_bar
from boxfit.judge.distance import Cuboid, inside_distance
from boxfit.judge.distance import block_distance as judged_apart
from boxfit.space.distance import (
    FACES,
    Face,
    block_distance,
    cylinder_distance,
    face_of,
    is_inside,
    side_distance,
    solid_distance,
)
from boxfit.space.free import edges_of
from tests.judge.strategies import bars, cuboids, outlines

UNIT = Block((0.0, 0.0, 0.0), (1.0, 1.0, 1.0))
SIDES = 256
CLOSE = 0.002
faces = st.sampled_from(FACES)


def as_block(cuboid: Cuboid) -> Block:
    return Block(cuboid.low, cuboid.high)


def as_cuboid(block: Block) -> Cuboid:
    return Cuboid(block.low, block.high)


def as_manifold(bar: Cylinder) -> Manifold:
    """The bar with a many-sided section inside the round one."""
    along = (np.array(bar.end) - bar.start) / dist(bar.start, bar.end)
    first = np.cross(along, np.eye(3)[np.abs(along).argmin()])
    first /= np.linalg.norm(first)
    bare = Manifold.cylinder(dist(bar.start, bar.end), bar.diameter / 2, bar.diameter / 2, SIDES)
    return bare.transform(np.column_stack([first, np.cross(along, first), along, bar.start]))


def test_faces_lie_at_the_six_ends() -> None:
    block = Block((1.0, 2.0, 3.0), (4.0, 6.0, 8.0))
    assert get_args(Face) == FACES
    at = {face: (face_of(block, face).low, face_of(block, face).high) for face in FACES}
    assert at == {
        "front": ((4.0, 2.0, 3.0), (4.0, 6.0, 8.0)),
        "rear": ((1.0, 2.0, 3.0), (1.0, 6.0, 8.0)),
        "left": ((1.0, 6.0, 3.0), (4.0, 6.0, 8.0)),
        "right": ((1.0, 2.0, 3.0), (4.0, 2.0, 8.0)),
        "top": ((1.0, 2.0, 8.0), (4.0, 6.0, 8.0)),
        "bottom": ((1.0, 2.0, 3.0), (4.0, 6.0, 3.0)),
    }


@pytest.mark.parametrize(
    ("bar", "face", "distance"),
    [
        (Cylinder((5.0, 0.5, -9.0), (5.0, 0.5, 9.0), 2.0), "front", 3.0),  # hand: side of the bar to a face
        (Cylinder((5.0, 0.5, -9.0), (5.0, 0.5, 9.0), 2.0), "rear", 4.0),  # hand: the far face
        (Cylinder((5.0, 0.5, -9.0), (5.0, 0.5, 9.0), 2.0), "top", 3.0),  # hand: the top's front edge
        (Cylinder((4.0, 4.0, -9.0), (4.0, 4.0, 9.0), 2.0), "left", 3.0 * sqrt(2) - 1.0),  # hand: to an edge
        (Cylinder((3.0, 5.0, 0.5), (9.0, 5.0, 0.5), 2.0), "front", hypot(2.0, 3.0)),  # hand: rim to an edge
        (Cylinder((5.0, 0.0, 0.5), (8.0, 3.0, 0.5), 2.0), "front", 4.0 - sqrt(0.5)),  # hand: tilted end's rim
        (Cylinder((-9.0, 0.5, 0.5), (9.0, 0.5, 0.5), 0.5), "rear", 0.0),  # hand: right through
        (Cylinder((-9.0, 0.5, 0.5), (9.0, 0.5, 0.5), 0.5), "top", 0.25),  # hand: below the top
        (Cylinder((1.0, 0.5, 0.5), (9.0, 0.5, 0.5), 4.0), "front", 0.0),  # hand: touching
    ],
)
def test_bars_by_hand(bar: Cylinder, face: Face, distance: float) -> None:
    found = cylinder_distance(face_of(UNIT, face), bar)
    assert found == pytest.approx(distance, abs=1e-4)
    assert found == solid_distance(face_of(UNIT, face), bar)


def test_a_bar_within_a_block_meets_it_and_no_face() -> None:
    bar = Cylinder((0.4, 0.5, 0.5), (0.6, 0.5, 0.5), 0.2)
    assert cylinder_distance(UNIT, bar) == 0.0
    assert cylinder_distance(face_of(UNIT, "top"), bar) == pytest.approx(0.4, abs=1e-4)


@settings(max_examples=60)
@given(cuboids(), bars(), faces)
def test_bars_as_the_judge_has_them(cuboid: Cuboid, bar: Cylinder, face: Face) -> None:
    """The judge closes in on the difference of both bodies, this here on one coordinate after the other."""
    for block in (as_block(cuboid), face_of(as_block(cuboid), face)):
        judged = judged_from_bar(as_cuboid(block), bar)
        assert judged.lower - 1e-6 <= cylinder_distance(block, bar) <= judged.upper + CLOSE


@settings(max_examples=40)
@given(cuboids(), bars())
def test_bars_as_another_program_has_them(cuboid: Cuboid, bar: Cylinder) -> None:
    size = [high - low for low, high in zip(cuboid.low, cuboid.high, strict=True)]
    gap = Manifold.cube(size).translate(cuboid.low).min_gap(as_manifold(bar), 5000.0)
    cut_off = bar.diameter / 2 * (1.0 - cos(pi / SIDES))
    found = cylinder_distance(as_block(cuboid), bar)
    assert gap - cut_off - CLOSE <= found <= gap + CLOSE


@pytest.mark.parametrize("tilt", [0.0, 1e-7, 0.01, 1.0])
def test_a_long_bar_along_a_face(tilt: float) -> None:
    """By hand: 40 less 15 at the low end of the bar, which rises by the tilt over the face."""
    face = Block((0.0, 0.0, 0.0), (2000.0, 300.0, 0.0))
    bar = Cylinder((0.0, 150.0, 40.0), (2000.0, 150.0, 40.0 + tilt), 30.0)
    assert cylinder_distance(face, bar) == pytest.approx(25.0, abs=0.008)


@given(cuboids(), cuboids(), faces)
def test_blocks_as_the_judge_has_them(one: Cuboid, other: Cuboid, face: Face) -> None:
    flat = face_of(as_block(one), face)
    apart = max(judged_apart(as_cuboid(flat), other), 0.0)
    assert block_distance(flat, as_block(other)) == pytest.approx(apart)
    assert solid_distance(flat, as_block(other)) == block_distance(as_block(other), flat)


@given(cuboids(), outlines(), faces)
def test_walls_as_the_judge_has_them(cuboid: Cuboid, outline: tuple[Point, ...], face: Face) -> None:
    small = Block(cuboid.low, (cuboid.low[0] + 40.0, cuboid.low[1] + 25.0, cuboid.high[2]))
    for block in (as_block(cuboid), face_of(small, face)):
        judged = inside_distance(as_cuboid(block).across((0, 1)), outline)
        nearest = min(side_distance(block, side) for side in edges_of(outline))
        assert (nearest if is_inside(block, outline) else 0.0) == pytest.approx(judged, abs=1e-9)


def test_walls_by_hand() -> None:
    """The wall ends at (0, 0), 30 ahead of the block's corner and 40 to the left of it."""
    block = Block((-200.0, -300.0, 100.0), (-30.0, -40.0, 200.0))
    wall = ((0.0, 0.0), (500.0, 0.0))
    assert side_distance(block, wall) == side_distance(face_of(block, "front"), wall) == 50.0
    assert side_distance(face_of(block, "rear"), wall) == hypot(200.0, 40.0)
    assert side_distance(face_of(block, "left", 40.0), wall) == 30.0
    assert side_distance(Block((-200.0, -40.0, 0.0), (200.0, 40.0, 0.0)), wall) == 0.0


def test_inside_an_outline_by_hand() -> None:
    corner = ((-500.0, -500.0), (500.0, -500.0), (500.0, 0.0), (0.0, 0.0), (0.0, 500.0), (-500.0, 500.0))
    assert is_inside(Block((-200.0, -300.0, 100.0), (-30.0, -40.0, 200.0)), corner)
    assert not is_inside(Block((10.0, 10.0, 0.0), (20.0, 20.0, 0.0)), corner)
