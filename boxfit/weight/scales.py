"""The finished car on four scales against the forecast, and what the difference hints at. [kg, mm]"""

from dataclasses import dataclass
from math import hypot

from boxfit.bay import Vector
from boxfit.car import Car
from boxfit.weight.corners import Corners, corners_of

SCALE = 1.0
"""What one scale may be out [kg], plus or minus (common practice, no source)."""


@dataclass(frozen=True)
class Item:
    """Something in the car: its name, mass [kg] and centre [mm]."""

    name: str
    mass: float
    at: Vector


@dataclass(frozen=True)
class Hint:
    """What would explain the difference: an item, and how far out its mass [kg] or place [mm] would be."""

    item: str
    error: str
    figure: float
    left: float
    """What would still be unexplained [kg], the root of the sum of squares over four wheels."""


@dataclass(frozen=True)
class Weighing:
    """Readings less forecast wheel by wheel [kg]; where it lies, and what would explain it, best first.

    `at` [mm] is where a missing or extra mass would lie, None where the total is within the scales' error.
    """

    forecast: Corners
    read: Corners
    at: tuple[float, float] | None
    hints: tuple[Hint, ...]

    @property
    def off(self) -> Corners:
        """Readings less forecast [kg]."""
        return self.read.less(self.forecast)

    @property
    def agrees(self) -> bool:
        """Whether every wheel is as forecast within the scales' error."""
        return all(abs(wheel) <= SCALE for wheel in self.off.each)


def weighing(car: Car, forecast: Corners, read: Corners, items: tuple[Item, ...]) -> Weighing:
    """The readings set against the forecast.

    Hints: an item heavier or lighter than told, where it is; or as heavy as told, but elsewhere. Each is
    fitted to the four differences by least squares. At most three, those that leave least unexplained.
    """
    off = read.less(forecast)
    at = _where(car, off) if abs(off.gross) > 2.0 * SCALE else None
    worst = _length(off.each)
    found = [hint for item in items for hint in (_heavier(car, off, item), *_moved(car, off, item))]
    better = sorted(
        (hint for hint in found if hint.left < 0.7 * worst), key=lambda hint: (hint.left, hint.item)
    )
    return Weighing(forecast, read, at, tuple(better[:3]) if worst > 2.0 * SCALE else ())


def _where(car: Car, off: Corners) -> tuple[float, float]:
    """Where one mass would lie that makes the whole difference [mm]."""
    x = -car.wheelbase * off.rear / off.gross
    sideways = car.track_front / 2.0 * (off.front_left - off.front_right)
    sideways += car.track_rear / 2.0 * (off.rear_left - off.rear_right)
    return (x, sideways / off.gross)


def _length(loads: tuple[float, ...]) -> float:
    """Root of the sum of squares."""
    return hypot(*loads)


def _fit(off: Corners, pattern: tuple[float, ...]) -> tuple[float, float]:
    """How much of a pattern explains the difference best, and what it leaves [kg]."""
    squares = sum(one * one for one in pattern)
    if squares == 0.0:
        return (0.0, _length(off.each))
    amount = sum(one * two for one, two in zip(off.each, pattern, strict=True)) / squares
    return amount, _length(tuple(one - amount * two for one, two in zip(off.each, pattern, strict=True)))


def _heavier(car: Car, off: Corners, item: Item) -> Hint:
    """The item's mass is not as told; never lighter than nothing."""
    amount, left = _fit(off, corners_of(car, [(1.0, item.at)]).each)
    if amount < -item.mass:
        left = _length(off.less(corners_of(car, [(-item.mass, item.at)])).each)
        amount = -item.mass
    return Hint(item.name, "heavier by" if amount > 0.0 else "lighter by", abs(amount), left)


def _moved(car: Car, off: Corners, item: Item) -> tuple[Hint, ...]:
    """The item stands elsewhere along x, or along y."""
    along = item.mass / car.wheelbase
    front = 1.0 + item.at[0] / car.wheelbase
    y = item.at[1]
    forwards = (
        along * (0.5 + y / car.track_front),
        along * (0.5 - y / car.track_front),
        -along * (0.5 + y / car.track_rear),
        -along * (0.5 - y / car.track_rear),
    )
    side_front, side_rear = item.mass * front / car.track_front, item.mass * (1.0 - front) / car.track_rear
    leftwards = (side_front, -side_front, side_rear, -side_rear)
    ways = (
        ("further forward by", "further back by", forwards),
        ("further left by", "further right by", leftwards),
    )
    return tuple(_placed(off, item, way) for way in ways)


def _placed(off: Corners, item: Item, way: tuple[str, str, tuple[float, ...]]) -> Hint:
    """How far along one way the item would have to stand elsewhere."""
    towards, away, pattern = way
    amount, left = _fit(off, pattern)
    return Hint(item.name, towards if amount > 0.0 else away, abs(amount), left)
