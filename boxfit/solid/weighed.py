"""What every body of a pack weighs, each part by three ways: closed form, solid and mesh."""

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from boxfit.car import Car, PointMass
from boxfit.module import Module
from boxfit.solid.body import Body
from boxfit.solid.fittings import MadeBought
from boxfit.solid.made import MadeBox, MadeModule, MadePart
from boxfit.solid.mass_properties import MassProperties, cuboid, together
from boxfit.standards.materials import MATERIALS
from boxfit.weight.balance import stripped_centre, stripped_mass

if TYPE_CHECKING:
    from OCP.TopoDS import TopoDS_Shape

CUBIC_METRE = 1e9
"""Cubic millimetres in a cubic metre."""


@dataclass(frozen=True)
class Masses:
    """One part's mass [kg] by three independent ways."""

    closed_form: float
    solid: float
    mesh: float


@dataclass(frozen=True)
class WeighedBody:
    """A part, a bought part or a module; `by` is None where the mass is its maker's."""

    name: str
    kind: str
    box: str
    material: str | None
    properties: MassProperties
    by: Masses | None


@dataclass(frozen=True)
class WeighedBox:
    """A box, empty where it was built and with its modules."""

    name: str
    bodies: tuple[WeighedBody, ...]
    empty: MassProperties | None
    filled: MassProperties


@dataclass(frozen=True)
class WeighedCar:
    """The pack, what else is known of the car as point masses, and all of it together.

    The pack is all boxes with the link cables between them and to the inverter. `whole` is None where the
    centre of the stripped car is not known; `unknown` then says why.
    """

    boxes: tuple[WeighedBox, ...]
    pack: MassProperties
    points: tuple[PointMass, ...]
    whole: MassProperties | None
    unknown: str | None
    cables: tuple[WeighedBody, ...] = ()


def weighed_car(
    car: Car, module: Module, boxes: tuple[MadeBox, ...], cables: tuple[tuple[Body, float], ...] = ()
) -> WeighedCar:
    """Every body of a pack of at least one module, and the car with all that is fitted and carried.

    Each cable comes with its mass [kg].
    """
    weighed = tuple(_weighed_box(box, module) for box in boxes)
    links = tuple(_weighed_cable(body, mass) for body, mass in cables)
    pack = together([*(box.filled for box in weighed), *(link.properties for link in links)])
    stripped, unknown = _stripped(car)
    points = (*((stripped,) if stripped else ()), *car.fitted, *car.carried)
    whole = car_total(pack, points) if stripped else None
    return WeighedCar(weighed, pack, points, whole, unknown, links)


def _weighed_cable(body: Body, mass: float) -> WeighedBody:
    """A cable: its mass spread evenly over its solid."""
    shape = body.form.shape
    density = mass / solid_properties(shape, 1.0).mass
    return WeighedBody(body.name, "link cable", "", None, solid_properties(shape, density), None)


def car_total(pack: MassProperties, points: tuple[PointMass, ...]) -> MassProperties:
    """The pack and point masses as one; the points add what their distance gives, no inertia of their own."""
    return together((pack, *(MassProperties(point.mass, point.at) for point in points)))


def _stripped(car: Car) -> tuple[PointMass | None, str | None]:
    """The stripped car as a point mass, or why its centre is not known."""
    if car.weighed is None:
        return None, "the stripped car was not weighed: [weighed] is missing"
    if car.weighed.height_of_mass is None:
        return None, "the height of the stripped car's centre is not known: weighed.height_of_mass is missing"
    x, y = stripped_centre(car, car.weighed)
    at = (x, y, car.weighed.height_of_mass)
    return PointMass("stripped car", stripped_mass(car.weighed), at), None


def _weighed_box(box: MadeBox, module: Module) -> WeighedBox:
    """A box's parts and modules."""
    parts = tuple(_weighed_part(part, box.name) for part in box.parts)
    bought = tuple(_weighed_bought(one, box.name) for one in box.bought)
    modules = tuple(_weighed_module(one, module, box.name) for one in box.modules)
    bodies = (*parts, *bought, *modules)
    empty = together(part.properties for part in (*parts, *bought)) if parts else None
    return WeighedBox(box.name, bodies, empty, together(body.properties for body in bodies))


def _weighed_part(part: MadePart, box: str) -> WeighedBody:
    """A part: mass, centre and inertia from its solid."""
    density = MATERIALS[part.material].density / CUBIC_METRE
    form = part.body.form
    made = solid_properties(form.shape, density)
    x, y, z = (at + shift for at, shift in zip(made.centre, part.body.shift, strict=True))
    properties = replace(made, centre=(x, y, z))
    by = Masses(part.closed_form.mass, properties.mass, form.mesh.volume * density)
    return WeighedBody(part.body.name, part.kind, box, part.material, properties, by)


def _weighed_bought(made: MadeBought, box: str) -> WeighedBody:
    """A bought part as a homogeneous block of its stated mass."""
    part = made.placed
    properties = cuboid(part.mass, part.body.low, part.body.high)
    return WeighedBody(made.body.name, part.kind, box, None, properties, None)


def _weighed_module(made: MadeModule, module: Module, box: str) -> WeighedBody:
    """A module as a homogeneous block of the maker's mass."""
    properties = cuboid(module.mass, made.placed.low, made.placed.high)
    return WeighedBody(made.body.name, "module", box, None, properties, None)


def solid_properties(shape: "TopoDS_Shape", density: float) -> MassProperties:
    """Of a solid of uniform density [kg/mm3], integrated over its exact faces."""
    from OCP.BRepGProp import BRepGProp
    from OCP.GProp import GProp_GProps

    volume = GProp_GProps()
    BRepGProp.VolumeProperties_s(shape, volume)
    centre, inertia = volume.CentreOfMass(), volume.MatrixOfInertia()
    cells = ((1, 1), (2, 2), (3, 3), (1, 2), (1, 3), (2, 3))
    xx, yy, zz, xy, xz, yz = (inertia.Value(row, column) * density for row, column in cells)
    return MassProperties(
        volume.Mass() * density, (centre.X(), centre.Y(), centre.Z()), (xx, yy, zz, xy, xz, yz)
    )
