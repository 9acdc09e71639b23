"""What stands in the way of a box that keeps to a slab of the car, drawn in that slab's plane.

A box that turns about one axis of the car keeps its extent along that axis. Everything that reaches into
the slab between those two values, seen along the axis, is what it must not meet: exact for blocks, bars and
upright walls; triangles are drawn on a raster of `CELL` where they are many, never too small.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

import numpy as np
import shapely
from numpy.typing import NDArray

from boxfit.bay import Bay, Block, Cylinder, Opening, Point, Prism, Shell, Solid, Vector, Way
from boxfit.space.opening import FAR, TOWARDS, walls_beside
from boxfit.space.shadow import Polygon, shadow

Span = tuple[float, float]
Numbers = NDArray[np.float64]

CELL = 4.0
"""Side [mm] of the raster small triangles are drawn on."""
SMALL = 20.0
"""A triangle that is no longer [mm] than this either way is drawn on the raster."""
FEW_CORNERS = 12
ROUNDED = 0.2
"""Bars are drawn with straight sides as few as this allows [mm]."""
MENDED = 0.5
"""Drawings of triangles are grown by this [mm], so that no gap of rounding stays between neighbours."""

OUTWARDS: dict[Way, tuple[int, int]] = {
    "front": (0, 1),
    "rear": (0, -1),
    "left": (1, 1),
    "right": (1, -1),
    "up": (2, 1),
    "down": (2, -1),
}
"""The axis of each way, and whether it leads up or down that axis."""


@dataclass(frozen=True)
class Plane:
    """A plane to turn in: axis `across` to the right, the way out upwards, turning about axis `turns`."""

    across: int
    out: int
    sign: int
    turns: int

    def flat(self, point: Vector) -> Point:
        """A point of the car in this plane [mm]."""
        return (point[self.across], self.sign * point[self.out])


def planes(way: Way) -> tuple[Plane, Plane]:
    """Both planes a box may be turned in on its way out.

    >>> planes("up")
    (Plane(across=0, out=2, sign=1, turns=1), Plane(across=1, out=2, sign=1, turns=0))
    """
    out, sign = OUTWARDS[way]
    first, second = (axis for axis in range(3) if axis != out)
    return Plane(first, out, sign, second), Plane(second, out, sign, first)


def bounds(bay: Bay) -> tuple[Vector, Vector]:
    """The lowest and the highest corner [mm] of the block round a bay's room."""
    room = bay.room
    if isinstance(room, Shell):
        return room.low, room.high
    xs, ys = zip(*room.outline, strict=True)
    return (min(xs), min(ys), room.floor), (max(xs), max(ys), room.top)


def gate(bay: Bay, plane: Plane) -> float:
    """How far out [mm] in the plane the bay reaches: the level of its opening."""
    return max(plane.flat(corner)[1] for corner in bounds(bay))


@lru_cache(maxsize=8)
def crosscut(bay: Bay, opening: Opening, plane: Plane, span: Span) -> tuple[Polygon, ...]:
    """Convex pieces [mm] of the plane that a box within `span` [mm] along the turning axis must not meet.

    Nothing is known of what stands outside the bay, so nothing is drawn there but the metal round the hole.
    """
    pieces = [piece for keepout in bay.keepouts for piece in _of_solid(keepout.solid, plane, span)]
    if isinstance(bay.room, Shell):
        closed = bay.room.surface.triangles[~bay.room.opens]
        pieces += _of_triangles(bay.room.surface.points[closed], bay.room.surface.off, plane, span)
    if isinstance(bay.room, Prism) or bay.room.reads == "body":
        pieces += _of_prism(bay, opening, plane, span)
    if opening.outline is not None:
        pieces += _round_hole(bay, opening.outline, plane, span)
    return tuple(pieces)


def _of_solid(solid: Solid, plane: Plane, span: Span) -> list[Polygon]:
    """One keep-out as seen along the turning axis."""
    if not isinstance(solid, Block | Cylinder):
        return _of_triangles(solid.corners, solid.off, plane, span)

    def turned(point: Vector) -> Vector:
        return (*plane.flat(point), point[plane.turns])

    if isinstance(solid, Block):
        (u, v, w), (a, b, c) = turned(solid.low), turned(solid.high)
        seen = shadow(Block((u, min(v, b), w), (a, max(v, b), c)), span, 0.0)
    else:
        seen = shadow(Cylinder(turned(solid.start), turned(solid.end), solid.diameter), span, 0.0)
    return [] if seen is None else [_plainer(seen)]


def _plainer(polygon: Polygon) -> Polygon:
    """A convex polygon with fewer corners, nowhere smaller and at most twice `ROUNDED` larger."""
    if len(polygon) <= FEW_CORNERS:
        return polygon
    drawn = shapely.Polygon(polygon).buffer(ROUNDED, join_style="mitre").simplify(ROUNDED).convex_hull
    return tuple((float(u), float(v)) for u, v in drawn.exterior.coords[:-1])


