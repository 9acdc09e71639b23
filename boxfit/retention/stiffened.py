"""Panels with flat bars on edge welded across their outside: sheet between bars, bars, stitches, bar ends.

The bars part the panel; each with the sheet beside it is a beam on two ends. The modules press the sheet
against the bars, so that the edge of a bar is pulled and no bar can turn over. [N, mm, MPa]
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise
from math import ceil, sqrt

from boxfit.retention.panel import SHEETS, Panel, beyond_linear
from boxfit.retention.use import Use
from boxfit.standards.plates import LINEAR_SAG, plate
from boxfit.standards.strengths import PARTIAL_YIELD, THROAT, Strength, fillet_resistance

STITCH = 30.0
"""Length of a stitch of weld [mm], on both sides of a bar: common practice, no source."""
STITCH_GAP, MOST_GAP = 12.0, 200.0
"""Between stitches at most so many thicknesses of the thinner part, and so much [mm]: EN 1993-1-8 4.3.2.2,
from memory."""
WITH_BAR = 15.0
"""Sheet that bends with a bar, in thicknesses on each side for a yield of 235 MPa and steel's modulus:
EN 1993-1-5 9.1, from memory."""
DEPTHS = (10.0, 12.0, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0, 60.0)
"""Flat bar that is stocked [mm]: common practice, no source."""
ACROSS_RULE = "Roark table 11.4 case 1a between bars, with the bar's bending by von Mises; softened zone"
BAR_RULE = "textbook: q l^2 / 8; sheet that bends with it EN 1993-1-5 9.1; EN 1999-1-1 softened zone"
STITCH_RULE = "textbook: V S / I; EN 1993-1-8 4.3.2.2, 4.5.3.3, EN 1999-1-1 8.6.3"
END_RULE = "textbook: reaction times gap, EN 1993-1-1 6.2.5, plastic"


@dataclass(frozen=True)
class Stitches:
    """So many stitches of weld on each side of a bar, each of `length` [mm], `pitch` [mm] from one to the
    next."""

    count: int
    length: float
    pitch: float


def stitches(length: float, thinner: float) -> Stitches:
    """The stitches of a bar of so much length [mm], one at each end, where the thinner part is so thick [mm].

    >>> stitches(300.0, 2.5)
    Stitches(count=6, length=30.0, pitch=54.0)
    >>> stitches(50.0, 2.5)
    Stitches(count=1, length=50.0, pitch=50.0)
    """
    gap = min(STITCH_GAP * thinner, MOST_GAP)
    if length <= 2.0 * STITCH:
        return Stitches(1, length, length)
    count = max(2, ceil((length + gap) / (STITCH + gap) - 1e-9))
    return Stitches(count, STITCH, (length - STITCH) / (count - 1))


@dataclass(frozen=True)
class Ribbed:
    """A bar's section with its sheet: second moment [mm4], from the common centre to the bar's edge and to
    the outside of the sheet [mm], and the sheet's first moment about the centre [mm3]."""

    second_moment: float
    to_edge: float
    to_sheet: float
    first_moment: float


def ribbed(depth: float, thickness: float, width: float, sheet: float) -> Ribbed:
    """A bar on edge on so much sheet [mm] (textbook).

    >>> section = ribbed(15.0, 5.0, 60.0, 2.5)
    >>> round(section.second_moment, 1), round(section.to_edge, 2), round(section.to_sheet, 2)
    (5312.5, 13.33, 4.17)
    """
    bar, plate_area = depth * thickness, width * sheet
    centre = (plate_area * sheet / 2.0 + bar * (sheet + depth / 2.0)) / (bar + plate_area)
    own = (thickness * depth**3 + width * sheet**3) / 12.0
    moved = plate_area * (centre - sheet / 2.0) ** 2 + bar * (sheet + depth / 2.0 - centre) ** 2
    return Ribbed(own + moved, sheet + depth - centre, centre, plate_area * (centre - sheet / 2.0))


