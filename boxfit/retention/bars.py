"""Bars, brackets and plates bent by what they hold. [N, mm, MPa]"""

from dataclasses import dataclass


@dataclass(frozen=True)
class Section:
    """A bar's section: second moment of area [mm4] and distance of its outermost fibre [mm]."""

    second_moment: float
    outermost: float

    @property
    def modulus(self) -> float:
        """Section modulus [mm3]."""
        return self.second_moment / self.outermost


def angle_section(flat: float, upright: float, thickness: float, uprights: int = 1) -> Section:
    """An angle, or with two `uprights` a channel, bent across its lying leg [mm]; square corners.

    Kept from turning aside by what it lies on, so that it bends about the lying leg (textbook).

    >>> section = angle_section(20.0, 20.0, 3.0)
    >>> round(section.second_moment), round(section.outermost, 2)
    (4030, 13.91)
    """
    high = upright - thickness
    lying, standing = flat * thickness, uprights * high * thickness
    centre = (lying * thickness / 2.0 + standing * (thickness + high / 2.0)) / (lying + standing)
    about_own = (flat * thickness**3 + uprights * thickness * high**3) / 12.0
    moved = lying * (centre - thickness / 2.0) ** 2 + standing * (thickness + high / 2.0 - centre) ** 2
    return Section(about_own + moved, max(centre, upright - centre))


@dataclass(frozen=True)
class BentBar:
    """The greatest stress [MPa] and sag [mm] of a bar."""

    stress: float
    sag: float


def bar_between(load: float, span: float, section: Section, modulus: float) -> BentBar:
    """A bar on two ends under an even `load` [N] in all: M = F l / 8, y = 5 F l^3 / (384 E I) (textbook).

    >>> bent = bar_between(1000.0, 400.0, angle_section(20.0, 5.0, 5.0), 210000.0)
    >>> round(bent.stress, 1), round(bent.sag, 2)
    (600.0, 19.05)
    """
    sag = 5.0 * load * span**3 / (384.0 * modulus * section.second_moment)
    return BentBar(load * span / 8.0 / section.modulus, sag)
