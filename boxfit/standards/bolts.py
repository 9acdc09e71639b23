"""Metric bolts: threads, property classes, and what they carry in steel joints. [mm, mm2, N, MPa]"""

from dataclasses import dataclass
from math import pi

PITCHES = {5.0: 0.8, 6.0: 1.0, 8.0: 1.25, 10.0: 1.5, 12.0: 1.75}
"""Coarse pitch [mm] by thread diameter [mm]: ISO 261, from memory."""
PARTIAL_FACTOR = 1.25
"""Partial factor of a joint [-], gamma M2 of EN 1993-1-8."""


def stress_area(diameter: float) -> float:
    """Tensile stress area [mm2] of a coarse thread: As = pi/4 (d - 0.9382 P)^2.

    Source: ISO 898-1, as fastener dealers print it. Raises KeyError for a thread not in `PITCHES`.

    >>> round(stress_area(8.0), 1)
    36.6
    """
    return pi / 4.0 * (diameter - 0.9382 * PITCHES[diameter]) ** 2


def core_area(diameter: float) -> float:
    """Area [mm2] on the minor diameter: d3 = d - 1.22687 P. Source: ISO 724, from memory.

    >>> round(core_area(8.0), 2)
    32.84
    """
    return pi / 4.0 * (diameter - 1.22687 * PITCHES[diameter]) ** 2


@dataclass(frozen=True)
class PropertyClass:
    """Strengths [MPa]: `tensile` and `proof` up to 16 mm, alpha v [-] with the thread in the shear plane.

    Tensile of ISO 898-1 for loads of dealers' tables (Rm); `nominal` is fub of EN 1993-1-8.
    """

    name: str
    tensile: float
    proof: float
    nominal: float
    shear: float


CLASSES = {
    "8.8": PropertyClass("8.8", 800.0, 580.0, 800.0, 0.6),
    "10.9": PropertyClass("10.9", 1040.0, 830.0, 1000.0, 0.5),
}
"""ISO 898-1 strengths from memory (they give the dealers' tables of least loads within 0.6 %); alpha v of
EN 1993-1-8 table 3.4, read on two engineers' pages."""


def least_tensile_load(diameter: float, grade: str) -> float:
    """What a bolt must bear before it breaks [N]: ISO 898-1, As times Rm.

    >>> round(least_tensile_load(8.0, "8.8"), -2)
    29300.0
    """
    return stress_area(diameter) * CLASSES[grade].tensile


def proof_load(diameter: float, grade: str) -> float:
    """What a bolt bears without lasting stretch [N]: ISO 898-1, As times Sp.

    >>> round(proof_load(8.0, "8.8"), -2)
    21200.0
    """
    return stress_area(diameter) * CLASSES[grade].proof


def shear_resistance(diameter: float, grade: str) -> float:
    """Design resistance of one shear plane through the thread [N]: Fv,Rd = alpha v fub As / gamma M2.

    Source: EN 1993-1-8 table 3.4.

    >>> round(shear_resistance(8.0, "8.8"))
    14058
    """
    kind = CLASSES[grade]
    return kind.shear * kind.nominal * stress_area(diameter) / PARTIAL_FACTOR


def tension_resistance(diameter: float, grade: str, countersunk: bool = False) -> float:
    """Design resistance in tension [N]: Ft,Rd = k2 fub As / gamma M2, k2 = 0.9, countersunk 0.63.

    Source: EN 1993-1-8 table 3.4.

    >>> round(tension_resistance(8.0, "8.8"))
    21086
    """
    factor = 0.63 if countersunk else 0.9
    return factor * CLASSES[grade].nominal * stress_area(diameter) / PARTIAL_FACTOR


def both(shear: float, tension: float) -> float:
    """Utilisation [-] of a bolt by its shares of shear and tension resistance together.

    Fv / Fv,Rd + Ft / (1.4 Ft,Rd) <= 1, and Ft <= Ft,Rd by itself. Source: EN 1993-1-8 table 3.4.

    >>> round(both(0.5, 0.7), 6), both(0.0, 0.9)
    (1.0, 0.9)
    """
    return max(shear + tension / 1.4, tension)


@dataclass(frozen=True)
class Sheet:
    """A sheet under a bolt: thickness [mm], ultimate strength [MPa]."""

    thickness: float
    ultimate: float


def bearing_resistance(diameter: float, hole: float, sheet: Sheet, edge: float) -> float:
    """What the edge of a hole bears [N], the tear-out to a free edge included.

    Fb,Rd = k1 ab fu d t / gamma M2 with ab = min(edge / (3 hole), 1) and k1 = 2.5 (edge across the load not
    under 1.5 holes). `edge` [mm] is from the hole's middle to the free edge in the way of the load. For bolts
    stronger than the sheet, sheet from 3 mm; thinner sheet is EN 1993-1-3's, where the same formula is held
    against k t = min((0.8 t + 1.5) / 2.5, 1). Source: EN 1993-1-8 table 3.4 and EN 1993-1-3 table 8.4, both
    from memory.

    >>> round(bearing_resistance(8.0, 9.0, Sheet(3.0, 360.0), 27.0))
    17280
    >>> round(bearing_resistance(8.0, 9.0, Sheet(0.8, 270.0), 27.0))
    2958
    """
    toward_edge = min(edge / (3.0 * hole), 1.0)
    thin = min((0.8 * sheet.thickness + 1.5) / 2.5, 1.0)
    return 2.5 * toward_edge * thin * sheet.ultimate * diameter * sheet.thickness / PARTIAL_FACTOR


def pull_through_resistance(head: float, sheet: Sheet) -> float:
    """What a head or washer of so wide a `head` [mm] bears before it punches through the sheet [N].

    Bp,Rd = 0.6 pi dm tp fu / gamma M2. Source: EN 1993-1-8 table 3.4, from memory.

    >>> round(pull_through_resistance(16.0, Sheet(0.8, 270.0)))
    5212
    """
    return 0.6 * pi * head * sheet.thickness * sheet.ultimate / PARTIAL_FACTOR
