"""The bodies of a pack, made once: parts of every box, modules, and the room the modules keep clear."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from itertools import count
from typing import TYPE_CHECKING, Any

from boxfit.bay import Bay
from boxfit.box.build import box_name
from boxfit.box.fitting import Strip
from boxfit.box.notes import cannot_build
from boxfit.box.parts import BoxParts, CoverPlate, Gasket, Lid, Liner, Part, Shelf, Tray
from boxfit.box.strip_mass import strip_mass
from boxfit.box.weighed import weighed_parts
from boxfit.box.whole import BuiltBox
from boxfit.car import Car
from boxfit.layout import Layout, PlacedBox, PlacedModule
from boxfit.module import Module
from boxfit.solid.body import Body, Form
from boxfit.solid.colours import COLOURS
from boxfit.solid.cover import cover_plate_shape, gasket_shape
from boxfit.solid.fittings import MadeBought, StripForms, made_bought
from boxfit.solid.modules import ModuleForms
from boxfit.solid.shapes import lid_shape, liner_shape, shelf_shape
from boxfit.solid.tray import tray_shape
from boxfit.weight.box_mass import PartMass

if TYPE_CHECKING:
    from OCP.TopoDS import TopoDS_Shape


@dataclass(frozen=True)
class MadePart:
    """A part of a box as a body, and its mass by the closed form, counted from the box's low corner."""

    kind: str
    body: Body
    material: str
    closed_form: PartMass


@dataclass(frozen=True)
class MadeModule:
    """A module as a body and as it was placed; `room` is what it keeps clear, None where it needs none."""

    body: Body
    placed: PlacedModule
    room: Body | None


@dataclass(frozen=True)
class MadeBox:
    """A box with its parts, none where it cannot be built, and its modules."""

    name: str
    parts: tuple[MadePart, ...]
    modules: tuple[MadeModule, ...]
    notes: tuple[str, ...]
    bought: tuple[MadeBought, ...] = ()


def made_boxes(car: Car, module: Module, layout: Layout, built: tuple[BuiltBox, ...]) -> tuple[MadeBox, ...]:
    """Every box of the layout, without parts where it is not among those built.

    Modules are numbered through, in the order of the layout.
    """
    bays = {bay.name: bay for bay in car.bays}
    by_name = {(one.bay.name, one.number): one for one in built}
    forms, strips, numbers = ModuleForms(module), StripForms(), count(1)
    made: list[MadeBox] = []
    for filled in layout.bays:
        for number, box in enumerate(filled.boxes, start=1):
            modules = tuple(_made_module(forms, placed, next(numbers)) for placed in box.modules)
            one = by_name.get((filled.name, number))
            if one is None:
                made.append(_not_made(bays[filled.name], number, box, modules))
            else:
                made.append(_made_box(one, modules, strips))
    return tuple(made)


def _not_made(bay: Bay, number: int, box: PlacedBox, modules: tuple[MadeModule, ...]) -> MadeBox:
    """A box that stays without parts, with the reason."""
    name = box_name(bay.name, number)
    notes = tuple(f"{name}: not built: {reason}" for reason in cannot_build(bay.box, (box,)))
    return MadeBox(name, (), modules, notes)


def _made_box(one: BuiltBox, modules: tuple[MadeModule, ...], strips: StripForms) -> MadeBox:
    """A box with everything that is fixed to it."""
    parts, fittings = one.parts, one.parts.fittings
    made = (
        *made_parts(one.bay, one.box, parts),
        *(_made_strip(strip, strips, one.box) for strip in fittings.strips),
    )
    bought = made_bought(parts.name, fittings.bought)
    return MadeBox(parts.name, made, modules, (*parts.notes, *fittings.notes), bought)


def _made_strip(strip: Strip, forms: StripForms, box: PlacedBox) -> MadePart:
    """A strip; those alike share a form."""
    mass = strip_mass(strip)
    x, y, z = (centre - corner for centre, corner in zip(mass.centre, box.low, strict=True))
    return MadePart(strip.kind, forms.body(strip), strip.material, replace(mass, centre=(x, y, z)))


def made_parts(bay: Bay, box: PlacedBox, parts: BoxParts) -> tuple[MadePart, ...]:
    """The parts in the order in which the closed form has them."""
    return tuple(_made_part(part, mass) for part, mass in weighed_parts(bay, box, parts))


def _made_part(part: Part, closed_form: PartMass) -> MadePart:
    """A part's solid in its colour."""
    kind, shape = _KINDS[type(part)]
    return MadePart(
        kind, Body(part.name, Form(part.name, shape(part), COLOURS[kind])), part.material, closed_form
    )


_KINDS: dict[type[Part], tuple[str, Callable[[Any], "TopoDS_Shape"]]] = {
    Tray: ("tray", tray_shape),
    Lid: ("lid", lid_shape),
    Gasket: ("gasket", gasket_shape),
    CoverPlate: ("cover plate", cover_plate_shape),
    Shelf: ("shelf", shelf_shape),
    Liner: ("liner", liner_shape),
}
"""What a part is called in the table of colours, and how its solid is made."""


def _made_module(forms: ModuleForms, placed: PlacedModule, number: int) -> MadeModule:
    """A module and its room, moved to where it was placed."""
    name = f"module {number}"
    room = forms.room(placed.stance)
    return MadeModule(
        Body(name, forms.body(placed.stance), placed.low),
        placed,
        Body(f"{name} room", room, placed.low) if room else None,
    )
