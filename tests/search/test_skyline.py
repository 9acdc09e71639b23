"""The skyline search says yes to the most that can be laid, and no to one more."""

from itertools import combinations

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from boxfit.search.blocks import Placement
from boxfit.search.equivalent import Plan
from boxfit.search.grid import lay_on_grid
from boxfit.search.skyline import Answer, lay
from tests.search.test_rectangle import exhaustive

NODES = 100_000


def lies_within(plan: Plan, placed: list[Placement]) -> bool:
    """Whether every rectangle lies within the plan and none overlaps another."""
    sides = ((plan.long, plan.short), (plan.short, plan.long))
    boxes = [(x, y, x + sides[kind][0], y + sides[kind][1]) for kind, x, y in placed]
    return all(
        min(x, y) >= 0 and right <= plan.width and top <= plan.depth for x, y, right, top in boxes
    ) and all(
        far <= x or right <= u or high <= y or top <= v
        for (x, y, right, top), (u, v, far, high) in combinations(boxes, 2)
    )


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
    assert lies_within(plan, placed)


@pytest.mark.parametrize(
    ("plan", "count"),
    [
        (Plan(7, 7, 3, 2), 8),
        (Plan(10, 17, 4, 3), 14),
        (Plan(17, 22, 5, 4), 18),
        (Plan(23, 23, 4, 3), 44),
        (Plan(25, 25, 4, 3), 52),
    ],
)
def test_lays_what_leaves_holes_between(plan: Plan, count: int) -> None:
    """Cells in the middle stay empty; a search that gave up too much would say no."""
    answer, placed = lay(plan, count, NODES)
    assert (answer, len(placed)) == (Answer.YES, count)
    assert lies_within(plan, placed)


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
