"""How the time to a settled count grows with the number of modules."""

from math import log

from tests.benchmarks.bays import growing
from tests.benchmarks.side_by_side import Run, searched

SIZES = (5, 10, 20, 40, 80, 160)
LINE = "{:>8} {:>8} {:>7} {:>9} {:>9} {:>8}"
STEEPEST = 2.0
"""Time may grow like the count to this power, from the smallest bay to the largest."""


def test_growth() -> None:
    """A family of bays of one shape, each about twice the last."""
    print("\nGrowth")
    print(LINE.format("count", "bound", "proven", "best [s]", "done [s]", "power"))
    runs: list[Run] = []
    for size in SIZES:
        layout, run = searched(growing(size))
        power = ""
        if runs:
            last = runs[-1]
            power = f"{log(run.done_after / last.done_after) / log(run.count / last.count):.2f}"
        times = (f"{run.best_after:.3f}", f"{run.done_after:.3f}")
        print(LINE.format(run.count, run.bound, "yes" if layout.proven else "no", *times, power))
        runs.append(run)
    first, last = runs[0], runs[-1]
    assert log(last.done_after / first.done_after) / log(last.count / first.count) <= STEEPEST
