"""Places on a surface, close together, to stand for its triangles."""

from functools import lru_cache
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from boxfit.surface import Surface

ACROSS = 0.75
"""On larger triangles samples are no further apart than this part of `small`, both ways."""
BIG = 1_000_000
"""More than the parts of any side."""
STEPS = np.unique(np.round(1.25 ** np.arange(60)).astype(np.int64))
"""Numbers of parts a side is divided into: rounded up to these, so that like triangles go together."""


@lru_cache(maxsize=16)
def samples(surface: Surface, small: float) -> NDArray[np.float64]:
    """Samples [mm], shape (n, 3): all points, and a grid on triangles with a side longer than `small` [mm].

    No place of the surface is further than small / sqrt(3) from a sample.
    """
    points = [surface.points]
    corners = surface.points[surface.triangles]
    sides = np.linalg.norm(np.roll(corners, -1, axis=1) - corners, axis=2)
    large = sides.max(axis=1) > small
    corners, sides = corners[large], sides[large]
    first = (sides.argmax(axis=1)[:, None] + np.arange(3)) % 3  # the longest side leads from first to second
    corners = np.take_along_axis(corners, first[:, :, None], axis=1)
    longest = sides.max(axis=1)
    across = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    height = np.linalg.norm(across, axis=1) / longest
    along, up = (_rounded_up(side / (ACROSS * small)) for side in (longest, height))
    kinds = along * BIG + up
    order = np.argsort(kinds, kind="stable")
    ends = np.flatnonzero(np.diff(kinds[order], prepend=-1, append=-1))
    for start, end in pairwise(ends):
        of_size = order[start:end]
        weights = _grid(int(along[of_size[0]]), int(up[of_size[0]]))
        points.append(np.einsum("wk,tkx->twx", weights, corners[of_size]).reshape(-1, 3))
    return np.concatenate(points)


def _rounded_up(parts: NDArray[np.float64]) -> NDArray[np.int64]:
    """Into how many parts sides are divided."""
    needed = np.maximum(np.ceil(parts), 1)
    found: NDArray[np.int64] = STEPS[np.searchsorted(STEPS, needed)]
    return found


def _grid(along: int, up: int) -> NDArray[np.float64]:
    """Weights of the three corners at places on a triangle: rows parallel to its first side up to the apex.

    >>> _grid(1, 1).tolist()
    [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0]]
    """
    rise, share = (
        part.ravel() for part in np.meshgrid(np.arange(up) / up, np.arange(along + 1) / along, indexing="ij")
    )
    base = 1.0 - rise
    return np.stack([base * (1.0 - share), base * share, rise], axis=1)
