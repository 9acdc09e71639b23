"""A block and a surface of many triangles: nothing near is passed over."""

from math import inf, sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxfit.bay import Block, Surface
from boxfit.judge.distance import Cuboid, block_distance, shortfall
from boxfit.judge.surface import BATCH, closed_part, surface_distance
from boxfit.judge.triangle import triangle_distances
from tests.judge.strategies import cuboids
from tests.judge.surfaces import as_shell, block_surface

UNIT = Cuboid((0.0, 0.0, 0.0), (1.0, 1.0, 1.0))


def scattered(count: int, seed: int) -> Surface:
    """Small triangles in a room of 2 m each way."""
    rng = np.random.default_rng(seed)
    corners = rng.uniform(-1000.0, 1000.0, (count, 1, 3)) + rng.uniform(-40.0, 40.0, (count, 3, 3))
    return Surface(corners.reshape(-1, 3), np.arange(3 * count).reshape(-1, 3))


MANY = scattered(3 * BATCH, 11)


@given(cuboids(), st.floats(0.0, 300.0))
def test_all_triangles_measured_give_the_same(block: Cuboid, reach: float) -> None:
    surface = scattered(300, 5)
    least = float(triangle_distances(block, surface.corners).min())
    found = surface_distance(block, surface, reach)
    assert found == pytest.approx(least, abs=1e-9) if least <= reach else found >= least - 1e-9


@pytest.mark.parametrize("place", [(-900.0, 0.0, 0.0), (400.0, -300.0, 200.0), (1100.0, 1100.0, 900.0)])
@pytest.mark.parametrize("size", [1.0, 40.0, 1200.0])
def test_more_than_is_measured_at_once(place: tuple[float, float, float], size: float) -> None:
    block = Cuboid(place, (place[0] + size, place[1] + size, place[2] + size))
    least = float(triangle_distances(block, MANY.corners).min())
    assert surface_distance(block, MANY, 4000.0) == pytest.approx(least, abs=1e-9)


def test_the_nearest_comes_last() -> None:
    # hand: slanted triangles past the corner, the blocks round them over the unit block, 6 / sqrt(3) away;
    # behind two heaps of these one square to its face, 3 away
    slanted = [(9.0, 0.0, 0.0), (0.0, 9.0, 0.0), (0.0, 0.0, 9.0)]
    square = [(4.0, 0.0, 0.0), (4.0, 1.0, 0.0), (4.0, 0.0, 1.0)]
    triangles = np.array([[0, 1, 2]] * (2 * BATCH) + [[3, 4, 5]])
    assert surface_distance(UNIT, Surface(np.array(slanted + square), triangles), 9.0) == 3.0
    without = surface_distance(UNIT, Surface(np.array(slanted), triangles[:-1]), 9.0)
    assert without == pytest.approx(6.0 / sqrt(3.0))


@given(cuboids(), cuboids())
def test_triangles_round_a_block_are_as_far_as_the_block(block: Cuboid, other: Cuboid) -> None:
    within = min(min(block.low[k] - other.low[k], other.high[k] - block.high[k]) for k in range(3))
    # the surface is hollow: within it the nearest side counts
    expected = max(block_distance(block, other), within, 0.0)
    found = surface_distance(block, block_surface(Block(other.low, other.high)), inf)
    assert found == pytest.approx(expected, abs=1e-9)


def test_touching_is_no_meeting_but_standing_in_is() -> None:
    wall = block_surface(Block((1.0, -5.0, -5.0), (2.0, 5.0, 5.0)))
    assert shortfall(UNIT, lambda block: surface_distance(block, wall, 0.0), 0.0) is None
    deep = block_surface(Block((0.99, -5.0, -5.0), (2.0, 5.0, 5.0)))
    assert shortfall(UNIT, lambda block: surface_distance(block, deep, 0.0), 0.0) == 0.0


def test_nothing_there_is_endlessly_far() -> None:
    empty = Surface(np.zeros((3, 3)), np.zeros((0, 3), dtype=np.int64))
    assert surface_distance(UNIT, empty, inf) == inf


def test_what_the_opening_takes_is_gone() -> None:
    surface = block_surface(Block((-1.0, -1.0, -1.0), (2.0, 2.0, 2.0)))
    shell = as_shell(surface, "room", surface.corners[:, :, 2].min(axis=1) == 2.0)
    assert len(closed_part(shell).triangles) == 10  # hand: five faces of two triangles
    assert closed_part(shell) is closed_part(shell)
    assert closed_part(as_shell(surface, "room")) is surface
    through_the_top = Cuboid((0.0, 0.0, 0.0), (1.0, 1.0, 9.0))
    assert surface_distance(through_the_top, surface, inf) == 0.0
    assert surface_distance(through_the_top, closed_part(shell), inf) == 1.0
