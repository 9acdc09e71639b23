"""The names of a bay's boxes on a picture, where the bay has several."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from boxfit.bay import BoxRules
from boxfit.layout import PlacedBox
from boxfit.report.area import Area, area_of
from boxfit.report.bands import beyond
from boxfit.report.look import BOX_NAME, BOX_NAME_SMALL
from boxfit.report.panel import Panel
from boxfit.report.paper import Sheet
from boxfit.report.parts import nearest_last, outside
from boxfit.report.placing import (
    SMALLEST,
    Candidate,
    clear_of,
    inside,
    place,
    place_with_leader,
)
from boxfit.surface import Outline

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

RIM = 0.8
"""A name stays this far inside its box [mm of paper]."""
ROW = 1.0
"""From one height tried for a name to the next [mm of paper]."""


@dataclass(frozen=True)
class BoxName:
    """What a box is called, "box 1", and the parts of it that are seen [mm of paper], the largest first.

    Boxes behind one another share their words; those of boxes hidden altogether stand in brackets.
    """

    words: str
    areas: tuple[Area, ...]


def box_names(panel: Panel, boxes: Sequence[PlacedBox], rules: BoxRules) -> tuple[BoxName, ...]:
    """The names of several boxes, the nearest first; none where a bay has no more than one."""
    if len(boxes) < 2:
        return ()
    order = nearest_last(panel, boxes)[::-1]
    outlines = [outside(panel.view, box, rules).outline for box in order]
    same: dict[Outline, list[int]] = {}
    for box, outline in zip(order, outlines, strict=True):
        same.setdefault(outline, []).append(boxes.index(box) + 1)
    found: list[BoxName] = []
    for outline, numbers in same.items():
        seen = beyond(outline, outlines[: outlines.index(outline)])
        pieces = seen or beyond(outline, ())
        areas = [area_of(panel.outline(corners)) for piece in pieces for corners in piece]
        words = f"box {', '.join(map(str, sorted(numbers)))}"
        largest_first = sorted(areas, key=lambda area: -area.width * area.height)
        found.append(BoxName(words if seen else f"({words})", tuple(largest_first)))
    return tuple(found)


def write_in_middle(sheet: Sheet, names: Sequence[BoxName]) -> None:
    """Write every name into the middle of the largest part seen of its box, upright rather than turned."""
    for name in names:
        spots = sorted(inside(name.areas[0], BOX_NAME), key=lambda spot: spot[1].turned)
        place(sheet, name.words, spots, name.areas[0])


def write_beside_modules(
    sheet: Sheet, names: Sequence[BoxName], lines: BaseGeometry, within: Area, covered: Sequence[Area]
) -> None:
    """Write every name into its box where it hides no line, or else beside all boxes."""
    for name in names:
        for area in name.areas:
            spots = clear_of(lines, sheet, name.words, _rows(area.inset(RIM)))
            if place(sheet, name.words, spots, area):
                break
        else:
            place_with_leader(sheet, name.words, name.areas[0], BOX_NAME_SMALL, within, covered)


def _rows(area: Area) -> Iterator[Candidate]:
    """Places in an area from its top down, at both sides and in the middle; smaller where need be."""
    size = BOX_NAME_SMALL.size
    while size >= SMALLEST:
        smaller = replace(BOX_NAME_SMALL, size=size)
        for row in range(int(area.height / ROW)):
            height = area.top - ROW * (row + 1)
            yield (area.left, height), replace(smaller, anchor="left")
            yield (area.right, height), replace(smaller, anchor="right")
            yield (area.centre[0], height), smaller
        size -= 0.5
