"""Lid, gasket and cover plate as profiles round the top outline of a box, with round bars and holes in them.

Heights [mm] are above the outside of the floor.
"""

from collections.abc import Iterator
from math import pi
from typing import Literal, NamedTuple

from boxfit.bay import BoxRules
from boxfit.box_details import LID_HOLE, STUD_DIAMETER, STUD_HEIGHT
from boxfit.lid_details import (
    LOW_NUT,
    STUD_HOLE,
    STUD_THREAD,
    cover_material,
    cover_radius,
    cover_reach,
    gasket_line,
    has_gasket,
    return_height,
)
from boxfit.standards.materials import GASKET, MATERIALS
from boxfit.weight.swept import Profile, Span, bend, prism, strip, total, upside_down


class Round(NamedTuple):
    """Round bars or holes: levels [mm] they run between, section [mm2], -1 for holes, where they stand."""

    up: Span
    section: float
    sign: int
    at: Literal["screws", "studs"]


class LidPart(NamedTuple):
    """A part round the top outline: its density [kg/m3], its profile, the round bars and holes in it."""

    name: str
    density: float
    profile: Profile
    round: tuple[Round, ...] = ()


def disc(diameter: float) -> float:
    """Area [mm2] of a round bar or hole by its diameter [mm].

    >>> round(disc(2.0), 4)
    3.1416
    """
    return pi / 4.0 * diameter**2


def lid_parts(height: float, rules: BoxRules, cover_plate: bool, returned: bool) -> Iterator[LidPart]:
    """Lid with studs, gasket, and cover plate where there is one, of a box whose lid's top is at `height`.

    Their densities are 0 where no box is asked for.
    """
    up, bottom = (height - rules.lid_thickness, height), height + STUD_HEIGHT
    bars = [Round(up, disc(LID_HOLE), -1, "screws")]
    if cover_plate:
        end = bottom + rules.lid_thickness + LOW_NUT
        bars.append(Round((height, bottom), disc(STUD_DIAMETER), 1, "studs"))
        bars.append(Round((bottom, end), disc(STUD_THREAD), 1, "studs"))
    yield LidPart("lid", _density(rules, rules.material), prism(up, rules.flange), tuple(bars))
    gasket = gasket_profile(height, rules)
    if gasket:
        yield LidPart("gasket", _density(rules, GASKET.name), gasket)
    if cover_plate:
        drilled = Round((bottom, bottom + rules.lid_thickness), disc(STUD_HOLE), -1, "studs")
        profile = cover_profile(height, rules, returned)
        yield LidPart("cover plate", _density(rules, cover_material(rules)), profile, (drilled,))


def _density(rules: BoxRules, material: str) -> float:
    return MATERIALS[material].density if rules.asked else 0.0


def gasket_profile(height: float, rules: BoxRules) -> Profile | None:
    """The pressed gasket under a lid whose top is at `height` [mm]; None without one.

    >>> rules = BoxRules("petg", "printed", "rectangular", 4, 0, 30, 4, 10, 3, 4, 5, 1, 1, True, 8, 6)
    >>> gasket_profile(200.0, rules).area  # 8 wide, two thirds of 6 high
    32.0
    """
    if not has_gasket(rules):
        return None
    middle, half = gasket_line(rules), rules.gasket_width / 2.0
    top = height - rules.lid_thickness
    return strip((middle - half, middle + half), (top - rules.gasket_pressed, top))


def cover_profile(height: float, rules: BoxRules, returned: bool) -> Profile:
    """The cover plate over a lid whose top is at `height` [mm], with returned edges or without."""
    thick = rules.lid_thickness
    bottom = height + STUD_HEIGHT
    top = bottom + thick
    if not returned:
        return prism((bottom, top), rules.flange)
    reach, low, radius = cover_reach(rules), top - return_height(rules), cover_radius(rules)
    if radius is None:
        return total([prism((bottom, top), reach), strip((reach - thick, reach), (low, bottom))])
    outer = radius + thick
    # the bend at a floor, turned upside down
    corner = upside_down(bend((reach - outer, outer - top), (radius, outer), 1))
    plate = prism((bottom, top), reach - outer)
    return total([plate, corner, strip((reach - thick, reach), (low, top - outer))])
