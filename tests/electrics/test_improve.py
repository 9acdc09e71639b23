"""Circuits bettered move by move: never longer, always whole, near to the shortest, the same again."""

from hypothesis import given, settings
from hypothesis import strategies as st

from boxfit.electrics.circuits import shortest, sought
from boxfit.electrics.improve import improved, nearest_next, total


@st.composite
def lengths(draw: st.DrawFn) -> list[list[int]]:
    """Lengths square to the axes between twelve modules and a junction."""
    at = draw(
        st.lists(st.tuples(st.integers(0, 99), st.integers(0, 99)), min_size=13, max_size=13, unique=True)
    )
    return [[abs(x - a) + abs(y - b) for a, b in at] for x, y in at]


@settings(max_examples=20, deadline=None)
@given(lengths(), st.sampled_from([1, 2, 3, 4, 6, 12]))
def test_moves_shorten_and_keep_strings_whole(found: list[list[int]], series: int) -> None:
    start = nearest_next(found, series)
    better = improved(start, found)
    for strings in (start, better):
        assert sorted(module for string in strings for module in string) == list(range(12))
        assert {len(string) for string in strings} == {series}
    least = total(shortest(found, series), found)
    assert least <= total(better, found) <= total(start, found)
    assert total(better, found) <= 1.5 * least


def test_the_search_starts_from_them_and_is_the_same_again() -> None:
    found = [[abs(one - other) * 13 % 37 + (one != other) for other in range(25)] for one in range(25)]
    strings, _ = sought(found, 6, 0.05)
    assert total(strings, found) <= total(improved(nearest_next(found, 6), found), found)
    assert sought(found, 6, 0.05)[0] == strings
