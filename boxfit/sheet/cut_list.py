"""The cut list: everything that is cut, with what a shop reckons its price from."""

from math import atan, hypot, pi, sin

from boxfit.sheet.csv_text import csv_text, figure
from boxfit.sheet.flat import Contour, Flat
from boxfit.sheet.stock import Wanted
from boxfit.standards.materials import MATERIALS

HEADS = (
    "number",
    "part",
    "material",
    "thickness [mm]",
    "quantity",
    "blank long [mm]",
    "blank short [mm]",
    "cut length [mm]",
    "area [mm2]",
    "mass [kg]",
    "bends",
    "holes",
    "cut from",
)
"""Length, area, mass, bends and holes are those of one."""


def cut_list_csv(wanted: tuple[Wanted, ...]) -> str:
    """A row for each flat, in the order given; contours and round holes both count as cut length."""
    return csv_text(HEADS, (_row(one) for one in wanted))


def _row(one: Wanted) -> tuple[str, ...]:
    flat = one.flat
    long, short = max(flat.size), min(flat.size)
    return (
        one.number,
        flat.name,
        flat.material,
        f"{flat.thickness:g}",
        str(flat.quantity),
        *(figure(value, 1) for value in (long, short, cut_length(flat))),
        figure(flat.area, 0),
        figure(mass_of(flat), 3),
        str(len(flat.bends)),
        str(len(flat.holes)),
        "bar" if flat.bar else "sheet" if one.shop.takes(flat.size) else "larger than the sheet",
    )


def mass_of(flat: Flat) -> float:
    """Of one [kg]: what is left of the sheet, times thickness and density; 0 where that is not known."""
    known = MATERIALS.get(flat.material)
    return flat.area * flat.thickness * known.density * 1e-9 if known else 0.0


def cut_length(flat: Flat) -> float:
    """All edges of one flat [mm], round holes included."""
    return sum(map(_length, flat.contours)) + sum(pi * hole.diameter for hole in flat.holes)


def _length(contour: Contour) -> float:
    """Round a contour [mm], arcs along the arc.

    >>> from boxfit.sheet.flat import Corner
    >>> round(_length((Corner(0.0, 0.0, 1.0), Corner(2.0, 0.0, 1.0))), 4)
    6.2832
    """
    return sum(
        _way(hypot(other.x - one.x, other.y - one.y), one.bulge)
        for one, other in zip(contour, contour[1:] + contour[:1], strict=True)
    )


def _way(chord: float, bulge: float) -> float:
    """Along an arc over its chord [mm]."""
    half = 2.0 * atan(abs(bulge))
    return chord * half / sin(half) if half else chord
