"""A sheet as SVG: vector lines and real text in millimetres, the same bytes for the same sheet."""

from collections.abc import Iterator
from math import cos, radians, sin
from xml.sax.saxutils import escape

from boxfit.bay import Point
from boxfit.sheet.drawing.letters import font_size, width_of
from boxfit.sheet.drawing.marks import DASHES, WIDTHS, Arc, Arrow, Circle, Line, Mark, Page, Style, Text

FONTS = "DejaVu Sans, Verdana, sans-serif"
"""Words are set to the width that they have in the first of these, whichever is there."""


def svg_of(page: Page, name: str) -> str:
    """The sheet as the text of an SVG file."""
    wide, high = (_figure(side) for side in page.size)
    lines = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide}mm" height="{high}mm" '
        f'viewBox="0 0 {wide} {high}" font-family="{FONTS}">',
        f"<title>{escape(name)}</title>",
        f'<rect width="{wide}" height="{high}" fill="white"/>',
        '<g fill="none" stroke="black" stroke-linecap="round">',
        *_stroked(page),
        "</g>",
        '<g fill="black">',
        *(_filled(mark, page.size[1]) for mark in page.marks if _is_filled(mark)),
        "</g>",
        "</svg>",
        "",
    ]
    return "\n".join(lines)


def _is_filled(mark: Mark) -> bool:
    return isinstance(mark, Text | Arrow) or (isinstance(mark, Circle) and mark.filled)


def _stroked(page: Page) -> Iterator[str]:
    """Lines, arcs and circles, all of one pen as one path."""
    pens: dict[tuple[Style, float], list[str]] = {}
    for mark in page.marks:
        if isinstance(mark, Line | Arc | Circle) and not _is_filled(mark):
            width = mark.width if isinstance(mark, Line) and mark.width else WIDTHS[mark.style]
            pens.setdefault((mark.style, width), []).append(_path(mark, page.size[1]))
    for (style, width), paths in pens.items():
        dash = " ".join(_figure(part) for part in DASHES.get(style, ()))
        dashed = f' stroke-dasharray="{dash}"' if dash else ""
        yield f'<path stroke-width="{_figure(width)}"{dashed} d="{" ".join(paths)}"/>'


def _path(mark: Line | Arc | Circle, height: float) -> str:
    if isinstance(mark, Line):
        return f"M{_at(mark.start, height)} L{_at(mark.end, height)}"
    (x, y), r = mark.centre, mark.radius
    radius = f"{_figure(r)} {_figure(r)}"
    if isinstance(mark, Circle):
        left, right = _at((x - r, y), height), _at((x + r, y), height)
        return f"M{left} A{radius} 0 1 0 {right} A{radius} 0 1 0 {left}"
    start, end = (
        _at((x + r * cos(radians(angle)), y + r * sin(radians(angle))), height)
        for angle in (mark.start, mark.end)
    )
    large = int((mark.end - mark.start) % 360.0 > 180.0)
    return f"M{start} A{radius} 0 {large} 0 {end}"


def _filled(mark: Mark, height: float) -> str:
    if isinstance(mark, Circle):
        x, y = _at(mark.centre, height).split()
        return f'<circle cx="{x}" cy="{y}" r="{_figure(mark.radius)}"/>'
    if isinstance(mark, Arrow):
        return f'<polygon points="{" ".join(_at(corner, height) for corner in mark.corners)}"/>'
    assert isinstance(mark, Text)  # nothing else is filled
    x, y = _at(mark.at, height).split()
    anchor = {"left": "start", "middle": "middle", "right": "end"}[mark.anchor]
    turned = f' transform="rotate({_figure(-mark.turn)} {x} {y})"' if mark.turn else ""
    size, wide = _figure(font_size(mark.height)), _figure(width_of(mark.words, mark.height))
    return (
        f'<text x="{x}" y="{y}" font-size="{size}" text-anchor="{anchor}" textLength="{wide}" '
        f'lengthAdjust="spacingAndGlyphs"{turned}>{escape(mark.words)}</text>'
    )


def _at(point: Point, height: float) -> str:
    """A point counted from the upper left, as the format has it."""
    return f"{_figure(point[0])} {_figure(height - point[1])}"


def _figure(value: float) -> str:
    """To a thousandth of a millimetre, never minus zero.

    >>> _figure(-0.0001), _figure(12.5)
    ('0', '12.5')
    """
    return f"{round(value, 3) + 0.0:g}" if abs(value) < 1e5 else f"{value:.3f}"
