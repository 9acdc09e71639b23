"""A flat as DXF: R2010, one to one in millimetres, one layer for each thing the shop does."""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from io import StringIO
from math import atan2, degrees, hypot
from typing import TYPE_CHECKING

from boxfit.bay import Point
from boxfit.sheet.flat import Flat
from boxfit.standards.bending import k_factor, least_inside_radius

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.layouts.layout import Modelspace

CUT, UP, DOWN, MARK, NOTE = "cut", "fold up", "fold down", "mark", "note"
SHEET = "sheet"
_COLOURS = {CUT: 7, UP: 5, DOWN: 1, MARK: 3, NOTE: 8}
_LINES = {UP: "fold up", DOWN: "fold down"}
_DASHES = {"fold up": [12.0, 8.0, -4.0], "fold down": [16.0, 8.0, -3.0, 2.0, -3.0]}
CROSS = 5.0
"""Half the width [mm] of a cross that marks a place."""
TEXT = 7.0
"""Height [mm] of words."""
BESIDE = 8.0
"""How far [mm] from its line a bend is told."""
DIGITS = 6
"""Decimals of a coordinate."""


def dxf_of(flat: Flat) -> bytes:
    """The flat as a DXF file, the same bytes for the same flat.

    Layers: "cut" (closed contours and holes), "fold up" and "fold down" (towards and away from the eye),
    "mark" (to be marked on the part), "note" (beside the part or on it, neither cut nor marked).
    """
    with without_dates():
        document = _document()
        space = document.modelspace()
        _draw_cuts(space, flat)
        _draw_folds(space, flat)
        _draw_marks(space, flat)
        _draw_notes(space, flat)
        return bytes_of(document)


def stock_dxf(size: Point, placed: Sequence[Flat], labels: Sequence[str]) -> bytes:
    """A stock sheet of `size` [mm] as a DXF file: flats where they lie on it, each with its label.

    Layers as those of a flat, the sheet's own edge on "sheet", which is not cut.
    """
    with without_dates():
        document = _document()
        document.layers.add(SHEET, color=9)
        space = document.modelspace()
        edge = ((0.0, 0.0), (size[0], 0.0), size, (0.0, size[1]))
        space.add_lwpolyline(edge, close=True, dxfattribs={"layer": SHEET})
        for flat, label in zip(placed, labels, strict=True):
            _draw_cuts(space, flat)
            _draw_folds(space, flat)
            _draw_marks(space, flat)
            _write(space, label, _middle(flat), NOTE, 0.0)
        return bytes_of(document)


def bytes_of(document: "Drawing") -> bytes:
    """The file's text. The library lists the classes of things in it as a set gives them, so in another order
    in every run: they are listed here before."""
    for kind in sorted(document.entitydb.dxf_types_in_use()):
        document.classes.add_class(kind)
    written = StringIO()
    document.write(written)
    return written.getvalue().encode("utf-8")


@contextmanager
def without_dates() -> Iterator[None]:
    """Dates and random identifiers of the file format stay fixed."""
    import ezdxf

    options = ezdxf.options  # type: ignore[attr-defined]
    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = before


def _document() -> "Drawing":
    """An empty drawing in millimetres with our layers."""
    from ezdxf import units
    from ezdxf.filemanagement import new

    document = new("R2010", units=units.MM)
    for name, dashes in _DASHES.items():
        document.linetypes.add(name, dashes)
    for name, colour in _COLOURS.items():
        document.layers.add(name, color=colour, linetype=_LINES.get(name, "Continuous"))
    return document


def _even(value: float) -> float:
    """Rounded, and never minus zero."""
    return round(value, DIGITS) + 0.0


def _draw_cuts(space: "Modelspace", flat: Flat) -> None:
    """Closed contours, their arcs as bulges, and holes as circles."""
    for contour in flat.contours:
        points = [(_even(one.x), _even(one.y), round(one.bulge, 12)) for one in contour]
        space.add_lwpolyline(points, format="xyb", close=True, dxfattribs={"layer": CUT})
    for hole in flat.holes:
        centre = (_even(hole.at[0]), _even(hole.at[1]))
        space.add_circle(centre, hole.diameter / 2.0, dxfattribs={"layer": CUT})


