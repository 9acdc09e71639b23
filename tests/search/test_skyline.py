"""The skyline search says yes to the most an exhaustive search lays, and no to one more."""

from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st

from boxfit.search.equivalent import Plan
from boxfit.search.skyline import Answer, lay
from tests.search.test_rectangle import exhaustive

NODES = 100_000


@settings(max_examples=150, deadline=None)
@given(st.integers(1, 13), st.integers(1, 13), st.integers(1, 6), st.integers(1, 6))
def test_yes_to_the_most_and_no_to_one_more(width: int, depth: int, one: int, other: int) -> None:
    """The placement of the most lies within the plan and nothing overlaps."""
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


def test_gives_up_when_told_to() -> None:
    """A plan of 82 pieces is not settled in ten steps, and nothing is claimed of it."""
    assert lay(Plan(93, 46, 13, 4), 82, 10) == (Answer.UNKNOWN, [])
