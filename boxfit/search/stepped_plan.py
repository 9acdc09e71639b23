"""The free plan cut into strips, and every stepped outline their cuts allow.

A stepped box lies free exactly where each of its points does: distances are kept point by point, and the
flange of a union is the union of the flanges. So each slab of an outline reaches across as far as all the
strips it covers are free.
"""

from dataclasses import dataclass
from itertools import pairwise
from math import ceil, floor

import numpy as np
import shapely
from numpy.typing import NDArray

from boxfit.bay import Point
from boxfit.search.floors import Room
from boxfit.search.raster import UNITS_PER_MILLIMETRE, sums
from boxfit.search.stepped_shape import Clad
from boxfit.space.plan import SLACK

POINT = 4 * SLACK
"""Side [mm] of the square that stands for a point."""
SMOOTH = 2.0
"""Corners that a line drawn this far [mm] off does without are none to cut at."""
MOST_TRIED, MOST_CUTS = 140, 24
"""Cuts looked at, and cuts kept."""

Span = tuple[int, int]


@dataclass(frozen=True)
class Strips:
    """Spans [units] across that are free all along each strip between neighbouring cuts [units]."""

    cuts: tuple[int, ...]
    free: tuple[tuple[Span, ...], ...]

    def slabs(self, least: int) -> NDArray[np.int64]:
        """Slabs of one or more strips, `least` [units] across: first and last cut by number, low, high."""
        found: list[tuple[int, int, int, int]] = []
        for first in range(len(self.free)):
            spans = self.free[first]
            for last in range(first, len(self.free)):
                spans = _shared(spans, self.free[last])
                found += [(first, last + 1, low, high) for low, high in spans if high - low >= least]
        return np.array(found, dtype=np.int64).reshape(-1, 4)


def _shared(some: tuple[Span, ...], others: tuple[Span, ...]) -> tuple[Span, ...]:
    """What two lists of spans have in common."""
    both = ((max(a, c), min(b, d)) for a, b in some for c, d in others)
    return tuple((low, high) for low, high in both if low < high)


def free_points(room: Room) -> shapely.Geometry:
    """Where a square of side `POINT` may have its low corner [mm]."""
    return room.places(POINT, POINT)


def origin_of(region: shapely.Geometry) -> Point:
    """The point [mm] from which units are counted, so that what fits to a hair still does."""
    low_x, low_y, _, _ = region.bounds
    return (float(low_x) + SLACK, float(low_y) + SLACK)


def exchanged(region: shapely.Geometry) -> shapely.Geometry:
    """The region with x and y exchanged."""
    return shapely.transform(region, lambda corners: corners[:, ::-1])


def strips(region: shapely.Geometry, origin: Point, tiers: tuple[Clad, ...]) -> Strips:
    """The region of free points cut along x where it has corners and where sums of modules end."""
    corners = _corner_cuts(region, origin[0])
    tried = _with_sums(corners, tiers)
    fine = Strips(tuple(tried), _free(region, origin, tried))
    needed = [place for place in range(1, len(tried) - 1) if fine.free[place - 1] != fine.free[place]]
    first, *inner = [tried[0], *(tried[place] for place in needed)]
    kept = _thinned(inner, set(corners), MOST_CUTS - 2)
    return _coarser(fine, [first, *kept, tried[-1]])


def _corner_cuts(region: shapely.Geometry, origin: float) -> list[int]:
    """Cuts [units] at the corners of the region, the first and the last among them."""
    plain = {tuple(point) for point in shapely.get_coordinates(region.simplify(SMOOTH)).tolist()}
    found = {0, floor((region.bounds[2] + POINT - origin) * UNITS_PER_MILLIMETRE)}
    for ring in shapely.get_parts(shapely.boundary(region)):
        points = ring.coords[:]
        for one, other in pairwise(points):
            upright = abs(one[0] - other[0]) < 1e-7
            for point in (one, other):
                at = (point[0] + 2 * SLACK - origin) * UNITS_PER_MILLIMETRE
                whole = abs(at - round(at)) < 2.1 * SLACK * UNITS_PER_MILLIMETRE
                if upright and not whole:
                    found |= {floor(at), ceil(at)}
                elif upright or point in plain:
                    found.add(round(at))
    last = max(found)
    return sorted(one for one in found if 0 <= one <= last)


def _with_sums(corners: list[int], tiers: tuple[Clad, ...]) -> list[int]:
    """Corners and, from those at both ends first, where rows of modules from them end [units]."""
    last = corners[-1]
    found = set(corners)
    for anchors in ((0, last), tuple(corners[1:-1])):
        more: set[int] = set()
        for clad in dict.fromkeys(tiers):
            walls = clad.before[0] + clad.after[0]
            for total in sums((reserve[0] for reserve in clad.reserves), last)[1:]:
                for anchor in anchors:
                    more |= {anchor + total, anchor + total + walls, anchor - total, anchor - total - walls}
        inside = sorted(one for one in more - found if 0 < one < last)
        found |= set(_thinned(inside, set(), max(0, MOST_TRIED - len(found))))
    return sorted(found)


def _thinned(ascending: list[int], dear: set[int], most: int) -> list[int]:
    """At most so many of the numbers, evenly from all along, `dear` ones before others."""
    if len(ascending) <= most:
        return ascending
    first = [one for one in ascending if one in dear]
    if len(first) > most:
        first = [first[k * len(first) // most] for k in range(most)]
    rest, left = [one for one in ascending if one not in dear], most - len(first)
    return sorted(first + [rest[k * len(rest) // left] for k in range(left if rest else 0)])


def _free(region: shapely.Geometry, origin: Point, cuts: list[int]) -> tuple[tuple[Span, ...], ...]:
    """What is free across all along each strip [units]."""
    low, high = region.bounds[1] - 1.0, region.bounds[3] + 1.0
    ends = origin[0] + np.array(cuts) / UNITS_PER_MILLIMETRE
    bars = shapely.box(ends[:-1], low, ends[1:] - POINT, high)
    parts, strip = shapely.get_parts(shapely.difference(bars, region), return_index=True)
    _, lows, _, highs = shapely.bounds(parts).T
    order = np.lexsort((highs, lows, strip))
    blocked: list[list[tuple[float, float]]] = [[] for _ in bars]
    for place, *span in zip(strip[order].tolist(), lows[order].tolist(), highs[order].tolist(), strict=True):
        blocked[place].append((span[0], span[1]))
    return tuple(_gaps(spans, origin[1]) for spans in blocked)


def _gaps(spans: list[tuple[float, float]], origin: float) -> tuple[Span, ...]:
    """What blocked spans [mm], ascending, leave free between them across [units]."""
    found, reached = [], spans[0][1]
    for low, high in spans[1:]:
        span = (
            ceil((reached - origin) * UNITS_PER_MILLIMETRE),
            floor((low + POINT - origin) * UNITS_PER_MILLIMETRE),
        )
        if span[0] < span[1]:
            found.append(span)
        reached = max(reached, high)
    return tuple(found)


def _coarser(fine: Strips, cuts: list[int]) -> Strips:
    """The same with only some of the cuts."""
    free = []
    for rear, front in pairwise(cuts):
        inside = fine.free[fine.cuts.index(rear) : fine.cuts.index(front)]
        spans = inside[0]
        for other in inside[1:]:
            spans = _shared(spans, other)
        free.append(spans)
    return Strips(tuple(cuts), tuple(free))
