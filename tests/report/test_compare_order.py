"""The order of rows, and which of them no other one beats."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxfit.report.compare_order import AS_GIVEN, ORDERS, in_order, weighed, with_best
from boxfit.report.compare_rows import CompareRow

PLAIN = CompareRow(
    "Heron 44", "heron-44", count=9, energy=20.0, mass=120.0, share_error=0.01, target_met=True, corners=8
)
NOTHING = CompareRow("Crane 88", "crane-88", reason="too tall")


def row(energy: float, mass: float, corners: int = 8, error: float = 0.01) -> CompareRow:
    return replace(PLAIN, energy=energy, mass=mass, corners=corners, share_error=error)


def marked(*rows: CompareRow) -> list[bool]:
    return [one.best for one in with_best(rows)]


def test_more_energy_for_more_mass_is_a_choice_and_less_for_more_is_none() -> None:
    assert marked(row(20.0, 120.0), row(25.0, 150.0), row(24.0, 151.0)) == [True, True, False]


def test_equal_ones_both_stand_and_nothing_finer_than_can_be_measured_counts() -> None:
    assert marked(row(20.0, 120.0), row(20.0 + 1e-9, 120.02)) == [True, True]
    assert marked(row(20.0, 120.0, error=0.01), row(20.0, 120.0, error=0.01004)) == [True, True]
    assert marked(row(20.0, 120.0, error=0.01), row(20.0, 120.0, error=0.01011)) == [True, False]


@pytest.mark.parametrize(
    "better", [row(20.1, 120.0), row(20.0, 119.0), row(20.0, 120.0, corners=6), row(20.0, 120.0, error=0.0)]
)
def test_one_thing_better_is_enough(better: CompareRow) -> None:
    assert marked(PLAIN, better) == [False, True]


def test_cost_is_weighed_only_where_it_is_known_of_all() -> None:
    dear, cheap = replace(PLAIN, cost=900.0), replace(PLAIN, cost=800.0)
    assert marked(dear, cheap) == [False, True]
    assert marked(dear, cheap, PLAIN) == [True, True, True]
    assert "cost" in weighed((dear, cheap, NOTHING))
    assert "cost" not in weighed((dear, PLAIN))


def test_what_misses_the_target_or_does_not_fit_is_neither_best_nor_beats() -> None:
    missed = replace(row(99.0, 1.0), target_met=False)
    assert marked(PLAIN, missed, NOTHING) == [True, False, False]
    assert marked(NOTHING) == [False]
    assert marked() == []


@given(
    st.lists(
        st.builds(row, *[st.integers(1, 4).map(float)] * 2, st.integers(1, 3), st.sampled_from([0.0, 0.01]))
    )
)
def test_best_are_exactly_those_that_none_beats(rows: list[CompareRow]) -> None:
    """By the words: as good in all and better in one; there is always a best one."""

    def beats(one: CompareRow, other: CompareRow) -> bool:
        pairs = [
            ((one.energy or 0.0), (other.energy or 0.0)),
            (-(one.mass or 0.0), -(other.mass or 0.0)),
            (-(one.corners or 0), -(other.corners or 0)),
            (-(one.share_error or 0.0), -(other.share_error or 0.0)),
        ]
        return all(mine >= its for mine, its in pairs) and any(mine > its for mine, its in pairs)

    found = with_best(rows)
    assert [one.best for one in found] == [not any(beats(two, one) for two in rows) for one in rows]
    assert any(one.best for one in found) or not rows


def test_rows_stand_by_what_is_asked() -> None:
    light, rich = replace(row(20.0, 100.0), module="a"), replace(row(30.0, 160.0), module="b")
    assert [one.module for one in in_order((light, rich), "energy")] == ["b", "a"]
    assert [one.module for one in in_order((rich, light), "mass")] == ["a", "b"]
    assert in_order((rich, light), AS_GIVEN) == (rich, light)


def test_unknown_figures_then_missed_targets_then_nothing_come_last() -> None:
    missed = replace(row(50.0, 10.0), target_met=False)
    known = replace(PLAIN, cost=5.0)
    assert in_order((NOTHING, missed, PLAIN, known), "cost") == (known, PLAIN, missed, NOTHING)


@pytest.mark.parametrize("order", ORDERS)
def test_every_order_is_a_figure_of_a_row(order: str) -> None:
    """Each sorts two rows that differ in it alone, and back again."""
    figure, way = ORDERS[order]
    names = [name for name in CompareRow.__dataclass_fields__ if name not in ("module", "stem")]
    (name,) = [one for one in names if figure(replace(CompareRow("m", "m"), **{one: 7})) == 7]  # type: ignore[arg-type]
    small, great = (replace(PLAIN, **{name: value}) for value in (1, 2))  # type: ignore[arg-type]
    first, second = in_order((small, great), order)
    assert (first, second) == ((small, great) if way > 0 else (great, small))
    assert in_order((great, small), order) == (first, second)
