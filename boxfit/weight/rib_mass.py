"""Volume and first moments of the ribs of a printed box: blocks counted from its corner."""

from functools import lru_cache

from boxfit.bay import BoxRules
from boxfit.box_details import rib_depth
from boxfit.box_ribs import floor_ribs, wall_rib_spans, wall_ribs
from boxfit.surface import Outline
from boxfit.weight.swept import Span, Swept

Standing = tuple[int, bool, Span]
"""Ribs alike: the outline they belong to, whether they lie on its floor, and their heights [mm]."""


def ribs_of(
    outline_of: tuple[int, ...], rim: float, levels: tuple[float, ...], rules: BoxRules
) -> tuple[Standing, ...]:
    """The ribs of a box of these heights [mm]; `outline_of` tells which outline each tier has, from 0."""
    if not rib_depth(rules):
        return ()
    on_floor = (outline_of[0], True, (rules.thickness, rules.thickness + rib_depth(rules)))
    spans = wall_rib_spans(outline_of, rim, levels, rules)
    return (on_floor, *((outline_of[tier], False, span) for tier, span in spans))


def ribs_swept(outlines: tuple[Outline, ...], ribs: tuple[Standing, ...], rules: BoxRules) -> list[Swept]:
    """Volume [mm3] and moments [mm4] of all ribs, one entry for those alike; in the outlines' coordinates."""
    found: list[Swept] = []
    for outline, on_floor, (low, high) in ribs:
        area, x, y = _plan(outlines[outline], on_floor, rules)
        tall = high - low
        found.append(Swept(area * tall, x * tall, y * tall, area * tall * (low + high) / 2.0))
    return found


@lru_cache(maxsize=256)
def _plan(outline: Outline, on_floor: bool, rules: BoxRules) -> tuple[float, float, float]:
    """Area [mm2] of ribs in plan and its moments in x and y [mm3]."""
    area = along = across = 0.0
    for (x, y), (a, b) in (floor_ribs if on_floor else wall_ribs)(outline, rules):
        each = (a - x) * (b - y)
        area, along, across = area + each, along + each * (x + a) / 2.0, across + each * (y + b) / 2.0
    return area, along, across
