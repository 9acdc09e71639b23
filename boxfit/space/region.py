"""What rooms and keep-outs of triangles leave free in plan for a part of a box between two levels."""

from collections.abc import Callable
from functools import lru_cache

import numpy as np
import shapely

from boxfit.bay import Bay, Vector
from boxfit.space.covered import covered
from boxfit.space.field import CRUMB, Metal
from boxfit.space.inside import is_room, is_solid
from boxfit.space.opening import FAR, TOWARDS
from boxfit.space.part import Part
from boxfit.space.shadow import Levels
from boxfit.surface import Shell, Surface

EVERYWHERE = shapely.box(-FAR, -FAR, FAR, FAR)


@lru_cache(maxsize=512)
def room_left(bay: Bay, shell: Shell, levels: Levels) -> shapely.Geometry:
    """The plan [mm] in which a part between the levels keeps its distance from the shell and gets in."""
    low, high = shell.low[:2], shell.high[:2]
    ends = bay.distance if shell.reads == "body" else 0.0
    if high[0] - low[0] <= 2 * ends or high[1] - low[1] <= 2 * ends:
        return shapely.Polygon()
    room = shapely.box(low[0] + ends, low[1] + ends, high[0] - ends, high[1] - ends)
    left = room.difference(_taken(bay, _closed(shell), levels, bay.distance))
    if shell.reads == "room":
        left = _parts(left, levels, lambda place: is_room(shell.surface, place))
    return left


@lru_cache(maxsize=512)
def kept_clear(bay: Bay, solid: Surface, levels: Levels, distance: float) -> shapely.Geometry:
    """The plan [mm] that a part between the levels must not meet to keep from a solid and get in past it."""
    beside = EVERYWHERE.difference(_taken(bay, _whole(solid), levels, distance))
    return EVERYWHERE.difference(_parts(beside, levels, lambda place: not is_solid(solid, place)))


def _taken(bay: Bay, passed: Part, levels: Levels, distance: float) -> shapely.Geometry:
    """The plan [mm] too near to a surface, or from which a box would run into the part it must pass."""
    surface = passed.surface
    if bay.opening is None:
        return covered(Metal(surface), levels, distance)
    way = bay.opening.way
    if way not in TOWARDS:
        return covered(Metal(surface, passed, way == "up", bay.tolerance), levels, distance)
    ahead = trailed(covered(Metal(passed.alone), levels, bay.tolerance), *TOWARDS[way])
    return shapely.union(covered(Metal(surface), levels, distance), ahead)


def _parts(region: shapely.Geometry, levels: Levels, is_free: Callable[[Vector], bool]) -> shapely.Geometry:
    """The parts of a plan that are free; none meets a surface between the levels, so one place tells."""
    middle = (levels[0] + levels[1]) / 2
    kept = []
    for part in shapely.get_parts(region):
        if isinstance(part, shapely.Polygon) and part.area >= CRUMB:
            place = part.representative_point()
            if is_free((place.x, place.y, middle)):
                kept.append(part)
    return shapely.union_all(kept)


@lru_cache(maxsize=16)
def _closed(shell: Shell) -> Part:
    """The shell's surface without what the opening takes."""
    return Part(shell.surface, ~shell.opens)


@lru_cache(maxsize=16)
def _whole(solid: Surface) -> Part:
    """A keep-out's surface, all of it."""
    return Part(solid, np.ones(len(solid.triangles), dtype=np.bool_))


def trailed(region: shapely.Geometry, dx: float, dy: float) -> shapely.Geometry:
    """A region with all from where something that moves along (dx, dy) would run into it.

    >>> trailed(shapely.box(0, 0, 1, 1), 1, 0).bounds[1:]
    (0.0, 1.0, 1.0)
    """
    shift = np.array([-FAR * dx, -FAR * dy])
    rings = [shapely.get_coordinates(ring) for ring in shapely.get_parts(shapely.boundary(region))]
    strips = [
        shapely.convex_hull(shapely.linestrings(np.concatenate([side, side + shift])))
        for ring in rings
        for side in np.stack([ring[:-1], ring[1:]], axis=1)
    ]
    return shapely.union_all([region, *strips])
