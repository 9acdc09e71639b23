"""What a box is made of, item by item, as a drawing lists it."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from boxfit.bay import Vector
from boxfit.box.numbers import names_of
from boxfit.box.whole import BuiltBox
from boxfit.sheet.drawing.tables import Table
from boxfit.sheet.drawing.three_views import extent_of
from boxfit.standards.materials import MATERIALS

if TYPE_CHECKING:
    from OCP.TopoDS import TopoDS_Shape

CUBIC_METRE = 1e9


@dataclass(frozen=True)
class BoxItem:
    """An item: number in the drawing, part number, what it is, of what, how many, mass of all [kg].

    `shape` is its solid, None for what is bought; `middle` [mm] is where one of it is.
    """

    item: str
    number: str
    name: str
    material: str
    quantity: int
    mass: float
    shape: "TopoDS_Shape | None"
    middle: Vector


def items_of(
    built: BuiltBox, numbers: Mapping[str, str], shapes: "Mapping[str, TopoDS_Shape]"
) -> tuple[BoxItem, ...]:
    """Every part of a box and what is bought for it, in the order of the part numbers."""
    parts, found = built.parts, []
    names = list(names_of(parts))
    bought = {one.name: one for one in parts.fittings.bought}
    materials = {one.name: one.material for one in _made(built)}
    for place, name in enumerate(dict.fromkeys(names), start=1):
        quantity = names.count(name)
        if name in bought:
            one = bought[name]
            item = (one.about, quantity, quantity * one.mass, None, one.at)
            found.append(BoxItem(str(place), numbers[name], short(name, parts.name), *item))
            continue
        shape, material = shapes.get(name), materials.get(name, "")
        mass = quantity * solid_mass(shape, material) if shape is not None else 0.0
        middle = _middle(shape) if shape is not None else built.box.low
        said = (material, quantity, mass, shape, middle)
        found.append(BoxItem(str(place), numbers[name], short(name, parts.name), *said))
    return tuple(found)


def _made(built: BuiltBox) -> "tuple[_Named, ...]":
    """All parts that are made, the liner and the gasket too."""
    parts = built.parts
    there = (parts.tray, parts.lid, parts.cover_plate, *parts.shelves, parts.liner, *parts.fittings.strips)
    return tuple(_Named(one.name, one.material) for one in there if one is not None)


@dataclass(frozen=True)
class _Named:
    """A part's name and material."""

    name: str
    material: str


def short(name: str, box: str) -> str:
    """A part's name without that of its box.

    >>> short("front bay box 1 tray", "front bay box 1")
    'tray'
    """
    return name.removeprefix(f"{box} ")


def solid_mass(shape: "TopoDS_Shape", material: str) -> float:
    """What a solid of a material weighs [kg]; 0 where its density is not known."""
    from OCP.BRepGProp import BRepGProp
    from OCP.GProp import GProp_GProps

    known = MATERIALS.get(material)
    if known is None:
        return 0.0
    volume = GProp_GProps()
    BRepGProp.VolumeProperties_s(shape, volume)
    return float(volume.Mass()) * known.density / CUBIC_METRE


def _middle(shape: "TopoDS_Shape") -> Vector:
    """The middle of a solid's extent [mm]."""
    low, high = extent_of((shape,))
    x, y, z = ((one + other) / 2.0 for one, other in zip(low, high, strict=True))
    return (x, y, z)


def parts_list(items: tuple[BoxItem, ...]) -> Table:
    """The items as a table."""
    rows = tuple(
        (
            one.item,
            one.number,
            one.name,
            one.material,
            str(one.quantity),
            f"{one.mass:.2f}" if one.mass else "",
        )
        for one in items
    )
    return Table("Parts", ("item", "part no.", "name", "material", "qty", "kg"), rows)
