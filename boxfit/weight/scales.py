"""The finished car on four scales against the forecast, and what the difference hints at. [kg, mm]"""

from dataclasses import dataclass
from itertools import permutations
from math import hypot

from boxfit.bay import Vector
from boxfit.car import USUAL_SCALE, Car
from boxfit.weight.corners import Corners, corners_of

FURTHEST = 600.0
"""Nothing is put further from where it was drawn [mm] without being noticed (our own choice)."""


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
    likely: bool = True
    """Whether somebody could have got it so wrong."""

    @property
    def unit(self) -> str:
        """Of the figure: a place is out by millimetres, a mass or a load by kilograms."""
        return "mm" if self.error.startswith("further") else "kg"


@dataclass(frozen=True)
class Weighing:
    """Readings less forecast wheel by wheel [kg]; where it lies, and what would explain it, best first.

    `at` [mm] is where a missing or extra mass would lie, None where the total is within the scales' error.
    `scale` [kg] is what one reading may be out.
    """

    forecast: Corners
    read: Corners
    at: tuple[float, float] | None
    hints: tuple[Hint, ...]
    scale: float = USUAL_SCALE

    @property
    def off(self) -> Corners:
        """Readings less forecast [kg]."""
        return self.read.less(self.forecast)

    @property
    def agrees(self) -> bool:
        """Whether every wheel is as forecast within the error of two weighings: stripped and finished."""
        return all(abs(wheel) <= 2.0 * self.scale for wheel in self.off.each)


def weighing(car: Car, forecast: Corners, read: Corners, items: tuple[Item, ...]) -> Weighing:
    """The readings set against the forecast.

    Hints: an item heavier (to twice its mass at most) or lighter than told, where it is; or as heavy as told,
    but elsewhere, up to `FURTHEST`; or a car that stands twisted, which no mass does. Each is fitted to the
    four differences by least squares. At most three, those that leave least unexplained.
    """
    scale = car.weighed.scale_error if car.weighed else USUAL_SCALE
    off = read.less(forecast)
    at = _where(car, off) if abs(off.gross) > 4.0 * scale else None
    worst = _length(off.each)
    found = [hint for item in items for hint in (_heavier(car, off, item), *_moved(car, off, item))]
    found.append(_twisted(car, off))
    better = sorted(
        (hint for hint in found if hint.left < 0.7 * worst and hint.likely),
        key=lambda hint: (hint.left, hint.item),
    )
    agrees = all(abs(wheel) <= 2.0 * scale for wheel in off.each)
    return Weighing(forecast, read, at, () if agrees else tuple(better[:3]), scale)


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
    error = "heavier by" if amount > 0.0 else "lighter by"
    return Hint(item.name, error, abs(amount), left, amount <= item.mass)


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
    return Hint(item.name, towards if amount > 0.0 else away, abs(amount), left, abs(amount) <= FURTHEST)


def _twisted(car: Car, off: Corners) -> Hint:
    """Load shifted from one pair of opposite wheels to the other: axle loads and balance stay as they are."""
    across = car.track_front / car.track_rear
    amount, left = _fit(off, (1.0, -1.0, -across, across))
    pair = "front left and rear right" if amount > 0.0 else "front right and rear left"
    return Hint("springs or an uneven floor", f"twist the car, {pair} heavier by", abs(amount), left)


def given_as(forecast: Corners, read: Corners) -> tuple[int, int, int, int] | None:
    """The wheel (0 to 3: front left, front right, rear left, rear right) that each reading seems to be of.

    None where no other order leaves less than a third of the difference unexplained (our own choice).

    >>> given_as(Corners(100.0, 120.0, 90.0, 80.0), Corners(120.0, 100.0, 90.0, 80.0))
    (1, 0, 2, 3)
    """

    def unexplained(order: tuple[int, ...]) -> float:
        return _length(tuple(read.each[place] - forecast.each[wheel] for place, wheel in enumerate(order)))

    now = (0, 1, 2, 3)
    first, second, third, fourth = min(permutations(now), key=unexplained)
    best = (first, second, third, fourth)
    return best if unexplained(best) < unexplained(now) / 3.0 else None
