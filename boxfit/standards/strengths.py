"""Strengths of sheet for design, parent and beside a weld, each with its source and status. [MPa]"""

from dataclasses import dataclass
from math import sqrt

PARTIAL_YIELD = 1.1
"""Partial factor [-] for aluminium against yielding, gamma M1 of EN 1999-1-1, from memory. Steel takes 1.0;
the same is kept for it, on the safe side."""
PARTIAL_WELD = 1.25
"""Partial factor [-] of a weld, gamma Mw of EN 1999-1-1 and gamma M2 of EN 1993-1-8, from memory."""


@dataclass(frozen=True)
class Strength:
    """A sheet material for design: `yielding` and `ultimate`, the same in the softened zone of a weld [MPa].

    `modulus` is Young's [MPa]; `softened` [mm] how far that zone reaches from the weld's middle.
    """

    name: str
    yielding: float
    ultimate: float
    yielding_softened: float
    ultimate_softened: float
    modulus: float
    softened: float
    source: str


_SHEET = "EN 485-2 as a dealer copies it; softened zone EN 1999-1-1 table 3.2a, from memory"
_SOFT = 20.0
"""Reach of the softened zone [mm], MIG on sheet up to 6 mm: EN 1999-1-1, from memory."""

STRENGTHS = {
    strength.name: strength
    for strength in (
        Strength("aluminium-5754", 80.0, 190.0, 80.0, 190.0, 70000.0, _SOFT, f"5754 O/H111, {_SHEET}"),
        Strength("aluminium-5083", 125.0, 275.0, 125.0, 275.0, 70000.0, _SOFT, f"5083 O/H111, {_SHEET}"),
        Strength("aluminium-5052", 130.0, 210.0, 80.0, 170.0, 70000.0, _SOFT, f"5052 H22/H32, {_SHEET}"),
        Strength("aluminium-6082", 260.0, 310.0, 125.0, 185.0, 70000.0, _SOFT, f"6082 T6, {_SHEET}"),
        Strength("steel-s235", 235.0, 360.0, 235.0, 360.0, 210000.0, 0.0, "EN 10025-2 S235JR, from memory"),
        Strength(
            "steel-dc01",
            140.0,
            270.0,
            140.0,
            270.0,
            210000.0,
            0.0,
            "EN 10130 DC01: Rm read; its yield has no least value there, 140 MPa for design is from memory",
        ),
        Strength(
            "stainless-1.4301",
            210.0,
            500.0,
            210.0,
            500.0,
            193000.0,
            0.0,
            "1.4301: Rm of bar EN 10088-3 read (500), yield 210 and modulus 193 GPa from dealers' pages",
        ),
    )
}
"""Plastics have none here: their strength hangs on how they are printed."""


@dataclass(frozen=True)
class SoftenedAlloy:
    """An alloy of EN 1999-1-1 table 3.2b: fo, fu, and the same in the softened zone [MPa]."""

    name: str
    yielding: float
    ultimate: float
    yielding_softened: float
    ultimate_softened: float

    @property
    def factors(self) -> tuple[float, float]:
        """What the softened zone keeps of fo and of fu [-].

        >>> [round(factor, 2) for factor in SoftenedAlloy("6063 T6", 160, 195, 65, 110).factors]
        [0.41, 0.56]
        """
        return (self.yielding_softened / self.yielding, self.ultimate_softened / self.ultimate)


EXTRUDED = (
    SoftenedAlloy("5083 O/H111", 110.0, 270.0, 110.0, 270.0),
    SoftenedAlloy("5083 H12/22/32 tube", 200.0, 280.0, 135.0, 270.0),
    SoftenedAlloy("5083 H14/24/34 tube", 235.0, 300.0, 135.0, 270.0),
    SoftenedAlloy("6060 T6", 140.0, 170.0, 60.0, 100.0),
    SoftenedAlloy("6061 T6", 240.0, 260.0, 115.0, 175.0),
    SoftenedAlloy("6063 T6", 160.0, 195.0, 65.0, 110.0),
    SoftenedAlloy("6005A T6 open", 225.0, 270.0, 115.0, 165.0),
)
"""For frames of angle and tube; EN 1999-1-1 table 3.2b as a public copy prints it."""


THROAT = 0.7
"""Throat of a fillet in thicknesses of the thinner sheet: common practice, no source."""


def fillet_resistance(throat: float, length: float, strength: Strength) -> float:
    """What a fillet weld bears in any direction [N]: a l fw / (sqrt 3 gamma Mw), fw the softened ultimate.

    `throat` and `length` [mm]. Source: EN 1993-1-8 4.5.3.3 (beta w taken as 1) and EN 1999-1-1 8.6.3, from
    memory; the filler is taken to be no weaker than the softened sheet.

    >>> round(fillet_resistance(2.0, 100.0, STRENGTHS["steel-s235"]))
    33255
    """
    return throat * length * strength.ultimate_softened / (sqrt(3.0) * PARTIAL_WELD)


def beside_weld(thickness: float, length: float, strength: Strength) -> float:
    """What the softened sheet along a weld bears in shear [N]: t l fo,haz / (sqrt 3 gamma M1).

    Source: EN 1999-1-1 8.6.3.4, from memory (yielding is taken, on the safe side).

    >>> round(beside_weld(2.5, 100.0, STRENGTHS["aluminium-5754"]))
    10497
    """
    return thickness * length * strength.yielding_softened / (sqrt(3.0) * PARTIAL_YIELD)
