"""Outlines with sides square to the axes: what they enclose, cut up and measured from their corners alone.

A rectangle lies inside such an outline just where it lies inside one of the largest rectangles in it; what
is asked of all of the inside can so be asked of few rectangles, which overlap and leave no seams.
"""

from collections.abc import Iterator
from itertools import combinations, pairwise, product
from math import dist

from boxfit.bay import Point
from boxfit.judge.distance import Rectangle, contains, sides

Outline = tuple[Point, ...]


def cells(outline: Outline) -> tuple[Rectangle, ...]:
    """What the outline encloses, cut along every side prolonged: rectangles side by side [mm].

    >>> len(cells(((0, 0), (2, 0), (2, 1), (1, 1), (1, 3), (0, 3))))
    3
    """
    xs, ys = (sorted({corner[axis] for corner in outline}) for axis in range(2))
    grid = product(pairwise(xs), pairwise(ys))
    return tuple(
        Rectangle((x, y), (ahead, left))
        for (x, ahead), (y, left) in grid
        if contains(outline, ((x + ahead) / 2, (y + left) / 2))
    )


def largest(outline: Outline) -> tuple[Rectangle, ...]:
    """The rectangles inside the outline [mm] that no larger one inside it holds.

    >>> largest(((0, 0), (2, 0), (2, 1), (1, 1), (1, 3), (0, 3)))
    (Rectangle(low=(0, 0), high=(1, 3)), Rectangle(low=(0, 0), high=(2, 1)))
    """
    within = tuple(_inside(outline))
    return tuple(one for one in within if not any(one != other and holds(other, one) for other in within))


def _inside(outline: Outline) -> Iterator[Rectangle]:
    """The rectangles between prolonged sides that lie wholly inside."""
    xs, ys = (sorted({corner[axis] for corner in outline}) for axis in range(2))
    parts = cells(outline)
    for (x, ahead), (y, left) in product(combinations(xs, 2), combinations(ys, 2)):
        whole = Rectangle((x, y), (ahead, left))
        covered = sum(size(part) for part in parts if holds(whole, part))
        if covered >= size(whole) * (1.0 - 1e-12):
            yield whole


def holds(outer: Rectangle, inner: Rectangle) -> bool:
    """True where one rectangle lies within another, or fills it."""
    return overreach(inner, outer) <= 0.0


def overreach(one: Rectangle, other: Rectangle) -> float:
    """How far [mm] one rectangle reaches past another at the worst of its sides; less than 0 within it.

    >>> overreach(Rectangle((0, 0), (5, 1)), Rectangle((-1, -1), (3, 2)))
    2
    """
    return max(max(other.low[k] - one.low[k], one.high[k] - other.high[k]) for k in range(2))


def size(rectangle: Rectangle) -> float:
    """The area of a rectangle [mm2]."""
    return (rectangle.high[0] - rectangle.low[0]) * (rectangle.high[1] - rectangle.low[1])


def area(outline: Outline) -> float:
    """What the outline encloses [mm2]."""
    return sum(size(cell) for cell in cells(outline))


def perimeter(outline: Outline) -> float:
    """The length of all sides [mm]."""
    return sum(dist(start, end) for start, end in sides(outline))


def turns_left(outline: Outline) -> bool:
    """True where the corners go round counter-clockwise (Gauss's area formula)."""
    return sum(ax * by - bx * ay for (ax, ay), (bx, by) in sides(outline)) > 0.0


def middle_of_area(outline: Outline) -> Point:
    """Where a sheet of that outline balances [mm]."""
    return _balanced([(size(cell), cell.low, cell.high) for cell in cells(outline)])


def middle_of_sides(outline: Outline) -> Point:
    """Where the sides alone balance [mm].

    >>> middle_of_sides(((0, 0), (4, 0), (4, 2), (0, 2)))
    (2.0, 1.0)
    """
    return _balanced([(dist(start, end), start, end) for start, end in sides(outline)])


def _balanced(parts: list[tuple[float, Point, Point]]) -> Point:
    """The middle of parts, each of some weight and in the middle between two points [mm]."""
    total = sum(weight for weight, _, _ in parts)
    x, y = (sum(weight * (a[k] + b[k]) / 2 for weight, a, b in parts) / total for k in range(2))
    return (x, y)


def extent(outline: Outline) -> Rectangle:
    """The rectangle round all corners [mm]."""
    xs, ys = zip(*outline, strict=True)
    return Rectangle((min(xs), min(ys)), (max(xs), max(ys)))


def is_square(outline: Outline) -> bool:
    """True where every side is along x or along y, and turns off square from the one before it."""
    runs = [(bx - ax != 0.0, by - ay != 0.0) for (ax, ay), (bx, by) in sides(outline)]
    turned = all(one != other for one, other in pairwise((*runs, runs[0])))
    return turned and all(along != across for along, across in runs)


def is_simple(outline: Outline) -> bool:
    """True where no side of a square outline meets another, but in the corner they share."""
    walls = [extent(wall) for wall in sides(outline)]
    apart = [(j, k) for j, k in combinations(range(len(walls)), 2) if k - j not in (1, len(walls) - 1)]
    return not any(side_gap(walls[j], walls[k]) <= 0.0 for j, k in apart)


def side_gap(one: Rectangle, other: Rectangle) -> float:
    """The larger of the gaps [mm] along x and along y, less than 0 where both overlap."""
    return max(max(other.low[k] - one.high[k], one.low[k] - other.high[k]) for k in range(2))


def narrowest_notch(outline: Outline) -> float | None:
    """The least distance [mm] of two sides that face each other from outside; None where none do.

    >>> narrowest_notch(((0, 0), (9, 0), (9, 5), (6, 5), (6, 2), (2, 2), (2, 5), (0, 5)))
    4
    """
    gaps = []
    for (axis, sign, one), (other_axis, other_sign, other) in product(_walls(outline), repeat=2):
        across = 1 - axis
        faces = axis == other_axis and sign == 1 and other_sign == -1 and other.low[axis] > one.low[axis]
        if faces and one.low[across] < other.high[across] and other.low[across] < one.high[across]:
            gaps.append(other.low[axis] - one.low[axis])
    return min(gaps, default=None)


def _walls(outline: Outline) -> list[tuple[int, int, Rectangle]]:
    """The axis each side looks out along, whether up or down that axis, and where it is."""
    looks = []
    for wall in sides(outline):
        (ax, ay), (bx, by) = wall
        axis, sign = (0, 1 if by > ay else -1) if ax == bx else (1, 1 if bx < ax else -1)
        looks.append((axis, sign, extent(wall)))
    return looks
