"""What a box is made of, item by item, as a drawing lists it."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from boxfit.bay import Block, Vector
from boxfit.box.fitting import Strip
from boxfit.box.numbers import bought_name
from boxfit.box.parts import CoverPlate, Lid, Part, Tray
from boxfit.box.whole import BuiltBox
from boxfit.sheet.drawing.tables import Table
from boxfit.sheet.drawing.three_views import extent_of
from boxfit.standards.materials import MATERIALS

if TYPE_CHECKING:
    from OCP.TopoDS import TopoDS_Shape

CUBIC_METRE = 1e9
BOUGHT = "bought"


@dataclass(frozen=True)
class BoxItem:
    """An item: number in the drawing, part number, what it is, of what, how many, mass of all [kg].

    `shapes` are their solids, none for what is bought; `extents` are blocks round each of them [mm], `middle`
    [mm] is where the first of them is, and `inside` tells that it is not seen once the box is closed.
    """

    item: str
    number: str
    name: str
    material: str
    quantity: int
    mass: float
    shapes: "tuple[TopoDS_Shape, ...]"
    extents: tuple[Block, ...]
    middle: Vector
    inside: bool


@dataclass(frozen=True)
class _Single:
    """One part: its name in lists, what the drawing calls it, its material, mass [kg] and place [mm]."""

    name: str
    called: str
    kind: str
    material: str
    shape: "TopoDS_Shape | None"
    mass: float
    extent: Block
    middle: Vector
    inside: bool


def items_of(
    built: BuiltBox, numbers: Mapping[str, str], shapes: "Mapping[str, TopoDS_Shape]"
) -> tuple[BoxItem, ...]:
    """Every part of a box and what is bought for it, in the order of their numbers, alike ones together."""
    groups: dict[str, list[_Single]] = {}
    for one in (*_made(built, shapes), *_bought(built)):
        groups.setdefault(numbers[one.name], []).append(one)
    return tuple(
        BoxItem(
            str(place),
            number,
            alike[0].kind if len(alike) > 1 else alike[0].called,
            alike[0].material,
            len(alike),
            sum(one.mass for one in alike),
            tuple(one.shape for one in alike if one.shape is not None),
            tuple(one.extent for one in alike),
            alike[0].middle,
            alike[0].inside,
        )
        for place, (number, alike) in enumerate(groups.items(), start=1)
    )


def _made(built: BuiltBox, shapes: "Mapping[str, TopoDS_Shape]") -> "Iterator[_Single]":
    """All parts that are made, the liner and the gasket too."""
    parts = built.parts
    there = (parts.tray, parts.lid, parts.cover_plate, parts.gasket, *parts.shelves, parts.liner)
    for part in (*there, *parts.fittings.strips):
        if part is None:
            continue
        shape = shapes.get(part.name)
        called = short(part.name, parts.name)
        kind = part.kind if isinstance(part, Strip) else called
        mass = solid_mass(shape, part.material) if shape is not None else 0.0
        low, high = extent_of((shape,)) if shape is not None else (built.box.low, built.box.low)
        x, y, z = ((one + other) / 2.0 for one, other in zip(low, high, strict=True))
        extent, inside = Block(low, high), _is_inside(part)
        yield _Single(part.name, called, kind, part.material, shape, mass, extent, (x, y, z), inside)


def _is_inside(part: Part | Strip) -> bool:
    """Whether a part is not seen once the box is closed."""
    if isinstance(part, Strip):
        return part.kind.startswith("hold-down")
    return not isinstance(part, Tray | Lid | CoverPlate)


def _bought(built: BuiltBox) -> Iterator[_Single]:
    """All that is bought."""
    for one in built.parts.fittings.bought:
        yield _Single(
            bought_name(built.parts, one), one.name, one.kind, BOUGHT, None, one.mass, one.body, one.at, False
        )


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


def parts_list(items: tuple[BoxItem, ...]) -> Table:
    """The items as a table."""
    rows = tuple(
        (
            one.item,
            one.number,
            one.name,
            one.material,
            str(one.quantity),
            mass_words(one.mass),
        )
        for one in items
    )
    return Table("Parts", ("item", "part no.", "name", "material", "qty", "kg"), rows)


def mass_words(mass: float) -> str:
    """A mass [kg] to a hundredth, small ones to a thousandth; nothing where it is not known.

    >>> mass_words(4.794), mass_words(0.0213), mass_words(0.0)
    ('4.79', '0.021', '')
    """
    if mass <= 0.0:
        return ""
    return f"{mass:.2f}" if mass >= 0.1 else f"{mass:.3f}"
