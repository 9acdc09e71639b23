"""The pieces of printed boxes as STL files, and a list of them."""

import csv
from io import StringIO
from pathlib import Path

from boxfit.bay import Vector
from boxfit.box.fitting import Strip
from boxfit.box.names import file_stem
from boxfit.box.numbers import made_alike
from boxfit.box.printed import PrintedPart, printed_notes, printed_parts
from boxfit.box.whole import BuiltBox
from boxfit.solid.mesh import Mesh, write_stl
from boxfit.solid.pieces import mesh_of_piece, pieces_of, read_stl, solid_of
from boxfit.standards.materials import MATERIALS

PIECES = "print-pieces.csv"
HEADINGS = (
    "piece",
    "file",
    "quantity",
    "material",
    *(f"size {axis} [mm]" for axis in "xyz"),
    "volume [cm3]",
    "mass [g]",
    *(f"bed used {axis} [%]" for axis in "xyz"),
)
"""Sizes and bed along the car's axes, so as the piece lies in the box, with the bed turned to suit."""


def write_printed(built: tuple[BuiltBox, ...], folder: Path) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Cuts every printed part of the boxes into pieces for the bed; the files listed, and notes.

    Reads the whole part from its STL file in the folder. Nothing is written where no box is printed. Raises
    OSError where a file cannot be read or written, ValueError where a part's file is not closed.
    """
    rows: list[list[object]] = []
    notes: list[str] = []
    for one in built:
        printed = printed_parts(one.parts, one.bay.box)
        notes += printed_notes(printed, one.bay.box)
        for part in printed:
            rows += _write_part(part, folder)
        rows += [_row_of_strip(strip, count, one, folder) for strip, count in printed_strips(one)]
    if not rows:
        return (), ()
    (folder / PIECES).write_text(_table(rows), encoding="utf-8")
    return (*(str(row[1]) for row in rows), PIECES), tuple(notes)


def printed_strips(one: BuiltBox) -> tuple[tuple[Strip, int], ...]:
    """Blocks for hold-downs of a printed box, those made alike once, with how many."""
    rules = one.bay.box
    if rules.process != "printed":
        return ()
    alike: dict[object, list[Strip]] = {}
    for strip in one.parts.fittings.strips:
        if strip.material == rules.material:
            alike.setdefault(made_alike(strip), []).append(strip)
    return tuple((strips[0], len(strips)) for strips in alike.values())


def _row_of_strip(strip: Strip, count: int, one: BuiltBox, folder: Path) -> list[object]:
    """The row of a strip, which is printed whole."""
    file = f"{file_stem(strip.name)}.stl"
    density = MATERIALS[strip.material].density
    figures = _figures(read_stl(folder / file), one.bay.box.print_shop.bed, density)
    return [strip.name, file, count, strip.material, *figures]


def _write_part(part: PrintedPart, folder: Path) -> list[list[object]]:
    """One file for each piece of a part, and the rows of the list."""
    stem = file_stem(part.name)
    whole = read_stl(folder / f"{stem}.stl")
    rows: list[list[object]] = []
    for number, piece in enumerate(pieces_of(solid_of(whole), part.division), start=1):
        mesh, file = mesh_of_piece(piece), f"{stem}-piece-{number}.stl"
        write_stl(mesh, folder / file)
        density = MATERIALS[part.material].density
        rows.append(
            [
                f"{part.name} piece {number}",
                file,
                1,
                part.material,
                *_figures(mesh, part.division.bed, density),
            ]
        )
    return rows


def _size(mesh: Mesh) -> Vector:
    """Of a mesh's extent [mm]."""
    x, y, z = (float(side) for side in mesh.corners.max(axis=0) - mesh.corners.min(axis=0))
    return (x, y, z)


def _figures(mesh: Mesh, bed: Vector, density: float) -> list[float]:
    """Size, volume, mass, and how much of the bed is used each way."""
    size, volume = _size(mesh), mesh.volume
    used = [round(100.0 * side / whole, 1) for side, whole in zip(size, bed, strict=True)]
    figures = [round(side, 2) for side in size]
    return [*figures, round(volume / 1e3, 2), round(volume * density * 1e-6, 1), *used]


def _table(rows: list[list[object]]) -> str:
    """The list as a CSV."""
    text = StringIO()
    lines = csv.writer(text, lineterminator="\n")
    lines.writerow(HEADINGS)
    lines.writerows(rows)
    return text.getvalue()
