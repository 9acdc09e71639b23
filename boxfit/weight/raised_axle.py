"""The height of the centre of mass from weighing with one axle raised. [mm, kg]

With one axle raised the line between the wheel centres is tilted, and the centre of mass, being above that
line, moves towards the other axle. Source: the raised-axle method as an open textbook and a maker of race-car
scales give it (two forms that agree). ISO 10392 itself was not read. Lock the suspension and take the brakes
off, else the error is large.
"""

from dataclasses import dataclass
from math import asin, tan
from typing import Literal

from boxfit.car import CornerWeights

Axle = Literal["front", "rear"]
LEAST_RAISE = 100.0
"""A raise lower than this [mm] leaves the height to the scales' error (our own choice)."""


@dataclass(frozen=True)
class RaisedAxle:
    """Readings with the wheels of one `axle` raised by `height` [mm] above those of the other.

    `load` [kg] is what the scales under the axle left on the ground read; `wheel_radius` [mm] is that of the
    loaded wheels.
    """

    axle: Axle
    height: float
    load: float
    wheel_radius: float


def height_of_mass(level: CornerWeights, raised: RaisedAxle, wheelbase: float) -> float:
    """Height of the centre of mass above the ground [mm], for one car as it was on the scales both times.

    h = r + dW L / (W tan theta) with theta = asin(H / L) and dW what the axle on the ground gains.
    Raises ValueError where the raise is not between `LEAST_RAISE` and the wheelbase.

    >>> level = CornerWeights(270.8335, 270.8335, 229.1665, 229.1665)
    >>> round(height_of_mass(level, RaisedAxle("front", 600.0, 482.002, 300.0), 2400.0), 1)
    520.0
    """
    if not LEAST_RAISE <= raised.height < wheelbase:
        raise ValueError(f"the raise must be from {LEAST_RAISE:g} to below {wheelbase:g} mm")
    front, rear = level.front_left + level.front_right, level.rear_left + level.rear_right
    gained = raised.load - (rear if raised.axle == "front" else front)
    tilt = asin(raised.height / wheelbase)
    return raised.wheel_radius + gained * wheelbase / ((front + rear) * tan(tilt))
