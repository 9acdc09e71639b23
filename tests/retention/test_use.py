"""Utilisations in order."""

from boxfit.retention.panel import use_of_screws
from boxfit.retention.use import Use, worst_first, worst_of_each

USES = (
    Use("foot 1", "bolt", "front", 5.0, 10.0, "N", "rule"),
    Use("foot 1", "bolt", "side", 9.0, 10.0, "N", "rule"),
    Use("foot 2", "bearing", "front", 20.0, 10.0, "N", "rule"),
)


def test_worst_first() -> None:
    assert [use.utilisation for use in worst_first(USES)] == [2.0, 0.9, 0.5]
    assert [use.passes for use in worst_first(USES)] == [False, True, True]


def test_only_the_worst_pull_of_each() -> None:
    assert [(use.item, use.pull) for use in worst_of_each(USES)] == [("foot 2", "front"), ("foot 1", "side")]


def test_nothing_bears_anything() -> None:
    assert Use("foot", "bolt", "up", 1.0, 0.0, "N", "rule").utilisation == float("inf")
    assert Use("foot", "bolt", "up", 0.0, 0.0, "N", "rule").passes


def test_a_lid_without_screws_is_told_what_would_hold_it() -> None:
    """A flange too narrow for screws: nothing bears the load, and that is no sum gone wrong."""
    use = use_of_screws("lid", "up", 100.0, (0, 1000.0))
    assert use.utilisation == float("inf")
    assert "box.flange" in use.remedy
