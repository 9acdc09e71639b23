"""One plan of the literature given to the whole search: `python -m tests.benchmarks.plan 49 28 1 8 3 1 1 0`.

Sides of the room, sides of the piece, tiers at most, and 1 where any side may stand upright.
"""

import sys
from dataclasses import replace

from boxfit.bay import Bay, Prism
from boxfit.car import Car
from boxfit.files.bay import NOTHING_ASKED
from boxfit.layout import Layout
from boxfit.module import DIMENSIONS, Module, Voltage
from boxfit.search.find import NoLayout, find_layout

UNIT = 10.0
"""Millimetres for one unit of the plan."""


def solve(sides: tuple[int, ...], tiers: int, every_way_up: bool) -> Layout | NoLayout:
    """The layout of pieces in a bay, three sides [units] of each, no allowance asked."""
    x, y, z, long, short, high = (side * UNIT for side in sides)
    outline = ((0.0, 0.0), (x, 0.0), (x, y), (0.0, y))
    bay = Bay("bay", Prism(outline, 0.0, z), 0.0, 0.0, replace(NOTHING_ASKED, tiers=tiers))
    car = Car("plan", "plan", 2000.0, 1200.0, 1200.0, (bay,))
    volts = Voltage(10.0, 12.0, 14.0)
    up = DIMENSIONS if every_way_up else DIMENSIONS[2:]
    return find_layout(car, Module("piece", "piece", long, short, high, 1.0, 1.0, 10.0, volts, up, 0.0))


if __name__ == "__main__":
    *sides, tiers, every_way_up = map(int, sys.argv[1:])
    layout = solve(tuple(sides), tiers, bool(every_way_up))
    if isinstance(layout, Layout):
        print(layout.count, layout.proven)
