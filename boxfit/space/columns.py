"""Triangles corner by corner and axis by axis: of a million several times faster to work with than rows."""

import numpy as np
from numpy.typing import NDArray

from boxfit.surface import Surface

Column = NDArray[np.float64]


def columns(surface: Surface, axis: int) -> tuple[Column, Column, Column]:
    """Where the first, second and third corner of every triangle lies along an axis [mm]."""
    along = np.ascontiguousarray(surface.points[:, axis])
    a, b, c = (along[surface.triangles[:, k]] for k in range(3))
    return a, b, c


def span_of(a: Column, b: Column, c: Column) -> tuple[Column, Column]:
    """From where to where every triangle reaches [mm].

    >>> low, high = span_of(np.array([1.0]), np.array([5.0]), np.array([3.0]))
    >>> low.item(), high.item()
    (1.0, 5.0)
    """
    return np.minimum(np.minimum(a, b), c), np.maximum(np.maximum(a, b), c)
