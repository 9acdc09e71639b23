"""Inside and outside of closed surfaces, of several at once, and of such as are not quite closed."""

import numpy as np
import pytest
from hypothesis import given

from boxfit.bay import Block, Surface, Vector
from boxfit.judge.distance import Cuboid, block_distance
from boxfit.judge.inside import (
    BATCH,
    is_in_room,
    is_in_solids,
    room_distance,
    solids_distance,
    windings,
)
from tests.judge.strategies import cuboids, vectors
from tests.judge.surfaces import block_surface, together

BIG, SMALL = Block((-9.0, -9.0, -9.0), (9.0, 9.0, 9.0)), Block((-2.0, -2.0, -2.0), (2.0, 2.0, 2.0))
BESIDE = Block((1.0, 1.0, 1.0), (14.0, 14.0, 14.0))


def finely(block: Block, steps: int) -> Surface:
    """A block of very many triangles that share no corner: each one is a piece of its own."""
    corners = block_surface(block).corners
    for _ in range(steps):
        one, two, three = (corners[:, k] for k in range(3))
        a, b, c = (one + two) / 2, (two + three) / 2, (three + one) / 2
        parts = ((one, a, c), (a, two, b), (c, b, three), (a, b, c))
        corners = np.concatenate([np.stack(part, axis=1) for part in parts])
    return Surface(corners.reshape(-1, 3), np.arange(3 * len(corners)).reshape(-1, 3))


@pytest.mark.parametrize("inward", [False, True])
@given(block=cuboids(), point=vectors)
def test_a_block_surrounds_what_lies_in_it(inward: bool, block: Cuboid, point: Vector) -> None:
    surface = block_surface(Block(block.low, block.high), inward=inward)
    gap = block_distance(Cuboid(point, point), block)
    if abs(gap) > 1e-6:
        assert is_in_room(surface, point) is (gap < 0.0)
        assert is_in_solids(surface, point) is (gap < 0.0)


def test_wound_once_from_outside_and_backwards_from_inside() -> None:
    for inward, expected in ((False, 1.0), (True, -1.0)):
        seen = windings(block_surface(SMALL, inward=inward), (0.5, 0.2, -0.3))
        assert seen.sum() == pytest.approx(expected, abs=1e-12)


@pytest.mark.parametrize("big_inward", [False, True])
@pytest.mark.parametrize("small_inward", [False, True])
def test_a_piece_within_is_no_room_but_counts_as_solid(big_inward: bool, small_inward: bool) -> None:
    both = together(block_surface(BIG, inward=big_inward), block_surface(SMALL, inward=small_inward))
    assert is_in_room(both, (5.0, 5.0, 5.0))
    assert not is_in_room(both, (0.0, 0.0, 0.0))
    assert is_in_solids(both, (5.0, 5.0, 5.0))
    assert is_in_solids(both, (0.0, 0.0, 0.0))


@pytest.mark.parametrize("inward", [False, True])
def test_solids_that_overlap(inward: bool) -> None:
    both = together(block_surface(BIG), block_surface(BESIDE, inward=inward))
    for point in ((0.0, 0.0, 0.0), (5.0, 5.0, 5.0), (12.0, 12.0, 12.0)):
        assert is_in_solids(both, point)
    assert not is_in_solids(both, (-5.0, -5.0, 12.0))


def test_loose_triangles_and_more_than_are_seen_at_once() -> None:
    fine = finely(BIG, 7)
    assert len(fine.triangles) > 2 * BATCH
    assert is_in_solids(fine, (5.0, -3.0, 2.0))
    assert not is_in_solids(fine, (8.9, 8.9, 9.1))


def test_one_triangle_missing_changes_little() -> None:
    fine = finely(BIG, 3)
    torn = Surface(fine.points, fine.triangles[1:])
    assert is_in_room(torn, (0.0, 0.0, 0.0))
    assert not is_in_room(torn, (12.0, 0.0, 0.0))


def test_distance_within_and_without() -> None:
    room = block_surface(BIG)
    inside, outside, across = (Cuboid((at, 0.0, 0.0), (at + 1.0, 1.0, 1.0)) for at in (5.0, 12.0, 8.5))
    found = [
        (room_distance(block, room, 5.0), solids_distance(block, room, 5.0)) for block in (inside, outside)
    ]
    assert found == [(3.0, 0.0), (0.0, 3.0)]  # hand
    assert (room_distance(across, room, 5.0), solids_distance(across, room, 5.0)) == (0.0, 0.0)
