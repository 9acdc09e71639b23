"""Insulation at high voltage: voltage classes, isolation resistance, creepage and clearance. [V, ohm, mm]"""

from typing import Literal

Group = Literal["I", "II", "III"]
"""Material group by tracking index: I from 600, II from 400, IIIa from 175, IIIb from 100 (from memory)."""
CLASS_B_ABOVE = 60.0
"""Direct volts [V] above which a circuit is class B and can kill. UNECE slides on R100 (GRSP-45-28)."""
CLASS_B_UP_TO = 1500.0
"""Upper end of class B [V], direct; the slides' figure was cut off, completed from memory."""
OHM_PER_VOLT = 100.0
"""Least isolation of a direct-current bus [ohm/V]: UNECE R100 5.1.3.1."""
OHM_PER_VOLT_TOGETHER = 500.0
"""Where direct and alternating buses are connected [ohm/V]: UNECE R100 5.1.3.2; 100 where the alternating
side is doubly insulated or well protected."""
BONDING_OHM = 0.1
"""Most resistance of a bond between exposed metal [ohm], at 0.2 A or more: draft AIS-156; welded counts."""

_VOLTS = (100.0, 160.0, 200.0, 250.0, 320.0, 400.0, 500.0, 630.0, 800.0, 1000.0)
_CREEPAGE: dict[tuple[int, Group], tuple[float, ...]] = {
    (2, "I"): (0.71, 0.80, 1.00, 1.25, 1.60, 2.0, 2.5, 3.2, 4.0, 5.0),
    (2, "II"): (1.00, 1.10, 1.40, 1.80, 2.20, 2.8, 3.6, 4.5, 5.6, 7.1),
    (2, "III"): (1.40, 1.60, 2.00, 2.50, 3.20, 4.0, 5.0, 6.3, 8.0, 10.0),
    (3, "I"): (1.80, 2.00, 2.50, 3.20, 4.00, 5.0, 6.3, 8.0, 10.0, 12.5),
    (3, "II"): (2.00, 2.20, 2.80, 3.60, 4.50, 5.6, 7.1, 9.0, 11.0, 14.0),
    (3, "III"): (2.20, 2.50, 3.20, 4.00, 5.00, 6.3, 8.0, 10.0, 12.5, 16.0),
}
"""Least creepage [mm], basic insulation, by pollution degree and material group: IEC 60664-1 table F.4, as a
maker's page reports DIN EN 60664-1."""
_CLEARANCE = ((2500.0, 1.5), (4000.0, 3.0), (6000.0, 5.5), (8000.0, 8.0))
"""Impulse voltage [V], clearance [mm], case A, pollution degree 2: IEC 60664-1 table F.2, from memory."""
REINFORCED = 2.0
"""Reinforced insulation has twice the basic creepage: IEC 60664-1, from memory."""


def is_class_b(volts: float) -> bool:
    """Whether a direct voltage [V] is class B.

    >>> is_class_b(60.0), is_class_b(60.1)
    (False, True)
    """
    return volts > CLASS_B_ABOVE


def isolation_to_reach(volts: float, together: bool = False) -> float:
    """Least isolation [ohm] at a highest direct voltage [V]; `together` with an alternating bus.

    >>> isolation_to_reach(400.0), isolation_to_reach(400.0, together=True)
    (40000.0, 200000.0)
    """
    return volts * (OHM_PER_VOLT_TOGETHER if together else OHM_PER_VOLT)


def creepage(volts: float, pollution: int = 3, group: Group = "III", reinforced: bool = False) -> float:
    """Least creepage [mm] at a voltage [V]: the table's row at or above it, no values between rows.

    `pollution` is 2 or 3. A direct voltage counts as its effective value. Raises ValueError above 1000 V.

    >>> creepage(151.2, pollution=2), creepage(350.0), creepage(350.0, reinforced=True)
    (1.6, 6.3, 12.6)
    """
    for row, limit in zip(_CREEPAGE[(pollution, group)], _VOLTS, strict=True):
        if volts <= limit:
            return row * (REINFORCED if reinforced else 1.0)
    raise ValueError(f"the table ends at {_VOLTS[-1]:g} V (got {volts:g})")


def clearance(impulse: float) -> float:
    """Least clearance in air [mm] at an impulse voltage [V]: the table's row at or above it.

    Raises ValueError above 8000 V.

    >>> clearance(2500.0), clearance(4000.0)
    (1.5, 3.0)
    """
    for limit, gap in _CLEARANCE:
        if impulse <= limit:
            return gap
    raise ValueError(f"the table ends at {_CLEARANCE[-1][0]:g} V (got {impulse:g})")
