"""The levels at which a surface lies flat, or nearly so: floors, ledges and tops."""

from functools import lru_cache

import numpy as np

from boxfit.space.columns import columns
from boxfit.surface import Surface

LEVEL = 0.7
"""A triangle counts as level where its normal's upright part is at least this: within some 45 degrees."""
LAYER = 2.0
"""Level triangles are sorted into layers of this height [mm]."""
LEAST_PART = 0.02
"""Layers with less than this part of all level area are left out: slopes, and rough upright walls."""


@lru_cache(maxsize=16)
def flat_levels(surface: Surface) -> tuple[tuple[float, float], ...]:
    """The lowest and highest level [mm] of every flat part, from below.

    >>> points = np.array([[0, 0, 3], [9, 0, 3], [0, 9, 3], [9, 9, 20], [0, 9, 20], [9, 0, 20.5]])
    >>> flat_levels(Surface(points, np.array([[0, 1, 2], [3, 4, 5], [0, 1, 5]])))
    ((3.0, 3.0), (20.0, 20.5))
    """
    (ax, bx, cx), (ay, by, cy), (az, bz, cz) = (columns(surface, axis) for axis in range(3))
    x, y, z, u, v, w = bx - ax, by - ay, bz - az, cx - ax, cy - ay, cz - az
    area = np.abs(x * v - y * u)
    whole = np.sqrt(np.square(y * w - z * v) + np.square(z * u - x * w) + np.square(area))
    level = np.flatnonzero((area > 0) & (area >= LEVEL * whole))
    if not len(level):
        return ()
    heights = np.stack([az[level], bz[level], cz[level]], axis=1)
    layer = np.floor((heights.mean(axis=1) - heights.min()) / LAYER).astype(np.int64)
    full = np.bincount(layer, weights=area[level]) >= LEAST_PART * area[level].sum()
    edges = np.flatnonzero(np.diff(np.concatenate([[False], full, [False]]).astype(np.int8)))
    found = []
    for first, after in edges.reshape(-1, 2):
        within = heights[(layer >= first) & (layer < after)]
        found.append((float(within.min()), float(within.max())))
    return tuple(found)
