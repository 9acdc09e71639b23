"""A drawing as PDF: vector lines, real text, the same bytes for the same drawing."""

from collections.abc import Iterator
from contextlib import contextmanager
from io import BytesIO
from math import cos, radians, sin
from typing import TYPE_CHECKING

from boxfit.sheet.drawing.letters import FONT, font_size, register_font, width_of
from boxfit.sheet.drawing.marks import DASHES, WIDTHS, Arc, Arrow, Circle, Drawing, Line, Page, Style, Text

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

POINT = 72.0 / 25.4
"""Points of the file format in a millimetre."""


def pdf_of(drawing: Drawing) -> bytes:
    """The drawing as a PDF file, one page for each sheet at its true size."""
    register_font()
    with _binary_streams():
        return _written(drawing)


@contextmanager
def _binary_streams() -> Iterator[None]:
    """Compressed streams are written as they are, not as letters: smaller and sooner done."""
    from reportlab import rl_config

    before = rl_config.useA85
    rl_config.useA85 = 0
    try:
        yield
    finally:
        rl_config.useA85 = before


def _written(drawing: Drawing) -> bytes:
    """Page by page."""
    from reportlab.pdfgen.canvas import Canvas

    written = BytesIO()
    canvas = Canvas(written, invariant=1, pageCompression=1)
    canvas.setTitle(drawing.stem)
    canvas.setAuthor("")
    for page in drawing.pages:
        canvas.setPageSize((page.size[0] * POINT, page.size[1] * POINT))
        canvas.scale(POINT, POINT)
        _draw(canvas, page)
        canvas.showPage()
    canvas.save()
    return written.getvalue()


def _draw(canvas: "Canvas", page: Page) -> None:
    """Lines style by style, so that pens change seldom, then arrowheads and words."""
    canvas.setLineCap(1)
    pens: dict[tuple[Style, float], list[Line | Arc | Circle]] = {}
    for mark in page.marks:
        if isinstance(mark, Line | Arc | Circle):
            width = mark.width if isinstance(mark, Line) and mark.width else WIDTHS[mark.style]
            pens.setdefault((mark.style, width), []).append(mark)
    for (style, width), marks in pens.items():
        canvas.setLineWidth(width)
        canvas.setDash(list(DASHES.get(style, ())))
        _stroke(canvas, marks)
    canvas.setDash([])
    for mark in page.marks:
        if isinstance(mark, Arrow):
            _fill(canvas, mark)
        elif isinstance(mark, Text):
            _write(canvas, mark)


def _stroke(canvas: "Canvas", marks: list[Line | Arc | Circle]) -> None:
    """All marks of one pen as one path; dots by themselves."""
    path = canvas.beginPath()
    for mark in marks:
        if isinstance(mark, Line):
            path.moveTo(*mark.start)
            path.lineTo(*mark.end)
        elif isinstance(mark, Circle):
            if mark.filled:
                canvas.circle(*mark.centre, mark.radius, stroke=0, fill=1)
            else:
                path.circle(*mark.centre, mark.radius)
        else:
            (x, y), r = mark.centre, mark.radius
            path.moveTo(x + r * cos(radians(mark.start)), y + r * sin(radians(mark.start)))
            path.arcTo(x - r, y - r, x + r, y + r, mark.start, (mark.end - mark.start) % 360.0)
    canvas.drawPath(path, stroke=1, fill=0)


def _fill(canvas: "Canvas", arrow: Arrow) -> None:
    """An arrowhead."""
    path = canvas.beginPath()
    path.moveTo(*arrow.corners[0])
    for corner in arrow.corners[1:]:
        path.lineTo(*corner)
    path.close()
    canvas.drawPath(path, stroke=0, fill=1)


def _write(canvas: "Canvas", text: Text) -> None:
    """Words on their base line."""
    back = {"left": 0.0, "middle": 0.5, "right": 1.0}[text.anchor] * width_of(text.words, text.height)
    angle = radians(text.turn)
    x, y = text.at[0] - back * cos(angle), text.at[1] - back * sin(angle)
    words = canvas.beginText()
    words.setFont(FONT, font_size(text.height))
    words.setTextTransform(cos(angle), sin(angle), -sin(angle), cos(angle), x, y)
    words.textOut(text.words)
    canvas.drawText(words)
