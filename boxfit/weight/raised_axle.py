"""The height of the centre of mass from weighing with one axle raised. [mm, kg]

With one axle raised the line between the wheel centres is tilted, and the centre of mass, being above that
line, moves towards the other axle. Source: the raised-axle method as an open textbook and a maker of race-car
scales give it (two forms that agree). ISO 10392 itself was not read. Lock the suspension and take the brakes
off, else the error is large.
"""

from math import asin, tan

from boxfit.car import CornerWeights, RaisedAxle

RAISED_AXLE = "raised-axle method, an open textbook and a maker of scales; lock springs, brakes off"
"""The source in the words of a result."""
LEAST_RAISE = 100.0
"""A raise lower than this [mm] leaves the height to the scales' error (our own choice)."""


def gained(level: CornerWeights, raised: RaisedAxle) -> float:
    """What the axle left on the ground reads more [kg] than with the car level."""
    pair = (
        (level.rear_left, level.rear_right)
        if raised.axle == "front"
        else (level.front_left, level.front_right)
    )
    return raised.load - sum(pair)


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
    return raised.wheel_radius + gained(level, raised) * _millimetres_per_kilogram(level, raised, wheelbase)


def height_error(level: CornerWeights, raised: RaisedAxle, wheelbase: float) -> float:
    """How far the height is out [mm], plus or minus, where each scale is out by its error as chance has it.

    Root of the sum of squares over the four readings the gain comes from: two wheels, level and raised.
    """
    return 2.0 * level.scale_error * _millimetres_per_kilogram(level, raised, wheelbase)


def _millimetres_per_kilogram(level: CornerWeights, raised: RaisedAxle, wheelbase: float) -> float:
    """Height [mm] for each kilogram that the axle on the ground gains: L / (W tan theta)."""
    total = level.front_left + level.front_right + level.rear_left + level.rear_right
    return wheelbase / (total * tan(asin(raised.height / wheelbase)))
