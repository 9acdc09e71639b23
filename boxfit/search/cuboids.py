"""The cuboids a box fills, flange and lid included, and whether boxes of one bay can all be brought in."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from boxfit.bay import Bay, BoxRules, Point, Vector
from boxfit.box_shape import grown, rectangles
from boxfit.layout import PlacedBox
from boxfit.search.form import Form
from boxfit.space.crosscut import OUTWARDS
from boxfit.space.plan import SLACK


@dataclass(frozen=True)
class Cuboid:
    """From one corner to the other [mm]."""

    low: Vector
    high: Vector


def cuboids(box: PlacedBox, rules: BoxRules) -> tuple[Cuboid, ...]:
    """Walls, floor and lid of each tier, stiffening bars and all, and the slab of flange and lid."""
    levels = [box.low[2], *(tier.stands_on - rules.thickness for tier in box.tiers[1:]), box.high[2]]
    rim = (box.high[2] - rules.rim_below_top - rules.thickness, box.high[2])
    beside, below = rules.bars_beside, rules.bars_below
    bands = [
        (grown(outline, beside) if beside else outline, (bottom - below, top))
        for outline, (bottom, top) in zip(box.outlines, pairwise(levels), strict=True)
    ]
    if rules.flange > 0.0:
        bands.append((grown(box.outlines[-1], rules.flange), rim))
    return tuple(
        Cuboid((*low, bottom), (*high, top))
        for outline, (bottom, top) in bands
        for low, high in rectangles(outline)
    )


@dataclass(frozen=True)
class Standing:
    """A box set down: its form, its low corner [mm] and the cuboids it fills."""

    form: Form
    corner: Point
    fills: tuple[Cuboid, ...]

    @property
    def placed(self) -> PlacedBox:
        """The box where it stands."""
        return self.form.placed(*self.corner)


def way_round(boxes: Sequence[tuple[Cuboid, ...]], bay: Bay) -> tuple[int, ...] | None:
    """An order in which the boxes go in one after another, counted from 0; None where they bar one another.

    It is the order in which they can leave, turned round; of several that can leave the last listed goes.
    Without an opening nothing has to go in, and the order is as listed.
    """
    inside = list(range(len(boxes)))
    if bay.opening is None:
        return tuple(inside)
    axis, sign = OUTWARDS[bay.opening.way]
    left: list[int] = []
    while inside:
        free = [
            one
            for one in reversed(inside)
            if not any(_in_the_way(boxes[one], boxes[other], axis, sign) for other in inside if other != one)
        ]
        if not free:
            return None
        inside.remove(free[0])
        left.append(free[0])
    return tuple(reversed(left))


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
