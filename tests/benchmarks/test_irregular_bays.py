"""Irregular bays of 6 to 40 modules against the same two solvers.

The general solver cannot be given a bay that is not a box: it counts in the box that our search found there.
"""

from tests.benchmarks.bays import CASES
from tests.benchmarks.side_by_side import compared, forget, mean_ratio, print_head, print_summary

__all__ = ["forget", "test_irregular_bays"]

AIM = 0.1


def test_irregular_bays() -> None:
    """Never fewer than the model's nor above its bound, and ten times faster where they count alike."""
    print_head("Irregular bays")
    rows = [compared(name, case) for name, case in CASES.items()]
    print_summary(rows)
    for row in rows:
        assert row.plain.count <= row.ours.count <= row.plain.bound
        assert row.general.count <= row.ours.count <= row.ours.bound
    alike = [row for row in rows if row.ours.count == row.plain.count]
    ratio = mean_ratio([(row.ours.done_after, row.plain.done_after) for row in alike])
    print(f"{len(alike)} of equal count, ours against the plain model {ratio:.4f}, aim {AIM}")
    assert ratio <= AIM
