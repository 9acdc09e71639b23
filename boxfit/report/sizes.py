"""The sizes of boxes as dimension lines: outside sizes, and along steps every stretch between two corners."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import chain, pairwise

from boxfit.bay import BoxRules, Point
from boxfit.layout import PlacedBox
from boxfit.report.bands import bands
from boxfit.report.columns import tenths
from boxfit.report.dimension import Span
from boxfit.report.panel import Panel
from boxfit.report.parts import outside
from boxfit.report.projection import PLAN

LEAST = 0.05
"""Corners nearer to one another than this [mm] are dimensioned as one."""


@dataclass(frozen=True)
class Spans:
    """The box sizes to show: across the page and up the page."""

    across: tuple[Span, ...]
    upright: tuple[Span, ...]


def box_spans(panel: Panel, boxes: Sequence[PlacedBox], rules: BoxRules) -> Spans:
    """Every box's sizes in the view, those that coincide once; steps nearer to the box than the whole."""
    found = []
    for axis in (0, 1):
        steps = chain.from_iterable(_steps(panel, box, rules, axis) for box in boxes)
        whole = (_whole(panel, box, axis) for box in boxes)
        found.append(tuple(dict.fromkeys(chain(steps, whole))))
    return Spans(*found)


def _whole(panel: Panel, box: PlacedBox, axis: int) -> Span:
    area = panel.block(box.low, box.high)
    low, high = ((area.left, area.right), (area.bottom, area.top))[axis]
    return Span(low, high, tenths((high - low) * panel.scale))


def _steps(panel: Panel, box: PlacedBox, rules: BoxRules, axis: int) -> Iterator[Span]:
    """From corner to corner along a stepped box; in plan those of hidden outlines too."""
    levels: list[float] = []
    for level in sorted(corner[axis] for corner in _corners(panel, box, rules)):
        if not levels or level - levels[-1] > LEAST:
            levels.append(level)
    if len(levels) > 2:
        for low, high in pairwise(levels):
            ends = (panel.put((low, low))[axis], panel.put((high, high))[axis])
            yield Span(*ends, tenths(high - low))


def _corners(panel: Panel, box: PlacedBox, rules: BoxRules) -> Sequence[Point]:
    """The corners of a box: in plan of all its outlines, elsewhere of its outline there and its steps."""
    if panel.view is PLAN:
        return [panel.view.flat((x, y, 0.0)) for band in bands(box, rules) for x, y in band.outline]
    outline = outside(panel.view, box, rules).outline
    return [*outline, *((outline[0][0], band.bottom) for band in bands(box, rules))]
