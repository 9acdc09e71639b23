"""What a box can weigh at least and at most, roughly, from the areas of its sheet."""

from collections.abc import Sequence
from dataclasses import dataclass

from boxfit.bay import BoxRules
from boxfit.judge.outline import area, perimeter
from boxfit.judge.shape import Band
from boxfit.standards.materials import LINER, MATERIALS

LEAST_OF_SHELL = 0.8
"""What holes and a printed filling leave of tray and lid at the least (common practice, no source)."""
MOST_OF_ALL = 1.3
"""What gussets, feet and hold-downs make of sheet and liner at the most (common practice, no source)."""
MOST_FITTINGS = 4.0
"""Fasteners, glands and hold-downs of one box [kg] at the most (common practice, no source)."""

MOST_STUD = 10.0
"""A cover plate stands at most this far [mm] above its lid (common practice, no source)."""


@dataclass(frozen=True)
class Bracket:
    """No less than `low`, no more than `high`."""

    low: float
    high: float


def box_mass(levels: Sequence[Band], rules: BoxRules, tiers: int) -> Bracket:
    """The mass [kg] of a box of these bands without its modules lies in here; 0 where no box is asked for.

    Least: floor and its steps, walls and lid. Most: with flange, shelves, liner, cover plate and fittings.
    """
    if not rules.asked:
        return Bracket(0.0, 0.0)
    # floor and steps together lie under all of the uppermost outline
    outline = levels[-1].outline
    floor, round_it = area(outline), perimeter(outline)
    walls = sum(perimeter(band.outline) * (band.high - band.low) for band in levels)
    # a strip along every side, and a square at each corner, less one at each that turns in: always four
    lid = floor + round_it * rules.flange + 4 * rules.flange**2
    per_sheet = MATERIALS[rules.material].density * 1e-9
    shell = per_sheet * (rules.thickness * (floor + walls) + rules.lid_thickness * lid)
    added = per_sheet * rules.thickness * (lid - floor + (tiers - 1) * floor)
    added += _cover(rules) * (lid + round_it * _edge(rules))
    liner = LINER.density * 1e-9 * rules.liner * (floor + walls)
    return Bracket(LEAST_OF_SHELL * shell, MOST_OF_ALL * (shell + added + liner) + MOST_FITTINGS)


def _cover(rules: BoxRules) -> float:
    """What a cover plate weighs [kg/mm2]."""
    return MATERIALS[rules.cover_material or rules.material].density * 1e-9 * rules.lid_thickness


def _edge(rules: BoxRules) -> float:
    """How high [mm] its returned edges are at the most: down past lid and flange, or what a brake asks."""
    brake = max(8.0 * rules.lid_thickness, rules.fold_shop.least_flange or 0.0) + rules.bend_radius
    return MOST_STUD + rules.lid_thickness + max(rules.rim_below_top + rules.thickness, brake)
