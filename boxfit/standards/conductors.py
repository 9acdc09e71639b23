"""Fine-stranded copper cable: resistance, drop, heat, and what it carries. [mm2, ohm, A, degrees C]"""

from dataclasses import dataclass

TEMPERATURE_COEFFICIENT = 0.00393
"""Rise of copper's resistance per degree [1/K], from 20 C: from memory (IEC 60028)."""


@dataclass(frozen=True)
class Conductor:
    """A conductor: section [mm2], most resistance at 20 C [ohm/km] plain and tinned, rating [A].

    `rating` is that of welding cable for all the time (100 % duty), None where the maker's table is silent.
    """

    section: float
    plain: float
    tinned: float
    rating: float | None


CONDUCTORS = (
    Conductor(16.0, 1.21, 1.24, 117.0),
    Conductor(25.0, 0.780, 0.795, 157.0),
    Conductor(35.0, 0.554, 0.565, 196.0),
    Conductor(50.0, 0.386, 0.393, 248.0),
    Conductor(70.0, 0.272, 0.277, 309.0),
    Conductor(95.0, 0.206, 0.210, 374.0),
    Conductor(120.0, 0.161, 0.164, None),
)
"""IEC 60228 class 5 as three makers' pages print it; ratings: IS 9857 welding cable with a heat-resisting
cover at 100 % duty, one maker's page, in free air. A cable's own maker decides."""
WARM = 70.0
"""Temperature [C] at which drop and heat are told: the conductor at its usual limit (common practice)."""


def resistance(conductor: Conductor, length: float, temperature: float = 20.0) -> float:
    """Resistance [ohm] of so long [mm] a plain copper conductor at a temperature [C].

    R = R20 l (1 + 0.00393 (T - 20)).

    >>> seventy = next(one for one in CONDUCTORS if one.section == 70.0)
    >>> drop = 200.0 * resistance(seventy, 10000.0)
    >>> round(drop, 3), round(drop * 200.0, 1)
    (0.544, 108.8)
    """
    warmer = 1.0 + TEMPERATURE_COEFFICIENT * (temperature - 20.0)
    return conductor.plain / 1e6 * length * warmer


def conductor_for(amperes: float) -> Conductor | None:
    """The thinnest conductor rated for a current [A] all the time; None above the table.

    >>> conductor_for(150.0).section, conductor_for(500.0) is None
    (25.0, True)
    """
    rated = (one for one in CONDUCTORS if one.rating is not None and one.rating >= amperes)
    return next(rated, None)
