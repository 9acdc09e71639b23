"""STEP files read back with the same solids, names and colours."""

import re
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from boxfit.bay import Block
from boxfit.box.whole import built_boxes
from boxfit.solid.body import Form
from boxfit.solid.colours import COLOURS, Colour
from boxfit.solid.fittings import made_bought
from boxfit.solid.made import made_boxes
from boxfit.solid.shapes import block_shape
from boxfit.solid.step import write_assembly_step, write_part_step
from boxfit.solid.write import assembly_of
from tests.box.samples import HERON, car_and_layout

if TYPE_CHECKING:
    import cadquery

Names = dict[str, list[str]]


def names_in(path: Path) -> Names:
    """What stands directly under each assembly of a STEP file, by the names of the places."""
    from OCP.STEPCAFControl import STEPCAFControl_Reader
    from OCP.TCollection import TCollection_ExtendedString
    from OCP.TDataStd import TDataStd_Name
    from OCP.TDF import TDF_Label, TDF_LabelSequence
    from OCP.TDocStd import TDocStd_Document
    from OCP.XCAFDoc import XCAFDoc_DocumentTool, XCAFDoc_ShapeTool

    document = TDocStd_Document(TCollection_ExtendedString("XmlXCAF"))
    reader = STEPCAFControl_Reader()
    reader.SetNameMode(True)
    reader.ReadFile(str(path))
    reader.Transfer(document)
    tool = XCAFDoc_DocumentTool.ShapeTool_s(document.Main())
    found: Names = {}

    def name_of(label: TDF_Label) -> str:
        name = TDataStd_Name()
        label.FindAttribute(TDataStd_Name.GetID_s(), name)
        return str(name.Get().ToExtString())

    def read(label: TDF_Label) -> None:
        components = TDF_LabelSequence()
        XCAFDoc_ShapeTool.GetComponents_s(label, components)
        below = [components.Value(place) for place in range(1, components.Length() + 1)]
        found[name_of(label)] = [name_of(component) for component in below]
        for component in below:
            shape = TDF_Label()
            XCAFDoc_ShapeTool.GetReferredShape_s(component, shape)
            read(shape)

    roots = TDF_LabelSequence()
    tool.GetFreeShapes(roots)
    for place in range(1, roots.Length() + 1):
        read(roots.Value(place))
    return found


def test_assembly_keeps_its_names(tmp_path: Path) -> None:
    """Boxes in the pack, parts and numbered modules in the boxes."""
    car, layout = car_and_layout()
    built = built_boxes(car, HERON, layout)
    fittings = built[1].parts.fittings
    assert len(fittings.strips) > 4
    assert fittings.bought
    boxes = made_boxes(car, HERON, layout, built)
    write_assembly_step(assembly_of(car, boxes), tmp_path / "assembly.step")
    names = names_in(tmp_path / "assembly.step")
    assert names["Dunlin 850 pack"] == ["front bay box 1", "rear bay box 1"]
    assert names["rear bay box 1"] == [
        "rear bay box 1 tray",
        "rear bay box 1 lid",
        "rear bay box 1 shelf 1",
        "rear bay box 1 liner",
        *(strip.name for strip in fittings.strips),
        *(made.body.name for made in made_bought("rear bay box 1", fittings.bought)),
        *(f"module {number}" for number in (7, 8, 9, 10)),
        *(f"module {number} room" for number in (7, 8, 9, 10)),
    ]
    assert "Heron 44 151 x 355 x 108" in names


def colours_in(path: Path) -> set[Colour]:
    """The colours of a STEP file, two decimals each."""
    from OCP.Quantity import Quantity_ColorRGBA
    from OCP.STEPCAFControl import STEPCAFControl_Reader
    from OCP.TCollection import TCollection_ExtendedString
    from OCP.TDF import TDF_LabelSequence
    from OCP.TDocStd import TDocStd_Document
    from OCP.XCAFDoc import XCAFDoc_DocumentTool

    document = TDocStd_Document(TCollection_ExtendedString("XmlXCAF"))
    reader = STEPCAFControl_Reader()
    reader.SetColorMode(True)
    reader.ReadFile(str(path))
    reader.Transfer(document)
    tool = XCAFDoc_DocumentTool.ColorTool_s(document.Main())
    labels = TDF_LabelSequence()
    tool.GetColors(labels)
    read: set[Colour] = set()
    for place in range(1, labels.Length() + 1):
        colour = Quantity_ColorRGBA()
        tool.GetColor_s(labels.Value(place), colour)
        plain = colour.GetRGB()
        read.add(rounded((plain.Red(), plain.Green(), plain.Blue(), colour.Alpha())))
    return read


