"""Points that are one, triangles that are there twice: what every file of triangles is full of."""

import numpy as np
from numpy.typing import NDArray

from boxfit.surface import Surface
from boxfit.survey.areas import span_of

Numbers = NDArray[np.int64]
_STEPS = 1_000_000
"""Points nearer than the extent over this are one."""


def merged(surface: Surface) -> Surface:
    """The surface with each point once, only triangles that keep three corners, and only points they use."""
    low, high = span_of(surface.points)
    step = max(float((high - low).max()) / _STEPS, 1e-9)
    key = np.zeros(len(surface.points), dtype=np.int64)
    for axis in range(3):
        key <<= 21
        key |= ((surface.points[:, axis] - low[axis]) / step + 0.5).astype(np.int64)
    first, place = _first_of_each(key)
    return without_unused(surface.points[first], place[surface.triangles])


def merged_points(surface: Surface, among: Numbers) -> Surface:
    """The same for those points of `among` that lie that near though a rounding parts them."""
    from scipy.sparse import coo_array
    from scipy.sparse.csgraph import connected_components
    from scipy.spatial import cKDTree

    near = surface.points[among]
    low, high = span_of(surface.points)
    step = float((high - low).max()) / _STEPS
    pairs = cKDTree(near).query_pairs(step, output_type="ndarray")
    if not len(pairs):
        return surface
    ones = np.ones(len(pairs), dtype=np.int8)
    graph = coo_array((ones, (pairs[:, 0], pairs[:, 1])), shape=(len(among), len(among)))
    _, labels = connected_components(graph, directed=False)
    first, place = _first_of_each(labels.astype(np.int64))
    renamed = np.arange(len(surface.points), dtype=np.int64)
    renamed[among] = among[first][place]
    return without_unused(surface.points, renamed[surface.triangles])


def without_unused(points: NDArray[np.float64], triangles: Numbers) -> Surface:
    """Only triangles with three corners, only points they use."""
    a, b, c = triangles.T
    whole = (a != b) & (b != c) & (c != a)
    triangles = triangles if whole.all() else triangles[whole]
    used = np.zeros(len(points), dtype=np.bool_)
    used[triangles.ravel()] = True
    if used.all():
        return Surface(points, triangles)
    return Surface(points[used], (np.cumsum(used) - 1)[triangles])


def single(triangles: Numbers) -> Numbers:
    """Each triangle once, whichever way it winds, the first one kept."""
    a, b, c = (np.ascontiguousarray(triangles[:, k]) for k in range(3))
    low, high = np.minimum(np.minimum(a, b), c), np.maximum(np.maximum(a, b), c)
    middle = a + b + c - low - high
    # A mixed key may meet by chance; what it brings together is therefore compared before it is left out.
    key = low.astype(np.uint64) * np.uint64(0x9E3779B97F4A7C15)
    key += middle.astype(np.uint64) * np.uint64(0xC2B2AE3D27D4EB4F) + high.astype(np.uint64)
    order = np.argsort(key)
    same = key[order[1:]] == key[order[:-1]]
    if not same.any():
        return triangles
    first, place = _first_of_each(key.view(np.int64))
    double = first[place] != np.arange(len(triangles))
    for part in (low, middle, high):
        double &= part == part[first[place]]
    found: Numbers = triangles[~double]
    return found


def _first_of_each(key: Numbers) -> tuple[Numbers, Numbers]:
    """Where each different key stands first, and for each entry which of those is its own."""
    order = np.argsort(key)
    ordered = key[order]
    new = np.ones(len(key), dtype=np.bool_)
    np.not_equal(ordered[1:], ordered[:-1], out=new[1:])
    # In the order they first appear, not that of their keys: neighbours in the file stay neighbours.
    first = np.minimum.reduceat(order, np.flatnonzero(new))
    appear = np.argsort(first)
    number = np.empty(len(first), dtype=np.int64)
    number[appear] = np.arange(len(first))
    place = np.empty(len(key), dtype=np.int64)
    place[order] = np.repeat(number, np.diff(np.flatnonzero(new), append=len(key)))
    found: Numbers = first[appear]
    return found, place
