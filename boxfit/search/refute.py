"""Proof that a count cannot meet limits and target, whatever the layout, by what any layout must weigh.

A box is snug: as wide and as deep as its modules pushed together ask. For every stack and every width the
box may have, its modules are taken as a liquid at one end of it and a last one at the other end, its mass
as anything between that of the shallowest and the deepest box of a run of depths that could hold them. What
even this cannot do, no layout can.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf

from boxfit.box_shape import rectangle
from boxfit.car import Car, CornerWeights
from boxfit.module import stances
from boxfit.search.bay import ROUNDING, BaySearch
from boxfit.search.floors import Room, Rooms, span
from boxfit.search.pack import PackSearch
from boxfit.search.raster import UNITS_PER_MILLIMETRE, sums, units, units_within
from boxfit.search.stack import PlanSize, Stack
from boxfit.search.tier import stance_height
from boxfit.weight.balance import without_pack
from boxfit.weight.box_mass import box_mass
from boxfit.weight.reserve import NOTHING as NOTHING_KEPT
from boxfit.weight.reserve import Kept

MOST_RUNS = 8
"""Runs of depths told apart: finer ones refute a little more and take longer."""


@dataclass(frozen=True)
class Spread:
    """The least and greatest mass [kg] and moment about the front axle [kg mm] of something."""

    mass: tuple[float, float]
    moment: tuple[float, float]

    def __add__(self, other: "Spread") -> "Spread":
        return Spread(
            (self.mass[0] + other.mass[0], self.mass[1] + other.mass[1]),
            (self.moment[0] + other.moment[0], self.moment[1] + other.moment[1]),
        )

    def with_kept(self, kept: Kept) -> "Spread":
        """With what is kept beside it, wherever the middle of all this may be."""
        if not kept.mass or self.mass[0] > self.mass[1]:
            return self
        low = min(self.moment[0] / mass for mass in self.mass) + kept.away[0]
        high = max(self.moment[1] / mass for mass in self.mass) + kept.away[0]
        return self + Spread((kept.mass, kept.mass), (kept.mass * low, kept.mass * high))

    def or_else(self, other: "Spread") -> "Spread":
        """What covers both."""
        return Spread(
            (min(self.mass[0], other.mass[0]), max(self.mass[1], other.mass[1])),
            (min(self.moment[0], other.moment[0]), max(self.moment[1], other.moment[1])),
        )


NOTHING = Spread((0.0, 0.0), (0.0, 0.0))
IMPOSSIBLE = Spread((inf, -inf), (inf, -inf))


def bay_spread(search: BaySearch, rooms: Rooms, count: int, kept: Kept = NOTHING_KEPT) -> Spread | None:
    """What `count` modules, their box and what is kept for it can weigh and pull.

    IMPOSSIBLE where no box holds them; None where the watch is over before that is known.
    """
    if count == 0:
        return NOTHING
    spread = IMPOSSIBLE
    for stack in search.stacks:
        low, high = span(search.bay, stack)
        room = rooms.at(stack, low, high - low)
        for width in stack.widths(search.extent.width + ROUNDING):
            if search.watch.is_over:
                return None
            for depths in _depths(search, stack, room, width, count):
                spread = spread.or_else(_box_spread(stack, room, width, depths, count))
    return spread.with_kept(kept)


def _depths(
    search: BaySearch, stack: Stack, room: Room, width: float, count: int
) -> list[tuple[float, float]]:
    """Depths [mm] of boxes of this width that could hold the count, in runs from shallowest to deepest."""
    deepest = room.depth(width - ROUNDING) + ROUNDING
    depths = [depth for depth in stack.depths(search.extent.depth + ROUNDING) if depth <= deepest]
    if not depths or stack.bound(PlanSize(width, depths[-1])) < count:
        return []
    low, high = 0, len(depths) - 1
    while low < high:
        middle = (low + high) // 2
        if stack.bound(PlanSize(width, depths[middle])) >= count:
            high = middle
        else:
            low = middle + 1
    able = depths[low:]
    run = -(-len(able) // MOST_RUNS)
    return [(able[k], able[min(k + run, len(able)) - 1]) for k in range(0, len(able), run)]


def _box_spread(stack: Stack, room: Room, width: float, depths: tuple[float, float], count: int) -> Spread:
    # Twice the rounding smaller than needed: room for it is sure to be found, and its span covers the box's.
    left, _, right, _ = room.places(width - 2 * ROUNDING, depths[0] - 2 * ROUNDING).bounds
    left, right = left - ROUNDING, right + ROUNDING
    module = stack.module
    middle = least_middle(stack, PlanSize(width, depths[1]), count)
    boxes = [
        box_mass(
            (rectangle((0.0, 0.0), (width, depth)),) * len(stack.levels),
            stack.height,
            stack.levels,
            stack.rules,
            cover,
        ).mass
        for depth in depths
        for cover in (False, True)
    ]
    box = (min(boxes), max(boxes))
    modules = count * module.mass
    box_pulls = [mass * (x + width / 2) for mass in box for x in (left, right)]
    return Spread(
        (modules + box[0], modules + box[1]),
        (
            modules * (left + middle) + min(box_pulls),
            modules * (right + width - middle) + max(box_pulls),
        ),
    )


def least_middle(stack: Stack, size: PlanSize, count: int) -> float:
    """How far [mm] the mass of `count` modules lies at least from either end of a snug box, along x.

    Bodies grown by half the spacing do not overlap, so across the box no tier holds more of them than the
    largest sum of their widths: taken as a liquid of that width, all but one lie at one end. The last one
    touches the other end, or the box would not be snug. Half the box at most.
    """
    rules, spacing = stack.rules, stack.module.spacing
    wall, gap = rules.thickness + rules.liner, stack.least_gap
    inner = units_within(size.depth - 2 * (wall + gap) + spacing)
    ways = [
        [one for one in stances(stack.module) if stance_height(one) <= kind.height] for kind in stack.kinds
    ]
    across = [sums((units(one.size[1] + spacing) for one in tier), max(inner, 0))[-1] for tier in ways]
    sizes = [one.size for tier in ways for one in tier]
    least = min((x + spacing) * (y + spacing) for x, y, _ in sizes)
    filled = (count - 1) * least / max(sum(across) / UNITS_PER_MILLIMETRE, spacing, 1.0)
    piled = wall + gap + max((filled - spacing) / 2, min(x for x, _, _ in sizes) / 2)
    lone = min(
        size.width - wall - max(*stack.gaps, one.room_low[0], one.room_high[0]) - one.size[0] / 2
        for tier in ways
        for one in tier
    )
    return min((piled * (count - 1) + lone) / count, size.width / 2)


def refuted(search: PackSearch, shares: Sequence[tuple[int, ...]]) -> bool:
    """True where no layout that shares its modules out in one of these ways meets every limit and the target.

    Only for one rectangular box per bay; what is not asked of weights is never refuted, nor is anything once
    the watch is over.
    """
    car, weighed = search.laden, search.laden.weighed
    if weighed is None or any(bay.box.boxes > 1 or bay.box.shape == "stepped" for bay in car.bays):
        return False
    rooms = [bay.loose_rooms for bay in search.bays]
    known: dict[tuple[int, int], Spread] = {}
    for counts in shares:
        for place in enumerate(counts):
            if place not in known:
                free = rooms[place[0]]
                if free is None:
                    return False
                kept = search.reserve.of_bay(place[0])
                spread = bay_spread(search.bays[place[0]], free, place[1], kept)
                if spread is None:
                    return False
                known[place] = spread
        spreads = [known[place] for place in enumerate(counts)]
        pack = sum(spreads, NOTHING)
        possible = IMPOSSIBLE not in spreads
        if possible and not _overloads(car, weighed, pack) and not _misses_target(car, weighed, pack):
            return False
    return True


def _overloads(car: Car, weighed: CornerWeights, pack: Spread) -> bool:
    shell = without_pack(car, weighed, everything=True)
    least_gross = shell.mass + pack.mass[0]
    least_front = least_gross + (shell.x + pack.moment[0]) / car.wheelbase
    least_rear = -(shell.x + pack.moment[1]) / car.wheelbase
    pairs = (
        (least_gross, car.limits.gross),
        (least_front, car.limits.front_axle),
        (least_rear, car.limits.rear_axle),
    )
    return any(limit is not None and least > limit for least, limit in pairs)


def _misses_target(car: Car, weighed: CornerWeights, pack: Spread) -> bool:
    if car.target is None:
        return False
    shell = without_pack(car, weighed, everything=False)
    shares = [
        1.0 + (shell.x + moment) / (car.wheelbase * (shell.mass + mass))
        for mass in pack.mass
        for moment in pack.moment
    ]
    low, high = car.target.front_share - car.target.tolerance, car.target.front_share + car.target.tolerance
    return max(shares) < low or min(shares) > high
