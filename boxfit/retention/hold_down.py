"""Hold-downs under modules that are thrown up: bar, screws, blocks and their welds. [N, mm, MPa]"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from math import hypot, pi, sqrt

from boxfit.retention.bars import angle_section, bar_between
from boxfit.retention.use import Use
from boxfit.standards.bolts import both, shear_resistance, tension_resistance
from boxfit.standards.strengths import PARTIAL_WELD, PARTIAL_YIELD, THROAT, Strength

SCREW = 6.0
GRADE = "8.8"
SHEETS = (2.0, 2.5, 3.0, 4.0, 5.0, 6.0)
ENGAGED = 0.75
"""Share of a thread's cylinder that shears [-]: common practice, no source."""


@dataclass(frozen=True)
class Tapped:
    """A tapped block on a wall: thickness, length along it, height [mm], metal, and the wall's sheet."""

    thickness: float
    length: float
    height: float
    metal: Strength
    wall: float
    wall_metal: Strength


@dataclass(frozen=True)
class HoldDown:
    """A bar over modules of `mass` [kg] in all that it holds.

    `flat`, `upright` and `thickness` [mm] are its section, with one upright leg or two; `span` [mm] the
    longest stretch between two screws. `length` [mm] is the bar's own, `over` how much of it lies on modules.
    `arm` [mm] is from the upright leg to the middle of what is pressed. Each of `screws` stands `lever` [mm]
    below the upright leg's upper edge and the load `out` [mm] of the block.
    """

    name: str
    mass: float
    flat: float
    upright: float
    uprights: int
    thickness: float
    metal: Strength
    span: float
    over: float
    arm: float
    screws: int
    lever: float
    out: float
    tapped: Tapped
    end_plates: bool


def uses_of_hold_down(one: HoldDown, pull: str, force: float) -> Iterator[Use]:
    """Every check of a hold-down under a force [N] on it in all."""
    bar = _bar(one, force)
    use = Use(
        one.name, "bar bent", pull, bar, one.metal.yielding / PARTIAL_YIELD, "MPa", "textbook: q l^2 / 8"
    )
    yield use if use.passes else replace(use, remedy=_thicker(one, force, _bar))
    flat = _flat(one, force)
    rule = "EN 1993-1-1 6.2.5, plastic"
    use = Use(one.name, "flat leg bent", pull, flat, one.metal.yielding / PARTIAL_YIELD, "MPa", rule)
    yield use if use.passes else replace(use, remedy=_thicker(one, force, _flat))
    yield _screws(one, pull, force)
    yield _thread(one, pull, force)
    yield _block_weld(one, pull, force)
    if one.end_plates:
        length = 2.0 * (one.flat + one.uprights * one.upright)
        bears = _fillet(one.thickness, one.metal)
        rule = "EN 1993-1-8 4.5.3.3, EN 1999-1-1 8.6.3"
        use = Use(one.name, "weld of the end plates", pull, force / length, bears, "N/mm", rule)
        yield use if use.passes else replace(use, remedy="welded all round on both sides")


def _bar(one: HoldDown, force: float) -> float:
    """The bar between its screws, the load even over what it presses: M = q l^2 / 8."""
    section = angle_section(one.flat, one.upright, one.thickness, one.uprights)
    return bar_between(force / one.over * one.span, one.span, section, one.metal.modulus).stress


def _flat(one: HoldDown, force: float) -> float:
    """The flat leg bent off its upright legs, in the plastic section t^2 / 4."""
    return force / one.over / one.uprights * one.arm / (one.thickness**2 / 4.0)


def _thicker(one: HoldDown, force: float, stress: Callable[[HoldDown, float], float]) -> str:
    """The first sheet that passes, else more bars."""
    for sheet in (sheet for sheet in SHEETS if sheet > one.thickness):
        if stress(replace(one, thickness=sheet), force) <= one.metal.yielding / PARTIAL_YIELD:
            return f"hold-downs of sheet {sheet:g} mm"
    return "straps or bars of their own over the modules, screwed at shorter distances"


def _at_screw(one: HoldDown, force: float) -> tuple[float, float]:
    """Shear and tension [N] of the screw that takes most: the end ones of three or more take half a space."""
    share = force / one.screws if one.screws <= 2 else force / one.over * one.span
    return (share, share * one.out / one.lever)


def _screws(one: HoldDown, pull: str, force: float) -> Use:
    sheared, pulled = _at_screw(one, force)
    shares = (sheared / shear_resistance(SCREW, GRADE), pulled / tension_resistance(SCREW, GRADE))
    use = Use(one.name, "screws", pull, both(*shares), 1.0, "-", "EN 1993-1-8 table 3.4, class 8.8")
    return use if use.passes else replace(use, remedy=_more_screws(one, use.utilisation))


def _thread(one: HoldDown, pull: str, force: float) -> Use:
    """The tapped thread stripped out of its block."""
    pulled = _at_screw(one, force)[1]
    tapped = one.tapped
    bears = (
        pi * SCREW * ENGAGED * tapped.thickness * tapped.metal.ultimate_softened / (sqrt(3.0) * PARTIAL_WELD)
    )
    rule = "shear of the thread's cylinder, textbook; softened by the weld"
    use = Use(one.name, "thread in its block", pull, pulled, bears, "N", rule)
    return use if use.passes else replace(use, remedy=_more_screws(one, use.utilisation))


def _more_screws(one: HoldDown, used: float) -> str:
    count = int(one.screws * used) + 1
    return f"{count} blocks with screws instead of {one.screws}"


def _block_weld(one: HoldDown, pull: str, force: float) -> Use:
    """Three sides of a block: the load shears them, and its distance from the wall tips the block.

    The tipping is taken by the lower seam and the ends of the others, the block's height apart.
    """
    tapped = one.tapped
    share = _at_screw(one, force)[0]
    sheared = share / (tapped.length + 2.0 * tapped.height)
    tipped = share * (one.out + tapped.thickness) / tapped.height / tapped.length
    bears = _fillet(min(tapped.wall, tapped.thickness), tapped.wall_metal)
    rule = "EN 1993-1-8 4.5.3.3, EN 1999-1-1 8.6.3, softened zone"
    use = Use(one.name, "weld of the blocks", pull, hypot(sheared, tipped), bears, "N/mm", rule)
    return use if use.passes else replace(use, remedy=_more_screws(one, use.utilisation))


def _fillet(thickness: float, metal: Strength) -> float:
    """What a millimetre of fillet bears [N/mm]."""
    return THROAT * thickness * metal.ultimate_softened / (sqrt(3.0) * PARTIAL_WELD)
