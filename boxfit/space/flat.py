"""The levels at which a surface lies flat, or nearly so: floors, ledges and tops."""

from functools import lru_cache
from itertools import pairwise

import numpy as np

from boxfit.surface import Surface

LEVEL = 0.7
"""A triangle counts as level where its normal's upright part is at least this: within some 45 degrees."""
BREAK = 5.0
"""Flat parts are told apart where no triangle lies between them for this height [mm]."""
LEAST_PART = 0.01
"""Flat parts with less than this part of all level area are left out."""


@lru_cache(maxsize=16)
def flat_levels(surface: Surface) -> tuple[tuple[float, float], ...]:
    """The lowest and highest level [mm] of every flat part, from below.

    >>> points = np.array([[0, 0, 3], [9, 0, 3], [0, 9, 3], [9, 9, 20], [0, 9, 20], [9, 0, 20.5]])
    >>> flat_levels(Surface(points, np.array([[0, 1, 2], [3, 4, 5], [0, 1, 5]])))
    ((3.0, 3.0), (20.0, 20.5))
    """
    corners = surface.corners
    across = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    area = np.abs(across[:, 2])
    level = np.flatnonzero((area > 0) & (area >= LEVEL * np.linalg.norm(across, axis=1)))
    if not len(level):
        return ()
    heights = corners[level, :, 2]
    order = np.argsort(heights.min(axis=1), kind="stable")
    low, high, area = heights.min(axis=1)[order], heights.max(axis=1)[order], area[level][order]
    reached = np.maximum.accumulate(high)
    breaks = np.flatnonzero(low[1:] - reached[:-1] > BREAK) + 1
    parts = pairwise([0, *breaks.tolist(), len(low)])
    least = LEAST_PART * area.sum()
    return tuple((float(low[a]), float(high[a:b].max())) for a, b in parts if area[a:b].sum() >= least)
