"""The shortest way in space from a block to a surface of triangles, exact, and fast for a million of them.

Blocks may be flat, so that one face of a box can be measured alone. Only triangles that lie near enough to
matter are measured exactly.
`Surface.off` is no part of any distance here.
"""

from dataclasses import dataclass
from functools import lru_cache
from math import dist

import numpy as np
from numpy.typing import NDArray

from boxfit.bay import Block, Surface, Vector
from boxfit.space.triangle import Flags, Numbers, edge_gaps, squares, triangle_gaps

CHUNK = 4096
"""Triangles are measured exactly this many at a time, the likeliest first."""
AHEAD = 0.5
"""The way to what a face looks at leads out of its plane by 30 degrees at least (sine).

The shortest way from a whole box to anything leads out of one of its faces by 35, as the diagonal of a cube
does.
"""
CELLS = (15.0, 30.0)
"""Scans are rough: how a surface lies is judged over cells, and so are tips.

A cell is as large as two sides of the triangles, by their median, but no smaller or larger than this [mm].
"""
MEAN, LEVEL = 0.3, 0.5
"""A cell faces along an axis where the mean of its triangles' ways has this share of it, or their squares.

In the mean the roughness of a scan evens out, as both sides of a thin sheet do; in the squares neither does.
"""
MOST_STEPS = 8
"""Edges followed from a point, at most."""
FLAT = 1e-6
"""A way changes by less than this along an edge, in shares of the edge's length: rounding."""


@dataclass(frozen=True)
class Gap:
    """The shortest way from a block to a surface, from `at` on the block to `to` on the surface [mm]."""

    at: Vector
    to: Vector

    @property
    def distance(self) -> float:
        """Its length [mm], 0 where they meet."""
        return dist(self.at, self.to)


def nearest(block: Block, surface: Surface) -> Gap:
    """The shortest way from a block to the nearest of all triangles.

    >>> sheet = Surface(np.array([[0.0, 0, 9], [90, 0, 9], [0, 90, 9]]), np.array([[0, 1, 2]]))
    >>> nearest(Block((1.0, 1.0, 0.0), (5.0, 5.0, 5.0)), sheet).distance
    4.0
    """
    bounds = _bounds(block, surface)
    found = _least(block, surface.corners, np.arange(len(bounds)), bounds, None)
    if found is None:
        raise ValueError("a surface without triangles has no distance")
    return found


def ahead(face: Block, axis: int, way: int, surface: Surface) -> Gap | None:
    """The shortest way from a flat block to what it looks at along an axis, 1 or -1; None where to nothing.

    It looks at triangles that face it, and at edges and tips of others that stand out towards it: those from
    which every way along the surface leads further off. What merely runs past beside it is not ahead, be it
    as rough as scans are; where rough floor and wall share a cell, though, the floor may answer for the wall.
    """
    about = _about(surface)
    level = (face.high if way > 0 else face.low)[axis]
    reach = about.high[:, axis] - level if way > 0 else level - about.low[:, axis]
    bounds = _bounds(face, surface)
    before = (reach > 0.0) | (bounds == 0.0)
    facing = np.flatnonzero(before & about.facing[:, axis])
    best = _least(face, surface.corners, facing, bounds, (axis, way))
    most = best.distance if best else np.inf
    rest = np.flatnonzero(before & (bounds < most) & (reach >= AHEAD * bounds))
    others = [best] if best else []
    others += _standing_out(face, (axis, way), surface, rest)
    return min(others, key=lambda gap: gap.distance, default=None)


@dataclass(frozen=True, eq=False)
class _About:
    """The blocks round all triangles [mm], whether each faces along x, y and z, and a cell's size [mm]."""

    low: Numbers
    high: Numbers
    facing: Flags
    cell: float


@lru_cache(maxsize=16)
def _about(surface: Surface) -> _About:
    corners = surface.corners
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    areas = np.linalg.norm(normals, axis=1)
    ways = np.divide(normals, areas[:, None], out=np.zeros_like(normals), where=areas[:, None] > 0)
    sides = np.append(np.sqrt(squares(corners[:, 1] - corners[:, 0])), CELLS[0])
    cell = float(np.clip(2.0 * np.median(sides), *CELLS))
    cells = np.floor(corners.mean(axis=1) / cell).astype(np.int64)
    mean, level = (_over_cells(cells, areas, shares) for shares in (ways, ways**2))
    facing = (np.abs(ways) >= AHEAD) & ((np.abs(mean) >= MEAN) | (level >= LEVEL))
    return _About(corners.min(axis=1), corners.max(axis=1), facing, cell)


def _over_cells(cells: NDArray[np.int64], areas: Numbers, values: Numbers) -> Numbers:
    """The mean of the triangles' values by area over the cell that each lies in."""
    cells = cells - cells.min(axis=0, initial=0)
    sizes = cells.max(axis=0, initial=0) + 1
    _, own = np.unique((cells[:, 0] * sizes[1] + cells[:, 1]) * sizes[2] + cells[:, 2], return_inverse=True)
    own = own.reshape(-1)
    whole = np.maximum(np.bincount(own, areas), 1e-12)
    return np.stack([(np.bincount(own, areas * values[:, k]) / whole)[own] for k in range(3)], axis=1)


