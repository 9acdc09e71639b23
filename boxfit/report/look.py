"""How the pictures look: inks, letterings and scales, in paper millimetres and points.

Colours are the sober half of a palette that colour-blind readers tell apart; orange is left to the
high-voltage cable.
"""

from dataclasses import dataclass, replace
from typing import Literal


@dataclass(frozen=True)
class Ink:
    """How a line or a face is drawn: `width` in points, `dashes` in points on and off."""

    colour: str | None
    width: float = 0.5
    dashes: tuple[float, ...] = ()
    fill: str | None = None
    hatch: str | None = None


@dataclass(frozen=True)
class Lettering:
    """How words are set: `size` in points; `turned` reads from below; `anchor` is the end held."""

    size: float = 8.0
    colour: str = "#1c1c1c"
    bold: bool = False
    turned: bool = False
    anchor: Literal["left", "center", "right"] = "center"


PAPER = "#fdfdfb"
FRAME = Ink("#1c1c1c", 0.9)
RULE = Ink("#8a8a86", 0.4)
BAY = Ink("#3a3a3a", 1.1, fill="#efeee9")
KEEPOUT = Ink("#8c3f72", 0.8, fill="#f3e3ee", hatch="//")
MOVING = Ink("#4a3d96", 0.8, fill="#e3e0f3", hatch="xx")
HOT = Ink("#9b1c33", 0.8, fill="#f6d9de", hatch="..")
KEEPOUT_HIDDEN = Ink("#8c3f72", 0.6, (3, 2))
OPENING = Ink("#00735c", 1.4, (5, 2))
OPENING_EDGE = Ink("#00735c", 2.6, (5, 2))
BOX = Ink("#1c1c1c", 1.2, fill="#ffffff")
FLANGE = Ink("#1c1c1c", 0.5, fill="#e2e2dd")
STEP = Ink("#1c1c1c", 0.7)
STEP_HIDDEN = Ink("#1c1c1c", 0.7, (4, 2))
MODULE = Ink("#0b5a8f", 0.6, fill="#d6e6f2")
MODULE_HIDDEN = Ink("#7d93a3", 0.4, (2, 1.5))
AXLE = Ink("#3a3a3a", 0.5, (9, 2, 1.5, 2))
WHEEL = Ink("#3a3a3a", 2.2)
GROUND = Ink("#3a3a3a", 0.9)
DIMENSION = Ink("#3a3a3a", 0.4)
LEADER = Ink("#6a6a66", 0.35)
BALANCE = Ink("#1c1c1c", 0.9, fill="#ffffff")
BALANCE_LINE = Ink("#1c1c1c", 0.9, (7, 2))
BALANCE_QUARTER = Ink(None, fill="#1c1c1c")
PERSON = Ink("#5b4a86", 0.9, fill="#e6e1f1")
BALLOON = Ink("#8c3f72", 0.6, fill="#ffffff")

MARK = Ink("#1c1c1c", 0.5)
MARK_GROUND = Ink(None, fill="#ffffff")
MARK_THROUGH = Ink(None, fill="#ffffffb0")
MARK_TIGHTEST = Ink("#a3123a", 1.0, fill="#ffffff")

LEFT = Lettering(9.0, anchor="left")
SMALL = Lettering(7.5)
SMALL_LEFT = Lettering(7.5, anchor="left")
SMALL_RIGHT = Lettering(7.5, anchor="right")
HEADING = Lettering(9.0, bold=True, anchor="left")
BOX_NAME = Lettering(9.0, bold=True)
BOX_NAME_SMALL = Lettering(7.5, bold=True)
FIGURE = Lettering(7.5, "#232323")
FIGURE_SHORT = Lettering(7.5, "#a3123a", bold=True)
NUMBER = Lettering(10.0, "#08395c")
NUMBER_HIDDEN = Lettering(8.0, "#5d6d78")

SCALES = (1, 1.5, 2, 2.5, 3, 4, 5, 6, 7, 8, 10, 12, 15, 20, 25, 30, 40, 50, 75, 100, 200)
"""Scales a picture may have, as 1:n, largest first."""


def turned(lettering: Lettering) -> Lettering:
    """The same lettering, read from below."""
    return replace(lettering, turned=True)
