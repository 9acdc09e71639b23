"""The shadow in plan of one triangle: where a box between two levels would come too near to it."""

from functools import lru_cache
from math import pi

import numpy as np
import shapely
from numpy.typing import NDArray

from boxfit.space.shadow import Levels, Numbers, ball, reach_at, tangents_around

LEAST = 1e-5
"""Where no distance is kept a surface is taken this thick [mm], so that it parts what it stands between."""


def triangle_shadow(corners: NDArray[np.float64], levels: Levels, distance: float) -> shapely.Geometry | None:
    """The convex plan [mm] a box between the levels must not meet to keep the distance [mm]; None where free.

    `corners` [mm] has shape (3, 3). Straight sides lie exactly at the distance, rounded ones are drawn with
    tangents: never too small.

    >>> upright = np.array([[0.0, 0.0, 0.0], [9.0, 0.0, 0.0], [0.0, 0.0, 9.0]])
    >>> [round(side, 6) for side in triangle_shadow(upright, (2.0, 3.0), 5.0).bounds[1::2]]
    [-5.0, 5.0]
    >>> triangle_shadow(upright, (14.0, 20.0), 5.0) is None
    True
    """
    distance = max(distance, LEAST)
    if corners[:, 2].max() + distance <= levels[0] or corners[:, 2].min() - distance >= levels[1]:
        return None
    points, reach = _discs(corners, levels, distance)
    if not len(points):
        return None
    sides = np.roll(corners[:, :2], -1, axis=0) - corners[:, :2]
    along = np.arctan2(-sides[:, 0], sides[:, 1])[np.abs(sides).max(axis=1) > 1e-9]
    rim = _rim(tangents_around(distance), along)
    drawn = points[:, None] + reach[:, None, None] * rim
    return shapely.convex_hull(shapely.linestrings(drawn.reshape(-1, 2)))


def _rim(around: int, normals: Numbers) -> Numbers:
    """Corners of a polygon of tangents about the unit circle, with a tangent along each normal [radians]."""
    angles = np.concatenate([_evenly(around), normals % (2 * pi), (normals + pi) % (2 * pi)])
    angles = np.unique(np.round(angles, 12) % (2 * pi))
    half = np.diff(angles, append=angles[0] + 2 * pi) / 2
    middle = angles + half
    corners: Numbers = np.stack([np.cos(middle), np.sin(middle)], axis=1) / np.cos(half)[:, None]
    return corners


@lru_cache(maxsize=64)
def _evenly(around: int) -> Numbers:
    return np.arange(around) * (2 * pi / around)


def _discs(corners: NDArray[np.float64], levels: Levels, distance: float) -> tuple[Numbers, Numbers]:
    """Places in plan [mm] and the reach sideways [mm] there, whose round discs' hull is the shadow.

    A ball of the distance drawn with tangents is straight between its corners, as the triangle is between
    its own, so cuts at the ball's corners and the triangle's own corners give the outermost points.
    """
    heights = corners[:, 2]
    bottom = max(levels[0], float(heights.min()) - distance - 1.0)
    top = min(levels[1], float(heights.max()) + distance + 1.0)
    points: list[Numbers] = [corners[:, :2]]
    reach: list[Numbers] = [reach_at(heights, (bottom, top), distance)]
    if heights.min() < bottom or heights.max() > top:
        gaps, sideways = ball(distance)
        for level, sign in ((bottom, -1.0), (top, 1.0)):
            cuts, which = _cuts(corners, level + sign * gaps)
            points.append(cuts)
            reach.append(sideways[which])
    every_reach = np.concatenate(reach)
    near = np.isfinite(every_reach)
    return np.concatenate(points)[near], every_reach[near]


def _cuts(corners: NDArray[np.float64], levels: Numbers) -> tuple[Numbers, NDArray[np.int64]]:
    """Where the triangle's sides cross the levels, in plan, and which level each one crosses."""
    start, end = corners, np.roll(corners, -1, axis=0)
    below = start[:, None, 2] - levels
    above = end[:, None, 2] - levels
    side, level = np.nonzero((below * above <= 0) & (below != above))
    part = below[side, level] / (below[side, level] - above[side, level])
    cut: Numbers = start[side, :2] + part[:, None] * (end[side, :2] - start[side, :2])
    return cut, level
