"""Proof that a count cannot meet limits and target, whatever the layout, by what any layout must weigh.

Modules are taken as a liquid that fills the bay from one end, boxes as any mass up to the largest box: every
real layout lies between. What even this cannot do, no layout can.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from boxfit.car import Car, CornerWeights
from boxfit.search.bay import BaySearch
from boxfit.search.floors import height_for_boxes
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


NOTHING = Spread((0.0, 0.0), (0.0, 0.0))


def bay_spread(search: BaySearch, count: int) -> Spread:
    """What `count` modules and their boxes in the bay can weigh and pull."""
    bay, module = search.bay, search.module
    if count == 0:
        return NOTHING
    margin = bay.distance + bay.box.flange + bay.box.thickness + bay.box.liner
    xs, ys = zip(*bay.room.outline, strict=True)
    rear, front = min(xs) + margin, max(xs) - margin
    across = max(max(ys) - min(ys) - 2 * margin, 1.0)
    volume = module.length * module.width * module.height
    least_side = min(module.length, module.width, module.height)
    filled = max(count * volume / (across * height_for_boxes(bay)), least_side)
    modules = count * module.mass
    box = _heaviest_box(search) * bay.box.boxes
    return Spread(
        (modules, modules + box),
        (
            modules * (rear + filled / 2) + min(box * rear, 0.0),
            modules * (front - filled / 2) + max(box * front, 0.0),
        ),
    )


def _heaviest_box(search: BaySearch) -> float:
    """Mass [kg] of a box as large as the bay with as many tiers as stand in it."""
    tallest = max(search.stacks, key=lambda stack: (len(stack.kinds), stack.height))
    size = (search.extent.width, search.extent.depth, height_for_boxes(search.bay))
    return box_mass(size, tallest.levels, search.bay.box, cover_plate=True).mass


def refuted(car: Car, bays: Sequence[BaySearch], counts: Sequence[int]) -> bool:
    """True where no layout with these numbers in the bays can meet every limit and the target."""
    if car.weighed is None:
        return False
    pack = sum((bay_spread(bay, count) for bay, count in zip(bays, counts, strict=True)), NOTHING)
    return _overloads(car, car.weighed, pack) or _misses_target(car, car.weighed, pack)


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
