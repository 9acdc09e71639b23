"""Dimension lines: a line with ticks, two thin lines to what is measured, the figure on the line."""

from collections.abc import Sequence
from dataclasses import dataclass

from boxfit.bay import Point
from boxfit.report.area import Area, area_of
from boxfit.report.look import DIMENSION, SMALL, turned
from boxfit.report.paper import Sheet

STEP = 5.5
"""From one dimension line to the next [mm of paper]."""
FIRST = 6.0
"""From what is measured to the first dimension line [mm of paper]."""

SAME = 1e-6
"""Ends this near [mm of paper] are one."""


@dataclass(frozen=True)
class Span:
    """What is measured: from `low` to `high` along the line [mm of paper], and the words on it."""

    low: float
    high: float
    words: str


def levels(sheet: Sheet, spans: Sequence[Span]) -> tuple[int, ...]:
    """On which line each span goes, counted from what is measured, so that no two meet."""
    lines: list[list[Span]] = []
    found: list[int] = []
    for span in spans:
        level = 0
        while level < len(lines) and any(_meet(sheet, span, other) for other in lines[level]):
            level += 1
        if level == len(lines):
            lines.append([])
        lines[level].append(span)
        found.append(level)
    return tuple(found)


def _meet(sheet: Sheet, one: Span, other: Span) -> bool:
    """True where two spans cannot share a line; one may begin where another ends."""
    first, second = sorted((one, other), key=lambda span: (span.low, span.high))
    if abs(first.high - second.low) < SAME and _middle(sheet, first) < first.high:
        return False
    return reach(sheet, second)[0] < reach(sheet, first)[1]


def depth(sheet: Sheet, spans: Sequence[Span]) -> float:
    """The paper [mm] that the dimension lines of the spans take."""
    return FIRST + STEP * max(levels(sheet, spans), default=-1) + 2.0 if spans else 0.0


def draw_across(sheet: Sheet, spans: Sequence[Span], below: float) -> tuple[Area, ...]:
    """Draw the spans as dimension lines below a height on paper [mm]; gives where their thin lines run."""
    return _draw(sheet, spans, below, upright=False)


def draw_upright(sheet: Sheet, spans: Sequence[Span], beside: float) -> tuple[Area, ...]:
    """Draw the spans as dimension lines to the right of a place on paper [mm], as `draw_across` does."""
    return _draw(sheet, spans, beside, upright=True)


def _draw(sheet: Sheet, spans: Sequence[Span], start: float, upright: bool) -> tuple[Area, ...]:
    def put(along: float, away: float) -> Point:
        return (start + away, along) if upright else (along, start - away)

    thin: list[Area] = []
    placed = tuple(zip(spans, levels(sheet, spans), strict=True))
    for span, level in placed:
        away = FIRST + STEP * level
        for end in (span.low, span.high):
            sheet.line((put(end, 1.0), put(end, away + 1.0)), DIMENSION)
            thin.append(area_of((put(end, 1.0), put(end, away + 1.0))).inset(-0.3))
            sheet.line((put(end - 0.8, away + 0.8), put(end + 0.8, away - 0.8)), DIMENSION)
        sheet.line((put(span.low, away), put(span.high, away)), DIMENSION)
        crossed = [end for other, line in placed if line > level for end in (other.low, other.high)]
        middle = _middle(sheet, span, crossed)
        beside = middle > span.high
        sheet.write(
            span.words, put(middle, away if beside else away - 1.9), turned(SMALL) if upright else SMALL
        )
        sheet.taken.append(_ground(put(span.low, away), put(span.high, away)))
    return tuple(thin)


def _ground(start: Point, end: Point) -> Area:
    """The strip of paper under a dimension line."""
    return area_of((start, end)).inset(-0.8)


def _middle(sheet: Sheet, span: Span, crossed: Sequence[float] = ()) -> float:
    """Where the middle of the words goes: on the line, or past its end where they are too long for it.

    On the line they go as near to its middle as leaves free where it is `crossed` by others, if they can.
    """
    width = sheet.measure(span.words, SMALL)[0]
    if width + 1.0 > span.high - span.low:
        return span.high + 1.5 + width / 2
    half, centre = width / 2 + 0.5, (span.low + span.high) / 2
    apart = half + 0.5
    beside = [end + side * apart for end in crossed for side in (-1, 1)]
    free = [
        middle
        for middle in (centre, *beside)
        if span.low + half <= middle <= span.high - half
        and all(abs(end - middle) >= apart - SAME for end in crossed)
    ]
    return min(free, key=lambda middle: abs(middle - centre), default=centre)


def reach(sheet: Sheet, span: Span) -> tuple[float, float]:
    """From where to where a span takes its line, words included."""
    width = sheet.measure(span.words, SMALL)[0]
    return (span.low - 1.5, max(span.high, _middle(sheet, span) + width / 2) + 1.5)
