"""The order of strings against every order there is, and against constraint programming."""

from itertools import pairwise, permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boxfit.bay import Vector
from boxfit.electrics.circuits import shortest, sought
from boxfit.electrics.order import link_of, ordered, step_of, touching

JUNCTION: Vector = (0.0, 0.0, 300.0)
places = st.tuples(st.integers(-2000, 200), st.integers(-500, 500), st.sampled_from([350, 460])).map(
    lambda at: (float(at[0]), float(at[1]), float(at[2]))
)


def by_trying_all(modules: tuple[Vector, ...], series: int) -> float:
    ways = permutations(range(len(modules)))
    cut = (tuple(way[first : first + series] for first in range(0, len(way), series)) for way in ways)
    return min(link_of(strings, modules, JUNCTION) for strings in cut)


@settings(max_examples=25, deadline=None)
@given(st.lists(places, min_size=6, max_size=6, unique=True), st.sampled_from([1, 2, 3, 6]))
def test_nothing_is_shorter(modules: list[Vector], series: int) -> None:
    found = ordered(tuple(modules), series, JUNCTION)
    assert found.proven
    assert found.link == pytest.approx(by_trying_all(tuple(modules), series))
    assert sorted(module for string in found.strings for module in string) == list(range(6))
    assert {len(string) for string in found.strings} == {series}


def test_constraint_programming_agrees() -> None:
    lengths = [
        [abs(one - other) * 7 + (one * other) % 5 * (one != other) for other in range(10)]
        for one in range(10)
    ]
    exact, (other, proven) = shortest(lengths, 3), sought(lengths, 3, 20.0)

    def total(strings: tuple[tuple[int, ...], ...]) -> int:
        ways = [(0, *(module + 1 for module in string), 0) for string in strings]
        return sum(lengths[a][b] for way in ways for a, b in pairwise(way))

    assert proven
    assert total(exact) == total(other)


def test_turning_a_string_lowers_the_voltage_between_neighbours() -> None:
    """Two rows of three side by side, run the same way, differ by nothing across the gap."""
    rows = tuple((-150.0 * number, side, 300.0) for side in (0.0, 360.0) for number in range(3))
    beside = ((0, 3), (1, 4), (2, 5), (0, 1), (1, 2), (3, 4), (4, 5))
    found = ordered(rows, 3, JUNCTION, beside)
    assert found.step == step_of(found.strings, beside) == 1


def test_neighbours_touch_within_a_gap() -> None:
    lows: tuple[Vector, ...] = ((0.0, 0.0, 0.0), (0.0, 0.0, 110.0), (0.0, 400.0, 0.0))
    highs: tuple[Vector, ...] = tuple((x + 355.0, y + 151.0, z + 108.0) for x, y, z in lows)
    assert touching(lows, highs, 5.0) == ((0, 1),)


def test_broken_strings_are_refused() -> None:
    with pytest.raises(ValueError, match="no whole strings"):
        ordered((JUNCTION, JUNCTION, JUNCTION), 2, JUNCTION)


@settings(max_examples=20, deadline=None)
@given(st.lists(places, min_size=8, max_size=8, unique=True))
def test_lower_voltage_never_costs_link(modules: list[Vector]) -> None:
    beside = tuple((one, other) for one in range(8) for other in range(one) if (one * other) % 3 == 1)
    calm = ordered(tuple(modules), 4, JUNCTION, beside)
    assert calm.link == pytest.approx(ordered(tuple(modules), 4, JUNCTION).link, abs=1.0)
    assert calm.step == step_of(calm.strings, beside)


def test_of_ways_as_long_the_calmer_is_taken() -> None:
    """Two rows of two in a square: round about, the first touches the last; every other way is longer."""
    square = ((0.0, 0.0, 300.0), (-100.0, 0.0, 300.0), (-100.0, 100.0, 300.0), (0.0, 100.0, 300.0))
    beside = ((0, 1), (1, 2), (2, 3), (0, 3))
    assert ordered(square, 4, (0.0, 50.0, 300.0), beside).step == 3
    assert ordered(square, 2, (0.0, 50.0, 300.0), beside).step == 1
