"""All drawings of a layout as files."""

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from boxfit.box.numbers import part_numbers
from boxfit.box.whole import BuiltBox
from boxfit.car import Car
from boxfit.layout import Layout
from boxfit.module import Module
from boxfit.sheet.drawing.box import box_drawing
from boxfit.sheet.drawing.car_page import car_page
from boxfit.sheet.drawing.dxf import drawing_dxf
from boxfit.sheet.drawing.marks import Drawing
from boxfit.sheet.drawing.part import part_drawings
from boxfit.sheet.drawing.pdf import pdf_of
from boxfit.sheet.drawing.title import Title

if TYPE_CHECKING:
    from OCP.TopoDS import TopoDS_Shape

Shapes = Mapping[str, "TopoDS_Shape"]


def write_drawings(
    car: Car, module: Module, layout: Layout, built: tuple[BuiltBox, ...], shapes: Shapes, folder: Path
) -> tuple[str, ...]:
    """Writes a PDF and a DXF for every part and every box, and those of the arrangement; returns their names.

    `shapes` holds the solid of every part by its name. Raises OSError where a file cannot be written.
    """
    files: list[str] = []
    for drawing in drawings_of(car, module, layout, built, shapes):
        for name, written in ((".pdf", pdf_of(drawing)), (".dxf", drawing_dxf(drawing))):
            (folder / f"{drawing.stem}{name}").write_bytes(written)
            files.append(f"{drawing.stem}{name}")
    return tuple(files)


def drawings_of(
    car: Car, module: Module, layout: Layout, built: tuple[BuiltBox, ...], shapes: Shapes
) -> Iterator[Drawing]:
    """Every drawing: parts box by box, each box, and the arrangement in the car."""
    numbers = part_numbers(built)
    for one in built:
        yield from part_drawings(car, one, numbers, shapes)
        yield box_drawing(car, module, one, numbers, shapes)
    title = Title(
        title=f"arrangement in the {car.name}",
        number="",
        kind="arrangement drawing",
        scale="",
        car=car.name,
        tolerances="positions ± the survey's tolerance",
        cautions="High voltage: live work only by qualified people, to local codes.",
    )
    yield Drawing("arrangement", (car_page(car, module, layout, built, title),))
