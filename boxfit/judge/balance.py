"""The car on its wheels, rebuilt from the scale readings by moments."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import product

from boxfit.bay import Vector
from boxfit.car import Car, CornerWeights, PointMass
from boxfit.judge.box_mass import Bracket, box_mass
from boxfit.judge.claim import ClaimedPack
from boxfit.judge.distance import Cuboid
from boxfit.judge.outline import middle_of_area, middle_of_sides
from boxfit.judge.places import SetBox
from boxfit.judge.shape import Band, bands
from boxfit.module import Module


@dataclass(frozen=True)
class BoxLoad:
    """A box without its modules: where its mass [mm] and how much of it [kg] can be."""

    extent: Cuboid
    mass: Bracket


@dataclass(frozen=True)
class Known:
    """A mass [kg], what of it the left wheels carry [kg], and its moments along the axes [kg mm].

    The moment upwards is None where a height is not known.
    """

    mass: float
    left: float
    along: float
    sideways: float
    upwards: float | None


def box_loads(claim: ClaimedPack, boxes: Sequence[SetBox]) -> tuple[BoxLoad, ...]:
    """Where and how heavy the boxes can be; `boxes` are those of the claim, in its order."""
    claimed = [box for bay in claim.bays for box in bay.boxes]
    loads = []
    for told, box in zip(claimed, boxes, strict=True):
        tiers = len({round(module.low[2], 1) for module in told.modules})
        levels = bands(told, box.bay.box)
        loads.append(BoxLoad(_middle(levels, box.body), box_mass(levels, box.bay.box, tiers)))
    return tuple(loads)


def _middle(levels: Sequence[Band], body: Cuboid) -> Cuboid:
    """Where the middle of a box's mass can be: at any height, and in plan among those of its parts.

    Sheets and walls each balance where their outline does; what is fixed to them moves the middle of all
    no further than half way from the middle of a plain box to its wall (common practice, no source).
    """
    middles = [find(band.outline) for band in levels for find in (middle_of_area, middle_of_sides)]
    low, high = list(body.low), list(body.high)
    for axis in range(2):
        aside = (high[axis] - low[axis]) / 4
        low[axis] = max(low[axis], min(middle[axis] for middle in middles) - aside)
        high[axis] = min(high[axis], max(middle[axis] for middle in middles) + aside)
    return Cuboid((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def boxes_sum(boxes: Sequence[BoxLoad], total: float, part: Callable[[Vector], float]) -> Bracket:
    """The sum of mass x part over boxes of `total` [kg], wherever inside them their mass is.

    `part` tells what counts of a mass at a place [mm], and grows evenly along each axis: its least and
    most are at corners.

    >>> crate = BoxLoad(Cuboid((0, 0, 0), (2, 2, 2)), Bracket(1.0, 3.0))
    >>> boxes_sum([crate], 2.0, lambda at: at[0])
    Bracket(low=0.0, high=4.0)
    """
    return Bracket(_least_sum(boxes, total, part), -_least_sum(boxes, total, lambda at: -part(at)))


def _least_sum(boxes: Sequence[BoxLoad], total: float, part: Callable[[Vector], float]) -> float:
    """The least sum: every box at its least mass, the rest where it counts least."""
    least = [min(part(corner) for corner in _corners(box.extent)) for box in boxes]
    counted = sum(box.mass.low * each for box, each in zip(boxes, least, strict=True))
    left = total - sum(box.mass.low for box in boxes)
    for each, box in sorted(zip(least, boxes, strict=True), key=lambda pair: pair[0]):
        more = min(left, box.mass.high - box.mass.low)
        counted += more * each
        left -= more
    return float(counted)


def _corners(block: Cuboid) -> Iterator[Vector]:
    """The eight corners."""
    (x, y, z), (a, b, c) = block.low, block.high
    return product((x, a), (y, b), (z, c))


def left_part(car: Car, at: Vector) -> float:
    """The part [-] of a mass at a place [mm] that the left wheels carry.

    Each axle takes its part along the car, and each wheel its part across its axle's own track.

    >>> left_part(Car("c", "c", 2000.0, 1000.0, 500.0, ()), (-1000.0, 100.0, 0.0))
    0.65
    """
    front = 1.0 + at[0] / car.wheelbase
    return 0.5 + at[1] * (front / car.track_front + (1.0 - front) / car.track_rear)


def without_boxes(claim: ClaimedPack, car: Car, readings: CornerWeights, module: Module) -> Known:
    """The car as the target judges it, its boxes not counted.

    Stripped, fitted, those aboard, modules, and what is kept for fittings and cables.
    """
    aboard = car.target.aboard if car.target is not None else ()
    masses = [*car.fitted, *(one for one in car.carried if one.name in aboard), *_modules(claim, module)]
    masses += [PointMass(kept.name, kept.mass, kept.at) for kept in claim.reserve]
    stripped = _stripped(readings, car)
    upwards = stripped.upwards
    return Known(
        mass=stripped.mass + sum(one.mass for one in masses),
        left=stripped.left + sum(one.mass * left_part(car, one.at) for one in masses),
        along=stripped.along + sum(one.mass * one.at[0] for one in masses),
        sideways=stripped.sideways + sum(one.mass * one.at[1] for one in masses),
        upwards=None if upwards is None else upwards + sum(one.mass * one.at[2] for one in masses),
    )


def _stripped(readings: CornerWeights, car: Car) -> Known:
    """The stripped car, each axle's own track taken."""
    front = readings.front_left + readings.front_right
    rear = readings.rear_left + readings.rear_right
    sideways = (readings.front_left - readings.front_right) * car.track_front / 2
    sideways += (readings.rear_left - readings.rear_right) * car.track_rear / 2
    mass, height = front + rear, readings.height_of_mass
    return Known(
        mass=mass,
        left=readings.front_left + readings.rear_left,
        along=-rear * car.wheelbase,
        sideways=sideways,
        upwards=None if height is None else mass * height,
    )


def _modules(claim: ClaimedPack, module: Module) -> Iterator[PointMass]:
    """The modules, each in the middle of its body."""
    for body in (one for bay in claim.bays for box in bay.boxes for one in box.modules):
        x, y, z = ((low + high) / 2 for low, high in zip(body.low, body.high, strict=True))
        yield PointMass(module.name, module.mass, (x, y, z))
