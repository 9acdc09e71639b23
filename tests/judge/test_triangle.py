"""Block to triangle: hand cases, dense samples, and shapes that are hardly triangles any more."""

from math import sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from boxfit.bay import Vector
from boxfit.judge.distance import Cuboid
from boxfit.judge.triangle import point_distances, triangle_distances
from tests.judge.strategies import cuboids, triangles

Corners = tuple[Vector, Vector, Vector]
UNIT = Cuboid((0.0, 0.0, 0.0), (1.0, 1.0, 1.0))
STEPS = 40


def distance(block: Cuboid, corners: Corners) -> float:
    return float(triangle_distances(block, np.array([corners]))[0])


def sampled(corners: Corners) -> tuple[NDArray[np.float64], float]:
    """Points all over a triangle, and how far from the nearest of them any point of it can be at most."""
    one, two, three = np.array(corners)
    shares = np.array([(i, j) for i in range(STEPS + 1) for j in range(STEPS + 1 - i)]) / STEPS
    longest = max(float(np.linalg.norm(side)) for side in (two - one, three - two, one - three))
    return one + shares[:, :1] * (two - one) + shares[:, 1:] * (three - one), longest / STEPS


@pytest.mark.parametrize(
    ("corners", "expected"),
    [
        (((3.0, -9.0, -9.0), (3.0, 9.0, -9.0), (3.0, 0.0, 20.0)), 2.0),  # hand: face to the inside of it
        (((3.0, 0.4, 0.4), (3.0, 0.6, 0.4), (5.0, 0.5, 0.6)), 2.0),  # hand: edge to face
        (((3.0, 0.5, 0.5), (5.0, 0.4, 0.4), (5.0, 0.6, 0.6)), 2.0),  # hand: corner to face
        (((2.0, 2.0, 0.5), (5.0, 2.0, 0.5), (2.0, 5.0, 0.5)), sqrt(2.0)),  # hand: corner to edge
        (((2.0, 2.0, 2.0), (5.0, 2.0, 2.0), (2.0, 5.0, 2.0)), sqrt(3.0)),  # hand: corner to corner
        (((9.0, 0.0, 0.0), (0.0, 9.0, 0.0), (0.0, 0.0, 9.0)), 6.0 / sqrt(3.0)),  # hand: block's corner within
        (
            ((3.0, 0.0, -9.0), (0.0, 3.0, -9.0), (9.0, 9.0, -9.0)),
            sqrt(0.5 + 81.0),
        ),  # hand: edge below the block
        (((3.0, 0.0, 0.5), (0.0, 3.0, 0.5), (9.0, 9.0, 0.5)), sqrt(0.5)),  # hand: edge crosses a block's edge
        (((0.5, -9.0, -9.0), (0.5, 9.0, -9.0), (0.5, 0.0, 20.0)), 0.0),  # hand: cuts the block in two
        (
            ((2.5, 0.0, 0.0), (0.0, 2.5, 0.0), (0.0, 0.0, 2.5)),
            0.0,
        ),  # hand: cuts its corner off, edges pass by
        (((0.4, 0.4, 0.4), (0.6, 0.4, 0.4), (0.4, 0.6, 0.5)), 0.0),  # hand: wholly inside
        (((-1.0, 0.5, 0.5), (2.0, 0.5, 0.5), (0.5, 9.0, 9.0)), 0.0),  # hand: one edge through
        (((1.0, -9.0, -9.0), (1.0, 9.0, -9.0), (1.0, 0.0, 20.0)), 0.0),  # hand: touching a face
        (((4.0, 5.0, 0.5), (4.0, 5.0, 0.5), (4.0, 5.0, 0.5)), 5.0),  # hand: a point
        (((4.0, 5.0, -8.0), (4.0, 5.0, 9.0), (4.0, 5.0, 1.0)), 5.0),  # hand: a line
    ],
)
def test_by_hand(corners: Corners, expected: float) -> None:
    for turn in range(3):
        turned = (corners[turn], corners[turn - 2], corners[turn - 1])
        assert distance(UNIT, turned) == pytest.approx(expected, abs=1e-12)
        assert distance(UNIT, turned[::-1]) == pytest.approx(expected, abs=1e-12)


@given(cuboids(), triangles())
def test_dense_samples_close_it_in(block: Cuboid, corners: Corners) -> None:
    points, apart = sampled(corners)
    nearest = float(point_distances(block, points).min())
    assert nearest - apart <= distance(block, corners) <= nearest + 1e-9


@given(cuboids(), triangles(), st.integers(0, 2), st.floats(-500.0, 500.0))
def test_two_halves_are_as_near_as_the_whole(
    block: Cuboid, corners: Corners, first: int, share: float
) -> None:
    one, two, three = (np.array(corners[first - k]) for k in range(3))
    between = one + (share + 500.0) / 1000.0 * (two - one)
    halves = triangle_distances(block, np.array([[one, between, three], [between, two, three]]))
    assert float(halves.min()) == pytest.approx(distance(block, corners), abs=1e-6)


@pytest.mark.parametrize("width", [1e-3, 1e-6, 1e-9, 1e-12, 1e-15, 0.0])
def test_a_sliver_is_as_near_as_its_line(width: float) -> None:
    # hand: a line at 3 across, 4 up from the edge of the block
    sliver = ((4.0, -900.0, 5.0), (4.0, 900.0, 5.0), (4.0 + width, 0.3, 5.0 + width / 3.0))
    assert distance(UNIT, sliver) == pytest.approx(5.0, abs=1e-12)


def test_every_triangle_has_its_own_figure() -> None:
    rng = np.random.default_rng(7)
    many = rng.uniform(-3.0, 4.0, (200, 3, 3))
    found = triangle_distances(UNIT, many)
    one_by_one = [float(triangle_distances(UNIT, corners[None])[0]) for corners in many]
    assert found.tolist() == one_by_one
    assert 0 < (found == 0.0).sum() < 200
