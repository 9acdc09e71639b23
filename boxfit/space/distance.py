"""The shortest distance in space from a block to what it keeps away from: blocks, bars, walls, surfaces.

Blocks may be flat, so that one face of a box can be measured alone. Distances are exact but to a bar, where
a search ends within `NARROW`: there the distance found is that of a real point, never too small, and at most
0.001 mm too large.
"""

from collections.abc import Callable
from math import dist, hypot, sqrt
from typing import Literal, get_args

import shapely

from boxfit.bay import Block, Cylinder, Point, Solid, Surface, Vector
from boxfit.space.inside import is_solid
from boxfit.space.near import nearest

Face = Literal["front", "rear", "left", "right", "top", "bottom"]
FACES: tuple[Face, ...] = get_args(Face)
_AXIS_AND_END: dict[Face, tuple[int, Literal["low", "high"]]] = {
    "front": (0, "high"),
    "rear": (0, "low"),
    "left": (1, "high"),
    "right": (1, "low"),
    "top": (2, "high"),
    "bottom": (2, "low"),
}

GOLDEN = (sqrt(5.0) - 1.0) / 2.0
NARROW = 1e-5
"""A search for the nearest point ends where it is known this well [mm]; no distance changes faster."""


def outwards(face: Face) -> tuple[int, int]:
    """The axis (0, 1, 2 for x, y, z) a face looks along, and the way: 1 or -1.

    >>> outwards("front"), outwards("bottom")
    ((0, 1), (2, -1))
    """
    axis, end = _AXIS_AND_END[face]
    return axis, 1 if end == "high" else -1


def face_of(block: Block, face: Face, out: float = 0.0) -> Block:
    """One face of a block as a flat block, moved `out` [mm]; x looks forward, y to the left, z up.

    >>> face_of(Block((0, 0, 0), (3, 4, 5)), "rear")
    Block(low=(0.0, 0, 0), high=(0.0, 4, 5))
    >>> face_of(Block((0, 0, 0), (3, 4, 5)), "rear", 2.0)
    Block(low=(-2.0, 0, 0), high=(-2.0, 4, 5))
    """
    axis, end = _AXIS_AND_END[face]
    at = block.high[axis] + out if end == "high" else block.low[axis] - out
    x, y, z = (at if k == axis else block.low[k] for k in range(3))
    a, b, c = (at if k == axis else block.high[k] for k in range(3))
    return Block((x, y, z), (a, b, c))


def solid_distance(block: Block, solid: Solid) -> float:
    """The shortest distance [mm] in space from a block to a solid, 0 where they meet.

    What a surface is `off` is not taken off.
    """
    if isinstance(solid, Block):
        return block_distance(block, solid)
    if isinstance(solid, Surface):
        return 0.0 if is_solid(solid, block.low) else nearest(block, solid).distance
    return cylinder_distance(block, solid)


def block_distance(one: Block, other: Block) -> float:
    """The shortest distance [mm] in space between two blocks, 0 where they meet.

    >>> block_distance(Block((0, 0, 0), (1, 1, 1)), Block((4, 5, 0), (9, 9, 9)))
    5.0
    """
    return hypot(*(max(other.low[k] - one.high[k], one.low[k] - other.high[k], 0.0) for k in range(3)))


def is_inside(block: Block, outline: tuple[Point, ...]) -> bool:
    """True where the middle of a block lies, in plan, inside an outline or on it."""
    (x, y, _), (a, b, _) = block.low, block.high
    return bool(shapely.Polygon(outline).covers(shapely.Point((x + a) / 2, (y + b) / 2)))


def side_distance(block: Block, side: tuple[Point, Point]) -> float:
    """The shortest distance [mm] from a block to one upright wall of any height, 0 where they meet.

    >>> side_distance(Block((20, 15, 5), (80, 25, 30)), ((0, 0), (90, 0)))
    15.0
    """
    (x, y, _), (a, b, _) = block.low, block.high
    plan = shapely.MultiPoint([(x, y), (a, y), (a, b), (x, b)]).convex_hull  # a line where it is flat
    return float(shapely.LineString(side).distance(plan))


def cylinder_distance(block: Block, bar: Cylinder) -> float:
    """The shortest distance [mm] in space from a block to a round bar with flat ends, 0 where they meet.

    The distance of a point from a bar is convex in the point, so the nearest point of a flat block is found
    by narrowing one coordinate after the other. A solid block is met inside or else nearest at a face.

    >>> bar = Cylinder((0, 0, 0), (0, 0, 100), 20)
    >>> round(cylinder_distance(Block((30, 40, 110), (90, 90, 110)), bar), 3), round(hypot(40, 10), 3)
    (41.231, 41.231)
    """
    if all(low < high for low, high in zip(block.low, block.high, strict=True)):
        if all(block.low[k] <= bar.start[k] <= block.high[k] for k in range(3)):
            return 0.0
        return min(cylinder_distance(face_of(block, face), bar) for face in FACES)
    distance = _from_bar(bar)
    (x, y, z), (a, b, c) = block.low, block.high
    return _least(
        lambda p: _least(lambda q: _least(lambda r: distance((p, q, r)), z, c), y, b),
        x,
        a,
    )


def _from_bar(bar: Cylinder) -> Callable[[Vector], float]:
    """How far [mm] any point is from a bar, 0 within it."""
    (x, y, z), length, radius = bar.start, dist(bar.start, bar.end), bar.diameter / 2
    ax, ay, az = ((b - a) / length for a, b in zip(bar.start, bar.end, strict=True))

    def distance(point: Vector) -> float:
        u, v, w = point[0] - x, point[1] - y, point[2] - z
        along = u * ax + v * ay + w * az
        across = hypot(u - along * ax, v - along * ay, w - along * az)
        return hypot(max(across - radius, 0.0), max(-along, along - length, 0.0))

    return distance


def _least(function: Callable[[float], float], low: float, high: float) -> float:
    """The least value of a convex function between two places [mm], by golden section.

    >>> round(_least(lambda x: abs(x - 3.0) + 2.0, -10.0, 500.0), 4)
    2.0
    """
    if high <= low:
        return function(low)
    at_ends = min(function(low), function(high))
    first, second = high - GOLDEN * (high - low), low + GOLDEN * (high - low)
    at_first, at_second = function(first), function(second)
    while high - low > NARROW:
        if at_first <= at_second:
            high, second, at_second = second, first, at_first
            first = high - GOLDEN * (high - low)
            at_first = function(first)
        else:
            low, first, at_first = first, second, at_second
            second = low + GOLDEN * (high - low)
            at_second = function(second)
    return min(at_ends, at_first, at_second)
