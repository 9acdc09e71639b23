"""Places on a surface, close together, to stand for its triangles."""

from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from boxfit.space.columns import columns
from boxfit.space.part import Part
from boxfit.surface import Surface

ACROSS = 0.75
"""On larger triangles samples are no further apart than this part of `small`, both ways."""
BIG = 1_000_000
"""More than the parts of any side."""
STEPS = np.unique(np.round(1.25 ** np.arange(60)).astype(np.int64))
"""Numbers of parts a side is divided into: rounded up to these, so that like triangles go together."""


@dataclass(frozen=True, eq=False)
class Samples:
    """Places [mm], shape (n, 3): all points of the surface, then the others with the triangle each is on."""

    places: NDArray[np.float64]
    triangles: NDArray[np.int64]


@lru_cache(maxsize=16)
def on_part(part: Part, small: float) -> NDArray[np.bool_]:
    """Which samples of the surface are on a part of it: they are the part's own samples."""
    return np.concatenate([part.points, part.chosen[samples(part.surface, small).triangles]])


@lru_cache(maxsize=16)
def samples(surface: Surface, small: float) -> Samples:
    """All points, and a grid on triangles with a side longer than `small` [mm].

    No place of the surface is further than small / sqrt(3) from a sample, nor one of any part of it from a
    sample on that part.
    """
    places, on = [surface.points], [np.zeros(0, dtype=np.int64)]
    large, longest, first = _large(surface, small)
    turned = (first[:, None] + np.arange(3)) % 3  # the longest side leads from first to second
    corners = surface.points[np.take_along_axis(surface.triangles[large], turned, axis=1)]
    across = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    height = np.linalg.norm(across, axis=1) / longest
    along, up = (_rounded_up(side / (ACROSS * small)) for side in (longest, height))
    kinds = along * BIG + up
    order = np.argsort(kinds, kind="stable")
    ends = np.flatnonzero(np.diff(kinds[order], prepend=-1, append=-1))
    for start, end in pairwise(ends):
        of_size = order[start:end]
        weights = _grid(int(along[of_size[0]]), int(up[of_size[0]]))
        places.append(np.einsum("wk,tkx->twx", weights, corners[of_size]).reshape(-1, 3))
        on.append(np.repeat(large[of_size], len(weights)))
    return Samples(np.concatenate(places), np.concatenate(on))


def _large(
    surface: Surface, small: float
) -> tuple[NDArray[np.int64], NDArray[np.float64], NDArray[np.int64]]:
    """The triangles with a side longer than `small` [mm], how long it is, and at which corner it begins."""
    squares = np.zeros((3, len(surface.triangles)))
    for axis in range(3):
        a, b, c = columns(surface, axis)
        squares += np.square([b - a, c - b, a - c])
    longest = squares.max(axis=0)
    large = np.flatnonzero(longest > small**2)
    return large, np.sqrt(longest[large]), squares[:, large].argmax(axis=0)


def _rounded_up(parts: NDArray[np.float64]) -> NDArray[np.int64]:
    """Into how many parts sides are divided."""
    needed = np.maximum(np.ceil(parts), 1)
    found: NDArray[np.int64] = STEPS[np.searchsorted(STEPS, needed)]
    return found


def _grid(along: int, up: int) -> NDArray[np.float64]:
    """Weights of the three corners at places on a triangle: rows parallel to its first side up to the apex.

    The corners themselves are left out.

    >>> _grid(2, 1).tolist()
    [[0.5, 0.5, 0.0]]
    """
    rise, share = (
        part.ravel() for part in np.meshgrid(np.arange(up) / up, np.arange(along + 1) / along, indexing="ij")
    )
    base = 1.0 - rise
    weights = np.stack([base * (1.0 - share), base * share, rise], axis=1)
    found: NDArray[np.float64] = weights[weights.max(axis=1) < 1.0]
    return found
