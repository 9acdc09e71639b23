"""A drawing as DXF: R2010, millimetres of paper, a layer for each kind of line, sheets side by side."""

from typing import TYPE_CHECKING

from boxfit.bay import Point
from boxfit.sheet.drawing.letters import FONT_FILE
from boxfit.sheet.drawing.marks import DASHES, WIDTHS, Arc, Arrow, Circle, Drawing, Line, Mark, Text
from boxfit.sheet.dxf import bytes_of, without_dates

if TYPE_CHECKING:
    from ezdxf.document import Drawing as Document
    from ezdxf.layouts.layout import Modelspace

BETWEEN = 30.0
"""Between sheets [mm]."""
WORDS = "words"
"""The layer of all text, and the name of its style."""
DIGITS = 6
"""Decimals of a coordinate."""
COLOURS = {"hidden": 8, "centre": 3, "dimension": 5, "fold up": 5, "fold down": 1, "hatch": 9}
"""By number of the format; black or white where none is given."""


def drawing_dxf(drawing: Drawing) -> bytes:
    """The drawing as a DXF file, the same bytes for the same drawing.

    Layers are called as the styles of lines are, and "words".
    """
    with without_dates():
        document = _document()
        space = document.modelspace()
        left = 0.0
        for page in drawing.pages:
            for mark in page.marks:
                _add(space, mark, left)
            left += page.size[0] + BETWEEN
        return bytes_of(document)


def _document() -> "Document":
    """An empty drawing in millimetres with our layers and lines."""
    from ezdxf import units
    from ezdxf.filemanagement import new

    document = new("R2010", units=units.MM)
    document.styles.add(WORDS, font=FONT_FILE)
    for name, dashes in DASHES.items():
        signed = [dash if place % 2 == 0 else -dash for place, dash in enumerate(dashes)]
        document.linetypes.add(name, [sum(dashes), *signed])
    for name, width in WIDTHS.items():
        document.layers.add(
            name,
            color=COLOURS.get(name, 7),
            linetype=name if name in DASHES else "Continuous",
            lineweight=round(width * 100.0),
        )
    document.layers.add(WORDS, color=7)
    return document


def _add(space: "Modelspace", mark: Mark, left: float) -> None:
    """One mark, so far [mm] to the right."""

    def place(point: Point) -> Point:
        return (round(point[0] + left, DIGITS) + 0.0, round(point[1], DIGITS) + 0.0)

    if isinstance(mark, Line):
        weight = {"lineweight": round(mark.width * 100.0)} if mark.width else {}
        space.add_line(place(mark.start), place(mark.end), dxfattribs={"layer": mark.style, **weight})
    elif isinstance(mark, Arc):
        ends = (mark.start, mark.end)
        space.add_arc(place(mark.centre), mark.radius, *ends, dxfattribs={"layer": mark.style})
    elif isinstance(mark, Circle):
        space.add_circle(place(mark.centre), mark.radius, dxfattribs={"layer": mark.style})
    elif isinstance(mark, Arrow):
        corners = [place(corner) for corner in mark.corners]
        space.add_solid([*corners, corners[2]], dxfattribs={"layer": "dimension"})
    else:
        _write(space, mark, place(mark.at))


def _write(space: "Modelspace", text: Text, at: Point) -> None:
    """Words on their base line."""
    from ezdxf.enums import TextEntityAlignment

    align = {
        "left": TextEntityAlignment.LEFT,
        "middle": TextEntityAlignment.CENTER,
        "right": TextEntityAlignment.RIGHT,
    }[text.anchor]
    look = {"layer": WORDS, "style": WORDS}
    one_line = " ".join(text.words.splitlines())
    words = space.add_text(one_line, height=text.height, rotation=text.turn, dxfattribs=look)
    words.set_placement(at, align=align)
