"""A surface of fewer triangles: near corners become one. For looking at only."""

import numpy as np
from numpy.typing import NDArray

from boxfit.report.page.shown import Facets

MOST = 16_000
"""Triangles of one surface that a page shows; at 20 bytes or so each they stay a small part of it."""
COARSER = 1.25
"""How much coarser each try is than the one before."""
FINEST = 600
"""Cells along the longest side of the first try."""


def thinned(facets: Facets, most: int = MOST) -> Facets:
    """The same surface with at most about `most` triangles.

    Corners within one cell of a grid become their mean, and triangles that lose their area go; cells grow
    until few enough are left. Holes smaller than a cell may close: nothing may be measured on it.
    """
    if len(facets.triangles) <= most:
        return facets
    low, high = facets.corners.min(axis=0), facets.corners.max(axis=0)
    cell = float((high - low).max()) / FINEST
    while True:
        found = _clustered(facets, low, cell)
        if len(found.triangles) <= most:
            return found
        cell *= COARSER


def _clustered(facets: Facets, low: NDArray[np.float64], cell: float) -> Facets:
    """One mean corner for each cell of the grid that has corners."""
    places = np.floor((facets.corners - low) / cell).astype(np.int64)
    _, member, counts = np.unique(places, axis=0, return_inverse=True, return_counts=True)
    member = member.reshape(-1)
    means = np.stack(
        [np.bincount(member, weights=facets.corners[:, axis]) / counts for axis in range(3)], axis=1
    )
    triangles = member[facets.triangles]
    first, second, third = triangles.T
    kept = triangles[(first != second) & (second != third) & (third != first)]
    return Facets(means, np.unique(_least_first(kept), axis=0), facets.rough)


def _least_first(triangles: NDArray[np.int64]) -> NDArray[np.int64]:
    """The same triangles, each turned until its least corner comes first: those alike are then equal."""
    start = triangles.argmin(axis=1)
    turned = (start[:, None] + np.arange(3)) % 3
    return np.take_along_axis(triangles, turned, axis=1)
