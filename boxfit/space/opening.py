"""What stands in the way of a box that moves straight out through its opening.

The path keeps the survey's tolerance from everything: the survey may be out by that much, and nothing is met.
"""

import shapely

from boxfit.bay import Bay, Opening, Point, Prism, Surface
from boxfit.space.plan import PlanRoom
from boxfit.space.shadow import Levels, Polygon, grown, shadow

FAR = 1e5
"""Further [mm] than any bay reaches."""

TOWARDS: dict[str, tuple[float, float]] = {"front": (1, 0), "rear": (-1, 0), "left": (0, 1), "right": (0, -1)}


def way_in_pieces(
    bay: Bay, opening: Opening, bands: tuple[Levels, Levels]
) -> tuple[list[Polygon], list[Polygon]]:
    """What the walls and what the flange must not meet in plan [mm] for the way out to be free.

    `bands` are the levels of walls and flange. Surfaces of triangles are left to `region`.
    """
    body, rim = bands
    if opening.way == "up":
        body, rim = (body[0], FAR), (rim[0], FAR)
    elif opening.way == "down":
        body, rim = (-FAR, body[1]), (-FAR, rim[1])
    found: tuple[list[Polygon], list[Polygon]] = ([], [])
    for pieces, band in zip(found, (body, rim), strict=True):
        solids = (keepout.solid for keepout in bay.keepouts)
        shadows = (shadow(one, band, bay.tolerance) for one in solids if not isinstance(one, Surface))
        pieces.extend(_trailed(piece, opening) for piece in shadows if piece is not None)
    if opening.way in TOWARDS and isinstance(bay.room, Prism):
        walls = [grown(edge, bay.tolerance) for edge in walls_beside(bay.room.outline, opening)]
        found[1].extend(_trailed(wall, opening) for wall in walls)
    return found


def _trailed(piece: Polygon, opening: Opening) -> Polygon:
    """The piece with all from where a box moving out would run into it, as points of a convex hull."""
    if opening.way not in TOWARDS:
        return piece
    dx, dy = TOWARDS[opening.way]
    return piece + tuple((x - FAR * dx, y - FAR * dy) for x, y in piece)


def walls_beside(outline: tuple[Point, ...], opening: Opening) -> list[tuple[Point, Point]]:
    """The sides of the outline less those the opening takes.

    Those are the ones that face its way within 45 degrees, from any outermost corner on without a break.
    """
    dx, dy = TOWARDS[opening.way]
    ahead = [x * dx + y * dy for x, y in outline]
    sides = list(zip(outline, outline[1:] + outline[:1], strict=True))
    taken: set[int] = set()
    for corner in (k for k, reached in enumerate(ahead) if reached == max(ahead)):
        for side, step in ((corner, 1), (corner - 1, -1)):
            here = side % len(sides)
            while _faces(sides[here], dx, dy) and here not in taken:
                taken.add(here)
                here = (here + step) % len(sides)
    return [side for k, side in enumerate(sides) if k not in taken]


def _faces(side: tuple[Point, Point], dx: float, dy: float) -> bool:
    """True where the side of a counter-clockwise outline looks towards (dx, dy), at most 45 degrees off."""
    (x0, y0), (x1, y1) = side
    outward = (y1 - y0, x0 - x1)
    along, aside = outward[0] * dx + outward[1] * dy, outward[0] * dy - outward[1] * dx
    return along > 0 and along >= abs(aside)


def gate_pieces(
    opening: Opening, edges: tuple[tuple[Point, Point], ...], band: Levels, tolerance: float
) -> PlanRoom:
    """What a hole in an upright side asks, in plan, of a box part between the levels of `band` [mm].

    Across the way (y for front and rear, x for left and right) the part must stay between the hole's edges
    at all of its levels: each edge blocks a strip, and the strip outside of the hole is no place at all.
    """
    if band[0] > band[1]:
        return PlanRoom((), ())
    middle = (band[0] + band[1]) / 2
    crossings = sorted(
        a0 + (middle - z0) / (z1 - z0) * (a1 - a0)
        for (a0, z0), (a1, z1) in edges
        if min(z0, z1) <= middle < max(z0, z1)
    )
    within = [_strip(opening, a, b) for a, b in zip(crossings[::2], crossings[1::2], strict=True)]
    blocked = []
    for edge in edges:
        span = _span_within(grown(edge, tolerance), band)
        if span is not None:
            blocked.append(_strip(opening, *span))
    if len(within) == 1:
        return PlanRoom((shapely.Polygon(within[0]),), tuple(blocked))
    if not within:
        return PlanRoom((shapely.Polygon(),), tuple(blocked))
    between = [_strip(opening, b, a) for b, a in zip(crossings[1:-1:2], crossings[2:-1:2], strict=True)]
    whole = shapely.Polygon(_strip(opening, crossings[0], crossings[-1]))
    return PlanRoom((whole,), tuple(blocked + between))


def _strip(opening: Opening, low: float, high: float) -> Polygon:
    """The strip of the plan between two values across the way."""
    if opening.way in ("front", "rear"):
        return ((-FAR, low), (FAR, low), (FAR, high), (-FAR, high))
    return ((low, -FAR), (high, -FAR), (high, FAR), (low, FAR))


def _span_within(polygon: Polygon, band: Levels) -> tuple[float, float] | None:
    """The least and greatest first coordinate of the part of a convex (a, z) polygon between two levels."""
    reached = [a for a, z in polygon if band[0] < z < band[1]]
    for (a0, z0), (a1, z1) in zip(polygon, polygon[1:] + polygon[:1], strict=True):
        for level in band:
            if (z0 - level) * (z1 - level) < 0:
                reached.append(a0 + (level - z0) / (z1 - z0) * (a1 - a0))
    if not reached or max(z for _, z in polygon) <= band[0] or min(z for _, z in polygon) >= band[1]:
        return None
    return min(reached), max(reached)
