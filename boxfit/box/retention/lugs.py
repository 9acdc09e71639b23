"""The lifting lugs of a built box as figures. [mm, kg]"""

from boxfit.box.built import BuiltBox
from boxfit.box.outside.lug_shapes import lug_figures, walls_under
from boxfit.box.outside.wall import walls_of
from boxfit.retention.lug import Lug


def lugs_of_box(built: BuiltBox, mass: float) -> tuple[Lug, ...]:
    """Every lug of a metal box that weighs so much [kg] filled, in the order they were made."""
    walls = walls_of(built.parts)
    return tuple(
        lug_figures(built.parts, wall, strip, mass)
        for strip in built.parts.fittings.strips
        if strip.kind == "lifting lug"
        for wall in walls_under(strip, walls)
    )
