"""Bars, brackets and plates bent by what they hold. [N, mm, MPa]"""

from dataclasses import dataclass
from math import sqrt


@dataclass(frozen=True)
class Section:
    """A bar's section: second moment of area [mm4] and distance of its outermost fibre [mm]."""

    second_moment: float
    outermost: float

    @property
    def modulus(self) -> float:
        """Section modulus [mm3]."""
        return self.second_moment / self.outermost


def flat_section(width: float, thickness: float) -> Section:
    """A flat bar bent across its thickness [mm]: I = b t^3 / 12 (textbook).

    >>> flat_section(12.0, 2.0).modulus
    8.0
    """
    return Section(width * thickness**3 / 12.0, thickness / 2.0)


def angle_section(flat: float, upright: float, thickness: float) -> Section:
    """An angle with one leg lying and one upright, bent across the lying leg [mm]; square corners.

    Kept from turning aside by what it lies on, so that it bends about the lying leg (textbook).

    >>> section = angle_section(20.0, 20.0, 3.0)
    >>> round(section.second_moment), round(section.outermost, 2)
    (4030, 13.91)
    """
    lying, standing = flat * thickness, (upright - thickness) * thickness
    centre = (lying * thickness / 2.0 + standing * (thickness + (upright - thickness) / 2.0)) / (
        lying + standing
    )
    about_own = (flat * thickness**3 + thickness * (upright - thickness) ** 3) / 12.0
    moved = lying * (centre - thickness / 2.0) ** 2
    moved += standing * (thickness + (upright - thickness) / 2.0 - centre) ** 2
    return Section(about_own + moved, max(centre, upright - centre))


@dataclass(frozen=True)
class BentBar:
    """The greatest stress [MPa] and sag [mm] of a bar."""

    stress: float
    sag: float


def bar_between(load: float, span: float, section: Section, modulus: float) -> BentBar:
    """A bar on two ends under an even `load` [N] in all: M = F l / 8, y = 5 F l^3 / (384 E I) (textbook).

    >>> bent = bar_between(1000.0, 400.0, flat_section(20.0, 5.0), 210000.0)
    >>> round(bent.stress, 1), round(bent.sag, 2)
    (600.0, 19.05)
    """
    sag = 5.0 * load * span**3 / (384.0 * modulus * section.second_moment)
    return BentBar(load * span / 8.0 / section.modulus, sag)


def foot_stress(pull: float, across: float, arm: float, width: float, thickness: float) -> float:
    """Stress [MPa] in the leg of an angle foot whose bolt stands `arm` [mm] from the bend's inside.

    `pull` [N] lifts the leg off the body: sigma = 6 F a / (b t^2); `across` [N] shears it: tau = F / (b t);
    together sqrt(sigma^2 + 3 tau^2) (textbook, von Mises). Of the leg's width no more counts than the arm and
    the thickness on either side of the bolt (45 degrees of spread, common practice, no source).

    >>> round(foot_stress(1000.0, 0.0, 15.0, 40.0, 3.0), 1)
    277.8
    """
    counted = min(width, 2.0 * arm + 2.0 * thickness)
    bending = 6.0 * pull * arm / (counted * thickness**2)
    shearing = across / (counted * thickness)
    return sqrt(bending**2 + 3.0 * shearing**2)