def _of_prism(bay: Bay, opening: Opening, plane: Plane, span: Span) -> Iterator[Polygon]:
    """Walls, floor and top of a prism, less the side the opening takes."""
    low, high = bounds(bay)
    outline = bay.room.outline
    if isinstance(bay.room, Shell):
        outline = ((low[0], low[1]), (high[0], low[1]), (high[0], high[1]), (low[0], high[1]))
    walls = list(zip(outline, outline[1:] + outline[:1], strict=True))
    if opening.way in TOWARDS:
        walls = walls_beside(outline, opening)
    for (ax, ay), (bx, by) in walls:
        wall = [(ax, ay, low[2]), (bx, by, low[2]), (bx, by, high[2]), (ax, ay, high[2])]
        yield from flat_pieces(np.array([wall]), plane, span)
    for way, level in (("down", low[2]), ("up", high[2])):
        if way != opening.way and plane.turns != 2:
            yield from _level_pieces(shapely.Polygon(outline), level, plane, span)


def _level_pieces(region: shapely.Polygon, level: float, plane: Plane, span: Span) -> Iterator[Polygon]:
    """A level sheet of metal seen from its edge, as lines in an upright plane."""
    seen = 1 - plane.turns
    for low, high in _extents(region, plane.turns, span):
        ends = [tuple(end if axis == seen else 0.0 for axis in range(2)) for end in (low, high)]
        (a, b), (c, d) = (plane.flat((x, y, level)) for x, y in ends)
        yield ((a, b), (c, d))


def _round_hole(bay: Bay, hole: tuple[Point, ...], plane: Plane, span: Span) -> Iterator[Polygon]:
    """The metal round the hole, seen from its edge: lines at the level of the opening."""
    metal = shapely.box(-FAR, -FAR, FAR, FAR).difference(shapely.Polygon(hole))
    drawn_in = [axis for axis in range(3) if axis != plane.out]
    level = gate(bay, plane)
    for low, high in _extents(metal, drawn_in.index(plane.turns), span):
        yield ((low, level), (high, level))


def _extents(region: shapely.Polygon, axis: int, span: Span) -> list[Span]:
    """From where to where [mm] across the parts reach that a strip of the region's plane cuts from it."""
    strip = [-2 * FAR, -2 * FAR, 2 * FAR, 2 * FAR]
    strip[axis], strip[axis + 2] = span
    parts = shapely.get_parts(region.intersection(shapely.box(*strip)))
    return [(part.bounds[1 - axis], part.bounds[3 - axis]) for part in parts if part.area > 0.0]


def flat_pieces(flats: Numbers, plane: Plane, span: Span) -> list[Polygon]:
    """Flat convex faces, shape (n, corners, 3) [mm], cut to the span and seen along the turning axis."""
    points = np.stack(
        [flats[..., plane.across], plane.sign * flats[..., plane.out], flats[..., plane.turns]], axis=-1
    )
    reaching = (points[..., 2].max(axis=1) > span[0]) & (points[..., 2].min(axis=1) < span[1])
    points = points[reaching]
    following = np.roll(points, -1, axis=1)
    found = [points]
    for level in span:
        before, after = points[..., 2] - level, following[..., 2] - level
        crossing = before * after < 0
        part = np.divide(before, before - after, out=np.zeros_like(before), where=crossing)
        cut = points + part[..., None] * (following - points)
        cut[..., 2] = np.where(crossing, level, np.inf)
        found.append(cut)
    every = np.concatenate(found, axis=1)
    within = (every[..., 2] >= span[0]) & (every[..., 2] <= span[1])
    return [
        tuple((float(u), float(v)) for u, v in row[kept, :2]) for row, kept in zip(every, within, strict=True)
    ]


def _of_triangles(corners: Numbers, off: float, plane: Plane, span: Span) -> list[Polygon]:
    """The edges of all that the triangles cover: a box that starts outside cannot pass them."""
    pieces = flat_pieces(corners, plane, (span[0] - off, span[1] + off))
    if not pieces:
        return []
    ends = np.array([(*np.min(piece, axis=0), *np.max(piece, axis=0)) for piece in pieces])
    small = (ends[:, 2:] - ends[:, :2]).max(axis=1) <= SMALL
    large = [
        shapely.MultiPoint(piece).convex_hull
        for piece, is_small in zip(pieces, small, strict=True)
        if not is_small
    ]
    drawn = shapely.union_all([*large, *_rasters(ends[small])])
    covered = drawn.buffer(off + 2 * MENDED, quad_segs=2).simplify(MENDED)
    found: list[Polygon] = []
    for part in shapely.get_parts(covered):
        for ring in (part.exterior, *part.interiors):
            line = [(float(u), float(v)) for u, v in ring.coords]
            found += pairwise(line)
    return found


def _rasters(ends: Numbers) -> list[shapely.Polygon]:
    """The cells that blocks of the plane touch, shape (n, 4) [mm], each cell once."""
    first = np.floor(ends[:, :2] / CELL).astype(np.int64)
    last = np.floor(ends[:, 2:] / CELL).astype(np.int64)
    cells: set[tuple[int, int]] = set()
    for (i, j), (k, m) in zip(first.tolist(), last.tolist(), strict=True):
        cells.update((a, b) for a in range(i, k + 1) for b in range(j, m + 1))
    return [shapely.box(a * CELL, b * CELL, (a + 1) * CELL, (b + 1) * CELL) for a, b in sorted(cells)]
