"""Proof that a count cannot meet limits and target, whatever the layout, by what any layout must weigh.

A box is snug: as wide and as deep as its modules pushed together ask. For every stack and every width the
box may have, its modules are taken as a liquid at one end of it and a last one at the other end, its mass
as anything between that of the shallowest and the deepest box that could hold them. What even this cannot
do, no layout can.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf

from boxfit.box_shape import rectangle
from boxfit.car import Car, CornerWeights
from boxfit.search.bay import ROUNDING, BaySearch
from boxfit.search.floors import Room, Rooms, span
from boxfit.search.pack import PackSearch
from boxfit.search.stack import PlanSize, Stack
from boxfit.weight.balance import without_pack
from boxfit.weight.box_mass import box_mass


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

    def or_else(self, other: "Spread") -> "Spread":
        """What covers both."""
        return Spread(
            (min(self.mass[0], other.mass[0]), max(self.mass[1], other.mass[1])),
            (min(self.moment[0], other.moment[0]), max(self.moment[1], other.moment[1])),
        )


NOTHING = Spread((0.0, 0.0), (0.0, 0.0))
IMPOSSIBLE = Spread((inf, -inf), (inf, -inf))


def bay_spread(search: BaySearch, rooms: Rooms, count: int) -> Spread:
    """What `count` modules and their box can weigh and pull; IMPOSSIBLE where no box holds them."""
    if count == 0:
        return NOTHING
    spread = IMPOSSIBLE
    for stack in search.stacks:
        low, high = span(search.bay, stack)
        room = rooms.at(stack, low, high - low)
        for width in stack.widths(search.extent.width + ROUNDING):
            depths = _depths(search, stack, room, width, count)
            if depths is not None:
                spread = spread.or_else(_box_spread(stack, room, width, depths, count))
    return spread


def _depths(
    search: BaySearch, stack: Stack, room: Room, width: float, count: int
) -> tuple[float, float] | None:
    """The shallowest and the deepest box [mm] of this width that could hold the count, else None."""
    deepest = room.depth(width - ROUNDING) + ROUNDING
    depths = [depth for depth in stack.depths(search.extent.depth + ROUNDING) if depth <= deepest]
    if not depths or stack.bound(PlanSize(width, depths[-1])) < count:
        return None
    low, high = 0, len(depths) - 1
    while low < high:
        middle = (low + high) // 2
        if stack.bound(PlanSize(width, depths[middle])) >= count:
            high = middle
        else:
            low = middle + 1
    return depths[low], depths[-1]


def _box_spread(stack: Stack, room: Room, width: float, depths: tuple[float, float], count: int) -> Spread:
    # Twice the rounding smaller than needed: room for it is sure to be found, and its span covers the box's.
    left, _, right, _ = room.places(width - 2 * ROUNDING, depths[0] - 2 * ROUNDING).bounds
    left, right = left - ROUNDING, right + ROUNDING
    wall = stack.rules.thickness + stack.rules.liner
    module = stack.module
    plan = min(stance.size[0] * stance.size[1] for model in stack.models for stance in model.stances)
    filled = count * plan / (len(stack.kinds) * (depths[1] - 2 * wall))
    sides = [stance.size[0] for model in stack.models for stance in model.stances]
    piled = wall + max(filled, min(sides)) / 2
    lone = width - wall - stack.farthest_from_wall - max(sides) / 2
    middle = (piled * (count - 1) + lone) / count if count > 1 else width / 2
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


def refuted(search: PackSearch, shares: Sequence[tuple[int, ...]]) -> bool:
    """True where no layout that shares its modules out in one of these ways meets every limit and the target.

    Only for one rectangular box per bay; what is not asked of weights is never refuted.
    """
    car, weighed = search.car, search.car.weighed
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
                known[place] = bay_spread(search.bays[place[0]], free, place[1])
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
