"""The lines of a bay's picture, for the words on it to leave in sight."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from boxfit.bay import Bay, BoxRules
from boxfit.layout import PlacedBox
from boxfit.report.panel import Panel
from boxfit.report.parts import clipped, lid_outside, outside
from boxfit.report.projection import View, bay_outlines, opening_outline, rectangle
from boxfit.surface import Outline

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry


def drawn_lines(panel: Panel, bay: Bay, boxes: Sequence[PlacedBox], opened: bool) -> BaseGeometry:
    """The outlines [mm of paper] of room, keep-outs, opening and boxes; of modules in boxes drawn opened."""
    from shapely import LineString, union_all

    flats = [*_of_bay(panel, bay)]
    for box in boxes:
        flats += _of_box(panel.view, box, bay.box)
        if opened:
            sides = [rectangle(panel.view, module.low, module.high) for module in box.modules]
            flats += [(*outline, outline[0]) for outline in sides]
    return union_all([LineString(panel.outline(flat)) for flat in flats])


def _of_bay(panel: Panel, bay: Bay) -> Iterator[Outline]:
    """Room, keep-outs and opening."""
    for outline in bay_outlines(panel.view, bay):
        yield (*outline, outline[0])
    for keepout in bay.keepouts:
        for outline in clipped(panel, bay, keepout):
            yield (*outline, outline[0])
    if bay.opening:
        hole = opening_outline(panel.view, bay, bay.opening)
        yield (*hole, hole[0])


def _of_box(view: View, box: PlacedBox, rules: BoxRules) -> Iterator[Outline]:
    """Floor, walls, lid and flange of a box, and its steps."""
    body, lid = outside(view, box, rules), lid_outside(view, box, rules)
    for drawn in (body, lid):
        yield (*drawn.outline, drawn.outline[0])
    yield from (*body.edges, *body.hidden)
