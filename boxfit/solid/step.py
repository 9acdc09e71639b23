"""STEP files (ISO 10303-21, AP214) with names and colours; the same input gives the same bytes."""

from pathlib import Path
from typing import TYPE_CHECKING

from boxfit.bay import Vector
from boxfit.solid.body import Assembly, Form
from boxfit.solid.colours import Colour
from boxfit.solid.step_order import number_occurrences, sort_colours

if TYPE_CHECKING:
    from OCP.STEPCAFControl import STEPCAFControl_Writer
    from OCP.TDF import TDF_Label
    from OCP.TopLoc import TopLoc_Location
    from OCP.XCAFDoc import XCAFDoc_ColorTool, XCAFDoc_ShapeTool

TIME_STAMP = "1970-01-01T00:00:00"
"""FILE_NAME must hold a time; a fixed one, so that files can be compared."""
MILLIMETRE = 0.001
SETTINGS = {"write.step.schema": "AP214IS", "write.step.unit": "MM"}


def write_part_step(form: Form, path: Path) -> None:
    """One part in the car's coordinates [mm]."""
    drawing = _Drawing()
    drawing.add_form(form)
    drawing.write(path)


def write_assembly_step(assembly: Assembly, path: Path) -> None:
    """The whole pack in the car's coordinates [mm], box by box; equal modules are one product."""
    drawing = _Drawing()
    root = drawing.add_group(assembly.name)
    forms: dict[Form, TDF_Label] = {}
    for group in assembly.groups:
        branch = drawing.add_group(group.name)
        for body in group.bodies:
            if body.form not in forms:
                forms[body.form] = drawing.add_form(body.form)
            drawing.place(branch, forms[body.form], body.name, body.shift)
        drawing.place(root, branch, group.name, (0.0, 0.0, 0.0))
    drawing.write(path)


class _Drawing:
    """A document of named and coloured shapes on its way into a STEP file."""

    def __init__(self) -> None:
        from OCP.TCollection import TCollection_ExtendedString
        from OCP.TDocStd import TDocStd_Document
        from OCP.XCAFDoc import XCAFDoc_DocumentTool

        self.document: TDocStd_Document = TDocStd_Document(TCollection_ExtendedString("XmlXCAF"))
        XCAFDoc_DocumentTool.SetLengthUnit_s(self.document, MILLIMETRE)
        self.shapes: XCAFDoc_ShapeTool = XCAFDoc_DocumentTool.ShapeTool_s(self.document.Main())
        self.colours: XCAFDoc_ColorTool = XCAFDoc_DocumentTool.ColorTool_s(self.document.Main())

    def add_form(self, form: Form) -> "TDF_Label":
        """A shape under its name, in its colour."""
        from OCP.XCAFDoc import XCAFDoc_ColorType

        label = self.shapes.AddShape(form.shape, False)
        _name(label, form.name)
        self.colours.SetColor(label, _quantity(form.colour), XCAFDoc_ColorType.XCAFDoc_ColorGen)
        return label

    def add_group(self, name: str) -> "TDF_Label":
        """An empty assembly."""
        label = self.shapes.NewShape()
        _name(label, name)
        return label

    def place(self, group: "TDF_Label", form: "TDF_Label", name: str, shift: Vector) -> None:
        """A shape in a group, moved by `shift` [mm]."""
        _name(self.shapes.AddComponent(group, form, _location(shift)), name)

    def write(self, path: Path) -> None:
        """The file; raises OSError where it cannot be written."""
        from OCP.IFSelect import IFSelect_RetDone
        from OCP.Interface import Interface_Static
        from OCP.STEPCAFControl import STEPCAFControl_Writer
        from OCP.STEPControl import STEPControl_StepModelType

        _hush()
        self.shapes.UpdateAssemblies()
        writer = STEPCAFControl_Writer()
        for key, value in SETTINGS.items():
            Interface_Static.SetCVal_s(key, value)
        done = writer.Transfer(self.document, STEPControl_StepModelType.STEPControl_AsIs)
        number_occurrences(writer.ChangeWriter().Model())
        _sign(writer, path.name)
        if not done or writer.Write(str(path)) != IFSelect_RetDone:
            raise OSError(f"{path}: cannot write the STEP file")
        sort_colours(path)


def _sign(writer: "STEPCAFControl_Writer", name: str) -> None:
    """A header without date or person."""
    from OCP.APIHeaderSection import APIHeaderSection_MakeHeader
    from OCP.TCollection import TCollection_HAsciiString

    header = APIHeaderSection_MakeHeader(writer.ChangeWriter().Model())
    blank, ours = TCollection_HAsciiString(""), TCollection_HAsciiString("boxfit")
    header.SetDescriptionValue(1, ours)
    header.SetName(TCollection_HAsciiString(_plain(name)))
    header.SetTimeStamp(TCollection_HAsciiString(TIME_STAMP))
    header.SetAuthorValue(1, blank)
    header.SetOrganizationValue(1, blank)
    header.SetPreprocessorVersion(ours)
    header.SetOriginatingSystem(ours)
    header.SetAuthorisation(blank)


def _name(label: "TDF_Label", name: str) -> None:
    """Names a label in the document."""
    from OCP.TCollection import TCollection_ExtendedString
    from OCP.TDataStd import TDataStd_Name

    TDataStd_Name.Set_s(label, TCollection_ExtendedString(_plain(name)))


def _plain(text: str) -> str:
    """Letters beyond ASCII as ISO 10303-21 clause 6.4.3 writes them (from memory).

    >>> print(_plain("Möwe 44"))
    M\\X2\\00F6\\X0\\we 44
    """
    return "".join(letter if letter.isascii() else _directive(ord(letter)) for letter in text)


def _directive(code: int) -> str:
    """A letter by its number, in four or, where that is too few, eight digits."""
    return f"\\X2\\{code:04X}\\X0\\" if code < 0x10000 else f"\\X4\\{code:08X}\\X0\\"


def _hush() -> None:
    """Keeps the kernel's progress talk off the screen; failures are still told."""
    from OCP.Message import Message, Message_Gravity

    for printer in Message.DefaultMessenger_s().Printers():
        printer.SetTraceLevel(Message_Gravity.Message_Fail)


def _quantity(colour: Colour) -> object:
    """A colour of ours as the kernel's, both in linear light."""
    from OCP.Quantity import Quantity_ColorRGBA

    return Quantity_ColorRGBA(*colour)


def _location(shift: Vector) -> "TopLoc_Location":
    """A move [mm]."""
    from OCP.gp import gp_Trsf, gp_Vec
    from OCP.TopLoc import TopLoc_Location

    if shift == (0.0, 0.0, 0.0):
        return TopLoc_Location()
    move = gp_Trsf()
    move.SetTranslation(gp_Vec(*shift))
    return TopLoc_Location(move)
