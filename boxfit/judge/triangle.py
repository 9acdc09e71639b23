"""The exact distance from a block square to the axes to triangles in space.

Of a block and a triangle, the nearest point of the triangle lies on its edges or within it. Along an edge
the squared distance to the block is smooth, convex and piecewise quadratic, so its least is where its slope
passes through 0. Within the triangle the block's nearest corner is the one furthest towards the flat of the
triangle, and where the block passes through without meeting an edge, so does its diagonal across that flat.
Every figure is that of a real point of the triangle: rounding may add to it, a sliver may not spoil it.
"""

import numpy as np
from numpy.typing import NDArray

from boxfit.judge.distance import Cuboid

Array = NDArray[np.float64]


def beyond(block: Cuboid, points: Array) -> Array:
    """How far [mm] points (..., 3) lie beyond the block along each axis, less than 0 below it, 0 within."""
    found: Array = points - np.clip(points, block.low, block.high)
    return found


def point_distances(block: Cuboid, points: Array) -> Array:
    """The shortest distance [mm] from the block to each of the points (..., 3), 0 within it.

    >>> point_distances(Cuboid((0, 0, 0), (1, 1, 1)), np.array([[4.0, 5.0, 0.5]])).tolist()
    [5.0]
    """
    squares: Array = (beyond(block, points) ** 2).sum(axis=-1)
    return np.sqrt(squares)


def triangle_distances(block: Cuboid, corners: Array) -> Array:
    """The shortest distance [mm] from the block to each triangle of `corners` (n, 3, 3).

    Where they meet it is 0, or what rounding leaves of it.

    >>> block = Cuboid((0, 0, 0), (1, 1, 1))
    >>> far, through = [[3, 0, 0], [3, 1, 0], [3, 0, 1]], [[0.5, -9, -9], [0.5, 20, -9], [0.5, -9, 20]]
    >>> triangle_distances(block, np.array([far, through], dtype=float)).tolist()
    [2.0, 0.0]
    """
    from_edges = point_distances(block, _nearest_of_edges(block, corners)).min(axis=1)
    points, is_within = _nearest_within(block, corners)
    from_within = np.where(is_within, point_distances(block, points), np.inf)
    nearest: Array = np.minimum(from_edges, from_within)
    return nearest


def _nearest_of_edges(block: Cuboid, corners: Array) -> Array:
    """The point of each edge nearest to the block, (n, 3, 3)."""
    starts = corners
    runs = np.roll(corners, -1, axis=1) - starts
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        crossings = np.concatenate(((block.low - starts) / runs, (block.high - starts) / runs), axis=-1)
    ends = np.zeros((*crossings.shape[:2], 1))
    # between two of these shares the slope is straight; fmax makes 0 of an edge along the face
    shares = np.sort(np.concatenate((ends, _share(crossings), ends + 1.0), axis=-1), axis=-1)
    points = starts[:, :, None] + shares[..., None] * runs[:, :, None]
    slopes = (beyond(block, points) * runs[:, :, None]).sum(axis=-1)
    before = np.clip((slopes < 0.0).sum(axis=-1, keepdims=True) - 1, 0, slopes.shape[-1] - 2)
    (share, slope), (share_after, slope_after) = (
        (np.take_along_axis(shares, k, -1), np.take_along_axis(slopes, k, -1)) for k in (before, before + 1)
    )
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        level = share + _share(-slope / (slope_after - slope)) * (share_after - share)
    nearest: Array = starts + level * runs
    return nearest


def _nearest_within(block: Cuboid, corners: Array) -> tuple[Array, NDArray[np.bool_]]:
    """The point of each triangle's flat nearest to the block, (n, 3), and whether the triangle holds it."""
    first = corners[:, 0]
    along, across = corners[:, 1] - first, corners[:, 2] - first
    normals = np.cross(along, across)
    back = np.where(normals > 0.0, block.low, block.high)
    ahead = np.where(normals > 0.0, block.high, block.low)
    behind, before = _dots(back - first, normals), _dots(ahead - first, normals)
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        at = back + _share(-behind / (before - behind)) * (ahead - back) - first
        squares = _dots(normals, normals)
        one = _dots(np.cross(at, across), normals) / squares
        other = _dots(np.cross(along, at), normals) / squares
        points = first + one * along + other * across
    return points, ((one >= 0.0) & (other >= 0.0) & (one + other <= 1.0))[:, 0]


def _dots(one: Array, other: Array) -> Array:
    """Scalar products, row by row, as a column."""
    products: Array = (one * other).sum(axis=-1, keepdims=True)
    return products


def _share(values: Array) -> Array:
    """The values held between 0 and 1; 0 for what is no number."""
    return np.fmin(np.fmax(values, 0.0), 1.0)
