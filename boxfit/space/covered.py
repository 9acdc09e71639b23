"""Where in plan a box between two levels would come too near to a surface of triangles.

Few triangles are all drawn; of many, the distance is worked out on a grid.
"""

from collections.abc import Iterable
from dataclasses import replace
from functools import lru_cache
from math import inf

import numpy as np
import shapely
from numpy.typing import NDArray

from boxfit.space.columns import columns, span_of
from boxfit.space.field import GRAINS, Metal, free_plan, grain_for, kept, kept_aside
from boxfit.space.shadow import Levels
from boxfit.space.triangle_shadow import triangle_shadow
from boxfit.surface import Surface

FEW = 300
"""So many triangles are drawn without asking which of them matter."""


@lru_cache(maxsize=512)
def covered(metal: Metal, levels: Levels, distance: float) -> shapely.Geometry:
    """The plan [mm] a box between the levels must not meet to keep the distance [mm] from metal and pass it.

    Never too small; see `loosened` for how much too large it may be.
    """
    surface, passed = metal.surface, metal.passed
    asked = distance + surface.off
    near = _near(surface, levels, asked)
    beyond = (max(levels), inf) if metal.up else (-inf, min(levels))
    ahead = _near(surface, beyond, metal.tolerance) if passed else near[:0]
    ahead = ahead[passed.chosen[ahead]] if passed else ahead
    if max(len(near), len(ahead)) > FEW:
        metal = replace(metal, tolerance=metal.tolerance + surface.off)
        reach = kept(asked)
        low, high = surface.points[:, :2].min(axis=0) - reach, surface.points[:, :2].max(axis=0) + reach
        return shapely.difference(shapely.box(*low, *high), free_plan(metal, levels, asked))
    taken = _shadows(surface, near, levels, asked)
    if passed is None:
        return taken
    return shapely.union(taken, _shadows(surface, ahead, beyond, metal.tolerance + surface.off))


def kept_from(surface: Surface, distance: float) -> float:
    """The distance [mm] in fact kept from a surface's triangles where `distance` is asked, drawing apart."""
    asked = distance + surface.off
    return kept(asked) if len(surface.triangles) > FEW else asked


def loosened(surface: Surface, distance: float) -> float:
    """A distance [mm] at which `covered` covers nothing that the distance asked leaves free.

    Less than 0 where the drawing is too coarse for that.
    """
    if not surface.off and len(surface.triangles) <= FEW:
        return distance
    at_most = distance - _too_large(surface, 0.0)
    return distance - _too_large(surface, at_most) if at_most > 0 else at_most


def loosened_tolerance(surface: Surface, tolerance: float) -> float:
    """A tolerance [mm] on the way past a surface at which nothing is covered that `tolerance` leaves free.

    Less than 0 where the drawing is too coarse for any.
    """
    if not surface.off and len(surface.triangles) <= FEW:
        return tolerance
    coarsest = GRAINS[0]
    drawn = 2 * surface.off + kept_aside(surface.off, coarsest) + coarsest.lost
    return 0.0 if drawn <= tolerance else -1.0


def _too_large(surface: Surface, distance: float) -> float:
    """How much more distance [mm] than the triangles ask `covered` may keep; less for greater distances."""
    drawn = grain_for(distance).lost if len(surface.triangles) > FEW else 0.0
    return kept_from(surface, distance) - distance + surface.off + drawn


@lru_cache(maxsize=16)
def _heights(surface: Surface) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """The lowest and the highest level of each triangle [mm]."""
    return span_of(*columns(surface, 2))


def _near(surface: Surface, levels: Levels, distance: float) -> NDArray[np.int64]:
    """The triangles that are within the distance [mm] of the levels."""
    low, high = _heights(surface)
    found: NDArray[np.int64] = np.flatnonzero((low < levels[1] + distance) & (high > levels[0] - distance))
    return found


def _shadows(surface: Surface, which: Iterable[int], levels: Levels, distance: float) -> shapely.Geometry:
    """The shadows of some triangles together."""
    drawn = (triangle_shadow(surface.points[surface.triangles[k]], levels, distance) for k in which)
    return shapely.union_all([shadow for shadow in drawn if shadow is not None])
