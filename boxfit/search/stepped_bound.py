"""No more modules than this in a bay, for boxes of any shape and number.

Every module lies with its least walls in the free plan of its own level. Bodies widened by half the spacing
all round, and by headroom and a sheet upwards, overlap nowhere in space. So level planes one such height
apart meet every module; in each plane no line square to the car meets wider modules than the largest sum of
sides its chords hold, and what all lines hold together, over the plan of one module, bounds their number.
Where modules may stand on several sides, the volume summed in slices bounds them as well.
"""

from dataclasses import dataclass, replace
from itertools import pairwise
from math import ceil, floor
from typing import TYPE_CHECKING

import numpy as np
import shapely
from numpy.typing import NDArray

from boxfit.bay import Bay, Prism
from boxfit.module import Stance, stances
from boxfit.search.blocks import Footprint
from boxfit.search.floors import height_for_boxes, lowest
from boxfit.search.raster import UNITS_PER_MILLIMETRE, sums, units, units_within
from boxfit.search.stepped_plan import POINT, exchanged
from boxfit.search.stepped_shape import Clad
from boxfit.search.tier import stance_height, tier_kinds, wider_model
from boxfit.space.free import BoxLevels, plan_room
from boxfit.space.plan import PlanRoom

if TYPE_CHECKING:
    from boxfit.search.bay import BaySearch

MOST_LINES, FEW_LINES = 256, 48
"""Strips each way in which chords are taken at their longest; few for a quick look."""
PARTS, DENSE_PARTS = 4, 2
"""Parts of a module's height within which its level is left open."""
NOISE = 1e-6


@dataclass(frozen=True)
class Least:
    """What a module takes at least: plans [units] with half the spacing round them.

    `margin` [mm] is from there to the outside of the walls along each axis, `heights` [mm] from its floor
    sheet up to the next one.
    """

    reserves: tuple[Footprint, ...]
    margin: tuple[float, float]
    heights: tuple[float, ...]

    @property
    def area(self) -> int:
        """The least plan [square units]."""
        return min(a * b for a, b in self.reserves)

    @property
    def volume(self) -> float:
        """The least plan and height together [square units times mm]."""
        return min(a * b * height for (a, b), height in zip(self.reserves, self.heights, strict=True))


def stepped_bound(search: "BaySearch") -> int:
    """No layout that keeps every allowance has more modules than this in the bay, whatever its boxes."""
    bay, least = search.bay, least_of(search)
    start = lowest(bay) + bay.box.liner
    height = height_for_boxes(bay) - bay.box.liner - bay.box.lid_thickness
    short, tall = min(least.heights), max(least.heights)
    planes = floor(height / short + NOISE)
    if planes <= 0:
        return 0
    cells = _cells(search, least, start, max(height - short, 0.0))
    total = 0
    for plane in range(1, planes + 1):
        used = _used(cells, least, start + plane * short - tall, start + plane * short)
        total += floor(used / least.area + NOISE)
    if short == tall:
        return total
    slices = ceil(height / short)
    ends = [start + number * height / slices for number in range(slices + 1)]
    filled = sum(_used(cells, least, low - tall, high) for low, high in pairwise(ends)) * height / slices
    return min(total, floor(filled / least.volume + NOISE))


def least_of(search: "BaySearch") -> Least:
    """The least claims of the bay's modules; where they may stand on several sides, without their rooms."""
    rules = search.bay.box
    wall = rules.thickness + rules.liner
    module = replace(search.module, spacing=min(search.module.spacing, 2 * (wall + rules.gap)))
    kind = max(tier_kinds(stances(module)), key=lambda kind: len(kind.stances))
    heights = tuple(stance_height(stance) + rules.headroom + rules.thickness for stance in kind.stances)
    if len(set(heights)) == 1:
        model = wider_model(kind, module, rules.gap)
        margin = (wall + model.loss[0] / 2, wall + model.loss[1] / 2)
        return Least(model.reserves, margin, heights[:1] * len(model.reserves))
    reserves = tuple(_footprint(stance, module.spacing) for stance in kind.stances)
    return Least(reserves, (wall + rules.gap - module.spacing / 2,) * 2, heights)


def _footprint(stance: Stance, spacing: float) -> Footprint:
    """The plan [units] of a body with half the spacing on every side."""
    return units(stance.size[0] + spacing), units(stance.size[1] + spacing)


@dataclass(frozen=True)
class Cell:
    """Levels [mm] between which a module's floor sheet may begin, and where its plan may lie then."""

    low: float
    high: float
    region: shapely.Geometry


def _cells(search: "BaySearch", least: Least, start: float, height: float) -> list[Cell]:
    """All levels from `start` on, in parts; one part where every level is like every other."""
    short = min(least.heights)
    parts = max(1, ceil(height / short * (DENSE_PARTS if search.is_dense else PARTS)))
    if _is_all_one(search.bay):
        return [Cell(start, start + height, _reached(search, least, (start, start + short)))]
    ends = [start + part * height / parts for part in range(parts + 1)]
    return [Cell(low, high, _reached(search, least, (high, low + short))) for low, high in pairwise(ends)]


