"""Inside or outside a surface of triangles, by how often it is wound round a point.

The winding number is the sum of the solid angles of all triangles seen from the point, over a full turn:
1 within a closed surface, -1 where its triangles face inwards, 0 without; a small gap changes it a little
only (A. Jacobson, L. Kavan, O. Sorkine-Hornung, "Robust inside-outside segmentation using generalized
winding numbers", ACM Transactions on Graphics 32(4), 2013; the angle of a triangle by A. van Oosterom and
J. Strackee, IEEE Transactions on Biomedical Engineering 30, 1983; both from memory).
"""

from math import pi
from weakref import WeakKeyDictionary

import numpy as np
from numpy.typing import NDArray

from boxfit.bay import Surface, Vector
from boxfit.judge.distance import Cuboid
from boxfit.judge.surface import spans, surface_distance
from boxfit.judge.triangle import Array

HALF = 0.5
"""Nearer than this to 1, a winding number is 1; nearer to 0, it is 0."""
BATCH = 65536
"""Triangles seen at once: enough to be quick, few enough to stay small in memory."""

_pieces: WeakKeyDictionary[Surface, NDArray[np.int32]] = WeakKeyDictionary()


def room_distance(block: Cuboid, surface: Surface, reach: float) -> float:
    """How far [mm] a block stays inside a closed surface, 0 where it does not; endless past `reach` [mm]."""
    distance = surface_distance(block, surface, reach)
    # a block that meets no triangle is wholly on one side, so one point tells
    return distance if distance > 0.0 and is_in_room(surface, _middle(block)) else 0.0


def solids_distance(block: Cuboid, surface: Surface, reach: float) -> float:
    """How far [mm] a block stays off solids, 0 where it meets or is in one; endless past `reach` [mm]."""
    distance = surface_distance(block, surface, reach)
    return 0.0 if distance > 0.0 and is_in_solids(surface, _middle(block)) else distance


def is_in_room(surface: Surface, point: Vector) -> bool:
    """True where the surface, facing outwards or inwards, is wound round the point once.

    Within a further closed piece in the room it is wound twice or not at all.
    """
    return _is_surrounded(surface, point) and abs(abs(float(windings(surface, point).sum())) - 1.0) < HALF


def is_in_solids(surface: Surface, point: Vector) -> bool:
    """True where the point is in any of the solids the surface bounds, whichever way each of them faces."""
    if not _is_surrounded(surface, point):
        return False
    seen = windings(surface, point)
    each = np.bincount(_piece_of_each(surface), weights=seen)
    return bool(np.abs(each).max() > HALF or abs(float(seen.sum())) > HALF)


def windings(surface: Surface, point: Vector) -> Array:
    """What each triangle adds to the winding number round a point that lies on none of them.

    >>> corners = np.array([[0.0, 0.0, 0.0], [9.0, 0.0, 0.0], [0.0, 9.0, 0.0], [0.0, 0.0, 9.0]])
    >>> tetrahedron = Surface(corners, np.array([[0, 2, 1], [0, 1, 3], [0, 3, 2], [1, 2, 3]]))
    >>> [round(abs(float(windings(tetrahedron, at).sum())), 6) for at in ((1, 1, 1), (8, 8, 8))]
    [1.0, 0.0]
    """
    rays = surface.points - point
    lengths = np.sqrt((rays**2).sum(axis=1))
    batches = [
        _windings(rays, lengths, surface.triangles[start : start + BATCH])
        for start in range(0, len(surface.triangles), BATCH)
    ]
    return np.concatenate(batches) if batches else np.zeros(0)


def _windings(rays: Array, lengths: Array, triangles: NDArray[np.int64]) -> Array:
    """The solid angle of each triangle over a full turn, from the rays to its corners."""
    one, two, three = triangles.T
    a, b, c = rays[one].T, rays[two].T, rays[three].T
    long_a, long_b, long_c = lengths[one], lengths[two], lengths[three]
    volume = a[0] * (b[1] * c[2] - b[2] * c[1])
    volume += a[1] * (b[2] * c[0] - b[0] * c[2])
    volume += a[2] * (b[0] * c[1] - b[1] * c[0])
    beside = long_a * long_b * long_c
    for first, second, length in ((a, b, long_c), (b, c, long_a), (c, a, long_b)):
        beside += (first[0] * second[0] + first[1] * second[1] + first[2] * second[2]) * length
    found: Array = np.arctan2(volume, beside) / (2.0 * pi)
    return found


def _piece_of_each(surface: Surface) -> NDArray[np.int32]:
    """The number of the piece each triangle belongs to; pieces share no point. Worked out once."""
    if surface not in _pieces:
        from scipy.sparse import coo_array
        from scipy.sparse.csgraph import connected_components

        one, two, three = surface.triangles.T
        ends = (np.concatenate((one, two)), np.concatenate((two, three)))
        links = coo_array((np.ones(len(ends[0]), dtype=np.int8), ends), shape=(len(surface.points),) * 2)
        _, pieces = connected_components(links, directed=False)
        _pieces[surface] = pieces[one]
    return _pieces[surface]


def _is_surrounded(surface: Surface, point: Vector) -> bool:
    """True where the point lies in the block round all triangles: outside it nothing encloses it."""
    reach = spans(surface)
    return all(reach.low[k].min() < point[k] < reach.high[k].max() for k in range(3))


def _middle(block: Cuboid) -> Vector:
    """The middle of the block [mm]."""
    x, y, z = ((low + high) / 2 for low, high in zip(block.low, block.high, strict=True))
    return (x, y, z)