@dataclass(frozen=True)
class Stiffened:
    """A panel with bars across `span` [mm]; `bays` [mm] are from edge to bar, bar to bar, and bar to edge.

    `depth` and `thickness` [mm] are the bars', `past` [mm] is from their ends to what carries the sheet
    there, `length` [mm] their own. `key` is the key of [box] that makes them deeper.
    """

    panel: Panel
    span: float
    bays: tuple[float, ...]
    depth: float
    thickness: float
    length: float
    past: float
    key: str

    @property
    def metal(self) -> Strength:
        """Of sheet and bars."""
        return self.panel.metal

    @property
    def design(self) -> float:
        """Yield strength for design [MPa], softened as bars are welded on."""
        return self.metal.yielding_softened / PARTIAL_YIELD

    @property
    def carried(self) -> float:
        """The widest strip [mm] that one bar carries: half of what is on both its sides."""
        return max((one + other) / 2.0 for one, other in pairwise(self.bays))

    @property
    def with_bar(self) -> float:
        """Sheet [mm] that bends with that bar."""
        steel = 235.0 / self.metal.yielding * self.metal.modulus / 210000.0
        return min(self.carried, self.thickness + 2.0 * WITH_BAR * sqrt(steel) * self.panel.thickness)

    @property
    def section(self) -> Ribbed:
        """The most loaded bar with its sheet."""
        return ribbed(self.depth, self.thickness, self.with_bar, self.panel.thickness)

    @property
    def between(self) -> Panel:
        """The widest part of the panel between bars."""
        return replace(self.panel, size=(max(self.bays), self.span))

    def passes(self, pressure: float) -> bool:
        """Whether it bears a pressure [MPa] in every check."""
        return all(use.passes for use in _checks(self, "", "", pressure))

    def worst(self, pressure: float) -> float:
        """The greatest utilisation [-]."""
        return max(use.utilisation for use in _checks(self, "", "", pressure))


def uses_of_stiffened(one: Stiffened, what: str, pull: str, pressure: float) -> Iterator[Use]:
    """A stiffened panel under an even pressure [MPa]; `what` tells what presses."""
    for use in _checks(one, what, pull, pressure):
        yield use if use.passes else replace(use, remedy=_remedy(one, pressure))


def _checks(one: Stiffened, what: str, pull: str, pressure: float) -> Iterator[Use]:
    """Sheet between bars, the most loaded bar, its stitches, and the sheet past its ends."""
    panel, section, metal = one.panel, one.section, one.metal
    load = pressure * one.carried  # on a millimetre of the bar
    moment = load * one.span**2 / 8.0
    local = plate(one.between.size, panel.thickness, pressure, metal.modulus, "supported").stress
    along = moment * section.to_sheet / section.second_moment
    whole = sqrt(local**2 + along**2 + local * along)  # one pulls where the other presses
    beyond = beyond_linear(one.between, pressure) if what else ""
    yield Use(
        panel.name,
        f"bent between its bars by {what}",
        pull,
        whole,
        one.design,
        "MPa",
        ACROSS_RULE,
        "",
        beyond,
    )
    bars = f"{panel.name}, stiffening bars"
    edge = moment * section.to_edge / section.second_moment
    sag = 5.0 * load * one.span**4 / (384.0 * metal.modulus * section.second_moment)
    yield Use(bars, "bar bent", pull, edge, one.design, "MPa", BAR_RULE, "", _sagging(one, sag))
    reaction, thinner = load * one.span / 2.0, min(panel.thickness, one.thickness)
    flow = reaction * section.first_moment / section.second_moment
    made = stitches(one.length, thinner)
    sheared = flow * made.pitch / (2.0 * made.length)
    bears = fillet_resistance(THROAT * thinner, 1.0, metal)
    yield Use(bars, "stitch welds sheared", pull, sheared, bears, "N/mm", STITCH_RULE)
    flat = one.with_bar * panel.thickness**2 / 4.0 * one.design
    yield Use(bars, "sheet past the bar's end", pull, reaction * one.past / flat, 1.0, "-", END_RULE)


def _sagging(one: Stiffened, sag: float) -> str:
    """What is to be known where bars give way by more than a plate may for linear theory."""
    if sag <= LINEAR_SAG * one.panel.thickness:
        return ""
    return (
        f"the bar sags {sag:.1f} mm, over half the sheet's thickness: as a support it gives way, so the sheet"
        " takes the bar's bending too, which its own check adds up; figures on the safe side"
    )


def _remedy(one: Stiffened, pressure: float) -> str:
    """The first deeper bar and the first thicker sheet that pass with as many bars; else a frame."""
    found = []
    deeper = (replace(one, depth=depth) for depth in DEPTHS if depth > one.depth)
    if enough := next((each for each in deeper if each.passes(pressure)), None):
        found.append(f"{one.key} = {enough.depth:g}")
    thicker = (
        replace(one, panel=replace(one.panel, thickness=sheet))
        for sheet in SHEETS
        if sheet > one.panel.thickness
    )
    if heavier := next((each for each in thicker if each.passes(pressure)), None):
        found.append(f"{heavier.panel.thickness:g} mm thick with these bars")
    if not found:
        found.append("a frame of its own that holds the modules, proved on its own")
    wide = max(one.bays)
    even = sum(one.bays) / len(one.bays)
    if wide > 1.2 * even:
        found.append(f"what stands in the widest bay of {wide:.0f} mm moved, so that a bar finds room there")
    return "; or ".join(found)
