"""Whether a place lies within the solids a surface bounds."""

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from boxfit.bay import Vector
from boxfit.surface import Surface


def is_room(surface: Surface, place: Vector) -> bool:
    """True where a place [mm] off the surface lies within it once; in a pillar it is so twice or never.

    >>> points = np.array([[0, 0, 0], [9, 0, 0], [0, 9, 0], [0, 0, 9.0]])
    >>> corner = Surface(points, np.array([[0, 2, 1], [0, 1, 3], [1, 2, 3], [0, 3, 2]]))
    >>> is_room(corner, (1.0, 1.0, 1.0)), is_room(corner, (5.0, 5.0, 1.0))
    (True, False)
    """
    return 0.5 < abs(float(_turns(surface, place).sum())) < 1.5


def is_solid(surface: Surface, place: Vector) -> bool:
    """True where a place [mm] off the surface lies within any of its connected parts; they may overlap."""
    parts = np.bincount(_connected(surface), weights=_turns(surface, place))
    return bool((np.abs(parts) > 0.5).any())


def _turns(surface: Surface, place: Vector) -> NDArray[np.float64]:
    """The solid angle under which each triangle is seen, as a part of all directions.

    They add up to 1 or -1 for a solid around the place and to nothing for one beside it (A. van Oosterom,
    J. Strackee, The solid angle of a plane triangle, IEEE Transactions on Biomedical Engineering 30 (1983)
    125-126, formula from memory).
    """
    towards = surface.points - np.array(place)
    away = np.linalg.norm(towards, axis=1)
    a, b, c = (towards[surface.triangles[:, k]] for k in range(3))
    p, q, r = (away[surface.triangles[:, k]] for k in range(3))
    volume = (a * np.cross(b, c)).sum(axis=1)
    spread = p * q * r + (a * b).sum(axis=1) * r + (b * c).sum(axis=1) * p + (c * a).sum(axis=1) * q
    found: NDArray[np.float64] = np.arctan2(volume, spread) / (2 * np.pi)
    return found


@lru_cache(maxsize=16)
def _connected(surface: Surface) -> NDArray[np.int64]:
    """The number of the connected part that each triangle belongs to."""
    from scipy.sparse import coo_array
    from scipy.sparse.csgraph import connected_components

    first, last = surface.triangles[:, [0, 1]].ravel(), surface.triangles[:, [1, 2]].ravel()
    joined = coo_array((np.ones(len(first), dtype=np.int8), (first, last)), shape=(len(surface.points),) * 2)
    _, parts = connected_components(joined, directed=False)
    of_triangles: NDArray[np.int64] = parts[surface.triangles[:, 0]].astype(np.int64)
    return of_triangles
