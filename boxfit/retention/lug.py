"""A lifting lug: a plate welded upright to a wall under the flange, and what it bears. [N, mm, MPa]

Statics of one lug under its share of a lift, slings off upright as far as they may hang and that way which is
worst for each check. Close to welds metal counts as softened. What the flange's weld adds on the wall is left
out, on the safe side; where there is a flange it keeps the lug's upper end in its own plane.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from math import cos, hypot, radians, sqrt

from boxfit.retention.foot_checks import patch
from boxfit.retention.foot_remedies import WALLS
from boxfit.retention.use import Use
from boxfit.standards.lifting import (
    HOLE,
    MOST_SLOPE,
    PIN,
    across_sling,
    along_sling,
    pin_bearing,
    pin_torn_out,
)
from boxfit.standards.strengths import PARTIAL_WELD, PARTIAL_YIELD, THROAT, Strength

LIFTED = "lifted"
"""The pull that lugs are checked under."""
DOWN = 20.0
"""From a lug's upper edge to the middle of its hole [mm]: common practice, no source."""
HEIGHTS = (40.0, 60.0, 80.0, 100.0, 120.0)
"""Heights of lugs [mm]: common practice, no source."""
FRAME = "lift it on a frame under its floor or on a lifting table, proved on its own"


def to_edge(thickness: float) -> float:
    """From the middle of the hole to the lug's outer edge [mm]: 1.5 t of metal are left, at least 9 mm.

    >>> to_edge(4.0), to_edge(8.0)
    (16.0, 19.0)
    """
    return HOLE / 2.0 + max(9.0, 1.5 * thickness)


@dataclass(frozen=True)
class Lug:
    """A lug and the wall it is welded to.

    `load` [N] is its upright share; `height` is along the wall, `lever` from the wall to the middle of the
    hole, `flange` what of its upper edge is welded under the flange. `wall` are the sides of the wall.
    """

    name: str
    load: float
    thickness: float
    height: float
    lever: float
    flange: float
    metal: Strength
    wall: tuple[float, float]
    wall_thickness: float
    wall_metal: Strength

    @property
    def design(self) -> float:
        """Yield strength for design [MPa], softened by the weld."""
        return self.metal.yielding_softened / PARTIAL_YIELD

    @property
    def weld(self) -> float:
        """What a millimetre of its fillets bears [N/mm]."""
        thinner = min(self.thickness, self.wall_thickness)
        ultimate = min(self.metal.ultimate_softened, self.wall_metal.ultimate_softened)
        return THROAT * thinner * ultimate / (sqrt(3.0) * PARTIAL_WELD)


Sum = tuple[float, float, str]
"""Load, resistance and their unit."""


def bearing(lug: Lug) -> Sum:
    """The pin in the hole."""
    bears = pin_bearing(PIN, lug.thickness, lug.metal.yielding_softened)
    return (along_sling(lug.load), bears, "N")


def torn_out(lug: Lug) -> Sum:
    """The metal over the hole and at its outer side, along a sling as far off upright as it may hang.

    The corner over the hole is rounded by no more than `to_edge`, so that no way within that slope is
    shorter than `DOWN` times its cosine.
    """
    ahead = DOWN * cos(radians(MOST_SLOPE)) - HOLE / 2.0
    beside = to_edge(lug.thickness) - HOLE / 2.0
    sheet = (lug.thickness, lug.metal.yielding_softened)
    return (along_sling(lug.load), pin_torn_out(ahead, beside, HOLE, sheet), "N")


def bent(lug: Lug) -> Sum:
    """The plate beside the wall: bent upright, bent across and sheared, shares of its plastic resistance."""
    area, design = lug.height * lug.thickness, lug.design
    upright = lug.load * lug.lever / (area * lug.height / 4.0 * design)
    across = across_sling(lug.load) * lug.lever / (area * lug.thickness / 4.0 * design)
    return (upright + across + sqrt(3.0) * lug.load / (area * design), 1.0, "-")


def welded(lug: Lug) -> Sum:
    """Two fillets along the wall, the highest force on a millimetre of them."""
    aside = across_sling(lug.load)
    out = 3.0 * lug.load * lug.lever / lug.height**2 + aside * lug.lever / (lug.thickness * lug.height)
    return (hypot(out, lug.load / (2.0 * lug.height), aside / (2.0 * lug.height)), lug.weld, "N/mm")


