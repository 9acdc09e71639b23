"""The room that words take, by the figures of the font that they are set in."""

from functools import lru_cache
from importlib.util import find_spec
from math import cos, radians, sin
from pathlib import Path

from boxfit.bay import Point
from boxfit.sheet.drawing.marks import Text

FONT = "sheet letters"
"""The name the font is known by while files are written."""
FONT_FILE = "DejaVuSans.ttf"
"""A free font that comes with the library which draws the pictures."""
CAPITAL = 0.729
"""Height of a capital, as part of the font's size: DejaVu Sans, 1493 of 2048 units."""
ABOVE = 0.76
"""The highest letters: 1556 of 2048 units."""
TAILS = "gjpqyµçQ;,_[](){}|/@"
BELOW = 0.24
"""How far the signs with a tail reach under the base line, at most."""

Corners = tuple[Point, Point, Point, Point]


def font_size(height: float) -> float:
    """The size [mm] of the font whose capitals are so high [mm]."""
    return height / CAPITAL


def register_font() -> None:
    """Makes the font known to the library that writes PDF; once is enough."""
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    if FONT not in pdfmetrics.getRegisteredFontNames():
        found = find_spec("matplotlib")
        if found is None or found.origin is None:
            raise FileNotFoundError(f"the font {FONT_FILE} is missing: matplotlib is not installed")
        folder = Path(found.origin).parent / "mpl-data" / "fonts" / "ttf"
        pdfmetrics.registerFont(TTFont(FONT, str(folder / FONT_FILE)))


@lru_cache(maxsize=8192)
def width_of(words: str, height: float) -> float:
    """How wide [mm] words are whose capitals are so high [mm].

    >>> round(width_of("100", 2.5), 3)
    6.546
    """
    from reportlab.pdfbase import pdfmetrics

    register_font()
    return float(pdfmetrics.stringWidth(words, FONT, font_size(height)))


def corners_of(text: Text) -> Corners:
    """The corners [mm] of what words take on paper, the lower left of the words first."""
    width, size = width_of(text.words, text.height), font_size(text.height)
    left = -{"left": 0.0, "middle": 0.5, "right": 1.0}[text.anchor] * width
    low = -BELOW * size if any(sign in TAILS for sign in text.words) else 0.0
    high = ABOVE * size
    angle = radians(text.turn)
    x, y = text.at
    lower_left, lower_right, upper_right, upper_left = (
        (x + along * cos(angle) - up * sin(angle), y + along * sin(angle) + up * cos(angle))
        for along, up in ((left, low), (left + width, low), (left + width, high), (left, high))
    )
    return (lower_left, lower_right, upper_right, upper_left)


def wrapped(words: str, height: float, width: float) -> list[str]:
    """Words in lines no wider than `width` [mm]; a single word that is wider is cut.

    >>> wrapped("weld all corners and grind them flush", 2.5, 40.0)
    ['weld all corners and', 'grind them flush']
    """
    lines: list[str] = []
    for word in words.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and width_of(longer, height) <= width:
            lines[-1] = longer
        else:
            lines.append(cut_to(word, height, width))
    return lines


def cut_to(words: str, height: float, width: float) -> str:
    """The words, cut short with an ellipsis where they are wider than `width` [mm].

    >>> cut_to("front bay", 2.5, 12.0)
    'front…'
    """
    if width_of(words, height) <= width:
        return words
    while words and width_of(words + "…", height) > width:
        words = words[:-1]
    return words.rstrip() + "…"