def _used(cells: list[Cell], least: Least, low: float, high: float) -> float:
    """What modules whose floor sheet begins between two levels [mm] can use of one plane [square units]."""
    region = shapely.union_all(
        [cell.region for cell in cells if cell.low <= high + NOISE and cell.high >= low - NOISE]
    )
    across = tuple((b, a) for a, b in least.reserves)
    return min(usable(region, least.reserves), usable(exchanged(region), across))


def _reached(search: "BaySearch", least: Least, levels: tuple[float, float]) -> shapely.Geometry:
    """Where such modules' plans may lie [mm], margins apart, drawn too large rather than too small."""
    bay, rooms = search.bay, search.loose_rooms
    if rooms is None:
        return shapely.Polygon(bay.room.outline).buffer(-bay.distance, join_style="mitre")
    sides = tuple(2 * margin - search.spare for margin in least.margin)
    tried = (max(sides[0], POINT), max(sides[1], POINT))
    region = rooms.of_walls(*levels).places(*tried)
    if isinstance(bay.room, Prism):
        region = shapely.intersection(region, _with_flange(rooms.bay, bay.room).places(*tried))
    lacking = max(one - side for one, side in zip(tried, sides, strict=True))
    return region.buffer(lacking, join_style="mitre") if lacking > 0.0 else region


def _is_all_one(bay: Bay) -> bool:
    """True where the free plan is the same on every level."""
    along = bay.opening is not None and bay.opening.way not in ("up", "down")
    return isinstance(bay.room, Prism) and not bay.keepouts and not along


def _with_flange(bay: Bay, room: Prism) -> PlanRoom:
    """What a flange on any level leaves within upright walls."""
    opening = bay.opening if bay.opening and bay.opening.way in ("up", "down") else None
    low, high = room.floor + bay.distance + bay.box.bars_below, room.top - bay.distance
    return plan_room(replace(bay, keepouts=(), opening=opening), BoxLevels(low, (low + high) / 2, high))


def plan_bound(region: shapely.Geometry, tiers: tuple[Clad, ...]) -> int:
    """No more modules than this in tiers that all keep to a region of free points [mm]; quickly found."""
    total = 0
    for clad in tiers:
        across = clad.turned
        used = min(
            usable(region, clad.reserves, FEW_LINES, clad.before[0] + clad.after[0]),
            usable(exchanged(region), across.reserves, FEW_LINES, across.before[0] + across.after[0]),
        )
        total += floor(used / min(a * b for a, b in clad.reserves) + NOISE)
    return total


def usable(
    region: shapely.Geometry, reserves: tuple[Footprint, ...], lines: int = MOST_LINES, walls: int = 0
) -> float:
    """The most [square units] that reserves can use of a region [mm], for the sake of lines along x alone.

    Of every line `walls` [units] are lost.

    >>> usable(shapely.box(0, 0, 10, 6), ((4000, 3000), (3000, 4000))) / 1e6
    60.0
    >>> usable(shapely.box(0, 0, 9.5, 6), ((4000, 3000),)) / 1e6
    48.0
    """
    if region.is_empty:
        return 0.0
    low_x, low_y, high_x, high_y = region.bounds
    corners = np.unique(shapely.get_coordinates(region)[:, 1])
    even = np.linspace(low_y, high_y, lines + 1)
    stations = np.union1d(corners, even) if len(corners) <= lines else even
    bars = shapely.box(low_x - 1.0, stations[:-1], high_x + 1.0, stations[1:])
    totals = np.array(sums((a for a, _ in reserves), units_within(high_x - low_x)))
    bar, chords = _chords(shapely.intersection(bars, region))
    room = _units_within(chords + POINT) - walls
    longest = np.where(room > 0, totals[np.searchsorted(totals, np.maximum(room, 0), side="right") - 1], 0)
    return float((longest * np.diff(stations)[bar]).sum() * UNITS_PER_MILLIMETRE)


def _chords(pieces: NDArray[np.object_]) -> tuple[NDArray[np.int64], NDArray[np.float64]]:
    """Which bar, and how far [mm] along x its pieces reach, those that overlap as one."""
    parts, bar = shapely.get_parts(pieces, return_index=True)
    low, _, high, _ = shapely.bounds(parts).T
    order = np.lexsort((high, low, bar))
    order = order[np.isfinite(low[order])]
    bar, low, high = bar[order], low[order], high[order]
    away = bar * (np.ptp(np.concatenate([low, high])) + 1.0 if len(bar) else 0.0)
    reached = np.maximum.accumulate(high + away)
    first = np.flatnonzero(np.concatenate([[True], (low + away)[1:] > reached[:-1] + NOISE])[: len(bar)])
    return bar[first], np.maximum.reduceat(high, first) - low[first] if len(first) else high


def _units_within(lengths: NDArray[np.float64]) -> NDArray[np.int64]:
    """Rooms [mm] as `raster.units_within` has them."""
    scaled = lengths * UNITS_PER_MILLIMETRE
    nearest = np.rint(scaled)
    return np.where(np.abs(scaled - nearest) < 2e-2, nearest, np.floor(scaled)).astype(np.int64)
