"""Where in plan a box between two levels would come too near to a surface of very many triangles.

The distance in space from an upright line between the levels to the surface's samples is worked out on a
grid, coarse far from the edge of the free plan and fine along it, and the edge drawn between the nodes. The
distance is the least of many convex ones: where two of them meet the edge drawn is on the safe side, and on
one sample's arc it is out by no more than a sagitta that `kept` adds.
"""

from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise
from math import ceil, hypot, sqrt

import contourpy
import numpy as np
import shapely
from numpy.typing import NDArray

from boxfit.space.part import Part
from boxfit.space.samples import on_part, samples
from boxfit.space.shadow import Levels
from boxfit.surface import Surface

MOST_NODES = 3000
"""Nodes along the surface, at most; further apart where it is very long."""
COARSE = 6
"""So many fine steps make a coarse one."""
NARROW = 16.0
"""No box is narrower than this [mm]."""
HAIR = 0.01
CRUMB = 25.0
"""Free parts smaller than this [mm2] are left out: no box stands there."""

Numbers = NDArray[np.float64]
Nearest = Callable[[Numbers], Numbers]
"""From places in plan, shape (n, 2), to how far [mm] each is from the nearest sample."""


@dataclass(frozen=True)
class Metal:
    """A surface a box keeps away from, and the part of it the box passes on its way straight up or down.

    From what it passes the box keeps the `tolerance` [mm].
    """

    surface: Surface
    passed: Part | None = None
    up: bool = True
    tolerance: float = 0.0


@dataclass(frozen=True)
class Grain:
    """How finely a distance of `least` or more is worked out [mm].

    Triangles with a side longer than `small` are sampled; nodes are `fine` apart along the edge; to thin its
    corners out the edge is moved by up to `drawn`, inwards only.
    """

    least: float
    small: float
    fine: float
    drawn: float

    @property
    def lost(self) -> float:
        """Room [mm] that drawing may cost at a side: where two sides meet, the edge cuts the corner off."""
        return self.drawn + self.fine / 2


GRAINS = (
    Grain(8.0, 3.2, 1.0, 0.2),
    Grain(2.5, 2.2, 0.5, 0.2),
    Grain(1.0, 1.6, 0.5, 0.15),
    Grain(0.3, 0.9, 0.5, 0.1),
)
"""The less is asked, the finer, so that no more than a millimetre of room is lost."""


def grain_for(distance: float) -> Grain:
    """The grain for a distance [mm]."""
    return next((grain for grain in GRAINS if distance >= grain.least), GRAINS[-1])


def kept(distance: float) -> float:
    """The distance [mm] the grid keeps from samples so that the triangles keep theirs.

    A triangle's nearest place is at right angles to the way there, with a sample within small / sqrt(3) of
    it; an arc drawn between nodes `fine` apart both ways is out by its sagitta.

    >>> round(kept(13.0), 3), round(kept(3.0), 3), round(kept(0.0), 3)
    (13.15, 3.279, 0.72)
    """
    grain = grain_for(distance)
    return kept_aside(max(distance, grain.least), grain)


def kept_aside(distance: float, grain: Grain) -> float:
    """The same with a given grain, be it too coarse for the distance."""
    between = grain.small / sqrt(3.0)
    return hypot(distance, between) + grain.fine**2 / (4 * max(distance, between))


def free_plan(metal: Metal, levels: Levels, distance: float) -> shapely.Geometry:
    """The plan [mm], within the metal's extent and a little more, that keeps the distance [mm] from it."""
    from scipy.spatial import cKDTree

    grain, lifted = grain_for(distance), _lifted(metal, levels, distance)
    surface, distance = metal.surface, kept(distance)
    low, high = surface.points[:, :2].min(axis=0), surface.points[:, :2].max(axis=0)
    step = max(grain.fine, float((high - low).max()) / MOST_NODES)
    first = low - distance - 2 * step
    shape = (
        ceil((high[0] - low[0] + 2 * distance) / step) + 4,
        ceil((high[1] - low[1] + 2 * distance) / step) + 4,
    )
    if not len(lifted):
        return shapely.box(*first, *(first + np.array(shape) * step))
    tree = cKDTree(lifted, balanced_tree=False, compact_nodes=False)

    def nearest(plan: Numbers) -> Numbers:
        upright = np.column_stack([plan, np.zeros(len(plan))])
        found: Numbers = tree.query(upright, distance_upper_bound=distance + 2 * COARSE * step)[0]
        return found

    away = _wide_enough(_field(nearest, first, step, shape, distance), distance, step)
    across, along = (first[k] + np.arange(shape[k]) * step for k in range(2))
    lines = contourpy.contour_generator(along, across, away, fill_type=contourpy.FillType.OuterOffset)
    polygons = [
        _polygon(points[:, ::-1], ends) for points, ends in zip(*lines.filled(distance, np.inf), strict=True)
    ]
    return shapely.union_all([_fewer_corners(one, grain.drawn) for one in polygons if one.area >= CRUMB])


def _lifted(metal: Metal, levels: Levels, distance: float) -> Numbers:
    """Samples near enough to matter: their places in plan, and how far above or below the levels [mm].

    What is passed on the way out need only be the tolerance away, in plan, however far ahead it is: it is
    taken to be as far above or below as makes the distance that tolerance.
    """
    small, reach = grain_for(distance).small, kept(distance)
    places = samples(metal.surface, small).places
    gap = np.maximum(np.maximum(levels[0] - places[:, 2], places[:, 2] - levels[1]), 0.0)
    near = gap < reach
    found = np.column_stack([places[near, :2], gap[near]])
    if metal.passed is None:
        return found
    aside = min(kept_aside(metal.tolerance, grain_for(distance)), reach)
    ahead = places[:, 2] - max(levels) if metal.up else min(levels) - places[:, 2]
    level = sqrt(reach**2 - aside**2)
    beyond = places[(ahead > level) & on_part(metal.passed, small), :2]
    return np.concatenate([found, np.column_stack([beyond, np.full(len(beyond), level)])])


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
    spread = np.arange(COARSE) - COARSE // 2
    beside = np.stack(np.meshgrid(spread, spread, indexing="ij"), axis=-1).reshape(-1, 2)
    fine = (close[:, None] + beside).reshape(-1, 2)
    fine = fine[(fine < shape).all(axis=1)]
    field[tuple(fine.T)] = nearest(first + fine * step)
    return np.minimum(field, edge + COARSE * step)


def _wide_enough(away: Numbers, distance: float, step: float) -> Numbers:
    """The field with all that is narrower than any box made to fall just short of the distance.

    Nodes within a square that is free stay as they are, so that a wide place keeps its edge. What is left out
    is mostly the crumbs between the highest points of a rough floor.
    """
    from scipy.ndimage import grey_opening

    free = away >= distance
    wide = grey_opening(free.astype(np.uint8), size=max(int(NARROW / step) - 1, 1), mode="nearest")
    return np.where(free & (wide == 0), distance - HAIR, away)


def _polygon(points: Numbers, ends: NDArray[np.integer]) -> shapely.Polygon:
    rings = [points[a:b] for a, b in pairwise(ends)]
    return shapely.Polygon(rings[0], rings[1:])


def _fewer_corners(polygon: shapely.Polygon, drawn: float) -> shapely.Geometry:
    """The polygon drawn in by half of `drawn` [mm] and its corners thinned out: wholly within what it was."""
    return shapely.simplify(shapely.buffer(polygon, -drawn / 2, quad_segs=4), drawn / 2)
