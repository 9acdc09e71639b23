"""The bodies of a pack, made once: parts of every box, modules, and the room the modules keep clear."""

from collections.abc import Callable
from dataclasses import dataclass
from itertools import count
from typing import TYPE_CHECKING, Any

from boxfit.bay import Bay
from boxfit.box.build import box_name, box_parts
from boxfit.box.notes import cannot_build
from boxfit.box.parts import BoxParts, CoverPlate, Lid, Liner, Part, Shelf, Tray
from boxfit.car import Car
from boxfit.layout import Layout, PlacedBox, PlacedModule
from boxfit.module import Module
from boxfit.solid.body import Body, Form
from boxfit.solid.colours import COLOURS
from boxfit.solid.modules import ModuleForms
from boxfit.solid.shapes import cover_plate_shape, lid_shape, liner_shape, shelf_shape
from boxfit.solid.tray import tray_shape
from boxfit.weight.box_mass import PartMass, part_masses

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


def made_boxes(car: Car, module: Module, layout: Layout) -> tuple[MadeBox, ...]:
    """Every box of the layout; modules are numbered through, in the order of the layout."""
    bays = {bay.name: bay for bay in car.bays}
    forms, numbers = ModuleForms(module), count(1)
    made: list[MadeBox] = []
    for filled in layout.bays:
        bay = bays[filled.name]
        for number, box in enumerate(filled.boxes, start=1):
            modules = tuple(_made_module(forms, placed, next(numbers)) for placed in box.modules)
            made.append(_made_box(bay, number, box, modules))
    return tuple(made)


def _made_box(bay: Bay, number: int, box: PlacedBox, modules: tuple[MadeModule, ...]) -> MadeBox:
    """One box, with the reason where it stays without parts."""
    name = box_name(bay.name, number)
    refused = cannot_build(bay.box, (box,))
    if refused:
        notes = tuple(f"{name}: not built: {reason}" for reason in refused)
        return MadeBox(name, (), modules, notes)
    parts = box_parts(bay, number, box)
    return MadeBox(name, made_parts(bay, box, parts), modules, parts.notes)


def made_parts(bay: Bay, box: PlacedBox, parts: BoxParts) -> tuple[MadePart, ...]:
    """The parts in the order in which the closed form has them."""
    levels = tuple(tier.stands_on - box.low[2] for tier in box.tiers)
    height, covered = box.high[2] - box.low[2], parts.cover_plate is not None
    masses = part_masses(box.outlines, height, levels, bay.box, covered)
    found = (parts.tray, parts.lid, parts.cover_plate, *parts.shelves, parts.liner)
    there = [part for part in found if part is not None]
    return tuple(_made_part(part, mass) for part, mass in zip(there, masses, strict=True))


def _made_part(part: Part, closed_form: PartMass) -> MadePart:
    """A part's solid in its colour."""
    kind, shape = _KINDS[type(part)]
    return MadePart(
        kind, Body(part.name, Form(part.name, shape(part), COLOURS[kind])), part.material, closed_form
    )


_KINDS: dict[type[Part], tuple[str, Callable[[Any], "TopoDS_Shape"]]] = {
    Tray: ("tray", tray_shape),
    Lid: ("lid", lid_shape),
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
