"""Stock sheets, lists and templates of all boxes as files."""

from dataclasses import dataclass
from pathlib import Path

from boxfit.box.fitting import Fastener
from boxfit.box.lid_fasteners import lid_fasteners
from boxfit.box.whole import BuiltBox
from boxfit.sheet.cut_list import cut_list_csv
from boxfit.sheet.drawing.pdf import pdf_of
from boxfit.sheet.dxf import stock_dxf
from boxfit.sheet.fastener_list import fastener_list_csv
from boxfit.sheet.nesting import nested
from boxfit.sheet.order_list import Order, order_list_csv, orders_of
from boxfit.sheet.stock import Nesting, Wanted
from boxfit.sheet.stock_csv import sheets_csv, stock_words
from boxfit.sheet.stock_pages import stock_drawing
from boxfit.sheet.template import templates_of
from boxfit.sheet.tiles import template_drawings
from boxfit.sheet.wanted import wanted_of
from boxfit.sheet.weld_list import weld_list_csv


@dataclass(frozen=True)
class WrittenLists:
    """What is cut, how it lies on stock sheets, the files written by name, and notes for the maker."""

    wanted: tuple[Wanted, ...]
    nesting: Nesting
    files: tuple[str, ...]
    notes: tuple[str, ...]


def write_lists(built: tuple[BuiltBox, ...], folder: Path, more: tuple[Order, ...] = ()) -> WrittenLists:
    """Writes sheets and lists, and templates, of all boxes into the folder.

    `more` is ordered besides what the boxes need. What is cut from sheet has no list where all boxes are
    printed. Raises OSError where a file cannot be written.
    """
    wanted = wanted_of(built)
    nesting = nested(wanted)
    fasteners = fasteners_of(built)
    texts = {
        "fastener-list.csv": fastener_list_csv(fasteners),
        "order-list.csv": order_list_csv((*orders_of(built, wanted, nesting, fasteners), *more)),
    }
    if wanted:
        texts["cut-list.csv"] = cut_list_csv(wanted)
    if any(one.bay.box.process != "printed" for one in built):
        texts["weld-list.csv"] = weld_list_csv(built)
    contents = {name: text.encode("utf-8") for name, text in texts.items()}
    contents |= _sheets(nesting) | _templates(built)
    for name, content in contents.items():
        (folder / name).write_bytes(content)
    return WrittenLists(wanted, nesting, tuple(contents), stock_words(nesting))


def fasteners_of(built: tuple[BuiltBox, ...]) -> tuple[Fastener, ...]:
    """All fasteners of all boxes: those of lids and cover plates, then those of the fittings."""
    return tuple(
        fastener
        for one in built
        for fastener in (*lid_fasteners(one.parts, one.bay.box), *one.parts.fittings.fasteners)
    )


def _sheets(nesting: Nesting) -> dict[str, bytes]:
    """The stock sheets: as a list, as one drawing, and a DXF each; nothing where none is needed."""
    if not nesting.sheets:
        return {}
    files = {"sheets.csv": sheets_csv(nesting).encode("utf-8"), "sheets.pdf": pdf_of(stock_drawing(nesting))}
    for sheet in nesting.sheets:
        labels = [one.part.number for one in sheet.placed]
        files[f"{sheet.name}.dxf"] = stock_dxf(sheet.stock.size, [one.flat for one in sheet.placed], labels)
    return files


def _templates(built: tuple[BuiltBox, ...]) -> dict[str, bytes]:
    """The templates on both sizes of paper; nothing without boxes."""
    templates = templates_of(built)
    drawings = template_drawings(templates) if templates else ()
    return {f"{drawing.stem}.pdf": pdf_of(drawing) for drawing in drawings}
