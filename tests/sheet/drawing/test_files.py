"""Drawings as PDF and DXF, read back."""

import re
import zlib
from collections import Counter
from io import StringIO
from typing import TYPE_CHECKING

import pytest

from boxfit.sheet.drawing.dxf import drawing_dxf
from boxfit.sheet.drawing.marks import Arc, Arrow, Circle, Drawing, Line, Page, Text
from boxfit.sheet.drawing.pdf import pdf_of
from tests.sheet.drawing.samples import sample

if TYPE_CHECKING:
    from ezdxf.document import Drawing as Document

STEMS = (
    "front-bay-box-1-tray-drawing",
    "rear-bay-box-1-lid-drawing",
    "front-bay-box-1-drawing",
    "arrangement",
)
POINT = 25.4 / 72.0


def read_back(drawing: Drawing) -> "Document":
    from ezdxf.filemanagement import read

    return read(StringIO(drawing_dxf(drawing).decode("utf-8")))


def test_a_drawing_for_every_part_every_box_and_the_car() -> None:
    stems = [one.stem for one in sample().drawings]
    assert len(stems) == len(set(stems))
    assert {*STEMS, "rear-bay-box-1-drawing", "front-bay-box-1-shelf-1-drawing"} <= set(stems)
    assert len(sample().drawing("front-bay-box-1-tray-drawing").pages) == 2


@pytest.mark.parametrize("stem", STEMS)
def test_dxf_holds_every_mark_and_passes_the_audit(stem: str) -> None:
    from ezdxf import units

    drawing = sample().drawing(stem)
    document = read_back(drawing)
    audit = document.audit()
    assert (list(audit.errors), list(audit.fixes)) == ([], [])
    assert document.dxfversion == "AC1024"
    assert document.units == units.MM
    marks = Counter(type(mark) for page in drawing.pages for mark in page.marks)
    kinds = Counter(entity.dxftype() for entity in document.modelspace())
    wanted = {"LINE": Line, "ARC": Arc, "CIRCLE": Circle, "SOLID": Arrow, "TEXT": Text}
    assert kinds == Counter({name: marks[kind] for name, kind in wanted.items() if marks[kind]})
    layers = {entity.dxf.layer for entity in document.modelspace()}
    assert layers <= {layer.dxf.name for layer in document.layers}
    written = sorted(entity.dxf.text for entity in document.modelspace().query("TEXT"))
    assert written == sorted(text.words for page in drawing.pages for text in page.texts)


@pytest.mark.parametrize("stem", STEMS)
def test_pdf_has_pages_of_the_sheets_sizes_and_real_text(stem: str) -> None:
    drawing = sample().drawing(stem)
    written = pdf_of(drawing)
    boxes = re.findall(rb"/MediaBox \[ 0 0 ([0-9.]+) ([0-9.]+) \]", written)
    sizes = [(float(wide) * POINT, float(high) * POINT) for wide, high in boxes]
    assert sizes == [pytest.approx(page.size, abs=0.1) for page in drawing.pages]
    streams = [zlib.decompress(found) for found in re.findall(rb"stream\r?\n(x.*?)endstream", written, re.S)]
    pages = [stream for stream in streams if b" Tj" in stream]
    assert [page.count(b" Tj") for page in pages] == [len(page.texts) for page in drawing.pages]
    assert b"/Subtype /Image" not in written


def test_the_same_drawing_gives_the_same_bytes() -> None:
    drawing = sample().drawing("front-bay-box-1-drawing")
    assert pdf_of(drawing) == pdf_of(drawing)
    assert drawing_dxf(drawing) == drawing_dxf(drawing)
    assert b"2026" not in pdf_of(drawing)


def test_any_name_can_be_drawn() -> None:
    """Letters that the font lacks, signs that the format uses itself, and line ends."""
    name = "Żuk 🚗 <&> %%c (850)\n\\P {x}"
    page = Page((420.0, 297.0), (Text(name, (50.0, 50.0)), Text("", (60.0, 60.0))))
    drawing = Drawing("odd", (page,))
    assert pdf_of(drawing).startswith(b"%PDF")
    audit = read_back(drawing).audit()
    assert (list(audit.errors), list(audit.fixes)) == ([], [])
