"""The search against a plain exact model given to a general solver, on ten irregular bays."""

from statistics import median

from boxfit.layout import Layout
from boxfit.search import rectangle, stack
from boxfit.search.find import NoLayout, find_layout
from tests.benchmarks.bays import CASES, Case
from tests.benchmarks.measure import Measured, best_of, told, told_ratio
from tests.benchmarks.reference import Answer, count_by_model

LIMIT = 45.0
"""Seconds after which the reference counts as it stands."""
AIM = 0.1


def forget() -> None:
    """Leaves the search as it is in a new interpreter."""
    for remembered in (rectangle.bound, rectangle.quick_fill, rectangle.fill):
        remembered.cache_clear()
    stack._tables.clear()


def searched(case: Case) -> Layout | NoLayout:
    """What the search finds without anything remembered."""
    forget()
    return find_layout(case.car, case.module)


def compared(name: str, case: Case) -> float:
    """The ratio of times [-], once both are known to count alike."""
    layouts: list[Layout | NoLayout] = []
    answers: list[Answer] = []
    ours = best_of(3, lambda: layouts.append(searched(case)))
    reference = best_of(3, lambda: answers.append(count_by_model(case.bay, case.module, LIMIT)))
    layout, answer = layouts[0], max(answers, key=lambda answer: answer.settled)
    assert isinstance(layout, Layout)
    said = f"plain model: {answer.count}" if answer.settled else f"stopped: {answer.count} to {answer.bound}"
    ratio = told(Measured(f"{name}: {layout.count} modules", said, reference, ours, AIM))
    assert answer.count <= layout.count <= answer.bound
    assert layout.count <= layout.bound
    return ratio


def test_ten_bays() -> None:
    """Never a count below the model's nor above its bound, and ten times faster in the median."""
    ratios = [compared(name, case) for name, case in CASES.items()]
    assert told_ratio("ten irregular bays, median", median(ratios), AIM) <= AIM
