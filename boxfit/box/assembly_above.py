"""What of a bay stays above a box in its place, and what it leaves free for modules, hand and spanner."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial

import numpy as np
import shapely
from numpy.typing import NDArray

from boxfit.bay import Bay, Block, Cylinder, Point, Shell, Surface
from boxfit.space.crosscut import Plane, flat_pieces
from boxfit.space.shadow import Levels, shadow

FAR = 1e5
"""Further [mm] than any bay reaches."""
SEEN_FROM_ABOVE = Plane(across=0, out=1, sign=1, turns=2)

Plan = tuple[float, float, float, float]
"""Bounds in plan [mm]: the low corner, then the high."""


@dataclass(frozen=True)
class Above:
    """Something that may stay above a box; `covers` gives the plan [mm] it covers between two levels."""

    name: str
    covers: Callable[[Levels], shapely.Geometry]


def above(bay: Bay, near: Plan) -> tuple[Above, ...]:
    """Keep-outs, surveyed surface and edge of the hole as far as they reach the plan `near`.

    The survey's tolerance is included.
    """
    found = [Above(keepout.name, _covers(keepout.solid, bay.tolerance, near)) for keepout in bay.keepouts]
    if isinstance(bay.room, Shell):
        closed = bay.room.surface.points[bay.room.surface.triangles[~bay.room.opens]]
        covers = partial(_of_triangles, _near(closed, near), bay.tolerance + bay.room.surface.off)
        found.append(Above("the surveyed surface", covers))
    if bay.opening is not None and bay.opening.outline is not None:
        metal = _round(bay.opening.outline, bay.tolerance)
        found.append(Above("the edge of the opening", partial(_sheet, metal, bay.room.top - bay.tolerance)))
    return tuple(found)


def _covers(
    solid: Block | Cylinder | Surface, tolerance: float, near: Plan
) -> Callable[[Levels], shapely.Geometry]:
    if isinstance(solid, Surface):
        return partial(_of_triangles, _near(solid.corners, near), tolerance + solid.off)
    return partial(_of_solid, solid, tolerance)


def _of_solid(solid: Block | Cylinder, tolerance: float, levels: Levels) -> shapely.Geometry:
    seen = shadow(solid, levels, tolerance)
    return shapely.Polygon() if seen is None or len(seen) < 3 else shapely.Polygon(seen)


def _near(corners: NDArray[np.float64], near: Plan) -> NDArray[np.float64]:
    """The triangles that reach some place of the plan."""
    low, high = corners[:, :, :2].min(axis=1), corners[:, :, :2].max(axis=1)
    reaching = (low <= near[2:]).all(axis=1) & (high >= near[:2]).all(axis=1)
    return np.asarray(corners[reaching])


def _of_triangles(corners: NDArray[np.float64], distance: float, levels: Levels) -> shapely.Geometry:
    """What triangles cover between levels; what lies within the distance of the levels counts as between."""
    pieces = flat_pieces(corners, SEEN_FROM_ABOVE, (levels[0] - distance, levels[1] + distance))
    return shapely.union_all(
        [shapely.MultiPoint(piece).convex_hull.buffer(distance + 1e-6) for piece in pieces]
    )


def _round(hole: tuple[Point, ...], tolerance: float) -> shapely.Geometry:
    """The metal round a hole."""
    everywhere = shapely.box(-FAR, -FAR, FAR, FAR)
    return everywhere.difference(shapely.Polygon(hole).buffer(-tolerance, join_style="mitre"))


def _sheet(metal: shapely.Geometry, level: float, levels: Levels) -> shapely.Geometry:
    """A sheet at a level, if it lies between or above the levels told."""
    return metal if levels[1] > level else shapely.Polygon()
