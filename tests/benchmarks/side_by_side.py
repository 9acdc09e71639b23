"""Our search, a plain exact model and a general packing solver on the same bay, and their table."""

import os
from collections.abc import Sequence
from dataclasses import dataclass
from math import exp, inf, log
from time import perf_counter

from boxfit.layout import Layout
from boxfit.search import rectangle, stack
from boxfit.search.find import find_layout
from boxfit.search.watch import Watch
from tests.benchmarks.bays import Case
from tests.benchmarks.general import packed
from tests.reference.count import Effort, count_in_bay

FULL = os.environ.get("BOXFIT_FULL_BENCH") == "1"
LIMIT = 60.0 if FULL else 10.0
"""Seconds after which the plain model counts as it stands; the general solver has half of it."""
REPEATS = 3
LONG_ENOUGH = 2.0
"""A search that took so long [s] is not run again."""
LEAST = 1e-4
"""Times [s] are not told apart below this."""
LINE = "{:<22} {:<8} {:>5} {:>5} {:>7} {:>9} {:>9}"


@dataclass(frozen=True)
class Run:
    """What one solver made of one bay: count and bound, and when the count was found and it was done [s]."""

    by: str
    count: int
    bound: float
    best_after: float
    done_after: float

    @property
    def proven(self) -> bool:
        """True where count and bound are one."""
        return self.count == self.bound


@dataclass(frozen=True)
class Row:
    """One bay and the three that counted it; the general solver counts in the box that ours found."""

    name: str
    ours: Run
    plain: Run
    general: Run

    @property
    def runs(self) -> tuple[Run, Run, Run]:
        """Ours first."""
        return (self.ours, self.plain, self.general)


def forget() -> None:
    """Leaves the search as it is in a new interpreter."""
    for remembered in (rectangle.bound, rectangle.quick_fill, rectangle.fill):
        remembered.cache_clear()
    stack._tables.clear()


def searched(case: Case) -> tuple[Layout, Run]:
    """What the search finds without anything remembered: the quickest of a few runs."""
    runs = [_searched_once(case)]
    while len(runs) < REPEATS and runs[-1][1].done_after < LONG_ENOUGH:
        runs.append(_searched_once(case))
    return min(runs, key=lambda run: run[1].done_after)


def _searched_once(case: Case) -> tuple[Layout, Run]:
    told: list[tuple[int, float]] = []
    forget()
    start = perf_counter()
    watch = Watch(hear=lambda found, _bound: told.append((found, perf_counter())))
    layout = find_layout(case.car, case.module, watch)
    done = perf_counter() - start
    assert isinstance(layout, Layout)
    best = min((at - start for found, at in told if found == layout.count), default=done)
    return layout, Run("ours", layout.count, layout.bound, best, done)


def compared(name: str, case: Case) -> Row:
    """The three on one bay, told as a line each."""
    layout, ours = searched(case)
    start = perf_counter()
    answer = count_in_bay(case.bay, case.module, Effort(LIMIT))
    done = perf_counter() - start
    plain = Run("plain", answer.count, answer.bound, answer.best_after, done)
    (found,) = layout.bays[0].boxes
    x, y, z = (high - low for low, high in zip(found.low, found.high, strict=True))
    other = packed((x, y, z), case.bay.box, case.module, LIMIT / 2)
    bound = other.count if other.proven else inf
    row = Row(name, ours, plain, Run("general", other.count, bound, other.best_after, other.done_after))
    for run in row.runs:
        times = (f"{run.best_after:.3f}", f"{run.done_after:.3f}")
        print(LINE.format(name, run.by, run.count, run.bound, "yes" if run.proven else "no", *times))
    return row


def print_head(title: str) -> None:
    """The title and names of the columns."""
    print(f"\n{title}")
    print(LINE.format("bay", "by", "count", "bound", "proven", "best [s]", "done [s]"))


def print_summary(rows: Sequence[Row]) -> None:
    """For each solver the proven share, and against it equal counts and the geometric means of ratios."""
    for place, by in enumerate(("ours", "plain", "general")):
        runs = [row.runs[place] for row in rows]
        proven = sum(run.proven for run in runs)
        equal = sum(row.ours.count == run.count for row, run in zip(rows, runs, strict=True))
        found = mean_ratio([(row.ours.best_after, row.runs[place].best_after) for row in rows])
        done = mean_ratio([(row.ours.done_after, row.runs[place].done_after) for row in rows])
        print(
            f"{by:<8} proven {proven} of {len(rows)}; as many as ours in {equal}; "
            f"ours against it, geometric mean: best {found:.3f}, done {done:.3f}"
        )


def mean_ratio(pairs: Sequence[tuple[float, float]]) -> float:
    """The geometric mean [-] of first over second.

    >>> round(mean_ratio([(1.0, 2.0), (8.0, 1.0)]), 6)
    2.0
    """
    ratios = [log(max(one, LEAST) / max(other, LEAST)) for one, other in pairs if other < inf]
    return exp(sum(ratios) / len(ratios)) if ratios else 0.0
