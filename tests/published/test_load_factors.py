"""Crash load factors and shock corridors (facts, section 1); most are from memory and say so."""

import pytest

from boxfit.standards.load_factors import R100_CORRIDORS, RULE_SETS, inertia_load, level

CORRIDOR_TABLE = {
    ("M1, N1", "along"): ((0, 20, 20, 0), (10, 28, 28, 10)),
    ("M1, N1", "across"): ((0, 8, 8, 0), (4.5, 15, 15, 4.5)),
    ("M2, N2", "along"): ((0, 10, 10, 0), (5, 17, 17, 5)),
    ("M2, N2", "across"): ((0, 5, 5, 0), (2.5, 10, 10, 2.5)),
    ("M3, N3", "along"): ((0, 6.6, 6.6, 0), (4, 12, 12, 4)),
    ("M3, N3", "across"): ((0, 5, 5, 0), (2.5, 10, 10, 2.5)),
}
"""UNECE R100 mechanical shock, points A to D and E to H; from memory."""
TIMES = ((20, 50, 65, 100), (0, 50, 80, 120))


@pytest.mark.parametrize("key", CORRIDOR_TABLE)
def test_corridors(key: tuple[str, str]) -> None:
    corridor = R100_CORRIDORS[key]
    for points, times, levels in zip(
        (corridor.least, corridor.most), TIMES, CORRIDOR_TABLE[key], strict=True
    ):
        assert points == tuple(zip(times, levels, strict=True))


def test_the_peak_that_a_test_house_tells() -> None:
    """Up to 28 g, 80 ms: a test house's page on the regulation's second revision."""
    corridor = R100_CORRIDORS[("M1, N1", "along")]
    assert corridor.peak == 28.0
    assert [time for time, g in corridor.most if g == 28.0][-1] == 80.0


def test_every_pulse_between_the_curves_reaches_the_plateau() -> None:
    for corridor in R100_CORRIDORS.values():
        assert all(level(corridor.least, time) <= level(corridor.most, time) for time in range(121))
        assert corridor.plateau < corridor.peak


@pytest.mark.parametrize(
    ("name", "factors"),
    [
        # 20 times the battery's weight: read in a workshop's summary of NCOP14; the rest from memory
        ("twenty-g", (20.0, 10.0, 15.0, 10.0, 10.0)),
        # UNECE R100 upper curves, from memory; vertical is not asked there
        ("r100-m1-n1", (28.0, 28.0, 15.0, 10.0, 10.0)),
        ("r100-m2-n2", (17.0, 17.0, 10.0, 10.0, 10.0)),
        ("r100-m3-n3", (12.0, 12.0, 10.0, 10.0, 10.0)),
        # student racing rules F.10.5.6, read
        ("student-racing", (40.0, 40.0, 40.0, 40.0, 40.0)),
    ],
)
def test_rule_sets(name: str, factors: tuple[float, ...]) -> None:
    rules = RULE_SETS[name]
    assert (rules.front, rules.rear, rules.side, rules.up, rules.down) == factors


def test_forces_worked_out() -> None:
    """100 kg at 20 g; a quarter of a 60 kg container at 40 g (rules F.10.5.6)."""
    assert inertia_load(100.0, 20.0) == pytest.approx(19620.0)
    assert inertia_load(60.0, 40.0) / 4.0 == pytest.approx(5886.0)
