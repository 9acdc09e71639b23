"""A room given by outlines across the car, joined straight from one to the next."""

from collections.abc import Sequence
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from boxfit.surface import Outline, Surface
from boxfit.survey.fault import SurveyError
from boxfit.survey.pairing import best_pairs, best_turn

FLATNESS = 0.02
"""How far [mm] triangles may stand off a side that is twisted between two sections."""
MOST_TRIANGLES = 200_000
"""Triangles between two sections; a side that would need more is taken coarser and says so in `off`."""
ON_THE_LINE = 1e-6
"""A point no further [mm] than this beside a straight side is no corner."""
CUTS = tuple(k / 10 for k in range(1, 10))
"""Where between two sections the surface is cut to see whether it crosses itself."""

Points = NDArray[np.float64]
Numbers = NDArray[np.int64]


class _Section:
    """An outline at its place, its points numbered from `first`, its corners apart from points on a side."""

    def __init__(self, at: float, outline: Outline, first: int) -> None:
        self.at = at
        self.points: Points = np.array(outline, dtype=np.float64)
        self.first = first
        self.corners: Numbers = _corners(self.points)

    def side(self, start: int, end: int) -> list[int]:
        """Numbers of the points from one corner to the next, both included, all round where they are one."""
        steps = (end - start) % len(self.points) or len(self.points)
        return [self.first + (start + step) % len(self.points) for step in range(steps + 1)]


class _Growing:
    """The surface as far as it is made."""

    def __init__(self) -> None:
        self.points: list[tuple[float, float, float]] = []
        self.triangles: list[tuple[int, int, int]] = []
        self.off = 0.0

    def add_points(self, at: float, points: Points) -> list[int]:
        """New points of a cross-section; their numbers."""
        first = len(self.points)
        self.points.extend((at, float(y), float(z)) for y, z in points)
        return list(range(first, len(self.points)))

    def join(self, low: list[int], high: list[int]) -> None:
        """A strip between two chains of points, always over the shorter diagonal."""
        i = j = 0
        while i < len(low) - 1 or j < len(high) - 1:
            along = j == len(high) - 1 or (
                i < len(low) - 1 and self._apart(low[i + 1], high[j]) <= self._apart(low[i], high[j + 1])
            )
            if along:
                self.triangles.append((low[i], low[i + 1], high[j]))
                i += 1
            else:
                self.triangles.append((low[i], high[j + 1], high[j]))
                j += 1

    def _apart(self, one: int, other: int) -> float:
        return sum((a - b) ** 2 for a, b in zip(self.points[one], self.points[other], strict=True))


def lofted(stations: Sequence[tuple[float, Outline]]) -> Surface:
    """The closed surface [mm] of a room given by outlines (y, z) at stations x, straight between them.

    Outlines are simple, counter-clockwise, not closed; stations rise or fall, each once. Points that lie on
    a straight side are kept but are no corners. Outlines with equally many corners are joined corner to
    corner, from the start that makes the sum of the squared distances least; a side that turns on its way
    is the surface ruled by the lines along the car, and `off` tells how near the triangles come to it.
    Outlines with equally many points but not corners are joined point to point, likewise. Any others are
    joined by flat triangles with the least sum of squared edges across, centres laid over each other.
    Raises SurveyError where the surface crosses itself between two stations.

    >>> square = ((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0))
    >>> lofted([(0.0, square), (50.0, square)]).high
    (50.0, 10.0, 10.0)
    """
    rising = sorted(stations, key=lambda station: station[0])
    grown = _Growing()
    sections: list[_Section] = []
    for at, outline in rising:
        sections.append(_Section(at, outline, len(grown.points)))
        grown.add_points(at, sections[-1].points)
    for low, high in pairwise(sections):
        if len(low.corners) == len(high.corners):
            _join_ruled(grown, (low, low.corners), (high, high.corners))
        elif len(low.points) == len(high.points):
            every = np.arange(len(low.points))
            _join_ruled(grown, (low, every), (high, every))
        else:
            _join_flat(grown, low, high)
    for section, back in ((sections[0], True), (sections[-1], False)):
        for one, two, three in _filled(section.points) + section.first:
            grown.triangles.append((one, three, two) if back else (one, two, three))
    return Surface(np.array(grown.points), np.array(grown.triangles, dtype=np.int64), grown.off)


def _corners(points: Points) -> Numbers:
    """Numbers of the points that lie on no straight line between the corners before and after them."""
    kept = list(range(len(points)))
    k = 0
    while k < len(kept) and len(kept) > 3:
        before, here, after = (points[kept[(k + step) % len(kept)]] for step in (-1, 0, 1))
        along = after - before
        beside = abs(float(_cross(along, here - before)))
        if beside <= ON_THE_LINE * float(np.hypot(*along)):
            del kept[k]
            k = max(k - 1, 0)
        else:
            k += 1
    return np.array(kept, dtype=np.int64)


