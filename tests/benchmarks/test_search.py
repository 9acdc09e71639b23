"""The search against a plain exact model and a general packing solver, in one run on the same bays."""

from tests.benchmarks.bays import BOX_BAYS
from tests.benchmarks.side_by_side import compared, mean_ratio, print_head, print_summary

AIM = 0.1


def test_box_bays() -> None:
    """Rectangular bays of 10 to 120 modules: never fewer than either, ten times faster than the model."""
    print_head("Box bays")
    rows = [compared(name, case) for name, case in BOX_BAYS.items()]
    print_summary(rows)
    for row in rows:
        assert row.plain.count <= row.ours.count <= row.plain.bound
        assert row.general.count <= row.ours.count
    assert mean_ratio([(row.ours.done_after, row.plain.done_after) for row in rows]) <= AIM
