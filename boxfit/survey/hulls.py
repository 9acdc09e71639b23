"""Convex hulls of points and of patches of a surface."""

from collections.abc import Sequence
from itertools import product

import numpy as np
from numpy.typing import NDArray

from boxfit.bay import Block
from boxfit.surface import Surface
from boxfit.survey.solids import as_surface
from boxfit.survey.volume import volume_of

FLAT = 1e-6
"""Points no thicker [mm] than this are flat: they bound nothing."""
MOST_CORNERS = 12
"""Of a patch; with more, it becomes a block."""
SAME = 1e-9
"""Volumes that differ by no more than this share are equal."""

Points = NDArray[np.float64]


def convex_hull(points: Points) -> Surface:
    """The closed surface of the convex hull; without triangles where the points lie in a plane.

    >>> cube = np.array([[x, y, z] for x in (0.0, 1.0) for y in (0.0, 1.0) for z in (0.0, 1.0)])
    >>> len(convex_hull(cube).triangles)
    12
    """
    from scipy.spatial import ConvexHull, QhullError

    if _spread(points)[0][2] <= FLAT:
        return Surface(points, np.zeros((0, 3), dtype=np.int64))
    try:
        hull = ConvexHull(points)
    except QhullError:
        # Thin beyond what the sums can tell: the block round the points is larger, never smaller.
        low, high = points.min(axis=0), points.max(axis=0)
        return as_surface(Block((low[0], low[1], low[2]), (high[0], high[1], high[2])))
    triangles = hull.simplices.astype(np.int64)
    corners = points[triangles]
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    inward = np.einsum("ij,ij->i", normals, hull.equations[:, :3]) < 0.0
    triangles[inward] = triangles[inward][:, ::-1]
    kept, numbers = np.unique(triangles, return_inverse=True)
    return Surface(points[kept], numbers.reshape(-1, 3).astype(np.int64))


def is_convex(surface: Surface) -> bool:
    """Whether a closed surface is that of its convex hull, by volume."""
    hull = volume_of(convex_hull(surface.points[np.unique(surface.triangles)]))
    return abs(volume_of(surface) - hull) <= SAME * hull


def patches(surface: Surface, most: int) -> list[Points]:
    """Points whose hulls hold every triangle, some `most` points in all.

    Each triangle is by itself where that is few enough. Otherwise neighbours that face much the same way
    are taken together, and their hull, or a block round it where it has many corners, stands for them:
    larger, never smaller.
    """
    if 3 * len(surface.triangles) <= most:
        return list(surface.corners)
    return [_holding(surface.points[np.unique(part)]) for part in _split(surface, max(1, most // 8))]


def together(parts: Sequence[Surface], off: float) -> Surface:
    """Several closed surfaces as one, which may overlap."""
    firsts = np.cumsum([0, *(len(part.points) for part in parts)])
    return Surface(
        np.concatenate([part.points for part in parts]),
        np.concatenate([part.triangles + first for part, first in zip(parts, firsts, strict=False)]),
        off,
    )


def _split(surface: Surface, count: int) -> list[NDArray[np.int64]]:
    """The triangles in about so many groups, by the axis they face most, then halved again and again."""
    corners = surface.corners
    middles = corners.mean(axis=1)
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    axis = np.argmax(np.abs(normals), axis=1)
    faces = 2 * axis + (normals[np.arange(len(axis)), axis] > 0.0)
    groups = [np.flatnonzero(faces == face) for face in np.unique(faces)]
    waiting = [(group, max(1, count * len(group) // len(faces))) for group in groups]
    done: list[NDArray[np.int64]] = []
    while waiting:
        group, parts = waiting.pop()
        if parts == 1:
            done.append(surface.triangles[group])
            continue
        longest = int(np.argmax(np.ptp(middles[group], axis=0)))
        order = group[np.argsort(middles[group, longest], kind="stable")]
        half = parts // 2
        cut = len(order) * half // parts
        waiting.extend(((order[cut:], parts - half), (order[:cut], half)))
    return done


def _holding(points: Points) -> Points:
    """Few points whose hull holds all of these."""
    from scipy.spatial import ConvexHull

    thickness, axes = _spread(points)
    if thickness[1] <= FLAT:
        return _block_along(points)
    if thickness[2] <= FLAT:
        corners = points[np.sort(ConvexHull(points @ axes[:2].T).vertices)]
    else:
        corners = convex_hull(points).points
    return corners if len(corners) <= MOST_CORNERS else _block_along(corners)


def _block_along(points: Points) -> Points:
    """The corners of a block round points, along their main directions."""
    _, axes = _spread(points)
    along = points @ axes.T
    corners = np.array(list(product(*zip(along.min(axis=0), along.max(axis=0), strict=True))))
    found: Points = corners @ axes
    return found


def _spread(points: Points) -> tuple[Points, Points]:
    """How far points lie from their middle along their three main directions, and these; the widest first."""
    away = points - points.mean(axis=0)
    values, axes = np.linalg.eigh(away.T @ away)
    thickness: Points = np.sqrt(np.maximum(values[::-1], 0.0))
    # Squares lose the small: what is thin is measured again along its direction.
    thickness[1:] = np.linalg.norm(away @ axes[:, 1::-1], axis=0)
    return thickness, axes[:, ::-1].T
