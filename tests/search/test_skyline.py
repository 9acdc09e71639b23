"""The skyline search says yes to the most that can be laid, and no to one more."""

from itertools import combinations

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from boxfit.search.equivalent import Plan
from boxfit.search.grid import lay_on_grid
from boxfit.search.skyline import Answer, lay
from tests.search.test_rectangle import exhaustive

NODES = 100_000


@settings(max_examples=150, deadline=None)
@given(st.integers(1, 6), st.integers(1, 8), st.integers(1, 5), st.integers(1, 5))
def test_yes_to_the_most_and_no_to_one_more(width: int, depth: int, one: int, other: int) -> None:
    """Against an exhaustive search; the placement of the most lies within the plan and nothing overlaps."""
    long, short = max(one, other), min(one, other)
    footprints = ((long, short), (short, long))
    most = exhaustive(width, depth, footprints)
    plan = Plan(width, depth, long, short)
    answer, placed = lay(plan, most, NODES)
    assert (answer, len(placed)) == (Answer.YES, most)
    assert lay(plan, most + 1, NODES) == (Answer.NO, [])
    boxes = [(x, y, x + footprints[kind][0], y + footprints[kind][1]) for kind, x, y in placed]
    assert all(min(x, y) >= 0 and right <= width and top <= depth for x, y, right, top in boxes)
    for (x, y, right, top), (u, v, far, high) in combinations(boxes, 2):
        assert far <= x or right <= u or high <= y or top <= v


@settings(max_examples=40, deadline=None)
@given(st.integers(8, 24), st.integers(8, 24), st.integers(2, 7), st.integers(2, 7), st.integers(0, 2))
def test_never_against_the_solver(width: int, depth: int, one: int, other: int, short_of: int) -> None:
    """Near the most that area allows, a constraint solver's plain model answers the same."""
    long, short = max(one, other), min(one, other)
    count = max(width * depth // (long * short) - short_of, 1)
    by_solver, _ = lay_on_grid(width, depth, ((long, short), (short, long)), count, 1.0)
    ours, placed = lay(Plan(width, depth, long, short), count, NODES)
    assume(Answer.UNKNOWN not in (by_solver, ours))
    assert ours == by_solver
    assert len(placed) == (count if ours is Answer.YES else 0)


def test_gives_up_when_told_to() -> None:
    """A plan of 82 pieces is not settled in ten steps, and nothing is claimed of it."""
    assert lay(Plan(93, 46, 13, 4), 82, 10) == (Answer.UNKNOWN, [])
