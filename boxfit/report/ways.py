"""The shortest way from a face to what lies ahead of it, for an arrow on the picture.

Where many ways are equally short, the arrow takes one in their middle.
"""

from __future__ import annotations

from boxfit.bay import Block, Cylinder, Point, Vector
from boxfit.report.projection import cylinder_points
from boxfit.space.near import Gap, nearest
from boxfit.surface import Surface

AS_SHORT = 0.05
"""Ways that are longer by less than this [mm] are as short on any picture."""
ROUND = 48
"""Flat sides that stand for a round bar; they lie within a five-hundredth of its diameter."""


def way_to_block(face: Block, solid: Block) -> Gap:
    """The shortest way between two blocks, in the middle of what they have side by side.

    >>> way_to_block(Block((0, 0, 5), (9, 9, 5)), Block((3, -9, 8), (5, 20, 9)))
    Gap(at=(4.0, 4.5, 5.0), to=(4.0, 4.5, 8.0))
    """
    at, to = zip(*(_along(face, solid, k) for k in range(3)), strict=True)
    return Gap((at[0], at[1], at[2]), (to[0], to[1], to[2]))


def _along(face: Block, solid: Block, axis: int) -> Point:
    """Both ends along one axis: the facing ends, or twice the middle of what is side by side."""
    if solid.low[axis] > face.high[axis]:
        return float(face.high[axis]), float(solid.low[axis])
    if solid.high[axis] < face.low[axis]:
        return float(face.low[axis]), float(solid.high[axis])
    middle = (max(face.low[axis], solid.low[axis]) + min(face.high[axis], solid.high[axis])) / 2
    return middle, middle


def way_to_bar(face: Block, bar: Cylinder) -> Gap:
    """The shortest way to a round bar, to within a hundredth of its diameter."""
    return nearest(face, _as_surface(bar))


def _as_surface(bar: Cylinder) -> Surface:
    import numpy as np

    near = range(ROUND)
    sides = [(k, (k + 1) % ROUND, k + ROUND) for k in near]
    sides += [((k + 1) % ROUND, (k + 1) % ROUND + ROUND, k + ROUND) for k in near]
    caps = [(end, end + k, end + k + 1) for end in (0, ROUND) for k in range(1, ROUND - 1)]
    return Surface(np.array(cylinder_points(bar, ROUND)), np.array(sides + caps))


def way_to_side(face: Block, side: tuple[Point, Point]) -> Gap:
    """The shortest way, level, to an upright wall of any height.

    >>> way_to_side(Block((20, 15, 4), (80, 15, 8)), ((0, 0), (100, 0)))
    Gap(at=(50.0, 15.0, 6.0), to=(50.0, 0.0, 6.0))
    """
    from shapely import LineString, MultiPoint
    from shapely.ops import nearest_points

    (x, y, z), (a, b, top) = face.low, face.high
    plan = MultiPoint([(x, y), (a, y), (a, b), (x, b)]).convex_hull
    wall = LineString(side)
    near = wall.intersection(plan.buffer(wall.distance(plan) + AS_SHORT))
    to = nearest_points(wall, near.centroid)[0] if not near.is_empty else nearest_points(wall, plan)[0]
    at = nearest_points(plan, to)[0]
    level = (z + top) / 2
    return Gap((_whole(at.x), _whole(at.y), level), (_whole(to.x), _whole(to.y), level))


def way_to_level(face: Block, level: float) -> Gap:
    """The way straight up or down to a level from the middle of a face."""
    x, y, z = middle(face)
    near = face.high[2] if level >= z else face.low[2]
    return Gap((x, y, near), (x, y, level))


def middle(block: Block) -> Vector:
    """The middle of a block [mm]."""
    x, y, z = ((low + high) / 2 for low, high in zip(block.low, block.high, strict=True))
    return (x, y, z)


def _whole(value: float) -> float:
    """A place [mm] without the noise of the arcs drawn to find it."""
    return round(value, 3) + 0.0
