"""The insulating sheets inside a box."""

from collections.abc import Iterator

from boxfit.bay import BoxRules, Point
from boxfit.box.parts import Liner, LinerSheet, Plate
from boxfit.box_blank import floor_radius
from boxfit.box_details import reflex_corners, rib_depth, wall_liner_spans
from boxfit.box_shape import Rectangle, grown, rectangle
from boxfit.layout import PlacedBox
from boxfit.standards.materials import LINER
from boxfit.surface import Outline

WALLS = ("front", "rear", "left", "right")


def liner_of(name: str, box: PlacedBox, rules: BoxRules) -> Liner | None:
    """Floor sheet, as far as the floor is flat, and a sheet per wall and tier; None without a liner.

    Nor has a printed box one: its ribs stand in the liner's place.
    """
    if rules.liner == 0.0 or rib_depth(rules):
        return None
    bottom = box.low[2]
    levels = tuple(tier.stands_on - bottom for tier in box.tiers)
    rim = box.high[2] - rules.rim_below_top - bottom
    radius = floor_radius(box.outlines, rim, rules) or 0.0
    spans = wall_liner_spans(rim, levels, rules, radius)
    sheets = [_floor_sheet(box, rules, radius)]
    for tier, (low, high) in spans:
        sheets += _wall_sheets(tier, box, rules, (bottom + low, bottom + high))
    return Liner(f"{name} liner", LINER.name, tuple(sheets))


def _floor_sheet(box: PlacedBox, rules: BoxRules, radius: float) -> LinerSheet:
    """Ends where the bend begins, or at the walls where the radius [mm] is 0."""
    inset, floor = rules.thickness + radius, box.low[2] + rules.thickness
    return LinerSheet("floor", Plate(grown(box.outlines[0], -inset), floor, floor + rules.liner))


def _wall_sheets(tier: int, box: PlacedBox, rules: BoxRules, up: tuple[float, float]) -> Iterator[LinerSheet]:
    """Those of front and rear walls run the whole way at every corner, those of left and right up to them."""
    found = sheets_along(grown(box.outlines[tier], -rules.thickness), rules.liner)
    for wall in WALLS:
        plans = [plan for looks, plan in found if looks == wall]
        for number, (low, high) in enumerate(plans, start=1):
            which = f" {number}" if len(plans) > 1 else ""
            yield LinerSheet(f"{wall} wall{which} tier {tier + 1}", Plate(rectangle(low, high), *up))


def sheets_along(inside: Outline, thick: float) -> list[tuple[str, Rectangle]]:
    """The plan of a sheet so `thick` [mm] along each side of an outline, inside it, and where its wall looks.

    At a reflex corner the sheet of a front or rear wall runs on over the edge of the other.

    >>> from boxfit.box_shape import rectangle
    >>> sheets_along(rectangle((0.0, 0.0), (50.0, 40.0)), 3.0)[:2]
    [('right', ((3.0, 0.0), (47.0, 3.0))), ('front', ((47.0, 0.0), (50.0, 40.0)))]
    """
    reflex = reflex_corners(inside)
    sides = zip(inside, inside[1:] + inside[:1], strict=True)
    return [_sheet(start, end, reflex, thick) for start, end in sides]


def _sheet(start: Point, end: Point, reflex: frozenset[Point], thick: float) -> tuple[str, Rectangle]:
    """The sheet along one side; counter-clockwise, the inside is to the left of the way."""
    if start[1] == end[1]:
        low, high = sorted((start, end))
        first = low[0] if low in reflex else low[0] + thick
        last = high[0] if high in reflex else high[0] - thick
        if start[0] < end[0]:
            return "right", ((first, low[1]), (last, low[1] + thick))
        return "left", ((first, low[1] - thick), (last, low[1]))
    low, high = sorted((start, end))
    first = low[1] - thick if low in reflex else low[1]
    last = high[1] + thick if high in reflex else high[1]
    if start[1] < end[1]:
        return "front", ((low[0] - thick, first), (low[0], last))
    return "rear", ((low[0], first), (low[0] + thick, last))
