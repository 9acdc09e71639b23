"""The distance from a block to a round bar with flat ends, of any direction, with its own proof.

The two come nearest where the block less the bar (every difference of a point of each) comes nearest to
the origin. That body is convex, so it is closed in on from both sides: the nearest point of the hull of
differences found so far is a real difference (an upper value), and the body's extent towards the origin
along that direction is a lower value (P. Wolfe, "Finding the nearest point in a polytope", Mathematical
Programming 11, 1976, from memory).
"""

from dataclasses import dataclass
from math import dist, hypot
from typing import TYPE_CHECKING

from boxfit.bay import Cylinder, Vector
from boxfit.judge.distance import Cuboid

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

CLOSE = 1e-4
"""Where lower and upper value [mm] are this near, the distance is known well enough."""
MOST_STEPS = 300
"""Steps after which the distance is left as wide as it is; the lower value holds all the same."""


@dataclass(frozen=True)
class Between:
    """A distance [mm] that is surely no less than `lower` and no more than `upper`."""

    lower: float
    upper: float


def _dot(one: Vector, other: Vector) -> float:
    return one[0] * other[0] + one[1] * other[1] + one[2] * other[2]


def _furthest_of_block(block: Cuboid, towards: Vector) -> Vector:
    """The corner of the block that lies furthest in a direction."""
    x, y, z = (block.high[k] if towards[k] > 0.0 else block.low[k] for k in range(3))
    return (x, y, z)


def _furthest_of_bar(bar: Cylinder, towards: Vector) -> Vector:
    """The point of the bar's rim that lies furthest in a direction."""
    reach = dist(bar.start, bar.end)
    ax, ay, az = ((b - a) / reach for a, b in zip(bar.start, bar.end, strict=True))
    along = _dot(towards, (ax, ay, az))
    end = bar.end if along > 0.0 else bar.start
    across = (towards[0] - along * ax, towards[1] - along * ay, towards[2] - along * az)
    length = hypot(*across)
    sideways = length > 1e-9 * hypot(*towards)  # less is rounding, and may point anywhere
    scale = bar.diameter / 2 / length if sideways else 0.0
    return (end[0] + scale * across[0], end[1] + scale * across[1], end[2] + scale * across[2])


def _difference(block: Cuboid, bar: Cylinder, towards: Vector) -> Vector:
    """The point of block less bar that lies furthest in a direction."""
    one = _furthest_of_block(block, towards)
    other = _furthest_of_bar(bar, (-towards[0], -towards[1], -towards[2]))
    return (one[0] - other[0], one[1] - other[1], one[2] - other[2])


def _flat_weights(points: "Array") -> "Array":
    """The weights, summing to 1, of the point nearest the origin on the flat through the points."""
    import numpy as np

    edges = (points[1:] - points[0]).T
    shares = np.linalg.lstsq(edges, -points[0], rcond=None)[0]
    return np.concatenate(([1.0 - shares.sum()], shares))


def _nearest(points: "Array", weights: "Array") -> tuple["Array", "Array"]:
    """The corners that carry the hull's nearest point to the origin, and their weights, from a guess."""
    while True:
        wanted = _flat_weights(points)
        if (wanted > 0.0).all():
            return points, wanted
        leaving = wanted <= 0.0
        steps = weights[leaving] / (weights[leaving] - wanted[leaving]).clip(min=1e-300)
        weights = weights + min(float(steps.min()), 1.0) * (wanted - weights)
        keeps = weights > 1e-14
        keeps[leaving.nonzero()[0][steps.argmin()]] = False
        points, weights = points[keeps], weights[keeps] / weights[keeps].sum()


def cylinder_distance(block: Cuboid, bar: Cylinder) -> Between:
    """The shortest distance in space [mm] from a block to a bar of some length, 0 where they overlap.

    >>> bar = Cylinder((0, 0, 0), (0, 0, 100), 20)
    >>> between = cylinder_distance(Cuboid((13, 14, 10), (40, 40, 20)), bar)
    >>> round(between.upper, 3), round((13**2 + 14**2) ** 0.5 - 10, 3)
    (9.105, 9.105)
    """
    import numpy as np

    points = np.array([_difference(block, bar, (1.0, 0.0, 0.0))])
    weights = np.ones(1)
    lower, upper = 0.0, float("inf")
    for _ in range(MOST_STEPS):
        points, weights = _nearest(points, weights)
        x, y, z = (float(value) for value in weights @ points)
        upper = min(upper, hypot(x, y, z))
        if upper <= CLOSE:
            return Between(0.0, upper)
        added = _difference(block, bar, (-x, -y, -z))
        lower = max(lower, _dot((x, y, z), added) / hypot(x, y, z))
        if upper - lower <= CLOSE:
            break
        points = np.vstack((points, added))
        weights = np.append(weights, 0.0)
    return Between(min(lower, upper), upper)
