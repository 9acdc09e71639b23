"""The judge's distances against hand cases, samples and other programs."""

from math import inf, sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from manifold3d import Manifold
from shapely import LinearRing, MultiLineString, Polygon, box

from boxfit.bay import Point
from boxfit.judge.distance import (
    Cuboid,
    Rectangle,
    block_distance,
    contains,
    inside_distance,
    segment_distance,
    shortfall,
    sides_distance,
)
from tests.judge.strategies import cuboids, outlines, rectangles

UNIT = Cuboid((0.0, 0.0, 0.0), (1.0, 1.0, 1.0))


def as_manifold(block: Cuboid) -> Manifold:
    size = [high - low for low, high in zip(block.low, block.high, strict=True)]
    return Manifold.cube(size).translate(block.low)


@pytest.mark.parametrize(
    ("other", "distance"),
    [
        (Cuboid((2.0, 2.0, 0.0), (3.0, 3.0, 1.0)), sqrt(2)),  # hand: edge to edge
        (Cuboid((2.0, 2.0, 2.0), (3.0, 3.0, 3.0)), sqrt(3)),  # hand: corner to corner
        (Cuboid((3.0, 0.2, 0.2), (4.0, 0.8, 0.8)), 2.0),  # hand: face to face
        (Cuboid((1.0, 0.0, 0.0), (2.0, 1.0, 1.0)), 0.0),  # hand: touching
        (Cuboid((0.9, -5.0, -5.0), (6.0, 6.0, 6.0)), -0.1),  # hand: 0.1 deep
    ],
)
def test_blocks_by_hand(other: Cuboid, distance: float) -> None:
    assert block_distance(UNIT, other) == pytest.approx(distance, abs=1e-12)
    assert block_distance(other, UNIT) == pytest.approx(distance, abs=1e-12)


@settings(deadline=None)
@given(cuboids(), cuboids())
def test_blocks_as_another_program_has_them(one: Cuboid, other: Cuboid) -> None:
    found = block_distance(one, other)
    assert max(found, 0.0) == pytest.approx(as_manifold(one).min_gap(as_manifold(other), 5000.0), abs=1e-3)


@settings(deadline=None)
@given(cuboids(), cuboids(), st.tuples(*[st.floats(0.0, 1.0)] * 6))
def test_no_two_points_of_blocks_are_nearer(
    one: Cuboid, other: Cuboid, shares: tuple[float, float, float, float, float, float]
) -> None:
    squares = 0.0
    for k in range(3):
        a = one.low[k] + shares[k] * (one.high[k] - one.low[k])
        b = other.low[k] + shares[k + 3] * (other.high[k] - other.low[k])
        squares += (a - b) ** 2
    assert block_distance(one, other) <= sqrt(squares) + 1e-9


@pytest.mark.parametrize(
    ("segment", "distance"),
    [
        (((2.0, 2.0), (5.0, 2.0)), sqrt(2)),  # hand: end to corner
        (((3.0, 0.0), (0.0, 3.0)), sqrt(0.5)),  # hand: corner to side
        (((-1.0, 0.5), (2.0, 0.5)), 0.0),  # hand: straight through
        (((0.4, 0.4), (0.6, 0.6)), 0.0),  # hand: wholly inside
        (((-1.0, 2.0), (2.0, 2.0)), 1.0),  # hand: alongside
        (((2.0, 0.5), (2.0, 0.5)), 1.0),  # hand: a side of no length
    ],
)
def test_side_by_hand(segment: tuple[Point, Point], distance: float) -> None:
    assert segment_distance(Rectangle((0.0, 0.0), (1.0, 1.0)), segment) == pytest.approx(distance, abs=1e-12)


@settings(deadline=None)
@given(rectangles(), st.tuples(*[st.floats(-900.0, 900.0)] * 4))
def test_side_as_another_program_has_it(
    rectangle: Rectangle, ends: tuple[float, float, float, float]
) -> None:
    segment = ((ends[0], ends[1]), (ends[2], ends[3]))
    expected = MultiLineString([segment]).distance(box(*rectangle.low, *rectangle.high))
    assert segment_distance(rectangle, segment) == pytest.approx(expected, abs=1e-6)


@settings(deadline=None)
@given(rectangles(), outlines())
def test_inside_an_outline_as_another_program_has_it(
    rectangle: Rectangle, outline: tuple[Point, ...]
) -> None:
    area = box(*rectangle.low, *rectangle.high)
    expected = LinearRing(outline).distance(area) if Polygon(outline).contains(area) else 0.0
    assert inside_distance(rectangle, outline) == pytest.approx(expected, abs=1e-6)


def test_a_notch_that_reaches_in_is_met() -> None:
    # hand: an L; the rectangle sticks out at the inner corner though all its corners but one are inside
    corner = ((0.0, 0.0), (10.0, 0.0), (10.0, 4.0), (4.0, 4.0), (4.0, 10.0), (0.0, 10.0))
    assert inside_distance(Rectangle((1.0, 1.0), (5.0, 5.0)), corner) == 0.0
    assert inside_distance(Rectangle((1.0, 1.0), (3.0, 3.0)), corner) == 1.0
    assert not contains(corner, (7.0, 7.0))


def test_no_walls_are_endlessly_far() -> None:
    assert sides_distance(Rectangle((0.0, 0.0), (1.0, 1.0)), ()) == inf


def test_touching_is_no_meeting_but_standing_in_is() -> None:
    wall = Cuboid((1.0, -5.0, -5.0), (2.0, 5.0, 5.0))
    assert shortfall(UNIT, lambda block: block_distance(block, wall), 0.0) is None
    deep = Cuboid((0.99, -5.0, -5.0), (2.0, 5.0, 5.0))
    assert shortfall(UNIT, lambda block: block_distance(block, deep), 0.0) == pytest.approx(-0.01)
