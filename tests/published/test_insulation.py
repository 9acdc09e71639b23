"""High voltage: classes, isolation, creepage and clearance (facts, section 7)."""

import pytest

from boxfit.standards.insulation import (
    BONDING_OHM,
    Group,
    clearance,
    creepage,
    is_class_b,
    isolation_to_reach,
)

CREEPAGE = {
    100: (0.71, 1.00, 1.40, 1.80, 2.00, 2.20),
    160: (0.80, 1.10, 1.60, 2.00, 2.20, 2.50),
    200: (1.00, 1.40, 2.00, 2.50, 2.80, 3.20),
    250: (1.25, 1.80, 2.50, 3.20, 3.60, 4.00),
    320: (1.60, 2.20, 3.20, 4.00, 4.50, 5.00),
    400: (2.0, 2.8, 4.0, 5.0, 5.6, 6.3),
    500: (2.5, 3.6, 5.0, 6.3, 7.1, 8.0),
    630: (3.2, 4.5, 6.3, 8.0, 9.0, 10.0),
    800: (4.0, 5.6, 8.0, 10.0, 11.0, 12.5),
    1000: (5.0, 7.1, 10.0, 12.5, 14.0, 16.0),
}
"""IEC 60664-1 table F.4, basic insulation, as a maker's page reports DIN EN 60664-1: degrees 2 and 3, groups
I, II, III each."""
COLUMNS: tuple[tuple[int, Group], ...] = ((2, "I"), (2, "II"), (2, "III"), (3, "I"), (3, "II"), (3, "III"))


@pytest.mark.parametrize("volts", CREEPAGE)
def test_creepage(volts: int) -> None:
    found = tuple(creepage(volts, pollution, group) for pollution, group in COLUMNS)
    assert found == CREEPAGE[volts]


def test_between_two_rows_the_higher_holds() -> None:
    assert creepage(100.1) == creepage(160.0)


@pytest.mark.parametrize(("impulse", "gap"), [(2500, 1.5), (4000, 3.0), (6000, 5.5), (8000, 8.0)])
def test_clearance(impulse: int, gap: float) -> None:
    """IEC 60664-1 table F.2, case A, degree 2; from memory."""
    assert clearance(impulse) == gap


def test_voltage_classes() -> None:
    """Class A up to 60 V direct: UNECE slides GRSP-45-28."""
    assert not is_class_b(60.0)
    assert is_class_b(60.01)


def test_isolation() -> None:
    """R100 5.1.3.1 and 5.1.3.2, a clause collection: 100 and 500 ohm/V; 400 V ask 40 kilohm."""
    assert isolation_to_reach(400.0) == 40000.0
    assert isolation_to_reach(400.0, together=True) == 200000.0
    assert BONDING_OHM == 0.1


def test_tables_end() -> None:
    with pytest.raises(ValueError, match="1000 V"):
        creepage(1000.1)
    with pytest.raises(ValueError, match="8000 V"):
        clearance(8001.0)
