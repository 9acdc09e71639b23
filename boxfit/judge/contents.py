"""What is inside one box: modules in the right place, the right way round, clear of each other."""

from boxfit.bay import BoxRules
from boxfit.judge.claim import ClaimedBox
from boxfit.judge.distance import Cuboid
from boxfit.judge.finding import Finding
from boxfit.judge.modules import choose_ways, judge_rooms, judge_spacing
from boxfit.judge.tiers import find_levels, judge_levels, judge_told_tiers
from boxfit.judge.turning import Standing, ways_to_stand
from boxfit.judge.walls import joint_under, judge_joint, judge_walls, outline_at
from boxfit.module import Module


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
            outline = outline_at(box, rules, claimed.low[2])
            ways.append(tuple(way for way in found if not judge_walls(way, outline, rules)) or found[:1])
    standing = choose_ways(ways, module.room_shared)
    levels, floating = find_levels(outside, rules, standing)
    findings += floating
    lowest = levels[0].modules if levels else ()
    for one in standing:
        outline = outline_at(box, rules, one.body.low[2])
        near = judge_walls(one, outline, rules)
        joint = joint_under(box, rules, one.body.low[2], one in lowest)
        findings += near or judge_joint(one, outline, rules, joint)
    findings += judge_levels(place, outside, rules, levels)
    if box.tiers is not None and not floating:
        findings += judge_told_tiers(place, box.tiers, levels)
    return findings + judge_spacing(standing, module.spacing) + judge_rooms(standing, module.room_shared)
