"""Where boxes stand so that the pack's moments come out as wanted, or as near as the room lets them."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import product
from math import ceil, floor

import shapely

from boxfit.search.option import Option
from boxfit.weight.demands import MomentRange

GRID = 0.1
"""Positions are rounded to this [mm] where the room allows: a workshop measures no finer."""
CORNERS_TRIED = 8
SLACK = 1e-6


@dataclass(frozen=True)
class Placing:
    """Low corners [mm] of the boxes and the pack's moments [kg mm] they give."""

    corners: tuple[tuple[float, float], ...]
    x: float
    y: float


@dataclass(frozen=True)
class Wish:
    """What the pack's moments [kg mm] must be within and come near to."""

    within: MomentRange
    x: float | None
    y: float


def reach(chosen: Sequence[Option]) -> MomentRange:
    """The least and greatest moment [kg mm] about the front axle these boxes can give."""
    reaches = [option.reach for option in chosen]
    return MomentRange(sum(one.low for one in reaches), sum(one.high for one in reaches))


def place(chosen: Sequence[Option], wish: Wish) -> Placing | None:
    """The boxes placed as near to the wish as possible, first along the car, then across; None outside it."""
    found = []
    for regions in product(*(option.places for option in chosen)):
        placing = _place_in(chosen, regions, wish)
        if placing is not None:
            found.append(placing)
    aim = wish.x if wish.x is not None else 0.0
    return min(found, key=lambda p: (round(abs(p.x - aim), 3), round(abs(p.y - wish.y), 3)), default=None)


def _place_in(chosen: Sequence[Option], regions: Sequence[shapely.Polygon], wish: Wish) -> Placing | None:
    spans = [(region.bounds[0], region.bounds[2]) for region in regions]
    masses = [option.load.mass for option in chosen]
    offset = sum(option.load.x for option in chosen)
    low = max(wish.within.low, offset + sum(m * a for m, (a, _) in zip(masses, spans, strict=True)))
    high = min(wish.within.high, offset + sum(m * b for m, (_, b) in zip(masses, spans, strict=True)))
    if low > high + SLACK:
        return None
    aim = (low + high) / 2 if wish.x is None else min(max(wish.x, low), high)
    best: Placing | None = None
    for xs in _spread(regions, spans, masses, aim - offset):
        ys = _across(chosen, regions, xs, wish.y)
        if ys is not None:
            placing = _rounded(chosen, regions, list(zip(xs, ys, strict=True)), wish)
            if best is None or abs(placing.y - wish.y) < abs(best.y - wish.y) - 1e-3:
                best = placing
        if best is not None and abs(best.y - wish.y) < GRID * sum(masses):
            break
    return best


def _share_out(
    spans: Sequence[tuple[float, float]], masses: Sequence[float], total: float
) -> list[float] | None:
    """Positions at the same part of every span whose moments add up to `total`; None where none do."""
    low = sum(m * a for m, (a, _) in zip(masses, spans, strict=True))
    high = sum(m * b for m, (_, b) in zip(masses, spans, strict=True))
    if not low - SLACK * sum(masses) <= total <= high + SLACK * sum(masses):
        return None
    part = 0.5 if high - low < SLACK else min(max((total - low) / (high - low), 0.0), 1.0)
    return [a + part * (b - a) for a, b in spans]


def _spread(
    regions: Sequence[shapely.Polygon],
    spans: Sequence[tuple[float, float]],
    masses: Sequence[float],
    total: float,
) -> Iterator[list[float]]:
    """Ways to share the moment out among the boxes: evenly, then with one box at each corner of its room."""
    evenly = _share_out(spans, masses, total)
    if evenly is not None:
        yield evenly
    if len(regions) == 1:
        return
    for fixed, region in enumerate(regions):
        corners = sorted({x for x, _ in region.exterior.coords})
        for x in corners[:: max(1, len(corners) // CORNERS_TRIED)]:
            narrowed = [(x, x) if k == fixed else span for k, span in enumerate(spans)]
            shared = _share_out(narrowed, masses, total)
            if shared is not None:
                yield shared


def _across(
    chosen: Sequence[Option], regions: Sequence[shapely.Polygon], xs: Sequence[float], wanted: float
) -> list[float] | None:
    """Low y of each box at the given x, so that the moment across comes nearest to `wanted`."""
    masses = [option.load.mass for option in chosen]
    total = wanted - sum(option.load.y for option in chosen)
    best: list[float] | None = None
    miss = float("inf")
    for spans in product(*(_chords(region, x) for region, x in zip(regions, xs, strict=True))):
        low = sum(m * a for m, (a, _) in zip(masses, spans, strict=True))
        high = sum(m * b for m, (_, b) in zip(masses, spans, strict=True))
        ys = _share_out(spans, masses, min(max(total, low), high))
        short = max(low - total, total - high, 0.0)
        if ys is not None and short < miss:
            best, miss = ys, short
    return best


def _chords(region: shapely.Polygon, x: float) -> list[tuple[float, float]]:
    """The pieces of the upright line at x inside the region, as (low y, high y)."""
    _, bottom, _, top = region.bounds
    left, _, right, _ = region.bounds
    if right - left <= 4 * SLACK:
        return [(bottom, top)]
    at = min(max(x, left + SLACK), right - SLACK)
    line = shapely.LineString([(at, bottom - 1), (at, top + 1)])
    parts = shapely.get_parts(region.intersection(line))
    return [(part.bounds[1], part.bounds[3]) for part in parts]


def _rounded(
    chosen: Sequence[Option],
    regions: Sequence[shapely.Polygon],
    corners: list[tuple[float, float]],
    wish: Wish,
) -> Placing:
    """The corners rounded to the grid one by one, as long as room and wish still hold."""
    kept = [_out_of_slack(region, corner) for region, corner in zip(regions, corners, strict=True)]
    for k, (x, y) in enumerate(kept):
        for corner in product(_on_grid(x), _on_grid(y)):
            tried = [*kept[:k], corner, *kept[k + 1 :]]
            inside = regions[k].covers(shapely.Point(tried[k]))
            if inside and wish.within.holds(_moment(chosen, tried, 0), SLACK):
                kept = tried
                break
    return Placing(tuple(kept), _moment(chosen, kept, 0), _moment(chosen, kept, 1))


def _on_grid(value: float) -> tuple[float, ...]:
    """The value rounded to the grid, to the nearest, down and up, and last as it is."""
    steps = value / GRID
    return (*(round(step * GRID, 6) for step in (round(steps), floor(steps), ceil(steps))), value)


def _out_of_slack(region: shapely.Polygon, corner: tuple[float, float]) -> tuple[float, float]:
    """In a region no wider than its slack, the middle of it: there the fit is exact."""
    left, bottom, right, top = region.bounds
    x = (left + right) / 2 if right - left <= 4 * SLACK else corner[0]
    y = (bottom + top) / 2 if top - bottom <= 4 * SLACK else corner[1]
    return (round(x, 6), round(y, 6))


def _moment(chosen: Sequence[Option], corners: Sequence[tuple[float, float]], axis: int) -> float:
    own = [(option.load.x, option.load.y)[axis] for option in chosen]
    return sum(
        part + option.load.mass * corner[axis]
        for part, option, corner in zip(own, chosen, corners, strict=True)
    )
