"""What the modules of a box stand on, and what is left above them."""

from collections.abc import Sequence
from dataclasses import dataclass

from boxfit.bay import BoxRules
from boxfit.judge.claim import ClaimedTier
from boxfit.judge.distance import Cuboid
from boxfit.judge.finding import SLACK, Finding
from boxfit.judge.turning import Standing


@dataclass(frozen=True)
class Level:
    """Modules that stand equally high [mm]."""

    stands_on: float
    modules: tuple[Standing, ...]

    @property
    def top(self) -> float:
        """The highest point of bodies and rooms [mm]."""
        return max(module.body.high[2] + module.room_high[2] for module in self.modules)


def find_levels(
    outside: Cuboid, rules: BoxRules, standing: Sequence[Standing]
) -> tuple[list[Level], list[Finding]]:
    """The levels the modules stand on, lowest first, and the modules that stand on none.

    Modules that start above all bodies of the level below can have a shelf of their own there, those
    that start lower cannot.
    """
    floor = outside.low[2] + rules.thickness + rules.liner
    levels: list[Level] = []
    findings = []
    for module in sorted(standing, key=lambda module: module.body.low[2]):
        foot = module.body.low[2]
        below = levels[-1].stands_on if levels else floor
        if abs(foot - below) <= SLACK:
            together = levels.pop().modules if levels else ()
            levels.append(Level(below, (*together, module)))
        elif levels and foot >= max(other.body.high[2] for other in levels[-1].modules) - SLACK:
            levels.append(Level(foot, (module,)))
        else:
            text = f"stands {foot - below:.3f} mm above the level below, on nothing"
            findings.append(Finding("floor", module.place, text, foot - below))
    return levels, findings


def judge_levels(place: str, outside: Cuboid, rules: BoxRules, levels: Sequence[Level]) -> list[Finding]:
    """Headroom above every level, below its shelf or the lid, and no shelf higher than it needs to be."""
    if not levels:
        return []
    findings = []
    ceilings = [level.stands_on - rules.thickness for level in levels[1:]]
    for number, (level, ceiling) in enumerate(
        zip(levels, (*ceilings, outside.high[2] - rules.lid_thickness), strict=True)
    ):
        left = ceiling - level.top
        where = f"{place}, tier {number + 1}"
        if left < rules.headroom - SLACK:
            text = f"{left:.3f} mm left above the modules and their room, {rules.headroom:g} mm needed"
            findings.append(Finding("headroom", where, text, left))
        elif number < len(ceilings) and left > rules.headroom + SLACK:
            above = levels[number + 1].stands_on - level.stands_on
            text = f"the tier above stands {left - rules.headroom:.3f} mm higher than its shelf"
            findings.append(Finding("floor", where, text, above))
    if len(levels) > rules.tiers:
        text = f"{len(levels)} tiers, at most {rules.tiers}"
        findings.append(Finding("tiers", place, text, float(len(levels))))
    return findings


def judge_told_tiers(place: str, told: Sequence[ClaimedTier], levels: Sequence[Level]) -> list[Finding]:
    """The tiers a layout tells of are those its modules stand on."""
    if len(told) != len(levels):
        text = f"{len(told)} tiers told, the modules stand on {len(levels)}"
        return [Finding("tiers", place, text, float(len(told)))]
    findings = []
    for number, (tier, level) in enumerate(zip(told, levels, strict=True), 1):
        off = max(abs(tier.stands_on - level.stands_on), abs(tier.stands_on + tier.height - level.top))
        if off > 2 * SLACK or tier.count != len(level.modules):
            height = level.top - level.stands_on
            is_told = f"{tier.count} modules from {tier.stands_on:.3f} mm, {tier.height:.3f} mm high"
            is_so = f"{len(level.modules)} from {level.stands_on:.3f} mm, {height:.3f} mm high"
            text = f"told {is_told}; found {is_so}"
            findings.append(Finding("tiers", f"{place}, tier {number}", text, tier.stands_on))
    return findings
