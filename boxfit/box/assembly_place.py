"""Whether a box can be filled where it stands in the car, or must be filled on the bench and lifted in."""

import shapely

from boxfit.bay import Bay, Way
from boxfit.box.assembly_above import FAR, Above, above
from boxfit.box.assembly_hand import HAND, SWING, TerminalFace, terminal_faces
from boxfit.layout import PlacedBox, PlacedModule
from boxfit.module import Module
from boxfit.standards.common_practice import ONE_PERSON
from boxfit.weight.box_mass import box_mass

MOST_OFF = 20.0
"""No survey's tolerance is thought larger [mm] when what lies near the box is looked for."""
WHERE: dict[Way, str] = {
    "front": "front",
    "rear": "rear",
    "left": "left",
    "right": "right",
    "up": "top",
    "down": "underside",
}
DOWN = 10.0
"""Where the full swing is not free, less is tried in steps of this [mm]."""


def filling(bay: Bay, box: PlacedBox, module: Module) -> tuple[str, ...]:
    """Where the box is filled, why, and what it then weighs."""
    if bay.opening is None:
        return (
            "whether it can be filled in its place is not known, as no opening is told;"
            f" {_mass(bay, box, module)}",
        )
    if bay.opening.way != "up":
        return (
            f"fill it on the bench: the bay opens to the {WHERE[bay.opening.way]}, nothing comes in from"
            f" above; {_mass(bay, box, module)}",
        )
    lacking = _lacking_above(bay, box, module)
    if not lacking:
        return ("it can be filled in its place: modules, hand and spanner come in from above",)
    told = (f"fill it on the bench: in its place {one}" for one in lacking)
    return (*told, _mass(bay, box, module))


def _mass(bay: Bay, box: PlacedBox, module: Module) -> str:
    """What it weighs filled, and who lifts that."""
    levels = tuple(tier.stands_on - box.low[2] for tier in box.tiers)
    empty = box_mass(box.outlines, box.high[2] - box.low[2], levels, bay.box)
    mass = empty.mass + len(box.modules) * module.mass
    caution = (
        f"one person lifts {ONE_PERSON:.0f} kg: hoist and lifting points"
        if mass > ONE_PERSON
        else f"one person may lift it, up to {ONE_PERSON:.0f} kg"
    )
    return f"filled it weighs {mass:.1f} kg, {caution} (common practice, no source)"


def _lacking_above(bay: Bay, box: PlacedBox, module: Module) -> list[str]:
    """What of the bay stays above the box and stops modules, hand or spanner."""
    rim, reach = box.high[2] - bay.box.rim_below_top, HAND + MOST_OFF
    (x, y), (a, b) = box.low[:2], box.high[:2]
    things = above(bay, (x - reach, y - reach, a + reach, b + reach))
    found = []
    for thing in things:
        covered = thing.covers((rim, FAR))
        stopped = [_plan(one).intersection(covered) for one in box.modules]
        stopped = [part for part in stopped if part.area > 1e-3]
        if stopped:
            most = max(map(_narrow, stopped))
            found.append(
                f"{thing.name} covers {len(stopped)} of {len(box.modules)} modules,"
                f" up to {most:.0f} mm of them"
            )
    faces = [(one, face) for one in box.modules for face in terminal_faces(one.stance, module.room)]
    swings = [_swing(things, one, face) for one, face in faces]
    least = min(swings, default=SWING)
    if least < SWING:
        short = sum(swing < SWING for swing in swings)
        found.append(
            f"{least:.0f} mm are free above the terminals at the worst of {short} places, {SWING:.0f} mm"
            f" needed: lacks {SWING - least:.0f} mm"
        )
    return found


def _plan(one: PlacedModule) -> shapely.Polygon:
    return shapely.box(one.low[0], one.low[1], one.high[0], one.high[1])


def _narrow(region: shapely.Geometry) -> float:
    """The lesser extent of a region [mm]."""
    x, y, a, b = region.bounds
    return float(min(a - x, b - y))


def _swing(things: tuple[Above, ...], one: PlacedModule, face: TerminalFace) -> float:
    """The height [mm] that a column `HAND` across is free at the best place of a face, at most `SWING`."""
    where: shapely.Geometry = _plan(one)
    if face.axis < 2:
        at = one.high[face.axis] if face.sign > 0 else one.low[face.axis]
        ends = [list(one.low[:2]), list(one.high[:2])]
        for end in ends:
            end[face.axis] = at + face.sign * HAND / 2.0
        where = shapely.LineString(ends)
    top, free = one.high[2], SWING
    while free > 0.0:
        covered = shapely.union_all([thing.covers((top, top + free)) for thing in things])
        if not where.difference(covered.buffer(HAND / 2.0)).is_empty:
            return free
        free -= DOWN
    return 0.0
