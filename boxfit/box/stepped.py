"""What a stepped box must leave room for: bends, ledges, liner and flange all round, at every corner."""

from collections.abc import Iterator
from itertools import pairwise
from math import dist

import shapely

from boxfit.bay import BoxRules
from boxfit.box_details import FIT, flange_radius, least_side, ledge
from boxfit.box_shape import area, grown
from boxfit.layout import PlacedBox
from boxfit.surface import Outline

CLOSE = 1e-3
"""Levels and outlines [mm] closer than this are one."""


def cannot_step(rules: BoxRules, box: PlacedBox) -> Iterator[str]:
    """Why a box of other outlines than one rectangle cannot be made, each naming its key."""
    if not box.is_stepped:
        return
    for tier, outline in enumerate(box.outlines):
        yield from _too_narrow(rules, box, tier, outline)
    least, why = least_side(rules), _side_words(rules)
    sides = (side for outline in box.outlines for side in pairwise((*outline, outline[0])))
    shortest = min(dist(*side) for side in sides)
    if shortest < least - CLOSE:
        yield f"{why} (got a side of {millimetres(shortest)})"
    if not moves(box.outlines[-1], rules.reach + CLOSE):
        key = "flange" if rules.flange >= rules.bars_beside else "stiffening_depth"
        yield (
            f"box.{key}: facing walls must stand more than {millimetres(2.0 * rules.reach)} apart for it "
            f"(got {rules.reach:g})"
        )
    yield from _steps(rules, box)
    yield from _too_low(rules, box)


def millimetres(length: float) -> str:
    """A length for a sentence: no more decimals than a folder works to.

    >>> millimetres(22.0), millimetres(3.25)
    ('22 mm', '3.25 mm')
    """
    return f"{round(length, 2):g} mm"


def moves(outline: Outline, by: float) -> bool:
    """Whether an outline can be moved outwards, or inwards by less than 0 [mm], without meeting itself.

    >>> bar = ((0.0, 0.0), (20.0, 0.0), (20.0, 4.0), (0.0, 4.0))
    >>> moves(bar, -1.9), moves(bar, -2.1)
    (True, False)
    """
    free = shapely.Polygon(outline).buffer(by, join_style="mitre")
    whole = isinstance(free, shapely.Polygon) and not free.interiors
    return whole and abs(free.area - area(grown(outline, by))) < CLOSE


def _too_narrow(rules: BoxRules, box: PlacedBox, tier: int, outline: Outline) -> Iterator[str]:
    """What must find room inside the walls of a tier."""
    thick, bar = rules.thickness, ledge(rules)
    needs = {
        "box.thickness": thick + FIT,
        "box.liner": thick + rules.liner,
        "box.gap": thick + bar.width if bar and tier < len(box.tiers) - 1 else 0.0,
    }
    key, most = max(needs.items(), key=lambda need: need[1])
    if not moves(outline, -most - CLOSE):
        yield (
            f"{key}: the walls round tier {tier + 1} must stand more than {millimetres(2.0 * most)} apart "
            "everywhere for ledges and liner"
        )


def _side_words(rules: BoxRules) -> str:
    key = "box.bend_radius" if rules.process == "folded" else "box.thickness"
    return f"{key}: a side between two corners must be {millimetres(least_side(rules))} or longer"


def _steps(rules: BoxRules, box: PlacedBox) -> Iterator[str]:
    """Every step is wide enough to carry a wall; a tier may be wider than the one below, not narrower."""
    thick, half = rules.thickness, rules.thickness / 2.0 - CLOSE
    walls = [shapely.Polygon(outline) for outline in box.outlines]
    for tier, (below, above) in enumerate(pairwise(walls), start=2):
        if below.difference(above).area > CLOSE:
            yield f"box.shape: the walls round tier {tier} must enclose those of the tier below"
        wider = above.difference(below.buffer(CLOSE, join_style="mitre"))
        firm = wider.buffer(-half, join_style="mitre").buffer(half, join_style="mitre")
        if wider.area - wider.intersection(firm.buffer(CLOSE)).area > 1.0:
            yield f"box.thickness: the step at tier {tier} must be {millimetres(thick)} or wider"


def _too_low(rules: BoxRules, box: PlacedBox) -> Iterator[str]:
    """Walls above the last step that are lower than the flange's bend; the floors' joints are square."""
    pairs = zip(box.tiers[1:], pairwise(box.outlines), strict=True)
    steps = [tier.stands_on for tier, (below, above) in pairs if below != above]
    if not steps or rules.process != "folded" or not rules.flange:
        return
    bend = flange_radius(rules) + rules.thickness
    wall = box.high[2] - rules.rim_below_top - steps[-1]
    if wall < bend - CLOSE:
        yield (
            f"box.bend_radius: the bend takes {millimetres(bend)} of a wall {millimetres(wall)} high "
            f"(got {rules.bend_radius:g})"
        )
