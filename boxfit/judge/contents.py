"""What is inside one box: modules in the right place, the right way round, clear of each other."""

from boxfit.bay import BoxRules
from boxfit.judge.claim import ClaimedBox
from boxfit.judge.distance import Cuboid
from boxfit.judge.finding import SLACK, Finding
from boxfit.judge.modules import choose_ways, judge_rooms, judge_spacing
from boxfit.judge.tiers import find_levels, judge_levels, judge_told_tiers
from boxfit.judge.turning import Standing, ways_to_stand
from boxfit.module import Module

_WALLS = ("rear", "front", "right", "left")


def judge_contents(box: ClaimedBox, rules: BoxRules, module: Module, place: str) -> list[Finding]:
    """Everything that is asked of the modules of one box."""
    outside = Cuboid(box.outside.low, box.outside.high)
    findings = []
    ways: list[tuple[Standing, ...]] = []
    for number, claimed in enumerate(box.modules, 1):
        where = f"{place}, module {number}"
        found = ways_to_stand(claimed, module, where)
        if isinstance(found, Finding):
            findings.append(found)
            ways.append((Standing(where, Cuboid(claimed.low, claimed.high)),))
        else:
            ways.append(tuple(way for way in found if not judge_walls(outside, rules, way)) or found[:1])
    standing = choose_ways(ways)
    levels, floating = find_levels(outside, rules, standing)
    findings += floating
    for one in standing:
        findings += judge_walls(outside, rules, one)
    for one in levels[0].modules if levels else ():
        findings += judge_bends(outside, rules, one)
    findings += judge_levels(place, outside, rules, levels)
    if box.tiers is not None and not floating:
        findings += judge_told_tiers(place, box.tiers, levels)
    return findings + judge_spacing(standing, module.spacing) + judge_rooms(standing)


def wall_gaps(outside: Cuboid, rules: BoxRules, one: Standing) -> tuple[float, float, float, float]:
    """From a body to the liner [mm] on the rear, front, right and left wall."""
    sheet = rules.thickness + rules.liner
    (x, y, _), (ahead, left, _) = outside.low, outside.high
    return (
        one.body.low[0] - x - sheet,
        ahead - one.body.high[0] - sheet,
        one.body.low[1] - y - sheet,
        left - one.body.high[1] - sheet,
    )


def judge_walls(outside: Cuboid, rules: BoxRules, one: Standing) -> list[Finding]:
    """The gap, or the module's room where that is larger, stays free at all four walls."""
    findings = []
    rooms = (one.room_low[0], one.room_high[0], one.room_low[1], one.room_high[1])
    for side, gap, room in zip(_WALLS, wall_gaps(outside, rules, one), rooms, strict=True):
        needed = max(rules.gap, room)
        if gap < needed - SLACK:
            text = f"{gap:.3f} mm to the liner of the {side} wall, {needed:g} mm needed"
            findings.append(Finding("module-in-box", one.place, text, gap))
    return findings


def judge_bends(outside: Cuboid, rules: BoxRules, one: Standing) -> list[Finding]:
    """A square corner on the tray floor stays off the bends of a folded tray.

    Needed is the inside bend radius less what the liner lifts the corner (common practice, no source).
    """
    if rules.process != "folded":
        return []
    findings = []
    needed = rules.bend_radius - rules.liner
    for side, gap in zip(_WALLS, wall_gaps(outside, rules, one), strict=True):
        if gap < needed - SLACK:
            text = f"{gap:.3f} mm to the liner of the {side} wall, {needed:g} mm needed beside the bend"
            findings.append(Finding("bend-fouled", one.place, text, gap))
    return findings
