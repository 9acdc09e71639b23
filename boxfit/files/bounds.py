"""What can be believed of a figure in a file: beyond these it is a slip of the pen.

Common practice, no source, unless a source stands beside the line. They are wide on purpose: a figure
inside them may still be unwise, a figure outside them is in the wrong unit or has a slipped point.
"""

from dataclasses import dataclass

from boxfit.files.shown import shown


@dataclass(frozen=True)
class Bounds:
    """The least and the greatest figure believed, both allowed, in `unit`."""

    low: float
    high: float
    unit: str

    def __str__(self) -> str:
        return f"from {shown(self.low)} to {shown(self.high)}{f' {self.unit}' if self.unit else ''}"


COORDINATE = Bounds(-20000.0, 20000.0, "mm")
WHEELBASE = Bounds(100.0, 10000.0, "mm")
TRACK = Bounds(100.0, 5000.0, "mm")
SIZE = Bounds(0.1, 5000.0, "mm")
BAY_SIDE = Bounds(10.0, 5000.0, "mm")
BAY_FRONT = Bounds(-12000.0, 5000.0, "mm")
BAY_FLOOR = Bounds(-1000.0, 5000.0, "mm")
"""Of a bay taped for a start: in reach of COORDINATE, however large it is."""
TAPED = Bounds(1.0, 20000.0, "mm")
ANGLE = Bounds(-360.0, 360.0, "degrees")
HELD_WIDTH = Bounds(2.0, 100.0, "mm")
HEIGHT_OF_MASS = Bounds(1.0, 3000.0, "mm")
RAISE = Bounds(100.0, 5000.0, "mm")
"""A lower raise leaves the height to the scales' error (our own choice)."""
WHEEL_RADIUS = Bounds(50.0, 1000.0, "mm")
SCALE_ERROR = Bounds(0.0, 100.0, "kg")
ALLOWANCE = Bounds(0.0, 1000.0, "mm")
SHEET = Bounds(0.0, 50.0, "mm")
STIFFENING = Bounds(0.0, 100.0, "mm")
STIFFENING_SHEET = Bounds(1.0, 20.0, "mm")
FOOT_SHEET = Bounds(0.0, 12.0, "mm")
FOOT_WIDTH = Bounds(50.0, 300.0, "mm")
BEND_RADIUS = Bounds(0.0, 100.0, "mm")
MASS = Bounds(0.001, 20000.0, "kg")
ENERGY = Bounds(0.0001, 1000.0, "kWh")
CAPACITY = Bounds(0.001, 10000.0, "Ah")
VOLTAGE = Bounds(0.1, 1500.0, "V")
"""To the end of voltage class B, direct current (UNECE working paper GRSP-45-28; 1500 from memory)."""
WINDOW = Bounds(0.0, VOLTAGE.high, "V")
CURRENT = Bounds(0.001, 20000.0, "A")
SHARE = Bounds(0.001, 0.999, "")
SHARE_TOLERANCE = Bounds(0.0, 1.0, "")
MACHINE = Bounds(100.0, 20000.0, "mm")
BED = Bounds(20.0, 5000.0, "mm")
WORKING = Bounds(0.0, 20.0, "mm")
K_FACTOR = Bounds(0.1, 0.55, "of the thickness")
"""The k of DIN 6935 is twice as large and often taken for it."""
PRINTED_WALL = Bounds(0.1, 50.0, "mm")
FOLD_ANGLE = Bounds(0.0, 10.0, "degrees")
BODY_SHEET = Bounds(0.3, 50.0, "mm")
PRICE = Bounds(0.0, 1e9, "")
PULL_FACTOR = Bounds(0.0, 100.0, "g")
TIERS = Bounds(1, 99, "")
BOXES = Bounds(1, 99, "")
