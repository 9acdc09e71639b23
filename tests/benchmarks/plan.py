"""One plan of the literature given to the whole search: `python -m tests.benchmarks.plan 49 28 8 3`."""

import sys

from boxfit.bay import Bay, Prism
from boxfit.car import Car
from boxfit.files.bay import NOTHING_ASKED
from boxfit.layout import Layout
from boxfit.module import Module, Voltage
from boxfit.search.find import NoLayout, find_layout

UNIT = 10.0
"""Millimetres for one unit of the plan."""


def solve(width: int, depth: int, long: int, short: int) -> Layout | NoLayout:
    """The layout of one tier of modules long x short in a bay width x depth [units], no allowance asked."""
    height = UNIT
    far, aside = width * UNIT, depth * UNIT
    outline = ((0.0, 0.0), (far, 0.0), (far, aside), (0.0, aside))
    bay = Bay("bay", Prism(outline, 0.0, height), 0.0, 0.0, NOTHING_ASKED)
    car = Car("plan", "plan", 2000.0, 1200.0, 1200.0, (bay,))
    volts = Voltage(10.0, 12.0, 14.0)
    size = (long * UNIT, short * UNIT, height)
    return find_layout(car, Module("rectangle", "rectangle", *size, 1.0, 1.0, 10.0, volts, ("height",), 0.0))


if __name__ == "__main__":
    layout = solve(*map(int, sys.argv[1:]))
    if isinstance(layout, Layout):
        print(layout.count, layout.proven)
