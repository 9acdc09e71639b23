"""Where in plan a box between two levels would come too close to a solid.

A solid grown by a distance, cut to the box's levels and seen from above is its shadow: a box of those levels
keeps the distance, as shortest distance in space, exactly where its plan does not meet the shadow. Shadows of
convex solids are convex. Round edges are drawn with tangents, so a shadow is never too small and at most
`SAGITTA` too large at each of its two roundings.
"""

from functools import lru_cache
from math import ceil, cos, pi, sqrt
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray

from boxfit.bay import Block, Cylinder, Point

Polygon = tuple[Point, ...]
"""A convex polygon, counter-clockwise."""
Levels = tuple[float, float]
"""The bottom and the top [mm] of something; either may be infinite."""

Numbers = NDArray[np.floating[Any]]

SAGITTA = 0.02
CAP_STEPS = 12
FIRST_DIRECTIONS = 96
SPARE = 0.005
"""What a disc left out of a hull could stick out by [mm]; added to all discs."""


def tangents_around(radius: float) -> int:
    """Tangents that draw a full circle of the radius [mm] with at most `SAGITTA` to spare, in fours.

    >>> tangents_around(0.0), tangents_around(13.0)
    (4, 60)
    """
    if radius <= SAGITTA:
        return 4
    return 4 * ceil(pi / sqrt(2 * SAGITTA / radius) / 4)


def shadow(solid: Block | Cylinder, levels: Levels, distance: float) -> Polygon | None:
    """The plan [mm] that a box between the levels must not meet to keep the distance [mm]; None where free.

    >>> shadow(Block((0, 0, 0), (10, 20, 30)), (40.0, 50.0), 5.0) is None
    True
    >>> shadow(Block((0, 0, 0), (10, 20, 30)), (10.0, 20.0), 0.0)
    ((0, 0), (10, 0), (10, 20), (0, 20))
    """
    if levels[0] > levels[1]:
        return None
    if isinstance(solid, Block):
        return _block_shadow(solid, levels, distance)
    return _cylinder_shadow(solid, levels, distance)


def _reach(gap: float, distance: float) -> float | None:
    """How far sideways a solid reaches whose nearest level is `gap` away [mm]."""
    if gap > 0 and gap >= distance:
        return None
    return sqrt(distance**2 - gap**2)


def _block_shadow(block: Block, levels: Levels, distance: float) -> Polygon | None:
    (x0, y0, z0), (x1, y1, z1) = block.low, block.high
    if distance == 0 and (levels[1] <= z0 or levels[0] >= z1):
        return None
    reach = _reach(max(z0 - levels[1], levels[0] - z1, 0.0), distance)
    if reach is None:
        return None
    return grown(((x0, y0), (x1, y0), (x1, y1), (x0, y1)), reach)


def _upright_shadow(cylinder: Cylinder, levels: Levels, distance: float) -> Polygon | None:
    """A disc, as every cut of an upright cylinder is."""
    low, high = sorted((cylinder.start[2], cylinder.end[2]))
    if distance == 0 and (levels[1] <= low or levels[0] >= high):
        return None
    reach = _reach(max(low - levels[1], levels[0] - high, 0.0), distance)
    return None if reach is None else grown((cylinder.start[:2],), cylinder.diameter / 2 + reach)


def grown(polygon: Polygon, distance: float) -> Polygon:
    """A convex polygon, segment or point [mm] and all nearer to it than the distance [mm], round at corners.

    >>> grown(((0, 0), (1, 0)), 0.0)
    ((0, 0), (1, 0))
    """
    if distance <= 0:
        return polygon
    around = tangents_around(distance)
    points = np.array(polygon, dtype=float)
    normals = {round(2 * pi * k / around, 12) for k in range(around)}
    edges = np.roll(points, -1, axis=0) - points
    for dx, dy in edges:
        normals.update(round(float(np.arctan2(side * -dx, side * dy)) % (2 * pi), 12) for side in (1, -1))
    angles = np.array(sorted(normals))
    return _from_support(points, np.full(len(points), distance), angles)


def _from_support(points: Numbers, reach: Numbers, angles: Numbers) -> Polygon:
    """The polygon of tangents, at the angles of their normals, around discs of `reach` about the points."""
    normals = np.stack([np.cos(angles), np.sin(angles)])
    support = (points @ normals + reach[:, None]).max(axis=0)
    following = np.roll(support, -1)
    turn = np.roll(angles, -1) - angles
    turn[-1] += 2 * pi
    sine, cosine = np.sin(turn), np.cos(turn)
    ahead = (following - support * cosine) / sine
    corners = (normals * support + np.stack([-normals[1], normals[0]]) * ahead).T
    step = np.abs(corners - np.roll(corners, 1, axis=0)).max(axis=1)
    kept = corners[step > 1e-9] if (step > 1e-9).sum() >= 3 else corners
    return tuple((float(x), float(y)) for x, y in kept)


