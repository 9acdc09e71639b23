"""Ways of cables: length, bends, places along them, whatever the way."""

from itertools import pairwise
from math import dist, pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxfit.bay import Vector
from boxfit.box.wiring.obstacles import straight_pieces
from boxfit.box.wiring.route import Route

turns = st.lists(
    st.tuples(st.sampled_from([1, 2]), st.sampled_from([1, -1]), st.floats(300.0, 900.0)), max_size=5
)


def route_of(found: list[tuple[int, int, float]]) -> Route:
    """A way that turns to one of the two other axes each time, stretches of at least two bends."""
    points: list[Vector] = [(0.0, 0.0, 500.0), (400.0, 0.0, 500.0)]
    axis = 0
    for step, sign, length in found:
        axis = (axis + step) % 3
        at = list(points[-1])
        at[axis] += sign * length
        points.append((at[0], at[1], at[2]))
    return Route(tuple(points), 19.0)


@given(turns)
def test_length_is_that_of_straight_stretches_and_quarters(found: list[tuple[int, int, float]]) -> None:
    route = route_of(found)
    straight = sum(dist(one, other) for one, other in straight_pieces(route, 1e6))
    assert route.length == pytest.approx(straight + route.corners * route.radius * pi / 2.0)


@given(turns)
def test_places_along_it_are_as_long_and_as_round(found: list[tuple[int, int, float]]) -> None:
    route = route_of(found)
    places = route.samples(5.0)
    assert (places[0], places[-1]) == (route.points[0], route.points[-1])
    steps = [dist(one, other) for one, other in pairwise(places)]
    assert max(steps) <= 5.0 + 1e-9
    assert sum(steps) == pytest.approx(route.length, rel=1e-3)
    for arc in route.arcs:
        for end in (arc.start, arc.middle, arc.end):
            assert dist(end, arc.centre) == pytest.approx(6.5 * 19.0)


def test_room_for_bends_is_told() -> None:
    tight = Route(((0.0, 0.0, 0.0), (400.0, 0.0, 0.0), (400.0, 200.0, 0.0), (900.0, 200.0, 0.0)), 19.0)
    assert tight.slack == pytest.approx(200.0 - 2.0 * 123.5)