def rounded(colour: Colour) -> Colour:
    """As far as a file holds it."""
    red, green, blue, opacity = (round(part, 2) for part in colour)
    return (red, green, blue, opacity)


def read_back(path: Path) -> "cadquery.Shape":
    """The one solid in a file, or all as one, as the CAD library reads it."""
    import cadquery

    shape = cadquery.importers.importStep(str(path)).val()
    assert isinstance(shape, cadquery.Shape)
    return shape


def test_assembly_keeps_its_colours(tmp_path: Path) -> None:
    """Faces as in the table; edges of see-through parts in the same colour, opaque."""
    car, layout = car_and_layout()
    path = tmp_path / "assembly.step"
    boxes = made_boxes(car, HERON, layout, built_boxes(car, HERON, layout))
    write_assembly_step(assembly_of(car, boxes), path)
    kinds = {part.kind for box in boxes for part in box.parts} | {"module", "module room", "bought part"}
    faces = {rounded(COLOURS[kind]) for kind in kinds}
    assert colours_in(path) == faces | {(*colour[:3], 1.0) for colour in faces}


def test_part_reads_back_with_volume_and_size(tmp_path: Path) -> None:
    """Every part of both boxes but the liner, of strips that are alike the first, through the CAD library."""
    import cadquery

    car, layout = car_and_layout()
    parts = [
        part
        for box in made_boxes(car, HERON, layout, built_boxes(car, HERON, layout))
        for part in box.parts
        if part.kind != "liner" and part.body.form.name == part.body.name
    ]
    for part in parts:
        path = tmp_path / "part.step"
        write_part_step(part.body.form, path)
        back, first = read_back(path), cadquery.Shape.cast(part.body.form.shape)
        assert back.isValid()
        assert back.ShapeType() == "Solid"
        assert back.Volume() == pytest.approx(first.Volume(), rel=1e-6)
        before, after = first.BoundingBox(), back.BoundingBox()
        for end in ("xmin", "xmax", "ymin", "ymax", "zmin", "zmax"):
            assert getattr(after, end) == pytest.approx(getattr(before, end), abs=1e-4)
        assert names_in(path) == {part.body.name: []}


def test_names_beyond_ascii_and_in_quotes_survive(tmp_path: Path) -> None:
    """In the file they are plain ASCII, whatever the folder and the part are called."""
    folder = tmp_path / "Möwe"
    folder.mkdir()
    name = "Möwe 'L' 電 \N{BATTERY} a\\b"
    form = Form(name, block_shape(Block((0.0, 0.0, 0.0), (1.0, 2.0, 3.0))), COLOURS["module"])
    write_part_step(form, folder / "möwe.step")
    assert (folder / "möwe.step").read_bytes().isascii()
    assert names_in(folder / "möwe.step") == {name: []}


def test_header_names_no_person_and_no_moment(tmp_path: Path) -> None:
    """And the same part gives the same bytes, whatever was written or set before."""
    from OCP.Interface import Interface_Static

    car, layout = car_and_layout()
    boxes = made_boxes(car, HERON, layout, built_boxes(car, HERON, layout))
    first, second = tmp_path / "one", tmp_path / "two"
    for folder in (first, second):
        folder.mkdir()
        write_assembly_step(assembly_of(car, boxes), folder / "assembly.step")
        Interface_Static.SetCVal_s("write.step.unit", "INCH")
    Interface_Static.SetCVal_s("write.step.unit", "MM")
    text = (first / "assembly.step").read_text(encoding="ascii")
    assert text == (second / "assembly.step").read_text(encoding="ascii")
    header = re.sub(r"\n\s*", "", text[: text.index("DATA;")])
    assert "FILE_NAME('assembly.step','1970-01-01T00:00:00',(''),(''),'boxfit','boxfit',''" in header
    assert "AUTOMOTIVE_DESIGN" in header
    assert "SI_UNIT(.MILLI.,.METRE.)" in text


def test_unwritable_file_is_told(tmp_path: Path) -> None:
    """A folder that is not there."""
    form = Form("lid", block_shape(Block((0.0, 0.0, 0.0), (1.0, 2.0, 3.0))), COLOURS["lid"])
    with pytest.raises(OSError, match="cannot write the STEP file"):
        write_part_step(form, tmp_path / "nowhere" / "lid.step")
