"""Outlines of boxes in plan [mm]: corners joined by sides square to the car, counter-clockwise, open."""

from itertools import pairwise

from boxfit.surface import Outline, Point

Rectangle = tuple[Point, Point]
"""Low and high corner [mm]."""


def rectangle(low: Point, high: Point) -> Outline:
    """The outline of a rectangle between two corners [mm].

    >>> rectangle((0.0, 0.0), (2.0, 1.0))
    ((0.0, 0.0), (2.0, 0.0), (2.0, 1.0), (0.0, 1.0))
    """
    return (low, (high[0], low[1]), high, (low[0], high[1]))


def corner_count(outlines: tuple[Outline, ...]) -> int:
    """Corners in plan of the outlines of a box's tiers, lowest first; equal neighbours count once.

    >>> one, wide = rectangle((0, 0), (2, 1)), rectangle((0, 0), (3, 1))
    >>> corner_count((one, one)), corner_count((one, wide))
    (4, 8)
    """
    changes = sum(len(above) for below, above in pairwise(outlines) if above != below)
    return len(outlines[0]) + changes


def rectangles(outline: Outline) -> tuple[Rectangle, ...]:
    """Rectangles side by side [mm] that make up what an outline encloses, from its rear forwards.

    >>> rectangles(((0, 0), (2, 0), (2, 1), (1, 1), (1, 3), (0, 3)))
    (((0, 0), (1, 3)), ((1, 0), (2, 1)))
    """
    found: list[Rectangle] = []
    for rear, front in pairwise(sorted({x for x, _ in outline})):
        for right, left in _spans(outline, (rear + front) / 2):
            behind = [one for one in found if one[1][0] == rear and (one[0][1], one[1][1]) == (right, left)]
            for one in behind:
                found.remove(one)
            found.append(((behind[0][0][0] if behind else rear, right), (front, left)))
    return tuple(found)


def _spans(outline: Outline, x: float) -> list[Point]:
    """From where to where [mm] along y the outline encloses the line at x."""
    sides = zip(outline, outline[1:] + outline[:1], strict=True)
    crossed = sorted(one[1] for one, other in sides if min(one[0], other[0]) < x < max(one[0], other[0]))
    return list(zip(crossed[::2], crossed[1::2], strict=True))


def grown(outline: Outline, by: float) -> Outline:
    """The outline with every side moved outwards [mm], inwards where `by` is negative.

    Only by less than half the shortest side inwards, or half the narrowest gap outwards.

    >>> grown(rectangle((0.0, 0.0), (2.0, 1.0)), 0.25)
    ((-0.25, -0.25), (2.25, -0.25), (2.25, 1.25), (-0.25, 1.25))
    """
    corners = zip(outline[-1:] + outline[:-1], outline, outline[1:] + outline[:1], strict=True)
    return tuple(_moved(before, here, after, by) for before, here, after in corners)


def _moved(before: Point, here: Point, after: Point, by: float) -> Point:
    """A corner between two sides that both move outwards; outwards is to the right of the way round."""
    along_x, along_y = _sign(here[0] - before[0]), _sign(here[1] - before[1])
    then_x, then_y = _sign(after[0] - here[0]), _sign(after[1] - here[1])
    return (here[0] + by * (along_y + then_y), here[1] - by * (along_x + then_x))


def _sign(value: float) -> int:
    return (value > 0) - (value < 0)


def area(outline: Outline) -> float:
    """What the outline encloses [mm2]; Gauss's area formula.

    >>> area(((0, 0), (2, 0), (2, 1), (1, 1), (1, 3), (0, 3)))
    4.0
    """
    sides = zip(outline, outline[1:] + outline[:1], strict=True)
    return sum(ax * by - bx * ay for (ax, ay), (bx, by) in sides) / 2.0


def perimeter(outline: Outline) -> float:
    """Length of all sides [mm].

    >>> perimeter(rectangle((0, 0), (2, 1)))
    6
    """
    sides = zip(outline, outline[1:] + outline[:1], strict=True)
    return sum(abs(bx - ax) + abs(by - ay) for (ax, ay), (bx, by) in sides)
