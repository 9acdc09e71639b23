"""Every solid of a layout as files for the workshop: STEP, STL, glTF, and what it all weighs."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

from boxfit.box.names import file_stem
from boxfit.box.numbers import part_numbers
from boxfit.box.whole import BuiltBox
from boxfit.box.wiring.wiring import Wiring
from boxfit.car import Car
from boxfit.layout import Layout
from boxfit.module import Module
from boxfit.solid.body import Assembly, Body, Form, Group
from boxfit.solid.cable import cable_group
from boxfit.solid.gltf import write_glb
from boxfit.solid.made import MadeBox, made_boxes
from boxfit.solid.mass_files import write_mass_csv, write_mass_json
from boxfit.solid.mesh import write_stl
from boxfit.solid.step import write_assembly_step, write_part_step
from boxfit.solid.weighed import WeighedCar, weighed_car

if TYPE_CHECKING:
    from OCP.TopoDS import TopoDS_Shape


@dataclass(frozen=True)
class SolidReport:
    """The files written, by name, what a maker should know, and what everything weighs (None: no module).

    `shapes` are the solids of all parts by name, in their places in the car, for whoever draws them; `boxes`
    and `links` are what the assembly shows.
    """

    files: tuple[str, ...]
    notes: tuple[str, ...]
    masses: WeighedCar | None
    shapes: "Mapping[str, TopoDS_Shape]" = field(default_factory=dict)
    boxes: tuple[MadeBox, ...] = ()
    links: Group | None = None


def write_solids(
    car: Car,
    module: Module,
    layout: Layout,
    built: tuple[BuiltBox, ...],
    folder: Path,
    wiring: Wiring | None = None,
) -> SolidReport:
    """Writes parts, assembly and mass files into the folder; nothing for a layout without modules.

    Boxes not among those built show their modules alone. Raises OSError where a file cannot be written.
    """
    boxes = made_boxes(car, module, layout, built)
    if not boxes:
        return SolidReport((), (), None)
    numbers = part_numbers(built)
    files = [name for box in boxes for name in export_parts(box, numbers, folder)]
    links = cable_group(wiring) if wiring else None
    assembly = assembly_of(car, boxes, links)
    write_assembly_step(assembly, folder / "assembly.step")
    write_glb(assembly, folder / "assembly.glb")
    weights = [cable.mass for cable, _ in wiring.routed] if wiring else []
    cables = tuple(zip(links.bodies if links else (), weights, strict=True))
    masses = weighed_car(car, module, boxes, cables)
    write_mass_json(masses, folder / "mass.json")
    write_mass_csv(masses, folder / "mass.csv")
    files += ["assembly.step", "assembly.glb", "mass.json", "mass.csv"]
    notes = tuple(note for box in boxes for note in box.notes)
    shapes = {part.body.name: placed_shape(part.body) for box in boxes for part in box.parts}
    return SolidReport(tuple(files), notes, masses, shapes, boxes, links)


def placed_shape(body: Body) -> "TopoDS_Shape":
    """The solid of a body in its place in the car [mm]."""
    from OCP.gp import gp_Trsf, gp_Vec
    from OCP.TopLoc import TopLoc_Location

    move = gp_Trsf()
    move.SetTranslation(gp_Vec(*body.shift))
    return body.form.shape.Moved(TopLoc_Location(move))


def export_parts(box: MadeBox, numbers: Mapping[str, str], folder: Path) -> tuple[str, ...]:
    """Each made part of a box as STEP and STL in its place in the car, of one part number the first.

    Liner and gasket are cut from flat sheet and strip, and need neither.
    """
    files: list[str] = []
    first: dict[str, Body] = {}
    for part in box.parts:
        number = numbers.get(part.body.name, part.body.name)
        if part.kind in ("liner", "gasket") or first.setdefault(number, part.body) is not part.body:
            continue
        stem = file_stem(part.body.name)
        placed = Form(part.body.name, placed_shape(part.body), part.body.form.colour)
        write_part_step(placed, folder / f"{stem}.step")
        write_stl(part.body.form.mesh.moved(part.body.shift), folder / f"{stem}.stl")
        files += [f"{stem}.step", f"{stem}.stl"]
    return tuple(files)


def assembly_of(car: Car, boxes: tuple[MadeBox, ...], links: Group | None = None) -> Assembly:
    """Everything that goes into the car, one group for each box and one for the link cables."""
    groups = tuple(Group(box.name, _bodies(box)) for box in boxes)
    return Assembly(f"{car.name} pack", (*groups, links) if links else groups)


def _bodies(box: MadeBox) -> tuple[Body, ...]:
    """Parts, what is bought, modules, and the room the modules keep clear."""
    modules = tuple(module.body for module in box.modules)
    rooms = tuple(module.room for module in box.modules if module.room)
    bought = tuple(part.body for part in box.bought)
    return (*(part.body for part in box.parts), *bought, *modules, *rooms)
