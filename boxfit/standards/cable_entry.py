"""Glands, cable sizes and other things bought for a box's walls. [mm], [kg]

Metric threads of cable glands are those of EN 62444, from memory; what each clamps, how long it is and what
it weighs is common practice, no source, and differs from maker to maker.
"""

from dataclasses import dataclass
from math import pi

CABLE_ACROSS = {16.0: 11.5, 25.0: 13.0, 35.0: 14.5, 50.0: 17.0, 70.0: 19.0, 95.0: 22.0, 120.0: 25.0}
"""Section [mm2] of a shielded cable to its outside diameter [mm]: common practice, no source."""
BEND = 6.0
"""Inside of a cable's bend, in outside diameters: common practice, no source."""
STRIPPED_END = 75.0
"""What gland and stripped end take [mm] before the cable may bend: 70 to 75, common practice, no source."""
SIGNAL_CABLE = 10.0
"""Outside diameter [mm] of the cable of the module monitoring: common practice, no source."""


@dataclass(frozen=True)
class Gland:
    """A gland: thread [mm], the thickest cable it clamps, across its corners, the nut inside, mass [kg]."""

    thread: float
    clamps: float
    across: float
    inside: float
    mass: float

    @property
    def hole(self) -> float:
        """The clearance hole [mm]: thread and 0.3 up to M20, and 0.5 above (from memory).

        >>> Gland(32.0, 25.0, 47.0, 15.0, 0.16).hole
        32.5
        """
        return self.thread + (0.3 if self.thread <= 20.0 else 0.5)


GLANDS = (
    Gland(16.0, 10.0, 24.0, 12.0, 0.03),
    Gland(20.0, 13.0, 29.0, 13.0, 0.05),
    Gland(25.0, 18.0, 37.0, 14.0, 0.09),
    Gland(32.0, 25.0, 47.0, 15.0, 0.16),
    Gland(40.0, 32.0, 59.0, 15.0, 0.26),
)
"""The range of metal glands a shop keeps; with the thread's end, nut and earthing ring inside the wall."""


def gland_for(across: float) -> Gland:
    """The smallest gland that clamps a cable of an outside diameter [mm]. Raises ValueError above 32 mm.

    >>> gland_for(19.0).thread, gland_for(10.0).thread
    (32.0, 16.0)
    """
    found = next((gland for gland in GLANDS if gland.clamps >= across), None)
    if found is None:
        raise ValueError(f"no gland of the list clamps a cable {across:g} mm across")
    return found


COPPER, COVER = 8.96e-6, 1.3e-6
"""Density [kg/mm3] of copper (from memory), and of insulation, shield and cover taken together (common
practice, no source)."""


def cable_mass(section: float, across: float) -> float:
    """Mass of so thick a cable [kg/m]: its copper [mm2], and the rest of its outside diameter [mm] as cover.

    >>> round(cable_mass(70.0, 19.0), 3)
    0.905
    """
    return 1000.0 * (section * COPPER + (pi * across**2 / 4.0 - section) * COVER)
