"""Axle loads, shares and centre of mass by superposing loads on four wheels.

A mass between the axles loads each axle by the lever rule; so does a mass beyond them, one axle then being
unloaded. Statics of a beam on two supports (textbook; facts checked in tests/published).
"""

from collections.abc import Iterable
from dataclasses import dataclass

from boxfit.bay import Vector
from boxfit.car import Car, CornerWeights, PointMass
from boxfit.layout import Weights


def front_part(car: Car, x: float) -> float:
    """Part [-] of a mass at x [mm] that the front axle carries; beyond the axles it leaves 0 to 1.

    >>> from boxfit.car import Car
    >>> front_part(Car("c", "c", 2000.0, 1200.0, 1200.0, ()), -500.0)
    0.75
    """
    return 1.0 + x / car.wheelbase


def stripped_mass(weighed: CornerWeights) -> float:
    """Mass [kg] of the stripped car."""
    return weighed.front_left + weighed.front_right + weighed.rear_left + weighed.rear_right


def stripped_centre(car: Car, weighed: CornerWeights) -> tuple[float, float]:
    """x, y [mm] of the stripped car's centre of mass from its four readings and the axles' own tracks."""
    total = stripped_mass(weighed)
    rear = weighed.rear_left + weighed.rear_right
    sideways = car.track_front / 2 * (weighed.front_left - weighed.front_right) + car.track_rear / 2 * (
        weighed.rear_left - weighed.rear_right
    )
    return -car.wheelbase * rear / total, sideways / total


@dataclass(frozen=True)
class Moments:
    """Sums over masses: total [kg] and moments [kg mm] about the origin."""

    mass: float
    x: float
    y: float
    z: float


def moments(masses: Iterable[tuple[float, Vector]]) -> Moments:
    """Sums over (mass [kg], centre [mm]).

    >>> moments([(2.0, (1.0, 0.0, 3.0)), (1.0, (-2.0, 1.0, 0.0))])
    Moments(mass=3.0, x=0.0, y=1.0, z=6.0)
    """
    mass = x = y = z = 0.0
    for part, at in masses:
        mass, x, y, z = mass + part, x + part * at[0], y + part * at[1], z + part * at[2]
    return Moments(mass, x, y, z)


def aboard(car: Car, everything: bool) -> tuple[PointMass, ...]:
    """All that is fitted, and of what is carried either all or what the target names."""
    names = car.target.aboard if car.target else ()
    return car.fitted + tuple(one for one in car.carried if everything or one.name in names)


def without_pack(car: Car, weighed: CornerWeights, everything: bool) -> Moments:
    """Car and load without the pack; the height moment counts the shell at its known height, or at 0."""
    x, y = stripped_centre(car, weighed)
    shell = (stripped_mass(weighed), (x, y, weighed.height_of_mass or 0.0))
    return moments([shell, *((one.mass, one.at) for one in aboard(car, everything))])


def _left_load(car: Car, mass: float, at: Vector) -> float:
    front = front_part(car, at[0])
    return mass * (front * (0.5 + at[1] / car.track_front) + (1 - front) * (0.5 + at[1] / car.track_rear))


def weigh(car: Car, modules: list[tuple[float, Vector]], boxes: list[tuple[float, Vector]]) -> Weights:
    """The car as the target judges it, with modules and boxes given as (mass [kg], centre [mm])."""
    pack = modules + boxes
    masses = (sum(mass for mass, _ in modules), sum(mass for mass, _ in boxes))
    if car.weighed is None:
        return Weights(*masses)
    shell = without_pack(car, car.weighed, everything=False)
    load = moments(pack)
    gross = shell.mass + load.mass
    front = front_part(car, (shell.x + load.x) / gross) * gross
    left = car.weighed.front_left + car.weighed.rear_left
    left += sum(_left_load(car, one.mass, one.at) for one in aboard(car, everything=False))
    left += sum(_left_load(car, mass, at) for mass, at in pack)
    height = None if car.weighed.height_of_mass is None else (shell.z + load.z) / gross
    return Weights(
        modules=masses[0],
        boxes=masses[1],
        front_axle=front,
        rear_axle=gross - front,
        gross=gross,
        front_share=front / gross,
        left_share=left / gross,
        centre_of_mass=((shell.x + load.x) / gross, (shell.y + load.y) / gross, height),
    )


@dataclass(frozen=True)
class AxleLoads:
    """Loads [kg] on the axles and in all."""

    front: float
    rear: float

    @property
    def gross(self) -> float:
        """Both axles [kg]."""
        return self.front + self.rear


def fully_loaded(car: Car, weighed: CornerWeights, pack: Moments) -> AxleLoads:
    """Axle loads [kg] with everything carried, as the maker's plate judges them."""
    shell = without_pack(car, weighed, everything=True)
    gross = shell.mass + pack.mass
    front = gross + (shell.x + pack.x) / car.wheelbase
    return AxleLoads(front, gross - front)
