"""Whether a place lies within what a surface bounds: by the triangles straight above it."""

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from boxfit.bay import Vector
from boxfit.space.columns import columns, span_of
from boxfit.surface import Surface

Numbers = NDArray[np.float64]


def is_room(surface: Surface, place: Vector) -> bool:
    """True where a place [mm] off the surface lies within it once; in a pillar it is so twice or never.

    >>> points = np.array([[0, 0, 0], [9, 0, 0], [0, 9, 0], [0, 0, 9.0]])
    >>> corner = Surface(points, np.array([[0, 2, 1], [0, 1, 3], [1, 2, 3], [0, 3, 2]]))
    >>> is_room(corner, (1.0, 1.0, 1.0)), is_room(corner, (5.0, 5.0, 1.0))
    (True, False)
    """
    above, turns = _above(surface, place)
    return abs(int(turns[above].sum())) == 1


def is_solid(surface: Surface, place: Vector) -> bool:
    """True where a place [mm] off the surface lies within any of its connected parts; they may overlap."""
    above, turns = _above(surface, place)
    parts = np.bincount(_connected(surface)[above], weights=turns[above]) if len(above) else np.zeros(1)
    return bool(np.abs(parts).max() >= 0.5)


def _above(surface: Surface, place: Vector) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
    """The triangles straight above a place, and 1 for each triangle that looks up, -1 for the others.

    Going up out of a solid one passes a triangle that looks up for every solid left, and one that looks down
    for every solid entered: they add up to how many solids the place is in.
    """
    x, y, z = place
    low_x, high_x, low_y, high_y, turns = _columns(surface)
    near = np.flatnonzero((low_x <= x) & (high_x >= x) & (low_y <= y) & (high_y >= y))
    corners = surface.points[surface.triangles[near]]
    crossed = np.zeros(len(near), dtype=np.int64)
    for k in range(3):
        crossed += _is_left_of(corners[:, k], corners[:, (k + 1) % 3], (x, y))
    within, corners = near[crossed % 2 == 1], corners[crossed % 2 == 1]
    across = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    level = across[:, 2] != 0.0
    across, corners, within = across[level], corners[level], within[level]
    run = (x - corners[:, 0, 0]) * across[:, 0] + (y - corners[:, 0, 1]) * across[:, 1]
    height = corners[:, 0, 2] - run / across[:, 2]
    return within[height > z], turns


def _is_left_of(start: Numbers, end: Numbers, place: tuple[float, float]) -> NDArray[np.bool_]:
    """Whether a line from the place along x crosses each side in plan; one rule for both its directions."""
    x, y = place
    swap = end[:, 1] < start[:, 1]
    low, high = np.where(swap[:, None], end, start), np.where(swap[:, None], start, end)
    spans = (low[:, 1] <= y) & (y < high[:, 1])
    rise = np.where(spans, high[:, 1] - low[:, 1], 1.0)
    found: NDArray[np.bool_] = spans & (x < low[:, 0] + (y - low[:, 1]) / rise * (high[:, 0] - low[:, 0]))
    return found


@lru_cache(maxsize=16)
def _columns(surface: Surface) -> tuple[Numbers, Numbers, Numbers, Numbers, NDArray[np.int64]]:
    """The extent in plan of every triangle, and whether it looks up (1) or down (-1)."""
    x, y = columns(surface, 0), columns(surface, 1)
    area = (x[1] - x[0]) * (y[2] - y[0]) - (y[1] - y[0]) * (x[2] - x[0])
    return *span_of(*x), *span_of(*y), np.sign(area).astype(np.int64)


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
