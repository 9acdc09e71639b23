"""What a filled box weighs and where its middle is: by closed form, [kg] and [mm]."""

from dataclasses import dataclass

from boxfit.bay import Vector
from boxfit.box.built import BuiltBox
from boxfit.box.strip_mass import strip_mass
from boxfit.layout import PlacedModule
from boxfit.module import Module
from boxfit.weight.box_mass import PartMass, part_masses


@dataclass(frozen=True)
class Heavy:
    """A mass [kg] at a place [mm]."""

    mass: float
    at: Vector


def filled(built: BuiltBox, module: Module) -> Heavy:
    """A box with its modules, strips and bought parts; fasteners are left out, holes count as full."""
    box, found = built.box, []
    for part in _parts(built):
        x, y, z = (corner + centre for corner, centre in zip(box.low, part.centre, strict=True))
        found.append(Heavy(part.mass, (x, y, z)))
    for strip in built.parts.fittings.strips:
        weighed = strip_mass(strip)
        found.append(Heavy(weighed.mass, weighed.centre))
    for bought in built.parts.fittings.bought:
        found.append(Heavy(bought.mass, _middle(bought.body.low, bought.body.high)))
    found += [Heavy(module.mass, middle_of(placed)) for placed in box.modules]
    return _together(found)


def lid_mass(built: BuiltBox) -> float:
    """Lid and cover plate [kg]."""
    return sum(part.mass for part in _parts(built) if part.part in ("lid", "cover plate"))


def _parts(built: BuiltBox) -> tuple[PartMass, ...]:
    """Tray, lid, gasket, cover plate, shelves and liner, their centres from the box's low corner."""
    box, rules, cover = built.box, built.bay.box, built.parts.cover_plate
    levels = tuple(tier.stands_on - box.low[2] for tier in box.tiers)
    height = box.high[2] - box.low[2]
    return part_masses(
        box.outlines, height, levels, rules, cover is not None, cover is not None and cover.returned
    )


def middle_of(placed: PlacedModule) -> Vector:
    """The middle of a module [mm]."""
    return _middle(placed.low, placed.high)


def _middle(low: Vector, high: Vector) -> Vector:
    x, y, z = ((a + b) / 2.0 for a, b in zip(low, high, strict=True))
    return (x, y, z)


def _together(found: list[Heavy]) -> Heavy:
    mass = sum(one.mass for one in found)
    x, y, z = (sum(one.mass * one.at[axis] for one in found) / mass for axis in range(3))
    return Heavy(mass, (x, y, z))
