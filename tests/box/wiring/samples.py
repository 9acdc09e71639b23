"""The sample car of two boxes with a current, an inverter and what the drive draws. All invented."""

from dataclasses import replace
from functools import cache

from boxfit.box.whole import BuiltBox, built_boxes
from boxfit.box.wiring.figures import Electrics, electrics_of
from boxfit.car import Car, PointMass, Window
from boxfit.layout import Layout
from boxfit.module import Current
from tests.box.samples import HERON, car_and_layout

MODULE = replace(HERON, current=Current(100.0, 250.0))
INVERTER = PointMass("inverter", 20.0, (-1000.0, 0.0, 800.0))


def car_and_strings() -> tuple[Car, Layout]:
    """Ten modules, two strings of five: six in front, four behind, so that one string runs on."""
    car, layout = car_and_layout()
    fitted = (*car.fitted, INVERTER)
    return replace(car, fitted=fitted, windows=(Window("inverter", 160.0, 260.0),)), layout


@cache
def built() -> tuple[BuiltBox, ...]:
    """All boxes of it."""
    car, layout = car_and_strings()
    return built_boxes(car, MODULE, layout)


@cache
def electrics(drive: Current | None = None) -> Electrics:
    """All figures of it."""
    car, layout = car_and_strings()
    return electrics_of(replace(car, drive=drive), MODULE, layout, built())
