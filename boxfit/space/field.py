"""Where in plan a box between two levels would come too near to a surface of very many triangles.

The distance in space from an upright line between the levels to the surface's samples is worked out on a
grid, coarse far from the edge of the free plan and fine along it, and the edge drawn between the nodes. The
distance is the least of many convex ones: where two of them meet the edge drawn is on the safe side, and on
one sample's arc it is out by no more than the sagitta that `spare` holds.
"""

from collections.abc import Callable
from itertools import pairwise
from math import ceil, sqrt

import contourpy
import numpy as np
import shapely
from numpy.typing import NDArray

from boxfit.space.samples import NEAR, samples
from boxfit.space.shadow import Levels
from boxfit.surface import Surface

FINE = 1.0
"""Nodes are this far apart [mm] along the edge, further where the surface is longer than `MOST_NODES`."""
MOST_NODES = 3000
COARSE = 6
"""So many fine steps make a coarse one."""
DRAWN = 0.3
"""The edge is drawn with fewer corners, none of its places moved by more than this [mm], inwards only."""

CRUMB = 25.0
"""Free parts smaller than this [mm2] are left out: no box stands there."""

Numbers = NDArray[np.float64]
Nearest = Callable[[Numbers], Numbers]
"""From places in plan, shape (n, 2), to how far [mm] each is from the nearest sample."""


def spare(distance: float) -> float:
    """What must be added to a distance [mm] so that the edge drawn never leaves out what the triangles ask.

    A triangle's nearest place is at right angles to the way there, with a sample within NEAR of it; an arc
    drawn between nodes FINE apart both ways is out by its sagitta.

    >>> round(spare(13.0), 3)
    0.158
    """
    return (NEAR**2 / 2 + FINE**2 / 4) / max(distance, NEAR)


def free_plan(surface: Surface, levels: Levels, distance: float) -> shapely.Geometry:
    """The plan [mm], within the surface's extent and a little more, that keeps the distance [mm] from it."""
    from scipy.spatial import cKDTree

    places = samples(surface)
    gap = np.maximum(np.maximum(levels[0] - places[:, 2], places[:, 2] - levels[1]), 0.0)
    near = gap < distance
    low, high = surface.points[:, :2].min(axis=0), surface.points[:, :2].max(axis=0)
    step = max(FINE, float((high - low).max()) / MOST_NODES)
    first = low - distance - 2 * step
    shape = (
        ceil((high[0] - low[0] + 2 * distance) / step) + 4,
        ceil((high[1] - low[1] + 2 * distance) / step) + 4,
    )
    if not near.any():
        return shapely.box(*first, *(first + np.array(shape) * step))
    lifted = np.column_stack([places[near, :2], gap[near]])
    tree = cKDTree(lifted, balanced_tree=False, compact_nodes=False)

    def nearest(plan: Numbers) -> Numbers:
        upright = np.column_stack([plan, np.zeros(len(plan))])
        found: Numbers = tree.query(upright, distance_upper_bound=distance + 2 * COARSE * step)[0]
        return found

    away = _field(nearest, first, step, shape, distance)
    across, along = (first[k] + np.arange(shape[k]) * step for k in range(2))
    drawn = contourpy.contour_generator(along, across, away, fill_type=contourpy.FillType.OuterOffset).filled(
        distance, np.inf
    )
    polygons = [_polygon(points[:, ::-1], offsets) for points, offsets in zip(*drawn, strict=True)]
    return shapely.union_all([_fewer_corners(polygon) for polygon in polygons if polygon.area >= CRUMB])


def _field(nearest: Nearest, first: Numbers, step: float, shape: tuple[int, int], edge: float) -> Numbers:
    """How far [mm] every node is from the nearest sample: exact near the `edge`, else on its right side.

    A distance changes no faster than the place: where a coarse node is further from the edge than any node
    it stands for can make good, its own distance stands for theirs.
    """
    rows, columns = (np.arange(COARSE // 2, side + COARSE, COARSE) for side in shape)
    nodes = np.stack(np.meshgrid(rows, columns, indexing="ij"), axis=-1).reshape(-1, 2)
    away = nearest(first + nodes * step)
    field = away.reshape(len(rows), len(columns)).repeat(COARSE, axis=0).repeat(COARSE, axis=1)
    field = field[: shape[0], : shape[1]]
    reach = step * (COARSE / 2 * sqrt(2.0) + 2.0)
    close = nodes[np.abs(away - edge) <= reach]
    beside = np.stack(np.meshgrid(*[np.arange(COARSE) - COARSE // 2] * 2, indexing="ij"), axis=-1).reshape(
        -1, 2
    )
    fine = (close[:, None] + beside).reshape(-1, 2)
    fine = fine[(fine < shape).all(axis=1)]
    field[tuple(fine.T)] = nearest(first + fine * step)
    return np.minimum(field, edge + COARSE * step)


def _polygon(points: Numbers, offsets: NDArray[np.integer]) -> shapely.Polygon:
    rings = [points[a:b] for a, b in pairwise(offsets)]
    return shapely.Polygon(rings[0], rings[1:])


def _fewer_corners(polygon: shapely.Polygon) -> shapely.Geometry:
    """The polygon drawn in by half of `DRAWN` and its corners thinned out: wholly within what it was."""
    return shapely.simplify(shapely.buffer(polygon, -DRAWN / 2, quad_segs=4), DRAWN / 2)
