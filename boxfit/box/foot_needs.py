"""What feet need beyond the usual to pass: thicker sheet, a doubler on the wall; no more than rules allow."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from boxfit.bay import BoxRules, Mount
from boxfit.box.built import BuiltBox
from boxfit.box.outside.fit import ChosenFeet
from boxfit.box.outside.foot_shapes import USUAL, Chosen, foot_sheet
from boxfit.box.retention.feet import feet_of_box, mount_of
from boxfit.box.retention.masses import filled
from boxfit.box.retention.whole import pulled_ways
from boxfit.module import Module
from boxfit.retention.fixings import Fixing, shared
from boxfit.retention.foot import Doubler, Foot, Part
from boxfit.retention.foot_checks import checks_of
from boxfit.retention.foot_remedies import SHEETS
from boxfit.standards.load_factors import LoadFactors
from boxfit.standards.strengths import STRENGTHS

DOUBLERS = (2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0)
"""Sheet [mm] that doublers are cut from: common practice, no source."""
PAST = (10.0, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0, 60.0)
"""How far doublers reach past the welds of their foot [mm]: common practice, no source."""
OF_THE_FOOT = ("foot bent at the bolt", "foot bent across", "bearing in the foot")
OF_THE_WALL = ("wall at the foot", "weld of the foot", "wall beside the weld")
OF_THE_DOUBLER = ("wall at the doubler", "weld of the doubler", "wall beside the doubler's weld")


def foot_needs(
    rules: LoadFactors, module: Module, built: Sequence[BuiltBox], chosen: ChosenFeet
) -> dict[tuple[str, str], Chosen]:
    """By bay and mount what feet have so far and what those that fail need more; no more than rules allow."""
    found = dict(chosen)
    for one in built:
        box = one.bay.box
        if max(box.foot_thickest, box.doubler_thickest) <= 0.0 or box.process == "printed":
            continue
        for foot, mount, parts in _loaded(rules, module, one):
            key = (one.bay.name, mount.name)
            before = chosen.get(key, USUAL)
            after = _needed(box, foot, parts, before)
            if after != before:
                found[key] = after
    return found


def count_feet(built: Sequence[BuiltBox]) -> int:
    """How many feet there are in all."""
    return sum(strip.kind == "foot" for one in built for strip in one.parts.fittings.strips)


def _loaded(
    rules: LoadFactors, module: Module, one: BuiltBox
) -> Iterator[tuple[Foot, Mount, tuple[Part, ...]]]:
    """Every foot with its mount and what it bears, pull by pull."""
    if any(strip.material not in STRENGTHS for strip in one.parts.fittings.strips):
        return
    feet, heavy = feet_of_box(one), filled(one, module)
    fixings = tuple(Fixing(foot.name, foot.at, foot.axis) for foot in feet)
    ways = [shared(load, heavy.at, fixings) for load in pulled_ways(rules, heavy.mass)]
    strips = {strip.name: strip for strip in one.parts.fittings.strips if strip.kind == "foot"}
    for place, foot in enumerate(feet):
        parts = tuple(foot.parts(held[place].force) for held in ways if held)
        for mount in mount_of(one, strips[foot.name]):
            yield foot, mount, parts


def _needed(box: BoxRules, foot: Foot, parts: Sequence[Part], before: Chosen) -> Chosen:
    """What a foot needs by the same sums, no less than it has."""
    after = before
    if not _passes(foot, parts, OF_THE_FOOT):
        usual = foot_sheet(box)[1]
        sheets = [sheet for sheet in SHEETS if max(foot.thickness, usual) < sheet <= box.foot_thickest]
        thicker = next((s for s in sheets if _passes(replace(foot, thickness=s), parts, OF_THE_FOOT)), 0.0)
        if thicker or sheets:
            after = replace(after, thickness=thicker or sheets[-1])
    if box.doubler_thickest > 0.0 and not foot.wall.screws:
        after = _doubled(box, foot, parts, after)
    return after


def _doubled(box: BoxRules, foot: Foot, parts: Sequence[Part], before: Chosen) -> Chosen:
    """The thinnest doubler that passes, reaching as little past the foot as the wall round it allows.

    One that is there and does not pass, where the wall leaves it less than was reckoned with, becomes wider
    or thicker by a step.
    """
    there = foot.wall.doubler is not None
    wide_enough = _passes(foot, parts, OF_THE_DOUBLER)  # also where there is none yet
    thick_enough = _passes(foot, parts, OF_THE_WALL)
    if wide_enough and thick_enough:
        return before
    sheets = [sheet for sheet in DOUBLERS if before.doubler <= sheet <= box.doubler_thickest]
    if not sheets:
        return before
    if there:
        wider = [by for by in PAST if by > before.past]
        past = wider[0] if wider and not wide_enough else before.past
        thicker = next((sheet for sheet in sheets if sheet > before.doubler), before.doubler)
        return replace(before, doubler=before.doubler if thick_enough else thicker, past=past)
    past = next((by for by in PAST if _with(foot, sheets[-1], by, parts, OF_THE_DOUBLER)), PAST[-1])
    thick = next((one for one in sheets if _with(foot, one, past, parts, OF_THE_WALL)), sheets[-1])
    return replace(before, doubler=thick, past=max(past, before.past))


def _with(foot: Foot, thickness: float, past: float, parts: Sequence[Part], checks: Sequence[str]) -> bool:
    """Whether a foot passes these checks on such a doubler."""
    plate = Doubler(thickness, foot.wall.length + 2.0 * past, foot.width + 2.0 * past)
    return _passes(replace(foot, wall=replace(foot.wall, doubler=plate)), parts, checks)


def _passes(foot: Foot, parts: Sequence[Part], names: Sequence[str]) -> bool:
    """Whether a foot passes those of its checks that have these names, under every pull."""
    sums = (check.sum(foot, part) for check in checks_of(foot) if check.name in names for part in parts)
    return all(load <= bears for load, bears, _ in sums)