def _bounds(block: Block, surface: Surface) -> Numbers:
    """How far [mm] every triangle lies off at least."""
    about = _about(surface)
    found = np.zeros(len(about.low))
    for k in range(3):
        apart = np.maximum(about.low[:, k] - block.high[k], block.low[k] - about.high[:, k])
        found += np.square(np.maximum(apart, 0.0))
    return np.sqrt(found)


def _least(
    block: Block, corners: Numbers, chosen: NDArray[np.intp], bounds: Numbers, towards: tuple[int, int] | None
) -> Gap | None:
    """The shortest way to one of the chosen triangles; with an axis and way, to one that is approached."""
    order = chosen[np.argsort(bounds[chosen], kind="stable")]
    best: Gap | None = None
    for start in range(0, len(order), CHUNK):
        few = order[start : start + CHUNK]
        if best and bounds[few[0]] >= best.distance - 1e-9:
            break
        at, to = triangle_gaps(block, corners[few])
        long = np.sqrt(squares(at - to))
        if towards:
            out = (to - at)[:, towards[0]] * towards[1]
            long = np.where((out >= AHEAD * long) | (long == 0.0), long, np.inf)
        place = int(np.argmin(long))
        if long[place] < (best.distance if best else np.inf):
            best = _gap(at[place], to[place])
    return best


def _standing_out(
    face: Block, towards: tuple[int, int], surface: Surface, chosen: NDArray[np.intp]
) -> list[Gap]:
    """The shortest ways to a tip and to an edge from which the surface leads further off all round."""
    low, high = np.array(face.low), np.array(face.high)
    triangles = surface.triangles[chosen]
    if not len(triangles):
        return []
    used, local = np.unique(triangles, return_inverse=True)
    local = local.reshape(triangles.shape)
    points = surface.points[used]
    off = points - np.clip(points, low, high)
    leads_nearer = np.zeros(len(points), dtype=bool)
    for k, other in ((0, 1), (1, 2), (2, 0), (1, 0), (2, 1), (0, 2)):
        own, along = local[:, k], points[local[:, other]] - points[local[:, k]]
        leads_nearer[own[_falls(off[own], along)]] = True
    long = np.sqrt(squares(off))
    least = _least_around(points, local, long, _about(surface).cell)
    tips = points[~leads_nearer & (least >= long - FLAT)]
    return [
        gap
        for at, to in ((np.clip(tips, low, high), tips), _ridges(face, points, local, least))
        if (gap := _shortest_out(at, to, towards)) is not None
    ]


def _ridges(
    face: Block, points: Numbers, triangles: NDArray[np.intp], least: Numbers
) -> tuple[Numbers, Numbers]:
    """The ways to those edges whose nearest point lies between their ends, and nothing beside it nearer."""
    off = points - np.clip(points, np.array(face.low), np.array(face.high))
    a, b, c = (np.concatenate([np.roll(triangles, -k, axis=1)[:, j] for k in range(3)]) for j in range(3))
    along = points[b] - points[a]
    between = _falls(off[a], along) & _falls(off[b], -along)
    a, b, c = a[between], b[between], c[between]
    at, to = edge_gaps(face, points[a], points[b])
    bad = _falls(to - at, points[c] - to) | (least[a] < np.sqrt(squares(to - at)) - FLAT)
    _, same = np.unique(np.sort(np.stack([a, b], axis=1), axis=1), axis=0, return_inverse=True)
    spoilt = np.zeros(len(bad) + 1, dtype=bool)
    spoilt[same.reshape(-1)[bad]] = True
    kept = ~spoilt[same.reshape(-1)]
    return at[kept], to[kept]


def _least_around(points: Numbers, triangles: NDArray[np.intp], off: Numbers, cell: float) -> Numbers:
    """The least distance [mm] off within about a cell of every point, along edges shorter than that.

    Where a surface is cut finely, a bump is thus told from an end; where it is not, every point stands alone.
    """
    one, other = (np.concatenate([triangles[:, k - j] for k in range(3)]) for j in (0, 1))
    long = np.sqrt(squares(points[one] - points[other]))
    fine = long < cell
    if not fine.any():
        return off
    one, other, least = one[fine], other[fine], off.copy()
    for _ in range(int(np.clip(cell / max(float(long[fine].mean()), 1e-6), 2, MOST_STEPS))):
        before = least.copy()
        np.minimum.at(least, one, before[other])
        np.minimum.at(least, other, before[one])
    return least


def _falls(off: Numbers, along: Numbers) -> Flags:
    """True where the way `off` grows shorter at once, going `along`."""
    scale = np.sqrt(squares(off) * squares(along))
    found: Flags = np.einsum("ij,ij->i", off, along) < -FLAT * scale
    return found


def _shortest_out(at: Numbers, to: Numbers, towards: tuple[int, int]) -> Gap | None:
    """The shortest of the ways that lead far enough out along an axis."""
    long = np.sqrt(squares(to - at))
    out = (to - at)[:, towards[0]] * towards[1]
    fit = np.flatnonzero(out >= AHEAD * long)
    if not len(fit):
        return None
    place = fit[int(np.argmin(long[fit]))]
    return _gap(at[place], to[place])


def _gap(at: Numbers, to: Numbers) -> Gap:
    (x, y, z), (a, b, c) = (tuple(map(float, end)) for end in (at, to))
    return Gap((x, y, z), (a, b, c))
