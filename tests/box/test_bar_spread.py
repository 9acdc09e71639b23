"""Bars in a row: where they may be, and no better spread to be had."""

from itertools import combinations, pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boxfit.box.bar_spread import free_spans, spread_bars

Span = tuple[float, float]
ENDS = (0.0, 300.0)


def widest(places: tuple[float, ...]) -> float:
    return max(after - before for before, after in pairwise((ENDS[0], *places, ENDS[1])))


@st.composite
def barred(draw: st.DrawFn) -> list[Span]:
    starts = draw(st.lists(st.integers(0, 29), max_size=4))
    return [(10.0 * start, 10.0 * (start + draw(st.integers(1, 8)))) for start in starts]


@settings(max_examples=60)
@given(barred(), st.integers(1, 3))
def test_no_spread_on_a_grid_leaves_a_narrower_bay(taken: list[Span], count: int) -> None:
    free = free_spans((5.0, 295.0), taken)
    found = spread_bars(ENDS, free, count, 40.0)
    assert len(found) <= count
    assert all(any(low - 0.06 <= place <= high + 0.06 for low, high in free) for place in found)
    assert all(after - before >= 40.0 - 0.06 for before, after in pairwise(found))
    grid = [5.0 * step for step in range(1, 60)]
    stands = [place for place in grid if any(low <= place <= high for low, high in free)]
    tried = [
        places
        for many in range(1, count + 1)
        for places in combinations(stands, many)
        if all(after - before >= 40.0 for before, after in pairwise(places))
    ]
    if found and tried:
        assert widest(found) <= min(map(widest, tried)) + 0.2


def test_bars_are_even_where_nothing_stands() -> None:
    assert spread_bars((100.0, 500.0), [(110.0, 490.0)], 3, 40.0) == (200.0, 300.0, 400.0)


def test_no_bar_where_none_may_stand() -> None:
    assert spread_bars(ENDS, [], 2, 40.0) == ()
    assert free_spans((0.0, 100.0), [(-10.0, 120.0)]) == ()


def test_too_many_bars_are_not_crowded() -> None:
    found = spread_bars(ENDS, [(5.0, 295.0)], 20, 40.0)
    assert len(found) < 20
    assert all(after - before >= 40.0 - 1e-9 for before, after in pairwise(found))


def test_bars_that_the_widest_bay_does_not_need_part_the_others() -> None:
    """What stands from 100 to 250 leaves a bay of 150; a third and fourth bar go beside it."""
    free = [(5.0, 100.0), (250.0, 295.0)]
    assert spread_bars(ENDS, free, 2, 40.0) == (100.0, 250.0)
    assert spread_bars(ENDS, free, 3, 40.0) == (50.0, 100.0, 250.0)
    assert len(spread_bars(ENDS, free, 9, 40.0)) < 9


@pytest.mark.parametrize(("free", "places"), [([(10.0, 60.0), (200.0, 290.0)], (60.0, 200.0))])
def test_a_bar_moves_to_the_edge_of_what_is_taken(free: list[Span], places: tuple[float, ...]) -> None:
    assert spread_bars(ENDS, free, 2, 40.0) == places
