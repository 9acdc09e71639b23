"""Tables of the arrangement: where boxes stand, what they weigh, what the axles carry."""

from collections.abc import Sequence

from boxfit.box.whole import BuiltBox
from boxfit.car import Car
from boxfit.layout import Layout
from boxfit.module import Module
from boxfit.sheet.drawing.dimension import figure
from boxfit.sheet.drawing.tables import Table


def box_table(module: Module, built: Sequence[BuiltBox], names: Sequence[str]) -> Table:
    """Every box: its extent without the flange, its modules, what it weighs full."""
    rows = []
    for one, name in zip(built, names, strict=True):
        spans = [
            f"{figure(low)} to {figure(high)}" for low, high in zip(one.box.low, one.box.high, strict=True)
        ]
        count = len(one.box.modules)
        rows.append((name, one.parts.name, *spans, str(count), f"{count * module.mass:.1f}"))
    columns = ("box", "name", "x", "y", "z", "modules", "kg of modules")
    return Table("Boxes, outside without flange", columns, tuple(rows))


def weight_table(car: Car, layout: Layout) -> Table:
    """Axles and gross as the target judges the car, and what the plate allows."""
    weights, limits = layout.weights, car.limits
    found = (
        ("front axle", weights.front_axle, limits.front_axle),
        ("rear axle", weights.rear_axle, limits.rear_axle),
        ("gross", weights.gross, limits.gross),
    )
    rows = tuple(
        (name, f"{mass:.0f}", f"{most:.0f}" if most is not None else "none told")
        for name, mass, most in found
        if mass is not None
    )
    return Table("Masses in kg, as the target judges the car", ("", "carries", "plate allows"), rows)


def mass_notes(layout: Layout) -> tuple[str, ...]:
    """Pack, share and centre of mass."""
    weights = layout.weights
    share = (f"front share {weights.front_share:.3f}",) if weights.front_share is not None else ()
    centre: tuple[str, ...] = ()
    if weights.centre_of_mass is not None:
        x, y, z = weights.centre_of_mass
        high = f", z {z:.0f}" if z is not None else ""
        centre = (f"centre of mass x {x:.0f}, y {y:.0f}{high}",)
    return (
        f"modules {weights.modules:.1f} kg; boxes, all fixed to them and link cables {weights.boxes:.1f} kg",
        *share,
        *centre,
        "x forwards from the front axle, y to the left, z up from the ground",
        "dash-dot-dot lines: bays as surveyed",
    )
