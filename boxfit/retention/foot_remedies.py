"""What to change at a foot that does not bear its load: tried out by the same sum, the least change first."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import product
from math import ceil

from boxfit.retention.foot import Doubler, Foot, Part
from boxfit.retention.foot_checks import Check, checks_of
from boxfit.retention.use import Use
from boxfit.standards.bolts import PITCHES
from boxfit.standards.holes import clearance_hole
from boxfit.standards.strengths import STRENGTHS

SHEETS = (3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0)
"""Sheet [mm] that a workshop gets: common practice, no source."""
WALLS = (2.0, 2.5, 3.0, 4.0, 5.0, 6.0)
"""Sheet [mm] that walls are made of: common practice, no source."""
PAST_WELDS = (10.0, 20.0, 30.0, 40.0, 60.0)
"""How far doublers reach past the welds of a foot [mm]: common practice, no source."""
PLATES = ((60.0, 2.0), (60.0, 3.0), (80.0, 3.0), (80.0, 4.0), (80.0, 5.0), (100.0, 6.0))
"""Side and thickness of spreading plates [mm]."""
WASHER = 2.5
"""A large washer is so many threads across: common practice, no source."""
MANY = 8
"""Where so many more mounts would be needed a frame is the better way (common practice, no source)."""
FRAME = "a frame of bars under the box from mount to mount, proved on its own"
MOST = 40
"""More mounts than this are no remedy."""


def uses_of_foot(foot: Foot, pull: str, part: Part, mounts: int) -> Iterator[Use]:
    """Every check of a foot under one pull; `mounts` is how many the box stands on."""
    for check in checks_of(foot):
        load, resistance, unit = check.sum(foot, part)
        use = Use(foot.name, check.name, pull, load, resistance, unit, check.rule)
        yield use if use.passes else replace(use, remedy=_remedy(check, foot, part, mounts))


def _remedy(check: Check, foot: Foot, part: Part, mounts: int) -> str:
    """The first change that passes this check, and how many more mounts would do instead."""
    found = [words for words, changed in _changes(check, foot) if _passes(check, changed, part)]
    more = ceil(mounts * _share(check, foot, part)) - mounts
    if more <= MOST:
        found.append(f"{more} more mount{'s' if more > 1 else ''} spread alike")
    if foot.trough and check.name == "foot bent across":
        found.append("a mount that a foot without a gap reaches, beside or under a wall")
    if more > MANY and check.name in ("wall at the foot", "foot bent across"):
        found.append(FRAME)
    return "; or ".join((*found[:1], *found[-1:]) if len(found) > 1 else found) or FRAME


def _passes(check: Check, changed: Foot, part: Part) -> bool:
    """Whether a changed foot passes this check, and its doubler those of its own where it has one."""
    asked = (check, *(one for one in checks_of(changed) if "doubler" in one.name))
    return all(_share(one, changed, part) <= 1.0 for one in asked)


def _share(check: Check, foot: Foot, part: Part) -> float:
    load, resistance, _ = check.sum(foot, part)
    return load / resistance


def _changes(check: Check, foot: Foot) -> Iterator[tuple[str, Foot]]:
    """Changes that can help this check, each in words."""
    wall, body = foot.wall, foot.body
    if check.name.startswith("foot bent") or check.name in ("bearing in the foot", "weld of the foot"):
        thicker = [sheet for sheet in SHEETS if sheet > foot.thickness]
        yield from ((f"feet {sheet:g} mm thick", replace(foot, thickness=sheet)) for sheet in thicker)
        steel = STRENGTHS["steel-s235"]
        if wall.screws and foot.metal.yielding < steel.yielding:
            yield from (
                (f"feet of steel {sheet:g} mm thick", replace(foot, metal=steel, thickness=sheet))
                for sheet in SHEETS
            )
    if check.name in ("bolt", "bearing in the body sheet", "pull-through of the body sheet"):
        for thread in (size for size in PITCHES if size > foot.bolt):
            hole, washer = clearance_hole(thread), WASHER * thread
            yield f"M{thread:g}", replace(foot, bolt=thread, hole=hole, washer=washer)
        yield "bolts of class 10.9", replace(foot, grade="10.9")
    if check.name == "pull-through of the body sheet":
        for side, thick in PLATES:
            plated = replace(body, plate=side, plate_thickness=thick, plate_metal=STRENGTHS["steel-s235"])
            yield f"spreading plate {side:g} x {side:g} x {thick:g}", replace(foot, body=plated)
    if check.name in ("wall screws", "wall at the screws"):
        yield "four wall screws instead of two", replace(foot, wall=replace(wall, screws=2 * wall.screws))
    if check.name.startswith(("wall", "weld")):
        yield from _wall_changes(check, foot)


def _wall_changes(check: Check, foot: Foot) -> Iterator[tuple[str, Foot]]:
    """A thicker doubler, or wall, under a foot."""
    wall = foot.wall
    plate = wall.doubler
    if plate and "doubler" not in check.name:
        for sheet in (one for one in SHEETS if one > plate.thickness):
            thicker = replace(wall, doubler=replace(plate, thickness=sheet))
            yield f"the doubler {sheet:g} mm thick", replace(foot, wall=thicker)
        return
    if not plate and not wall.screws:
        for past, sheet in product(PAST_WELDS, SHEETS):
            doubler = Doubler(sheet, wall.length + 2.0 * past, foot.width + 2.0 * past)
            words = f"a doubler {sheet:g} mm welded on the wall under the foot, {past:g} mm past its welds"
            yield words, replace(foot, wall=replace(wall, doubler=doubler))
    for sheet in (one for one in WALLS if one > wall.thickness):
        yield f"a wall {sheet:g} mm thick", replace(foot, wall=replace(wall, thickness=sheet))
