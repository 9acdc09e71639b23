"""Contours as plain points, and distances from them: arcs drawn with short straight lines."""

from math import atan, ceil, cos, hypot, pi, sin

from boxfit.bay import Point
from boxfit.sheet.flat import Contour, Corner

STEP = pi / 36.0
"""An arc is drawn with a line for about every 5 degrees; off by 0.1 % of its radius at most."""


def points_of(contour: Contour) -> tuple[Point, ...]:
    """The contour's points [mm], those on its arcs included."""
    pairs = zip(contour, contour[1:] + contour[:1], strict=True)
    return tuple(point for one, other in pairs for point in _way(one, other))


def _way(one: Corner, other: Corner) -> list[Point]:
    """From one corner up to, and without, the next."""
    if one.bulge == 0.0:
        return [(one.x, one.y)]
    x, y, angle = other.x - one.x, other.y - one.y, 4.0 * atan(one.bulge)
    # the centre lies on the chord's bisector, to the left of an arc of less than half a turn to the left
    lift = (1.0 - one.bulge**2) / (4.0 * one.bulge)
    centre = (one.x + x / 2.0 - y * lift, one.y + y / 2.0 + x * lift)
    from_x, from_y = one.x - centre[0], one.y - centre[1]
    steps = max(1, ceil(abs(angle) / STEP))
    turns = [angle * step / steps for step in range(steps)]
    return [
        (
            centre[0] + from_x * cos(turn) - from_y * sin(turn),
            centre[1] + from_x * sin(turn) + from_y * cos(turn),
        )
        for turn in turns
    ]


def distance_to_line(point: Point, start: Point, end: Point) -> float:
    """From a point to the line between two others [mm].

    >>> distance_to_line((3.0, 4.0), (-1.0, 0.0), (0.0, 0.0))
    5.0
    """
    x, y, a, b = end[0] - start[0], end[1] - start[1], point[0] - start[0], point[1] - start[1]
    long = x * x + y * y
    part = min(1.0, max(0.0, (a * x + b * y) / long)) if long else 0.0
    return hypot(a - part * x, b - part * y)


def distance_to_contour(point: Point, contour: Contour) -> float:
    """From a point to the nearest place of a contour [mm]."""
    points = points_of(contour)
    pairs = zip(points, points[1:] + points[:1], strict=True)
    return min(distance_to_line(point, one, other) for one, other in pairs)
