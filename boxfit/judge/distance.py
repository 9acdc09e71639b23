"""Exact distances from a block square to the axes to blocks and to outlines."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from math import dist, hypot, inf

from boxfit.bay import Point, Vector
from boxfit.judge.finding import SLACK

Segment = tuple[Point, Point]


@dataclass(frozen=True)
class Cuboid:
    """A block square to the axes, from `low` to `high` [mm]."""

    low: Vector
    high: Vector

    def shrunk(self, by: float) -> "Cuboid":
        """The block with every face moved inwards [mm], never past its middle."""
        pairs = [
            (min(low + by, (low + high) / 2), max(high - by, (low + high) / 2))
            for low, high in zip(self.low, self.high, strict=True)
        ]
        (x, a), (y, b), (z, c) = pairs
        return Cuboid((x, y, z), (a, b, c))

    def spanning(self, axis: int, low: float, high: float) -> "Cuboid":
        """The block with other ends [mm] along one axis."""
        x, y, z = (low if k == axis else self.low[k] for k in range(3))
        a, b, c = (high if k == axis else self.high[k] for k in range(3))
        return Cuboid((x, y, z), (a, b, c))

    def across(self, axes: tuple[int, int]) -> "Rectangle":
        """The shadow on the plane of two axes."""
        first, second = axes
        return Rectangle((self.low[first], self.low[second]), (self.high[first], self.high[second]))


@dataclass(frozen=True)
class Rectangle:
    """A rectangle square to its two axes [mm]."""

    low: Point
    high: Point


Measure = Callable[[Cuboid], float]
"""The distance [mm] of a block to something that stays where it is; 0 or less where they meet."""


def shortfall(block: Cuboid, measure: Measure, needed: float) -> float | None:
    """The distance [mm] where it is less than `needed` [mm] or the two meet; None where all is well.

    The block is judged SLACK smaller all round, so that a face that just touches has not met.

    >>> shortfall(Cuboid((0, 0, 0), (1, 1, 1)), lambda block: 4.0 - block.high[0], 3.0) is None
    True
    >>> shortfall(Cuboid((0, 0, 0), (1, 1, 1)), lambda block: 4.0 - block.high[0], 3.5)
    3.0
    """
    eased = measure(block.shrunk(SLACK))
    return None if eased >= needed and eased > 0.0 else measure(block)


def least_shortfall(blocks: Iterable[Cuboid], measure: Measure, needed: float) -> float | None:
    """The least of what several blocks fall short of `needed` [mm]; None where none does."""
    figures = (shortfall(block, measure, needed) for block in blocks)
    return min((figure for figure in figures if figure is not None), default=None)


def face_gaps(one: Cuboid, other: Cuboid) -> Vector:
    """The gap [mm] between facing sides along x, y and z; less than 0 where the two overlap.

    >>> face_gaps(Cuboid((0, 0, 0), (1, 1, 1)), Cuboid((3, 0.5, -4), (4, 2, -2)))
    (2, -0.5, 2)
    """
    x, y, z = (max(other.low[k] - one.high[k], one.low[k] - other.high[k]) for k in range(3))
    return (x, y, z)


def block_distance(one: Cuboid, other: Cuboid) -> float:
    """The shortest distance [mm] in space; where they overlap, less than 0: the way out along one axis.

    >>> round(block_distance(Cuboid((0, 0, 0), (1, 1, 1)), Cuboid((9, 9, 0), (10, 10, 1))), 2)
    11.31
    """
    gaps = face_gaps(one, other)
    deepest = max(gaps)
    return deepest if deepest <= 0.0 else hypot(*(max(gap, 0.0) for gap in gaps))


def sides(outline: tuple[Point, ...]) -> tuple[Segment, ...]:
    """The straight sides of a closed outline, in order."""
    return tuple(zip(outline, (*outline[1:], *outline[:1]), strict=True))


def contains(outline: tuple[Point, ...], point: Point) -> bool:
    """True where a point lies inside the outline, by counting the sides a ray to the right crosses.

    >>> contains(((0, 0), (2, 0), (2, 2), (0, 2)), (1, 1)), contains(((0, 0), (2, 0), (2, 2)), (-1, 1))
    (True, False)
    """
    x, y = point
    crossed = 0
    for (ax, ay), (bx, by) in sides(outline):
        if (ay > y) != (by > y):
            crossed += x < ax + (y - ay) / (by - ay) * (bx - ax)
    return crossed % 2 == 1


def _meets(segment: Segment, rectangle: Rectangle) -> bool:
    """True where a segment and a rectangle share a point: the segment is cut to it, axis by axis."""
    start, end = segment
    enters, leaves = 0.0, 1.0
    for k in range(2):
        run = end[k] - start[k]
        to_low, to_high = rectangle.low[k] - start[k], rectangle.high[k] - start[k]
        if run == 0.0:
            if to_low > 0.0 or to_high < 0.0:
                return False
            continue
        first, last = sorted((to_low / run, to_high / run))
        enters, leaves = max(enters, first), min(leaves, last)
    return enters <= leaves


def _point_to_segment(point: Point, segment: Segment) -> float:
    """The shortest distance [mm] from a point to a segment."""
    (ax, ay), (bx, by) = segment
    run, rise = bx - ax, by - ay
    length = run * run + rise * rise
    along = ((point[0] - ax) * run + (point[1] - ay) * rise) / length if length > 0.0 else 0.0
    share = min(1.0, max(0.0, along))
    return dist(point, (ax + share * run, ay + share * rise))


def _point_to_rectangle(point: Point, rectangle: Rectangle) -> float:
    """The shortest distance [mm] from a point to a rectangle, 0 inside it."""
    return hypot(*(max(rectangle.low[k] - point[k], point[k] - rectangle.high[k], 0.0) for k in range(2)))


def segment_distance(rectangle: Rectangle, segment: Segment) -> float:
    """The shortest distance [mm] from a rectangle to a straight side, 0 where they meet.

    >>> segment_distance(Rectangle((0, 0), (1, 1)), ((3, 0), (0, 3))) == 0.5 ** 0.5
    True
    """
    if _meets(segment, rectangle):
        return 0.0
    (left, below), (right, above) = rectangle.low, rectangle.high
    corners = ((left, below), (right, below), (right, above), (left, above))
    from_corners = [_point_to_segment(corner, segment) for corner in corners]
    return min(*from_corners, *(_point_to_rectangle(end, rectangle) for end in segment))


def sides_distance(rectangle: Rectangle, walls: Iterable[Segment]) -> float:
    """The shortest distance [mm] from a rectangle to any of the sides; endless where there is none."""
    return min((segment_distance(rectangle, wall) for wall in walls), default=inf)


def inside_distance(rectangle: Rectangle, outline: tuple[Point, ...]) -> float:
    """How far [mm] a rectangle stays inside an outline, 0 where it does not lie inside.

    >>> inside_distance(Rectangle((3, 3), (4, 4)), ((0, 0), (9, 0), (9, 9), (0, 9)))
    3.0
    >>> inside_distance(Rectangle((13, 3), (14, 4)), ((0, 0), (9, 0), (9, 9), (0, 9)))
    0.0
    """
    (left, below), (right, above) = rectangle.low, rectangle.high
    if not contains(outline, ((left + right) / 2, (below + above) / 2)):
        return 0.0
    return sides_distance(rectangle, sides(outline))
