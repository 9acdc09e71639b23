"""Plans of the literature of at most 60 rectangles: found and proven in the time cadquery takes to load.

That is about 2 s. Every plan is solved in a fresh interpreter, start and imports counted.

The first three are one plan in three scales (Martins and Dell, page on classes of plans; with their EJOR 184
(2008)). (49, 28, 8, 3) and its 57 stand on the page for Birgin, Lobato and Morabito, JORS 61 (2010).
(56, 52, 12, 5) illustrates the page of Martins and Dell. Which papers list the others is from memory. The
other counts were computed independently; the last four, one below every simple bound, by exhaustive search.
"""

import pytest

from tests.benchmarks.measure import Measured, bare_import, best_of, fresh_python, told

PLANS = (
    ((22, 16, 5, 3), 23),
    ((30, 22, 7, 4), 23),
    ((50, 36, 11, 7), 23),
    ((49, 28, 8, 3), 57),
    ((56, 52, 12, 5), 48),
    ((42, 39, 9, 4), 45),
    ((40, 25, 7, 3), 47),
    ((52, 33, 9, 4), 47),
    ((32, 22, 5, 4), 34),
    ((32, 27, 5, 4), 42),
    ((40, 26, 7, 4), 36),
    ((37, 30, 8, 3), 45),
)


@pytest.mark.parametrize(("plan", "count"), PLANS)
def test_published_plan(plan: tuple[int, int, int, int], count: int) -> None:
    """Count reached and proven, within 1.1 times a bare import of cadquery."""
    told_by_search: set[str] = set()
    command = ["-m", "tests.benchmarks.plan", *map(str, plan)]
    ours = best_of(3, lambda: told_by_search.add(fresh_python(command)))
    row = Measured(f"plan {plan}: {count}", "import cadquery", bare_import("cadquery"), ours, 1.1)
    ratio = told(row)
    assert told_by_search == {f"{count} True\n"}
    assert ratio <= row.aim
