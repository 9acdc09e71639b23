"""Which triangles of a closed surface are its open side, as scanned or drawn."""

import numpy as np
from numpy.typing import NDArray

from boxfit.bay import Way
from boxfit.surface import Surface

TOWARDS: dict[Way, tuple[int, int]] = {
    "front": (0, 1),
    "rear": (0, -1),
    "left": (1, 1),
    "right": (1, -1),
    "up": (2, 1),
    "down": (2, -1),
}
"""The axis of each way, and whether it leads up or down that axis."""

RADIUS = 10.0
"""Normals of a rough surface are averaged about so far around [mm]: several times a scan's noise."""
MOST_ROUNDS = 8
ROUGH = 7.0
"""From this angle [degrees] between neighbours on, single triangles do not tell which way a surface faces."""
SPECK = 0.01
"""Specks are besides no more than this share of what is taken."""
COSINE = np.sqrt(0.5) * (1 - 1e-9)
"""That of 45 degrees, with room for rounding."""

Normals = NDArray[np.float64]
Shares = NDArray[np.float32]
Pairs = tuple[NDArray[np.int64], NDArray[np.int64]]


def opening_takes(surface: Surface, way: Way, tolerance: float) -> NDArray[np.bool_]:
    """Says of each triangle of a closed, outward surface whether an opening towards `way` takes it.

    Taken are the triangles that face the way within 45 degrees, from the outermost on (one with a corner
    within `tolerance` [mm] of the surface's last plane) across shared edges without a break: the rule for
    the sides of an outline. Where a scan is rough, a triangle also counts as facing if the surface around it
    does on average; a strip along the rim of that side, less wide than the averaging, may then be taken too,
    and so are specks of up to 100 mm2 within it.
    """
    axis, sign = TOWARDS[way]
    areas = _area_vectors(surface)
    pairs = _pairs(surface.triangles, len(surface.points))
    facing = _facing(areas, axis, sign) | _faces_on_average(surface, areas, pairs, (axis, sign))
    ahead = surface.points[:, axis] * sign
    outermost = ahead >= ahead.max() - max(tolerance, 1e-6)
    first = facing & outermost[surface.triangles].any(axis=1)
    part = _numbered(facing, pairs)
    reached = np.zeros(len(facing), dtype=bool)
    reached[part[first]] = True
    taken = reached[part]
    return taken | _specks(taken, areas, pairs)


def _area_vectors(surface: Surface) -> Normals:
    """Outward normals, as long as twice the triangles' areas."""
    a, b, c = (surface.points[surface.triangles[:, k]] for k in range(3))
    b -= a
    c -= a
    found = np.empty_like(a, dtype=np.float64)
    for k in range(3):
        i, j = (k + 1) % 3, (k + 2) % 3
        found[:, k] = b[:, i] * c[:, j] - b[:, j] * c[:, i]
    return found


def _facing(normals: Normals | Shares, axis: int, sign: int) -> NDArray[np.bool_]:
    """Where a normal is at most 45 degrees off the way."""
    along = normals[:, axis] * sign
    facing: NDArray[np.bool_] = (along > 0) & (along >= COSINE * _lengths(normals))
    return facing


def _lengths(vectors: Normals | Shares) -> Normals:
    found: Normals = np.sqrt(np.einsum("ij,ij->i", vectors, vectors))
    return found


def _pairs(triangles: NDArray[np.int64], points: int) -> Pairs:
    """The triangles that share an edge, two by two."""
    starts, ends = (np.concatenate([triangles[:, (k + shift) % 3] for k in range(3)]) for shift in (0, 1))
    keys = np.minimum(starts, ends) * points + np.maximum(starts, ends)
    order = np.argsort(keys)
    ordered = keys[order]
    same = ordered[1:] == ordered[:-1]
    order %= len(triangles)
    return order[:-1][same], order[1:][same]


def _faces_on_average(
    surface: Surface, areas: Normals, pairs: Pairs, towards: tuple[int, int]
) -> NDArray[np.bool_]:
    """Where the surface is rough, and faces the way on average.

    How rough is told by the least angle between a triangle and its neighbours, itself averaged: a sharp
    edge between even sides is none, for a triangle there has an even neighbour within its own side.
    """
    from scipy import sparse

    count = len(areas)
    size = np.sqrt(float(np.median(_lengths(areas))))
    if size >= RADIUS:
        return np.zeros(count, dtype=bool)
    entries = np.ones(3 * count, dtype=np.float32)
    columns = surface.triangles.astype(np.int32).ravel()
    rows = np.arange(0, 3 * count + 1, 3, dtype=np.int32)
    spread = sparse.csr_matrix((entries, columns, rows), shape=(count, len(surface.points)))
    gather = spread.T.tocsr()
    weights = _lengths(areas)
    small = weights < RADIUS**2
    angles = _least_angles((areas / np.maximum(weights, 1e-12)[:, None]).astype(np.float32), pairs)
    values = np.column_stack([areas, weights, angles * weights]).astype(np.float32)
    values[~small] = 0.0
    for _ in range(min(MOST_ROUNDS, int(np.ceil((RADIUS / size) ** 2 / 2)))):
        values = spread @ (gather @ values)
        values /= np.maximum(values[:, 3:4], 1e-12)
    rough = values[:, 4] > np.radians(ROUGH)
    faces: NDArray[np.bool_] = small & rough & _facing(values[:, :3], *towards)
    return faces


def _least_angles(normals: Shares, pairs: Pairs) -> Shares:
    """The least angle [radians] between each triangle and those beside it."""
    one, other = pairs
    between = np.arccos(np.clip(np.einsum("ij,ij->i", normals[one], normals[other]), -1, 1))
    least = np.full(len(normals), np.pi, dtype=np.float32)
    np.minimum.at(least, one, between)
    np.minimum.at(least, other, between)
    return least


def _specks(taken: NDArray[np.bool_], areas: Normals, pairs: Pairs) -> NDArray[np.bool_]:
    """The small islands within what is taken: single triangles of a rough surface that face elsewhere."""
    part = _numbered(~taken, pairs)
    sizes = _lengths(areas) / 2
    most = min(RADIUS**2, SPECK * float(sizes[taken].sum()))
    small = np.bincount(part, weights=sizes) <= most
    specks: NDArray[np.bool_] = ~taken & small[part]
    return specks


def _numbered(these: NDArray[np.bool_], pairs: Pairs) -> NDArray[np.int32]:
    """The number of the connected part of these that each triangle is in; each other is one by itself."""
    from scipy import sparse
    from scipy.sparse.csgraph import connected_components

    both = these[pairs[0]] & these[pairs[1]]
    one, other = (side[both].astype(np.int32) for side in pairs)
    links = sparse.coo_matrix((np.ones(len(one), dtype=np.int8), (one, other)), shape=(len(these),) * 2)
    part: NDArray[np.int32] = connected_components(links, directed=False)[1]
    return part
