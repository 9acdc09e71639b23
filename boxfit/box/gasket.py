"""The gasket between flange and lid."""

from math import ceil

from boxfit.bay import BoxRules
from boxfit.box.parts import Gasket
from boxfit.box_shape import grown, perimeter
from boxfit.layout import PlacedBox
from boxfit.lid_details import gasket_line, has_gasket
from boxfit.standards.materials import GASKET

SPARE = 0.05
"""What is ordered beyond the line's length, for corners and the joint (common practice, no source)."""
WHOLE = 100.0
"""Gasket is ordered in whole lengths of this [mm] (common practice, no source)."""


def gasket_of(name: str, box: PlacedBox, rules: BoxRules) -> Gasket | None:
    """The gasket of a box called `name`, its joint on a straight; None where none is asked."""
    if not has_gasket(rules):
        return None
    path = grown(box.outlines[-1], gasket_line(rules))
    top = box.high[2] - rules.lid_thickness
    return Gasket(
        name=f"{name} gasket",
        material=GASKET.name,
        path=path,
        width=rules.gasket_width,
        thickness=rules.gasket_thickness,
        bottom=top - rules.gasket_pressed,
        top=top,
        order=length_to_order(perimeter(path)),
    )


def length_to_order(length: float) -> float:
    """How much gasket [mm] to order for a closed line of so much [mm].

    >>> length_to_order(2088.0)  # 2192.4 with what is spare
    2200.0
    """
    return WHOLE * ceil(length * (1.0 + SPARE) / WHOLE - 1e-9)
