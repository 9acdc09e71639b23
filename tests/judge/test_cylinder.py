"""Block to round bar: hand cases, samples, and another program's gap to a bar of many sides."""

from math import cos, dist, pi, sin, sqrt

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from manifold3d import Manifold

from boxfit.bay import Cylinder, Vector
from boxfit.judge.cylinder import CLOSE, cylinder_distance
from boxfit.judge.distance import Cuboid
from tests.judge.strategies import bars, cuboids

SIDES = 256
UNIT = Cuboid((0.0, 0.0, 0.0), (1.0, 1.0, 1.0))


def frame(bar: Cylinder) -> tuple[Vector, Vector, Vector]:
    """Along the bar, and two directions across it."""
    along = (np.array(bar.end) - bar.start) / dist(bar.start, bar.end)
    first = np.cross(along, np.eye(3)[np.abs(along).argmin()])
    first /= np.linalg.norm(first)
    second = np.cross(along, first)
    return tuple(along), tuple(first), tuple(second)


def as_manifold(bar: Cylinder) -> Manifold:
    """The bar with a many-sided section inside the round one."""
    along, first, second = frame(bar)
    bare = Manifold.cylinder(dist(bar.start, bar.end), bar.diameter / 2, bar.diameter / 2, SIDES)
    return bare.transform(np.column_stack([first, second, along, bar.start]))


@pytest.mark.parametrize(
    ("bar", "distance"),
    [
        (Cylinder((5.0, 0.5, -9.0), (5.0, 0.5, 9.0), 2.0), 3.0),  # hand: side of the bar to a face
        (Cylinder((4.0, 4.0, -9.0), (4.0, 4.0, 9.0), 2.0), 3.0 * sqrt(2) - 1.0),  # hand: to an edge
        (Cylinder((3.0, 0.5, 0.5), (9.0, 0.5, 0.5), 0.5), 2.0),  # hand: flat end to a face
        (Cylinder((3.0, 5.0, 0.5), (9.0, 5.0, 0.5), 2.0), sqrt(4.0 + 9.0)),  # hand: rim to an edge
        (
            Cylinder((5.0, 0.0, 0.5), (8.0, 3.0, 0.5), 2.0),
            4.0 - sqrt(0.5),
        ),  # hand: tilted end's rim to a face
        (Cylinder((-9.0, 0.5, 0.5), (9.0, 0.5, 0.5), 0.5), 0.0),  # hand: right through
        (Cylinder((1.0, 0.5, 0.5), (9.0, 0.5, 0.5), 4.0), 0.0),  # hand: touching
    ],
)
def test_by_hand(bar: Cylinder, distance: float) -> None:
    found = cylinder_distance(UNIT, bar)
    assert found.lower - 1e-9 <= distance <= found.upper + 1e-9
    assert found.upper - found.lower <= CLOSE


@settings(deadline=None)
@given(cuboids(), bars())
def test_lower_and_upper_value_are_a_thousandth_apart_at_most(block: Cuboid, bar: Cylinder) -> None:
    found = cylinder_distance(block, bar)
    assert 0.0 <= found.lower <= found.upper <= found.lower + 0.001


@settings(deadline=None, max_examples=60)
@given(cuboids(), bars())
def test_as_another_program_has_it(block: Cuboid, bar: Cylinder) -> None:
    size = [high - low for low, high in zip(block.low, block.high, strict=True)]
    gap = Manifold.cube(size).translate(block.low).min_gap(as_manifold(bar), 5000.0)
    cut_off = bar.diameter / 2 * (1.0 - cos(pi / SIDES))
    found = cylinder_distance(block, bar)
    assert found.lower - 1e-3 <= gap <= found.upper + cut_off + 1e-3


@settings(deadline=None)
@given(cuboids(), bars(), st.tuples(*[st.floats(0.0, 1.0)] * 6))
def test_no_two_points_are_nearer(
    block: Cuboid, bar: Cylinder, shares: tuple[float, float, float, float, float, float]
) -> None:
    of_block = [
        low + share * (high - low) for low, high, share in zip(block.low, block.high, shares[:3], strict=True)
    ]
    _, first, second = frame(bar)
    turn, reach = 2.0 * pi * shares[4], bar.diameter / 2 * shares[5]
    of_bar = [
        bar.start[k]
        + shares[3] * (bar.end[k] - bar.start[k])
        + reach * (cos(turn) * first[k] + sin(turn) * second[k])
        for k in range(3)
    ]
    assert cylinder_distance(block, bar).lower <= dist(of_block, of_bar) + 1e-9


def test_a_block_met_exactly_along_the_bar() -> None:
    """The bar's axis once pointed exactly at the block and rounding put a point beyond the flat end."""
    bar = Cylinder((0.0, 0.0, 0.0), (1.0, 0.0, 1.0), 1.0)
    low = (3.2476406871192856, -0.5, 3.0)
    found = cylinder_distance(Cuboid(low, (low[0] + 1.0, 0.5, 4.0)), bar)
    assert found.lower == pytest.approx(3.0035355, abs=1e-4)  # hand: end disc, corner to corner