@lru_cache(maxsize=4096)
def _cylinder_shadow(cylinder: Cylinder, levels: Levels, distance: float) -> Polygon | None:
    if cylinder.start[:2] == cylinder.end[:2]:
        return _upright_shadow(cylinder, levels, distance)
    rims = _rims(cylinder)
    corners = rims.reshape(-1, 3)
    low, high = float(corners[:, 2].min()), float(corners[:, 2].max())
    bottom, top = max(levels[0], low - distance - 1.0), min(levels[1], high + distance + 1.0)
    if bottom >= high + distance or top <= low - distance:
        return None
    gaps, reaches = ball(distance)
    points: list[Numbers] = [corners[:, :2]]
    reach: list[Numbers] = [reach_at(corners[:, 2], (bottom, top), distance)]
    for gap, sideways in zip(gaps, reaches, strict=True):
        for level in (bottom - gap, top + gap):
            section = _section(rims, level)
            points.append(section)
            reach.append(np.full(len(section), sideways))
    every_reach = np.concatenate(reach)
    near = np.isfinite(every_reach)
    if not near.any():
        return None
    return _around_discs(np.concatenate(points)[near], every_reach[near])


def _around_discs(points: Numbers, reach: Numbers) -> Polygon:
    """The convex polygon round discs of `reach` about the points [mm].

    The outermost disc in each of some directions is kept, then the outermost across each side of the hull of
    those kept, until none sticks out by more than `SPARE`, which is added to all.
    """
    angles = np.arange(FIRST_DIRECTIONS) * (2 * pi / FIRST_DIRECTIONS)
    kept = np.zeros(len(points), dtype=bool)
    beyond = np.full(FIRST_DIRECTIONS, np.inf)
    while beyond.max() > SPARE:
        reached = points @ np.stack([np.cos(angles), np.sin(angles)]) + reach[:, None]
        kept[reached.argmax(axis=0)[beyond > SPARE]] = True
        hull = _hull_of_discs(points[kept], reach[kept])
        sides = np.roll(hull, -1, axis=0) - hull
        angles = np.arctan2(-sides[:, 0], sides[:, 1])
        normals = np.stack([np.cos(angles), np.sin(angles)])
        left = points[~kept] @ normals + reach[~kept][:, None]
        beyond = left.max(axis=0, initial=-np.inf) - (hull.T * normals).sum(axis=0)
    return tuple((float(x), float(y)) for x, y in _hull_of_discs(points[kept], reach[kept] + SPARE))


def _hull_of_discs(points: Numbers, reach: Numbers) -> Numbers:
    """Corners of the convex hull of discs drawn with tangents, counter-clockwise, shape (n, 2)."""
    around = tangents_around(float(reach.max()))
    turn = (np.arange(around) + 0.5) * (2 * pi / around)
    rim = np.stack([np.cos(turn), np.sin(turn)], axis=1) / cos(pi / around)
    corners = points[:, None] + reach[:, None, None] * rim
    hull = shapely.convex_hull(shapely.linestrings(corners.reshape(-1, 2)))  # quicker than as points
    ring: Numbers = shapely.get_coordinates(hull.normalize())[:0:-1]
    return ring


def ball(distance: float) -> tuple[Numbers, Numbers]:
    """Gap in height and reach sideways [mm] at the corners of a ball of `distance` drawn with tangents.

    Between these corners and those of the solid both are straight, so cuts at the one and the other's own
    corners alone give the outermost points.
    """
    step = pi / 2 / CAP_STEPS
    angles = (np.arange(CAP_STEPS) + 0.5) * step
    radius = distance / cos(step / 2)
    gaps, reaches = radius * np.sin(angles), radius * np.cos(angles)
    return np.concatenate([[0.0], gaps]), np.concatenate([[distance], reaches])


def reach_at(heights: Numbers, levels: Levels, distance: float) -> Numbers:
    """Reach sideways [mm] of points at the heights; minus infinity where they are too far above or below."""
    gap = np.maximum(np.maximum(levels[0] - heights, heights - levels[1]), 0.0)
    gaps, reaches = ball(distance)
    return np.where(gap <= distance, np.interp(gap, gaps, reaches), -np.inf)


def _rims(cylinder: Cylinder) -> NDArray[np.float64]:
    """The two end rims as polygons drawn with tangents, shape (2, n, 3) [mm]."""
    start, end = np.array(cylinder.start, dtype=float), np.array(cylinder.end, dtype=float)
    axis = (end - start) / np.linalg.norm(end - start)
    helper = np.eye(3)[int(np.abs(axis).argmin())]
    side = np.cross(axis, helper)
    side /= np.linalg.norm(side)
    other = np.cross(axis, side)
    around = tangents_around(cylinder.diameter / 2)
    angle = (np.arange(around) + 0.5) * (2 * pi / around)
    radius = cylinder.diameter / 2 / cos(pi / around)
    rim = radius * (np.cos(angle)[:, None] * side + np.sin(angle)[:, None] * other)
    return np.stack([start + rim, end + rim])


def _section(rims: Numbers, level: float) -> Numbers:
    """Corners of the solid's cut at a level, shape (n, 2) [mm]."""
    starts = [rims[0], rims[0], rims[1]]
    ends = [rims[1], np.roll(rims[0], -1, axis=0), np.roll(rims[1], -1, axis=0)]
    start, end = np.concatenate(starts), np.concatenate(ends)
    below, above = start[:, 2] - level, end[:, 2] - level
    crossing = (below * above <= 0) & (below != above)
    start, end, below, above = start[crossing], end[crossing], below[crossing], above[crossing]
    part = (below / (below - above))[:, None]
    cut: Numbers = (start + part * (end - start))[:, :2]
    return cut