def _draw_folds(space: "Modelspace", flat: Flat) -> None:
    """Bend lines, each told beside it on the side of the flat's middle."""
    centre = _middle(flat)
    for bend in flat.bends:
        start, end = (tuple(map(_even, point)) for point in (bend.start, bend.end))
        space.add_line(start, end, dxfattribs={"layer": UP if bend.up else DOWN})
        (x, y), (a, b) = bend.start, bend.end
        middle = ((x + a) / 2.0, (y + b) / 2.0)
        in_x, in_y = centre[0] - middle[0], centre[1] - middle[1]
        beside = BESIDE / max(hypot(in_x, in_y), BESIDE)
        text = f"{'up' if bend.up else 'down'} {bend.angle:g} R{bend.radius:g}"
        at = (middle[0] + beside * in_x, middle[1] + beside * in_y)
        _write(space, text, at, NOTE, degrees(atan2(b - y, a - x)) % 180.0)


def _middle(flat: Flat) -> Point:
    """The middle of the flat's extent."""
    xs, ys = [one.x for one in flat.contours[0]], [one.y for one in flat.contours[0]]
    return ((min(xs) + max(xs)) / 2.0, (min(ys) + max(ys)) / 2.0)


def _draw_marks(space: "Modelspace", flat: Flat) -> None:
    """Lines to be marked; words where there are any, else a cross."""
    for line in flat.lines:
        points = [(_even(x), _even(y)) for x, y in line]
        space.add_lwpolyline(points, close=True, dxfattribs={"layer": MARK})
    for mark in flat.marks:
        if mark.text:
            _write(space, mark.text, mark.at, MARK, 0.0)
            continue
        (x, y), layer = mark.at, {"layer": MARK}
        space.add_line((_even(x - CROSS), _even(y)), (_even(x + CROSS), _even(y)), dxfattribs=layer)
        space.add_line((_even(x), _even(y - CROSS)), (_even(x), _even(y + CROSS)), dxfattribs=layer)


def _draw_notes(space: "Modelspace", flat: Flat) -> None:
    """What the shop must know, in lines under the flat."""
    for place, line in enumerate(notes_of(flat)):
        _write(space, line, (0.0, -20.0 - 1.6 * TEXT * place), NOTE, None)


def notes_of(flat: Flat) -> tuple[str, ...]:
    """The lines written under a flat.

    >>> notes_of(Flat("lid", "steel-dc01", 1.5, (), (200.0, 100.0, 1.5), quantity=2))[1]
    'steel-dc01, 1.5 mm, quantity 2'
    """
    wide, deep, high = flat.formed
    return (
        flat.name,
        f"{flat.material}, {flat.thickness:g} mm, quantity {flat.quantity}",
        f"outside once formed {wide:.1f} x {deep:.1f} x {high:.1f} mm",
        *_bend_notes(flat),
        *flat.notes,
        "temper and finish: to be agreed with the shop; grain: see the layouts",
        "1:1 in millimetres; a working aid: check bend figures with the shop before cutting",
    )


def _bend_notes(flat: Flat) -> Iterator[str]:
    """Radius and K that the blank was made with, and the tightest radius that the sheet takes."""
    least = least_inside_radius(flat.material, flat.thickness)
    for radius, k, by_table in sorted({(bend.radius, bend.k, bend.by_table) for bend in flat.bends}):
        standard = f"{k_factor(radius, flat.thickness):.3f}"
        told = f"K {standard} by DIN 6935, none in the shop's table"
        if by_table:
            told = f"K {k:g} by the shop's table; DIN 6935 gives {standard}"
        yield f"inside radius {radius:g} mm, {told}; bend lines at the bend's middle"
        if least:
            yield f"least inside radius {least.radius:g} mm: {least.source}"


def _write(space: "Modelspace", text: str, at: tuple[float, float], layer: str, turn: float | None) -> None:
    """Words about a point, or to the right of it where no turn [degrees] is given."""
    from ezdxf.enums import TextEntityAlignment

    align = TextEntityAlignment.LEFT if turn is None else TextEntityAlignment.MIDDLE_CENTER
    words = space.add_text(text, height=TEXT, rotation=turn or 0.0, dxfattribs={"layer": layer})
    words.set_placement((_even(at[0]), _even(at[1])), align=align)
