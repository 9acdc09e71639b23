"""The drawing of one part: how it is once formed, then every flat that it is made of."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import TYPE_CHECKING

from boxfit.box.fitting import Strip
from boxfit.box.names import file_stem
from boxfit.box.numbers import with_pieces
from boxfit.box.parts import CoverPlate, Lid, Part, Shelf, Tray
from boxfit.box.whole import BuiltBox
from boxfit.car import Car
from boxfit.sheet.drawing.box_items import solid_mass
from boxfit.sheet.drawing.dimension import figure
from boxfit.sheet.drawing.flat_page import flat_page
from boxfit.sheet.drawing.formed_page import all_parts, formed_page
from boxfit.sheet.drawing.marks import Drawing, Page
from boxfit.sheet.drawing.tables import Table
from boxfit.sheet.drawing.title import PARTS, WELDED, Title, printed_tolerance
from boxfit.sheet.flat import Flat
from boxfit.sheet.flats import flats_of
from boxfit.standards.materials import MATERIALS

if TYPE_CHECKING:
    from OCP.TopoDS import TopoDS_Shape

CUBIC_METRE = 1e9
AGREED = "to be agreed"


def part_drawings(
    car: Car, built: BuiltBox, numbers: Mapping[str, str], shapes: "Mapping[str, TopoDS_Shape]"
) -> Iterator[Drawing]:
    """A drawing for every part of a box that is made; parts of one number share one."""
    flats = flats_of(built.parts, built.bay.box)
    pieces = with_pieces(numbers, [flat.name for flat in flats])
    names = {part.name: part for part in all_parts(built.parts)}
    owned: dict[str, list[Flat]] = {name: [] for name in names}
    for flat in flats:
        owner = _owner(flat.name, names)
        if owner:
            owned[owner].append(flat)
    first: dict[str, str] = {}
    for name in names:
        first.setdefault(numbers[name], name)
    for number, name in first.items():
        part, count = names[name], sum(numbers[other] == number for other in names)
        title = _title(car, built, part, number, count)
        pages = _pages(part, owned[name], pieces, shapes.get(name), title)
        if pages:
            yield Drawing(f"{file_stem(name)}-drawing", tuple(pages))


def _owner(name: str, parts: Mapping[str, object]) -> str:
    """The part that a flat of that name belongs to; empty where there is none."""
    if name in parts:
        return name
    return max((part for part in parts if name.startswith(f"{part} ")), key=len, default="")


def _title(car: Car, built: BuiltBox, part: Part | Strip, number: str, count: int) -> Title:
    """What all sheets of a part's drawing say in their title block."""
    welded = isinstance(part, Tray) and built.bay.box.process != "printed"
    printed = built.bay.box.process == "printed" and isinstance(part, Tray | Lid | CoverPlate | Shelf)
    return Title(
        title=part.name,
        number=number,
        kind="part drawing",
        scale="",
        car=car.name,
        material=part.material,
        thickness=f"{part.thickness:g} mm" if isinstance(part, Tray | Strip) else "",
        tolerances=printed_tolerance(built.bay.box) if printed else WELDED if welded else PARTS,
        finish=AGREED,
        quantity=str(count),
    )


def _pages(
    part: Part | Strip,
    flats: list[Flat],
    pieces: Mapping[str, str],
    shape: "TopoDS_Shape | None",
    title: Title,
) -> list[Page]:
    """The part once formed, where that is not what its flat shows, then its flats; numbered through."""
    plain = [flat for flat in flats if is_plain(flat) and flat.name != part.name]
    drawn = [flat for flat in flats if flat not in plain]
    mass = f"{solid_mass(shape, part.material):.3g} kg" if shape is not None else ""
    forming = shape is not None and (not flats or len(flats) > 1 or bool(flats[0].bends))
    count = len(drawn) + (1 if forming else 0)
    whole = replace(title, mass=mass, thickness=title.thickness or _thickness(flats))
    pages: list[Page] = []
    if forming:
        first = replace(whole, sheet=f"1 / {count}")
        pages.append(formed_page(part, shape, first, (piece_table(plain, pieces),)))
    for flat in drawn:
        own = mass if len(flats) == 1 else f"{flat_mass(flat):.3g} kg"
        said = replace(
            whole,
            title=flat.name,
            number=pieces.get(flat.name, title.number),
            kind="flat pattern" if flat.bends else "part drawing",
            material=flat.material,
            thickness=f"{flat.thickness:g} mm",
            tolerances=PARTS,
            quantity=str(flat.quantity),
            mass=own,
            sheet=f"{len(pages) + 1} / {count}",
        )
        pages.append(flat_page(flat, said))
    return pages


def is_plain(flat: Flat) -> bool:
    """Whether a flat is a rectangle without anything in it, so that a line in a table tells all of it."""
    only = (
        len(flat.contours) == 1
        and len(flat.contours[0]) == 4
        and not (flat.holes or flat.bends or flat.lines)
    )
    corners = [(one.x, one.y) for one in flat.contours[0]]
    square = all(x in (0.0, flat.size[0]) and y in (0.0, flat.size[1]) for x, y in corners)
    crossed = any(not mark.text for mark in flat.marks)
    return only and square and not crossed and not any(one.bulge for one in flat.contours[0])


def piece_table(flats: list[Flat], pieces: Mapping[str, str]) -> Table:
    """Plain rectangular pieces: number, what, size, how many."""
    rows = tuple(
        (
            pieces.get(flat.name, ""),
            flat.name,
            f"{figure(max(flat.size))} x {figure(min(flat.size))} x {flat.thickness:g}",
            str(flat.quantity),
        )
        for flat in flats
    )
    return Table("Pieces cut square, without holes", ("number", "piece", "size", "quantity"), rows)


def _thickness(flats: list[Flat]) -> str:
    """The sheet of a part's flats, if it is one."""
    return f"{flats[0].thickness:g} mm" if flats else ""


def flat_mass(flat: Flat) -> float:
    """What a flat weighs [kg]."""
    return flat.area * flat.thickness * MATERIALS[flat.material].density / CUBIC_METRE
