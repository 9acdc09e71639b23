"""Readings given on the command line: four wheels, and who sat in the car. [kg]"""

from collections.abc import Sequence
from math import isfinite

from boxfit.car import Car
from boxfit.files import bounds
from boxfit.files.near import among
from boxfit.files.problems import Problem
from boxfit.files.shown import shown
from boxfit.weight.corners import Corners

WHEELS = ("front left", "front right", "rear left", "rear right")
POUND = 0.45359237
"""Kilograms in a pound, exact by definition (international yard and pound agreement of 1959, from memory)."""
ORDER = "give kilograms under the front left, front right, rear left and rear right wheel"


def faulty_readings(scales: Sequence[float]) -> list[Problem]:
    """Every reading that is no weight on a wheel."""
    return [
        Problem("--scales", wheel, f"must be a number {bounds.MASS}", shown(read), ORDER)
        for wheel, read in zip(WHEELS, scales, strict=True)
        if not (isfinite(read) and bounds.MASS.low <= read <= bounds.MASS.high)
    ]


def unknown_people(aboard: Sequence[str], car: Car) -> list[Problem]:
    """Every name that is none of what the car carries."""
    known = [one.name for one in car.carried]
    rule = "names nothing in [[carried]]"
    return [
        Problem("--with", "", rule, shown(name), among(name, known)) for name in aboard if name not in known
    ]


def beyond_belief(read: Corners, forecast: Corners) -> list[Problem]:
    """A car that weighs less than half the forecast, or more than twice: no error of building does that."""
    low, high = forecast.gross / 2.0, forecast.gross * 2.0
    if low <= read.gross <= high:
        return []
    remedy = ORDER
    if low <= read.gross * POUND <= high:
        remedy = f"{ORDER}; as pounds these would be {read.gross * POUND:.0f} kg"
    rule = f"must add up to between half and twice the forecast, {low:.0f} to {high:.0f} kg"
    return [Problem("--scales", "", rule, f"{read.gross:.1f} kg", remedy)]
