"""The shortest way among blocks: clear, room for every bend, and no longer than it must be."""

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boxfit.bay import Block, Vector
from boxfit.box.wiring.beside import beside
from boxfit.box.wiring.clash import clashes, gaps_to
from boxfit.box.wiring.obstacles import Obstacle, cable_blocks
from boxfit.box.wiring.route import Route
from boxfit.box.wiring.way import End, shortest_way

ACROSS = 19.0
LEAD = 75.0 + 6.5 * ACROSS
places = st.tuples(st.integers(-2000, 0), st.integers(-500, 500), st.integers(300, 700)).map(
    lambda at: (float(at[0]), float(at[1]), float(at[2]))
)
ends = st.builds(
    lambda at, axis, sign: End(at, (axis, sign), 75.0),
    places,
    st.sampled_from([0, 1]),
    st.sampled_from([1, -1]),
)


@settings(max_examples=30, deadline=None)
@given(ends, ends)
def test_bends_have_room_and_ends_are_straight(start: End, end: End) -> None:
    found = shortest_way(start, end, ACROSS, [])
    if found is None:
        return
    route = Route(found, ACROSS)
    assert route.slack >= -1e-6
    for one, other in pairwise(found):
        assert sum(abs(a - b) > 1e-9 for a, b in zip(one, other, strict=True)) == 1
    for leaves, (here, there) in ((start, found[:2]), (end, found[:-3:-1])):
        assert leaves.looks is not None
        axis, sign = leaves.looks
        assert (there[axis] - here[axis]) * sign >= LEAD - 1e-6


def test_straight_across_is_straight() -> None:
    start, end = End((0.0, 0.0, 500.0), (0, -1), 75.0), End((-1500.0, 0.0, 500.0), (0, 1), 75.0)
    assert shortest_way(start, end, ACROSS, []) == (start.at, end.at)


def test_round_a_block_and_no_further_than_it_must() -> None:
    start, end = End((0.0, 0.0, 500.0), (0, -1), 75.0), End((-1500.0, 0.0, 500.0), (0, 1), 75.0)
    block = Block((-800.0, -300.0, 0.0), (-700.0, 900.0, 900.0))
    found = shortest_way(start, end, ACROSS, [block])
    assert found is not None
    route = Route(found, ACROSS)
    assert min(point[1] for point in found) == -300.0
    assert gaps_to(block, np.array(route.samples(5.0))).min() >= 0.0
    straight = 1500.0 + 2.0 * 300.0
    assert route.length == pytest.approx(straight - 4 * route.radius * (2.0 - 3.141592653589793 / 2.0))


def test_no_way_out_of_a_closed_box() -> None:
    start, end = End((0.0, 0.0, 500.0), (0, -1), 75.0), End((-1500.0, 0.0, 500.0), (0, 1), 75.0)
    wall = Block((-900.0, -9e4, -9e4), (-800.0, 9e4, 9e4))
    assert shortest_way(start, end, ACROSS, [wall]) is None


def test_beside_a_cable_it_stays_clear_of_it() -> None:
    """Two ends 40 mm apart: the second turns where the first does, further in or out."""
    first = Route(
        ((0.0, 0.0, 500.0), (-500.0, 0.0, 500.0), (-500.0, 800.0, 500.0), (-900.0, 800.0, 500.0)), ACROSS
    )
    start, end = End((0.0, 40.0, 500.0), (0, -1), 75.0), End((-900.0, 840.0, 500.0), (0, 1), 75.0)
    found = beside(first, start, end, [], cable_blocks(first, ACROSS), 1)
    assert found is not None
    assert (found.points[0], found.points[-1], found.corners) == (start.at, end.at, first.corners)
    assert not clashes(found, (), (), (("first", first),))
    assert clashes(first, (), (), (("itself", first),))


def test_a_clash_tells_how_far_and_where() -> None:
    route = Route(((0.0, 0.0, 500.0), (-1000.0, 0.0, 500.0)), 20.0)
    near: Vector = (-400.0, 14.0, 400.0)
    found = clashes(route, (Obstacle("pipe", Block(near, (-300.0, 90.0, 600.0)), 5.0),), (), ())
    assert [(one.what, one.needed) for one in found] == [("pipe", 5.0)]
    assert found[0].distance == pytest.approx(4.0)
    assert -400.0 <= found[0].at[0] <= -300.0
    assert clashes(Route(((0.0, 0.0, 125.0), (-9.0, 0.0, 125.0)), 20.0), (), (), ())[0].what == "the ground"
