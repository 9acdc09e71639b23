"""Resistance, drop and heat of a link cable, cold and warm. [mm], [ohm], [V], [W]"""

from dataclasses import dataclass

from boxfit.standards.conductors import WARM, Conductor, resistance

COLD = 20.0
"""Temperature [degrees C] that resistances are tabled at: IEC 60228."""


@dataclass(frozen=True)
class CableSums:
    """Of one cable: resistance cold and warm; drop and heat at its current, None where that is not known."""

    cold: float
    warm: float
    drop_cold: float | None
    drop_warm: float | None
    heat_cold: float | None
    heat_warm: float | None


def cable_sums(conductor: Conductor, length: float, amperes: float | None) -> CableSums:
    """For so long a cable [mm] and a current all the time [A]: U = R I, P = R I^2.

    >>> from boxfit.standards.conductors import CONDUCTORS
    >>> found = cable_sums(next(one for one in CONDUCTORS if one.section == 70.0), 10000.0, 200.0)
    >>> round(found.drop_cold, 3), round(found.heat_cold, 1), round(found.heat_warm, 1)
    (0.544, 108.8, 130.2)
    """
    cold, warm = (resistance(conductor, length, degrees) for degrees in (COLD, WARM))
    if amperes is None:
        return CableSums(cold, warm, None, None, None, None)
    return CableSums(cold, warm, cold * amperes, warm * amperes, cold * amperes**2, warm * amperes**2)
