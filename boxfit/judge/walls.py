"""Modules and the walls round them: true distances in plan to the liner on the walls of their own tier.

The liner's surface lies sheet and liner deep inside the outline, mitred at its corners: it is as far from a
module as the outline is from the module grown by as much on all sides.
"""

from dataclasses import dataclass
from functools import partial

from boxfit.bay import BoxRules
from boxfit.judge.claim import ClaimedBox
from boxfit.judge.distance import Cuboid, Rectangle, inside_distance, shortfall, sides
from boxfit.judge.finding import SLACK, Finding
from boxfit.judge.outline import Outline, extent, side_gap
from boxfit.judge.places import PLAN
from boxfit.judge.shape import bands
from boxfit.judge.turning import Kept, Standing


def outline_at(box: ClaimedBox, rules: BoxRules, level: float) -> Outline:
    """The outline of the tier told to stand nearest to a level [mm]."""
    return bands(box, rules)[_tier_at(box, level)].outline


def _tier_at(box: ClaimedBox, level: float) -> int:
    """Which tier, from 0, is told to stand nearest to a level [mm]; 0 where no outlines are told."""
    if len(box.outlines) < 2 or box.tiers is None:
        return 0
    off = [abs(tier.stands_on - level) for tier in box.tiers]
    return off.index(min(off))


def liner_distance(block: Cuboid, outline: Outline, rules: BoxRules) -> float:
    """The shortest distance [mm] in plan from a block to the liner, 0 where it does not lie inside.

    >>> from boxfit.bay import BoxRules
    >>> rules = BoxRules("aluminium-5754", "welded", "stepped", 2, 0, 0, 2, 0, 1, 4, 0, 1, 1)
    >>> corner = ((0, 0), (90, 0), (90, 40), (40, 40), (40, 90), (0, 90))
    >>> liner_distance(Cuboid((20, 20, 0), (34, 33, 9)), corner, rules)  # hand: 3 and 4 off the corner
    5.0
    """
    by = rules.thickness + rules.liner
    plan = block.across(PLAN)
    grown = Rectangle((plan.low[0] - by, plan.low[1] - by), (plan.high[0] + by, plan.high[1] + by))
    return inside_distance(grown, outline)


def judge_walls(one: Standing, outline: Outline, rules: BoxRules) -> list[Finding]:
    """The gap stays free all round a module, and all its room lies inside the liner."""
    measure = partial(liner_distance, outline=outline, rules=rules)
    gap = shortfall(one.body, measure, rules.gap)
    if gap is not None:
        text = f"{gap:.3f} mm to the liner of a wall, {rules.gap:g} mm needed"
        return [Finding("module-in-box", one.place, text, gap)]
    for room in one.kept():
        if room.axis < 2 and shortfall(room.slab, measure, 0.0) is not None:
            left = _ahead(room, one.body, outline, rules)
            text = f"{left:.3f} mm to the liner at a face that keeps {room.depth:g} mm clear"
            return [Finding("module-in-box", one.place, text, left)]
    return []


def _ahead(room: Kept, body: Cuboid, outline: Outline, rules: BoxRules) -> float:
    """From a body to the liner [mm] on the first wall that its room runs into."""
    deep = rules.thickness + rules.liner
    walls = [extent(wall) for wall in sides(outline)]
    met = [wall for wall in walls if side_gap(room.slab.across(PLAN), wall) < deep - SLACK]
    return min((side_gap(body.across(PLAN), wall) for wall in met), default=deep) - deep


@dataclass(frozen=True)
class Joint:
    """What fills the corner between a floor and its walls [mm], how a finding calls it, and its code."""

    fills: float
    name: str
    code: str


def joint_under(box: ClaimedBox, rules: BoxRules, level: float, is_lowest: bool) -> Joint | None:
    """The joint beside what stands at a level [mm]; None where there is a shelf, or nothing in the corner.

    The lowest modules stand on the tray's floor, those of a tier that is wider than the one below it on a
    step floor, which is welded. A plain folded tray is bent all round and has welded corners, or is welded
    all round where its blank is too large for sheet or brake: it is judged by the greater.
    """
    if rules.process == "printed":
        return None
    bead = Joint(rules.fold_shop.weld_bead if rules.thickness > 0.0 else 0.0, "weld bead", "bead-fouled")
    bend = Joint(rules.bend_radius, "bend", "bend-fouled")
    outlines = [band.outline for band in bands(box, rules)]
    if not is_lowest:
        tier = _tier_at(box, level)
        return bead if tier and outlines[tier] != outlines[tier - 1] else None
    plain = all(one == outlines[0] for one in outlines) and len(outlines[0]) == 4
    if rules.process == "folded" and plain:
        return max(bend, bead, key=lambda joint: joint.fills)
    return bead


def judge_joint(one: Standing, outline: Outline, rules: BoxRules, joint: Joint | None) -> list[Finding]:
    """A square corner on a floor stays off what fills the joint between floor and walls.

    Needed is what fills it less what the liner lifts the corner, or keeps it off a step floor's walls (common
    practice, no source). Joints are mitred in the outline's corners: what stands clear of them does so along
    x or along y.
    """
    if joint is None:
        return []
    needed = joint.fills - rules.liner
    nearest = min(side_gap(one.body.across(PLAN), extent(wall)) for wall in sides(outline))
    gap = nearest - rules.thickness - rules.liner
    if gap >= needed - SLACK:
        return []
    text = f"{gap:.3f} mm to the liner of a wall, {needed:g} mm needed beside the {joint.name}"
    return [Finding(joint.code, one.place, text, gap)]
