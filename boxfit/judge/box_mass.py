"""What a box can weigh at least and at most, roughly, from the areas of its sheet."""

from dataclasses import dataclass

from boxfit.bay import BoxRules
from boxfit.judge.distance import Cuboid
from boxfit.standards.materials import LINER, MATERIALS

LEAST_OF_SHELL = 0.8
"""What holes and a printed filling leave of tray and lid at the least (common practice, no source)."""
MOST_OF_ALL = 1.3
"""What gussets, feet and hold-downs make of sheet and liner at the most (common practice, no source)."""
MOST_FITTINGS = 4.0
"""Fasteners, glands and hold-downs of one box [kg] at the most (common practice, no source)."""


@dataclass(frozen=True)
class Bracket:
    """No less than `low`, no more than `high`."""

    low: float
    high: float


def box_mass(outside: Cuboid, rules: BoxRules, tiers: int) -> Bracket:
    """The mass [kg] of a box without its modules lies in here; 0 where no box is asked for.

    Least: floor, walls and lid. Most: with flange, shelves, liner, cover plate and fittings.
    """
    if not rules.asked:
        return Bracket(0.0, 0.0)
    x, y, z = (high - low for low, high in zip(outside.low, outside.high, strict=True))
    floor, walls = x * y, 2 * (x + y) * z
    lid = (x + 2 * rules.flange) * (y + 2 * rules.flange)
    per_sheet = MATERIALS[rules.material].density * 1e-9
    shell = per_sheet * (rules.thickness * (floor + walls) + rules.lid_thickness * lid)
    added = per_sheet * (rules.thickness * (lid - floor + (tiers - 1) * floor) + rules.lid_thickness * lid)
    liner = LINER.density * 1e-9 * rules.liner * (floor + walls)
    return Bracket(LEAST_OF_SHELL * shell, MOST_OF_ALL * (shell + added + liner) + MOST_FITTINGS)
