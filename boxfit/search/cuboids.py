"""The cuboids a box fills, flange and lid included, and whether boxes of one bay can all be brought in."""

from dataclasses import dataclass
from itertools import pairwise

from boxfit.bay import Bay, BoxRules, Vector, Way
from boxfit.box_shape import grown, rectangles
from boxfit.layout import PlacedBox

SLACK = 1e-6
ALONG: dict[Way, tuple[int, int]] = {
    "up": (2, 1),
    "down": (2, -1),
    "front": (0, 1),
    "rear": (0, -1),
    "left": (1, 1),
    "right": (1, -1),
}
"""Axis and direction in which a box leaves through the opening."""


@dataclass(frozen=True)
class Cuboid:
    """From one corner to the other [mm]."""

    low: Vector
    high: Vector


def cuboids(box: PlacedBox, rules: BoxRules) -> tuple[Cuboid, ...]:
    """Walls, floor and lid of each tier, and the slab of flange and lid."""
    levels = [box.low[2], *(tier.stands_on - rules.thickness for tier in box.tiers[1:]), box.high[2]]
    rim = (box.high[2] - rules.lid_thickness - rules.thickness, box.high[2])
    bands = [*zip(box.outlines, pairwise(levels), strict=True)]
    if rules.flange > 0.0:
        bands.append((grown(box.outlines[-1], rules.flange), rim))
    return tuple(
        Cuboid((*low, bottom), (*high, top))
        for outline, (bottom, top) in bands
        for low, high in rectangles(outline)
    )


def go_in(boxes: tuple[tuple[Cuboid, ...], ...], bay: Bay) -> bool:
    """True where the boxes can leave through the opening one after another, so that they can come in."""
    if bay.opening is None:
        return True
    axis, sign = ALONG[bay.opening.way]
    inside = list(boxes)
    while inside:
        free = [
            box
            for box in inside
            if not any(_in_the_way(box, other, axis, sign) for other in inside if other is not box)
        ]
        if not free:
            return False
        inside.remove(free[0])
    return True


def _in_the_way(box: tuple[Cuboid, ...], other: tuple[Cuboid, ...], axis: int, sign: int) -> bool:
    """True where the box would meet the other on its way out."""
    return any(_ahead(part, fixed, axis, sign) for part in box for fixed in other)


def _ahead(part: Cuboid, fixed: Cuboid, axis: int, sign: int) -> bool:
    across = [k for k in range(3) if k != axis]
    overlap = all(part.low[k] < fixed.high[k] - SLACK and fixed.low[k] < part.high[k] - SLACK for k in across)
    beyond = (
        fixed.high[axis] > part.low[axis] + SLACK if sign > 0 else fixed.low[axis] < part.high[axis] - SLACK
    )
    return overlap and beyond