def _cross(one: Points, other: Points) -> Points:
    found: Points = one[..., 0] * other[..., 1] - one[..., 1] * other[..., 0]
    return found


def _join_ruled(grown: _Growing, one: tuple[_Section, Numbers], other: tuple[_Section, Numbers]) -> None:
    """Point to point, of those named; twisted sides in as many strips as their flatness asks for."""
    (low, corners), (high, partners) = one, other
    partners = np.roll(partners, -best_turn(low.points[corners], high.points[partners]))
    here, there = low.points[corners], high.points[partners]
    _refuse_crossing(low.at, high.at, here, there)
    strips, off = _strips(here, there)
    grown.off = max(grown.off, off)
    rows: list[list[list[int]]] = [_sides(low, corners)]
    for strip in range(1, strips):
        part = strip / strips
        numbers = grown.add_points(low.at + part * (high.at - low.at), here + part * (there - here))
        rows.append([[a, b] for a, b in zip(numbers, [*numbers[1:], numbers[0]], strict=True)])
    rows.append(_sides(high, partners))
    for before, after in pairwise(rows):
        for lower, upper in zip(before, after, strict=True):
            grown.join(lower, upper)


def _sides(section: _Section, corners: Numbers) -> list[list[int]]:
    """The chains of points from each corner to the next."""
    ends = np.roll(corners, -1)
    return [section.side(int(one), int(other)) for one, other in zip(corners, ends, strict=True)]


def _strips(here: Points, there: Points) -> tuple[int, float]:
    """Strips along the car for the most twisted side, and how far [mm] their triangles stand off it.

    Two triangles stand off a ruled (bilinear) quad by at most a quarter of its twist, the difference
    between opposite sides, and of that only the part across the side counts.
    """
    side, other = np.roll(here, -1, axis=0) - here, np.roll(there, -1, axis=0) - there
    twist = np.hypot(*(other - side).T)
    shortest = np.maximum(_nearest_to_zero(side, other), 1e-9)
    across = np.minimum(twist, np.abs(_cross(side, other)) / shortest)
    worst = float(across.max()) / 4.0
    if worst <= ON_THE_LINE:
        return 1, 0.0
    most = max(1, MOST_TRIANGLES // (2 * len(here)))
    strips = min(int(np.ceil(worst / FLATNESS)), most)
    return strips, max(FLATNESS, worst / strips)


def _nearest_to_zero(side: Points, other: Points) -> Points:
    """The least length of a side on its way from one vector to another."""
    change = other - side
    part = -(side * change).sum(axis=1) / np.maximum((change**2).sum(axis=1), 1e-18)
    nearest = side + np.clip(part, 0.0, 1.0)[:, None] * change
    found: Points = np.hypot(*nearest.T)
    return found


def _join_flat(grown: _Growing, low: _Section, high: _Section) -> None:
    """Triangles between outlines with different numbers of corners; points on a side make fans."""
    here, there = low.points[low.corners], high.points[high.corners]
    pairs = best_pairs(here, there)
    _refuse_crossing(
        low.at, high.at, *(points[[pair[k] for pair in pairs]] for k, points in enumerate((here, there)))
    )
    lower, upper = _sides(low, low.corners), _sides(high, high.corners)
    for (i, j), (next_i, _) in zip(pairs, [*pairs[1:], pairs[0]], strict=True):
        if next_i != i:
            apex = upper[j][0]
            grown.triangles.extend((one, two, apex) for one, two in zip(lower[i], lower[i][1:], strict=False))
        else:
            apex = lower[i][0]
            grown.triangles.extend((apex, two, one) for one, two in zip(upper[j], upper[j][1:], strict=False))


def _refuse_crossing(low: float, high: float, here: Points, there: Points) -> None:
    """Raises SurveyError where a cut between two sections is no simple outline."""
    import shapely

    for part in CUTS:
        cut = here + part * (there - here)
        after = np.roll(cut, -1, axis=0)
        if not (float(_cross(cut, after).sum()) > 0.0 and shapely.is_simple(shapely.LinearRing(cut))):
            raise SurveyError(
                "section",
                f"the room between at = {low:g} and at = {high:g} must not cross itself,"
                f" as it does near {low + part * (high - low):.1f}",
                "add a section between the two, or give both outlines the same corners",
            )


def _filled(points: Points) -> Numbers:
    """Triangles over an outline, counter-clockwise, every point a corner of one."""
    import shapely

    numbers = {(float(y), float(z)): number for number, (y, z) in enumerate(points)}
    parts = shapely.constrained_delaunay_triangles(shapely.Polygon(points))
    rings = shapely.get_coordinates(parts).reshape(-1, 4, 2)[:, :3]
    found = np.array([[numbers[float(y), float(z)] for y, z in ring] for ring in rings], dtype=np.int64)
    corners = points[found]
    clockwise = _cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]) < 0.0
    found[clockwise] = found[clockwise][:, ::-1]
    return found