def welded_to_flange(lug: Lug) -> Sum:
    """Two fillets under the flange, which keep the upper end from being pulled off the wall."""
    return (_pressing(lug) / (2.0 * lug.flange), lug.weld, "N/mm")


def beside_weld(lug: Lug) -> Sum:
    """The wall's own sheet along both fillets, softened by them."""
    bears = lug.wall_thickness * lug.wall_metal.yielding_softened / (sqrt(3.0) * PARTIAL_YIELD)
    return (hypot(lug.load, across_sling(lug.load)) / (2.0 * lug.height), bears, "N/mm")


def wall_bent(lug: Lug) -> Sum:
    """The wall pressed in by the lug's lower half and pulled by the sling, by yield lines.

    Without a flange its upper half pulls the wall as hard, a quarter of its height nearer.
    """
    design = lug.wall_metal.yielding_softened / PARTIAL_YIELD
    half = patch(lug.wall, (lug.height / 2.0, lug.thickness), lug.wall_thickness, design)
    whole = patch(lug.wall, (lug.height, lug.thickness), lug.wall_thickness, design)
    return (_pressing(lug) / half + across_sling(lug.load) / whole, 1.0, "-")


def _pressing(lug: Lug) -> float:
    """What presses on the middle of its lower half [N]: against the flange, else against the upper half."""
    arm = 0.75 * lug.height if lug.flange else lug.height / 2.0
    return lug.load * lug.lever / arm


@dataclass(frozen=True)
class Check:
    """One check: its name, its rule with source and clause, and the sum."""

    name: str
    rule: str
    sum: Callable[[Lug], Sum]


CHECKS = (
    Check("bearing of the shackle's pin", "EN 1993-1-8 table 3.10", bearing),
    Check("hole torn out", "EN 1993-1-8 table 3.9 type A", torn_out),
    Check("lug bent", "EN 1993-1-1 6.2.1, shares of plastic resistance added", bent),
    Check("weld of the lug", "EN 1993-1-8 4.5.3.3, EN 1999-1-1 8.6.3", welded),
    Check("weld under the flange", "EN 1993-1-8 4.5.3.3, EN 1999-1-1 8.6.3", welded_to_flange),
    Check("wall beside the weld", "EN 1999-1-1 8.6.3.4, softened zone", beside_weld),
    Check("wall at the lug", "EN 1993-1-8 table 7.11, yield lines; EN 1999-1-1 softened zone", wall_bent),
)
COEFFICIENT = "4 times its share, two of four lugs carry: 2006/42/EC annex I 4.1.2.5, from memory"


def checks_of(lug: Lug) -> tuple[Check, ...]:
    """All that a lug is asked; nothing of the flange where there is none."""
    return tuple(check for check in CHECKS if lug.flange or check.sum is not welded_to_flange)


def share(lug: Lug) -> float:
    """How far the check that uses it most uses a lug [-]."""
    return max(_share(check, lug) for check in checks_of(lug))


def _share(check: Check, lug: Lug) -> float:
    load, resistance, _ = check.sum(lug)
    return load / resistance if resistance > 0.0 else float("inf")


def uses_of_lug(lug: Lug) -> Iterator[Use]:
    """Every check of a lug; what does not pass with the first change that would."""
    for check in checks_of(lug):
        load, resistance, unit = check.sum(lug)
        use = Use(lug.name, check.name, LIFTED, load, resistance, unit, f"{check.rule}; {COEFFICIENT}")
        yield use if use.passes else replace(use, remedy=_remedy(check, lug))


def _remedy(check: Check, lug: Lug) -> str:
    """The first change of each sort that passes this check, the frame where none does."""
    taller = (
        (f"lugs {height:g} mm high", replace(lug, height=height)) for height in HEIGHTS if height > lug.height
    )
    thicker = (
        (f"lugs {sheet:g} mm thick", replace(lug, thickness=sheet))
        for sheet in (6.0, 8.0)
        if sheet > lug.thickness
    )
    stouter = (
        (f"a wall {sheet:g} mm thick", replace(lug, wall_thickness=sheet))
        for sheet in WALLS
        if sheet > lug.wall_thickness
    )
    found = [
        next((words for words, changed in ways if _share(check, changed) <= 1.0), "")
        for ways in (taller, thicker, stouter)
    ]
    return "; or ".join(words for words in (*found, FRAME) if words)
