"""Where a rectangle square to the car can lie in plan.

A rectangle lies free where it meets none of the convex `pieces` and its middle is `inside` every region
(the regions' own edges are among the pieces). Exact but for `SLACK`, by which a rectangle is taken
smaller all round so that a box that fits to a hair still fits.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

import numpy as np
import shapely
from numpy.typing import NDArray

from boxfit.bay import Point
from boxfit.space.shadow import Polygon

SLACK = 1e-6


@dataclass(frozen=True)
class PlanRoom:
    """Free plan [mm] for a rectangle: what it must be inside of, and what it must not meet."""

    inside: tuple[shapely.Geometry, ...]
    pieces: tuple[Polygon, ...]

    def places(self, width: float, depth: float) -> shapely.Geometry:
        """All low corners [mm] of a width x depth rectangle (x by y) that lies free; may be empty."""
        return self._corners(width, depth)

    def deepest(self, width: float) -> float:
        """The greatest depth [mm] (along y) of a free rectangle of this width (along x); 0 where none is.

        >>> square = ((0.0, 0.0), (10.0, 0.0), (10.0, 20.0), (0.0, 20.0))
        >>> edges = tuple(zip(square, square[1:] + square[:1]))
        >>> round(PlanRoom((shapely.Polygon(square),), edges).deepest(7.0), 3)
        20.0
        """
        chord = longest_upright_chord(self._corners(width, 2 * SLACK))
        return 0.0 if chord == 0.0 else chord + 2 * SLACK

    def _corners(self, width: float, depth: float) -> shapely.Geometry:
        if width <= 2 * SLACK or not self.inside or not self.pieces:
            return shapely.Polygon()
        spans = (-(width - SLACK), -SLACK), (-(depth - SLACK), -SLACK)
        blocked = shapely.union_all(self._outlines.swept(*spans))
        # The middle of a rectangle is far from its sides, so noise at a wall cannot put it on the wrong side.
        middle = np.array([width / 2, depth / 2])
        within = [shapely.transform(one, lambda corners: corners - middle) for one in self.inside]
        return shapely.intersection_all(within).difference(blocked)

    @cached_property
    def _outlines(self) -> "_Outlines":
        return _outlines(self.pieces)


NOWHERE = PlanRoom((), ())


@dataclass(frozen=True)
class _Outlines:
    """Corners of all pieces in turn, ready to be swept: `far` says which take the far end of a span."""

    corners: NDArray[np.float64]
    far: NDArray[np.bool_]
    owner: NDArray[np.int64]

    def swept(self, span_x: tuple[float, float], span_y: tuple[float, float]) -> NDArray[np.object_]:
        """Each piece moved over every shift in the two spans: convex again."""
        shift_x = np.where(self.far[:, 0], span_x[1], span_x[0])
        shift_y = np.where(self.far[:, 1], span_y[1], span_y[0])
        moved = self.corners + np.stack([shift_x, shift_y], axis=1)
        polygons: NDArray[np.object_] = shapely.polygons(shapely.linearrings(moved, indices=self.owner))
        return polygons


TURNS = ((False, False), (True, False), (True, True), (False, True))
"""Which ends of the spans (x, y) the corners take, counter-clockwise from the lowest."""


def _outlines(pieces: tuple[Polygon, ...]) -> _Outlines:
    corners: list[Point] = []
    far: list[tuple[bool, bool]] = []
    owner: list[int] = []
    for number, piece in enumerate(pieces):
        for corner, ends in _turning(_hull(piece)):
            corners.append(corner)
            far.append(ends)
            owner.append(number)
    return _Outlines(np.array(corners), np.array(far), np.array(owner))


def _hull(piece: Polygon) -> list[Point]:
    """The corners of the piece's convex hull, counter-clockwise from the lowest."""
    hull = shapely.convex_hull(shapely.linestrings(np.array(piece)))
    ring = hull.exterior.coords[:-1] if isinstance(hull, shapely.Polygon) else hull.coords
    points = [(x, y) for x, y in ring]
    if isinstance(hull, shapely.Polygon) and not hull.exterior.is_ccw:
        points.reverse()
    first = min(range(len(points)), key=lambda k: (points[k][1], points[k][0]))
    return points[first:] + points[:first]


def _turning(corners: list[Point]) -> Iterator[tuple[Point, tuple[bool, bool]]]:
    """Each corner with the ends it takes; the outermost corner on each of the four sides takes two.

    Swept over a rectangle of shifts, a convex piece grows by the rectangle's sides at those four corners.
    """
    outermost = (
        corners[0],
        max(corners, key=lambda corner: (corner[0], corner[1])),
        max(corners, key=lambda corner: (corner[1], -corner[0])),
        min(corners, key=lambda corner: (corner[0], -corner[1])),
    )
    turn = 1
    yield corners[0], TURNS[0]
    for corner in (*corners, corners[0]):
        yield corner, TURNS[turn % 4]
        while turn < 4 and corner == outermost[turn]:
            turn += 1
            yield corner, TURNS[turn % 4]


def longest_upright_chord(region: shapely.Geometry) -> float:
    """Length [mm] of the longest line along y inside a region of straight-edged polygons.

    Between neighbouring corners' x every chord's length changes evenly, so the ends decide.

    >>> longest_upright_chord(shapely.Polygon([(0, 0), (4, 0), (2, 3)]))
    3.0
    """
    best = 0.0
    for polygon in shapely.get_parts(region):
        if isinstance(polygon, shapely.Polygon) and not polygon.is_empty:
            best = max(best, _chord(_edges(polygon)))
    return best


def _edges(polygon: shapely.Polygon) -> NDArray[np.float64]:
    """Edges that are not upright, left end first, shape (n, 4)."""
    rings = [np.asarray(ring.coords) for ring in (polygon.exterior, *polygon.interiors)]
    edges = np.concatenate([np.hstack([ring[:-1], ring[1:]]) for ring in rings])
    turned = edges[:, 0] > edges[:, 2]
    edges[turned] = edges[turned][:, [2, 3, 0, 1]]
    kept: NDArray[np.float64] = edges[edges[:, 0] < edges[:, 2]]
    return kept


def _chord(edges: NDArray[np.float64]) -> float:
    stations = np.unique(edges[:, [0, 2]])
    slope = (edges[:, 3] - edges[:, 1]) / (edges[:, 2] - edges[:, 0])
    best = 0.0
    for left, right in pairwise(stations.tolist()):
        across = (edges[:, 0] <= left) & (edges[:, 2] >= right)
        at_left = edges[across, 1] + slope[across] * (left - edges[across, 0])
        at_right = edges[across, 1] + slope[across] * (right - edges[across, 0])
        order = np.argsort(at_left + at_right)
        for ends in (at_left[order], at_right[order]):
            best = max(best, float((ends[1::2] - ends[::2][: len(ends[1::2])]).max(initial=0.0)))
    return best
