"""Module numbers: one each, in the layout's own order."""

import re

from hypothesis import given
from hypothesis import strategies as st

from boxfit.report.numbering import numbered, runs
from tests.report.samples import van


def test_numbers_follow_bays_boxes_and_tiers() -> None:
    found = numbered(van()[2])
    assert [one.number for one in found] == list(range(1, 11))
    assert [one.bay for one in found] == ["engine bay"] * 2 + ["under the load floor"] * 8
    assert [one.box for one in found] == [1, 1, 1, 1, 1, 1, 2, 2, 2, 2]


def spelt(words: str) -> list[int]:
    """The numbers of a label, runs and steps spelt out."""
    found: list[int] = []
    for first, second, last in re.findall(r"(\d+)(?:, (\d+) \.\. |-)?(\d+)?", words):
        found += range(int(first), int(last or first) + 1, int(second) - int(first) if second else 1)
    return found


@given(st.sets(st.integers(1, 200), min_size=1))
def test_runs_lose_no_number(numbers: set[int]) -> None:
    assert spelt(runs(numbers)) == sorted(numbers)


@given(st.integers(1, 50), st.integers(1, 9), st.integers(4, 40))
def test_even_steps_are_told_in_short(first: int, step: int, count: int) -> None:
    words = runs(range(first, first + step * count, step))
    assert len(words) <= len("999, 999 .. 999")
    assert spelt(words) == list(range(first, first + step * count, step))
