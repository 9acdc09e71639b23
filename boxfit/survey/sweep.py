"""Everything a moving solid covers: a wheel at lock and bump, a bonnet on its hinge."""

from dataclasses import dataclass
from itertools import pairwise
from math import acos, ceil, cos, pi, radians, sin

import numpy as np
from numpy.typing import NDArray

from boxfit.bay import Solid
from boxfit.surface import Surface, Vector
from boxfit.survey.hulls import convex_hull, is_convex, patches, together
from boxfit.survey.skin import skin
from boxfit.survey.solids import as_surface

ARC = 0.1
"""How far [mm] an arc may stand outside the straight steps it is taken in."""
BESIDE = 2.0
"""How much larger [mm] a step may make what is swept, on the side towards the hinge."""
MOST_TRIANGLES = 50_000
"""About as many, of one moving solid; where fine steps would take more, parts are taken together."""

Points = NDArray[np.float64]


@dataclass(frozen=True)
class Motion:
    """How a solid moves from where it is drawn.

    `moves` [mm] are the offsets it visits one after the other in straight lines, from where it is drawn.
    At every place of that way it turns through all angles `turns` [degrees], from the first to the second,
    about the line `hinge` through two points [mm], right-handed from the first to the second; the hinge
    moves along.
    """

    moves: tuple[Vector, ...] = ()
    hinge: tuple[Vector, Vector] | None = None
    turns: tuple[float, float] = (0.0, 0.0)


def swept(solid: Solid, motion: Motion) -> Surface:
    """The skin [mm] of everything the moving solid covers.

    Never smaller than that by more than `off`. Straight moves of a convex solid are exact, and so are those
    of any closed surface until it has too many triangles. Turns are taken in steps; `off` says how far the
    arcs stand outside them, at most 0.1 mm unless there are too many steps. Round bars are as in
    `as_surface`. A surface that turns and is not convex, or has too many triangles, is taken in patches
    of neighbouring triangles, each replaced by a block round it: larger, never smaller.
    """
    surface = as_surface(solid)
    way = [np.zeros(3), *(np.array(move) for move in motion.moves)]
    first, last = sorted(motion.turns)
    if motion.hinge is None or first == last:
        if motion.hinge is not None:
            turned = _turned(surface.points, motion.hinge, radians(first))
            surface = Surface(turned, surface.triangles, surface.off)
        return _moved(surface, way)
    return _swung(surface, way, motion.hinge, (radians(first), radians(last)))


def _moved(surface: Surface, way: list[Points]) -> Surface:
    """The surface on its way along straight lines, not turning."""
    legs = [(one, other) for one, other in pairwise(way) if (one != other).any()]
    if not legs:
        return surface
    if is_convex(surface):
        return together([convex_hull(_at(surface.points, leg)) for leg in legs], surface.off)
    if 8 * len(legs) * len(surface.triangles) <= MOST_TRIANGLES:
        return together([surface, *(_ahead(surface, *leg) for leg in legs)], surface.off)
    hulls = [
        convex_hull(_at(group, leg))
        for group in patches(surface, MOST_TRIANGLES // (4 * len(legs)))
        for leg in legs
    ]
    return skin([surface, *hulls], surface.off)


def _at(points: Points, places: tuple[Points, ...]) -> Points:
    """The points at each of the places."""
    return np.concatenate([points + place for place in places])


def _ahead(surface: Surface, start: Points, end: Points) -> Surface:
    """What the triangles that face the way ahead pass through: with the solid at the start, all it covers."""
    along = end - start
    corners = surface.corners
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    steep = normals @ along
    facing = steep > 1e-12 * np.linalg.norm(normals, axis=1) * np.linalg.norm(along)
    back = corners[facing] + start
    points = np.concatenate([back, back + along], axis=1).reshape(-1, 3)
    wedge = np.array([[0, 2, 1], [3, 4, 5], [0, 1, 4], [0, 4, 3], [1, 2, 5], [1, 5, 4], [2, 0, 3], [2, 3, 5]])
    triangles = (6 * np.arange(len(back))[:, None, None] + wedge).reshape(-1, 3)
    return Surface(points, triangles)


def _swung(
    surface: Surface, way: list[Points], hinge: tuple[Vector, Vector], turns: tuple[float, float]
) -> Surface:
    """The surface on its way, turned at every place of it."""
    legs = list(pairwise(way)) if len(way) > 1 else [(way[0],)]
    radius = float(_from_line(surface.points, hinge).max())
    angle = turns[1] - turns[0]
    each = 4 * len(legs)
    fewest = ceil(angle / (pi / 2.0))
    steps = max(fewest, min(ceil(angle / _step_for(radius)), MOST_TRIANGLES // (8 * each)))
    most = MOST_TRIANGLES // (each * steps)
    whole = convex_hull(surface.points).points if is_convex(surface) else None
    groups = patches(surface, most) if whole is None or len(whole) > most else [whole]
    widest = max(float(np.linalg.norm(np.ptp(group, axis=0))) for group in groups)
    finer = min(ceil(angle * widest / (4.0 * BESIDE)), MOST_TRIANGLES // (2 * each * sum(map(len, groups))))
    steps = max(steps, finer)
    angles = np.linspace(turns[0], turns[1], steps + 1)
    parts = [Surface(_turned(surface.points, hinge, turns[0]), surface.triangles)]
    for group in groups:
        for one, other in pairwise([_turned(group, hinge, float(value)) for value in angles]):
            both = np.concatenate([one, other])
            parts.extend(convex_hull(_at(both, leg)) for leg in legs)
    return skin(parts, surface.off + radius * (1.0 - cos(angle / steps / 2.0)))


def _step_for(radius: float) -> float:
    """The angle [rad] whose arc stands `ARC` [mm] outside its chord."""
    return 2.0 * acos(1.0 - ARC / radius) if radius > ARC else pi / 2.0


def _from_line(points: Points, line: tuple[Vector, Vector]) -> Points:
    """Distances [mm] of points from the line through two points."""
    start, axis = np.array(line[0]), _direction(line)
    found: Points = np.linalg.norm(np.cross(points - start, axis), axis=1)
    return found


def _direction(line: tuple[Vector, Vector]) -> Points:
    """The direction of a line, of length 1."""
    along = np.array(line[1]) - np.array(line[0])
    found: Points = along / np.linalg.norm(along)
    return found


def _turned(points: Points, hinge: tuple[Vector, Vector], angle: float) -> Points:
    """Points turned about a line by an angle [rad] (Rodrigues' formula, from memory)."""
    start, axis = np.array(hinge[0]), _direction(hinge)
    away = points - start
    along = np.outer(away @ axis, axis)
    found: Points = start + along + cos(angle) * (away - along) + sin(angle) * np.cross(axis, away)
    return found
