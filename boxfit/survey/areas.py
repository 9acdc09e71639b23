"""Sums over triangles, column by column: with a million of them that is several times faster than by rows."""

import numpy as np
from numpy.typing import NDArray

from boxfit.surface import Surface

Values = NDArray[np.float64]


def span_of(points: Values) -> tuple[Values, Values]:
    """The lowest and the highest corner of the block round points [mm]."""
    columns = [np.ascontiguousarray(points[:, axis]) for axis in range(3)]
    return np.array([each.min() for each in columns]), np.array([each.max() for each in columns])


def areas_of(surface: Surface) -> Values:
    """The area [mm2] of every triangle."""
    x, y, z = _doubled(surface)
    found: Values = np.sqrt(x * x + y * y + z * z) / 2
    return found


def volumes_of(surface: Surface) -> Values:
    """For each triangle what lies between it and the middle of the block round the surface [mm3].

    Summed over a closed surface with its outside out, that is what it encloses.
    """
    low, high = span_of(surface.points)
    first = surface.triangles[:, 0]
    found = np.zeros(len(first))
    for axis, doubled in enumerate(_doubled(surface)):
        found += (surface.points[:, axis] - (low[axis] + high[axis]) / 2)[first] * doubled
    return found / 6


def _doubled(surface: Surface) -> tuple[Values, Values, Values]:
    """Twice the area of every triangle as seen along x, y and z [mm2]."""
    a, b, c = (np.ascontiguousarray(surface.triangles[:, k]) for k in range(3))
    first, second = [], []
    for axis in range(3):
        column = np.ascontiguousarray(surface.points[:, axis])
        start = column[a]
        first.append(column[b] - start)
        second.append(column[c] - start)
    (x, y, z), (u, v, w) = first, second
    return y * w - z * v, z * u - x * w, x * v - y * u
