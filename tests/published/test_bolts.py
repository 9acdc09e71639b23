"""Bolts against dealers' copies of ISO 898-1 and engineers' pages on EN 1993-1-8 (facts, section 2)."""

import pytest

from boxfit.standards.bolts import (
    Sheet,
    bearing_resistance,
    both,
    core_area,
    least_tensile_load,
    proof_load,
    pull_through_resistance,
    shear_resistance,
    stress_area,
    tension_resistance,
)

SIZES = (6.0, 8.0, 10.0, 12.0)


@pytest.mark.parametrize(("size", "area"), [*zip(SIZES, (20.1, 36.6, 58.0, 84.3), strict=True)])
def test_stress_areas_of_dealers_tables(size: float, area: float) -> None:
    """ISO 898-1 as two dealers print it."""
    assert stress_area(size) == pytest.approx(area, abs=0.05)


@pytest.mark.parametrize(("size", "area"), [*zip(SIZES, (17.89, 32.84, 52.29, 76.25), strict=True)])
def test_core_areas(size: float, area: float) -> None:
    """ISO 724, worked out apart from the code."""
    assert core_area(size) == pytest.approx(area, abs=0.01)


@pytest.mark.parametrize(
    ("grade", "loads"),
    [("8.8", (16100.0, 29200.0, 46400.0, 67400.0)), ("10.9", (20900.0, 38100.0, 60300.0, 87700.0))],
)
def test_least_tensile_loads(grade: str, loads: tuple[float, ...]) -> None:
    """ISO 898-1 as two dealers print it; the loads are strength times area within 0.6 %."""
    assert [least_tensile_load(size, grade) for size in SIZES] == pytest.approx(loads, rel=0.006)


@pytest.mark.parametrize(
    ("grade", "loads"),
    [("8.8", (11600.0, 21200.0, 33700.0, 48900.0)), ("10.9", (16700.0, 30400.0, 48100.0, 70000.0))],
)
def test_proof_loads(grade: str, loads: tuple[float, ...]) -> None:
    """ISO 898-1 as one dealer prints it."""
    assert [proof_load(size, grade) for size in SIZES] == pytest.approx(loads, rel=0.0065)


def test_shear_of_a_published_table() -> None:
    """A steel maker's book: M12 of 8.8, single shear through the thread, 27.5 kN, with 0.85 for the 2 mm
    of play it reckons with (EN 1993-1-8)."""
    assert 0.85 * shear_resistance(12.0, "8.8") == pytest.approx(27500.0, rel=0.002)


@pytest.mark.parametrize(
    ("grade", "shears", "tensions"),
    [
        ("8.8", (7.72, 14.05, 22.27, 32.37), (11.58, 21.08, 33.41, 48.56)),
        ("10.9", (8.04, 14.64, 23.20, 33.72), (14.47, 26.35, 41.76, 60.70)),
    ],
)
def test_design_resistances(grade: str, shears: tuple[float, ...], tensions: tuple[float, ...]) -> None:
    """EN 1993-1-8 table 3.4 with published factors, worked out apart from the code from
    areas rounded to 0.1 mm2 [kN]."""
    assert [shear_resistance(size, grade) / 1e3 for size in SIZES] == pytest.approx(shears, rel=0.0014)
    assert [tension_resistance(size, grade) / 1e3 for size in SIZES] == pytest.approx(tensions, rel=0.0014)


def test_countersunk_heads_carry_less() -> None:
    """k2 of 0.63 for 0.9 (EN 1993-1-8 table 3.4)."""
    plain, sunk = (tension_resistance(8.0, "8.8", countersunk) for countersunk in (False, True))
    assert sunk / plain == pytest.approx(0.63 / 0.9)


@pytest.mark.parametrize(("shear", "tension", "used"), [(1.0, 0.0, 1.0), (0.0, 1.0, 1.0), (0.5, 0.7, 1.0)])
def test_shear_and_tension_together(shear: float, tension: float, used: float) -> None:
    """Fv / Fv,Rd + Ft / 1.4 Ft,Rd <= 1 (EN 1993-1-8 table 3.4)."""
    assert both(shear, tension) == pytest.approx(used)


def test_bearing_and_pull_through_by_hand() -> None:
    """Worked out by hand from EN 1993-1-8 table 3.4 (from memory): an M10 in 4 mm S235, e1 = 22 in a hole of
    11: ab = 0.6667, 2.5 x 0.6667 x 360 x 10 x 4 / 1.25; a head of 18.9 in the same sheet."""
    sheet = Sheet(4.0, 360.0)
    assert bearing_resistance(10.0, 11.0, sheet, 22.0) == pytest.approx(19200.0)
    assert pull_through_resistance(18.9, sheet) == pytest.approx(0.6 * 3.14159265 * 18.9 * 4 * 360 / 1.25)
