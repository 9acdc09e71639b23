"""What a drawing is made of: marks on sheets of paper, all in millimetres of paper from the lower left."""

from dataclasses import dataclass
from math import atan2, cos, degrees, radians, sin
from typing import Literal

from boxfit.bay import Point

Style = Literal[
    "visible",
    "hidden",
    "centre",
    "dimension",
    "cut",
    "fold up",
    "fold down",
    "hatch",
    "adjacent",
    "frame",
]
"""What a line means; also the layer that it comes to lie on."""
Anchor = Literal["left", "middle", "right"]

WIDE, NARROW = 0.35, 0.18
"""Widths [mm] of lines: ISO 128, line group 0.35, from memory."""
WIDTHS: dict[Style, float] = {
    "visible": WIDE,
    "hidden": NARROW,
    "centre": NARROW,
    "dimension": NARROW,
    "cut": WIDE,
    "fold up": NARROW,
    "fold down": NARROW,
    "hatch": NARROW,
    "adjacent": NARROW,
    "frame": NARROW,
}
DASHES: dict[Style, tuple[float, ...]] = {
    "hidden": (2.4, 1.0),
    "centre": (6.0, 1.0, 0.6, 1.0),
    "fold up": (4.0, 1.2),
    "fold down": (6.0, 1.0, 1.5, 1.0),
    "adjacent": (5.0, 0.8, 0.6, 0.8, 0.6, 0.8),
}
"""Dash and gap by turns [mm]; lines of other styles are drawn through."""


@dataclass(frozen=True)
class Line:
    """A straight line; `width` [mm] where it is not that of its style."""

    start: Point
    end: Point
    style: Style
    width: float | None = None


@dataclass(frozen=True)
class Arc:
    """Part of a circle, counter-clockwise from `start` to `end` [degrees]."""

    centre: Point
    radius: float
    start: float
    end: float
    style: Style

    @property
    def points(self) -> tuple[Point, ...]:
        """Points along it, one at least every 10 degrees."""
        turn = (self.end - self.start) % 360.0
        steps = max(1, round(turn / 10.0 + 0.499))
        angles = (radians(self.start + turn * step / steps) for step in range(steps + 1))
        return tuple(
            (self.centre[0] + self.radius * cos(angle), self.centre[1] + self.radius * sin(angle))
            for angle in angles
        )


@dataclass(frozen=True)
class Circle:
    """A whole circle; `filled` where it is a dot."""

    centre: Point
    radius: float
    style: Style
    filled: bool = False

    @property
    def points(self) -> tuple[Point, ...]:
        """Points along it, the first again as the last."""
        angles = (radians(10.0 * step) for step in range(37))
        return tuple(
            (self.centre[0] + self.radius * cos(angle), self.centre[1] + self.radius * sin(angle))
            for angle in angles
        )


@dataclass(frozen=True)
class Arrow:
    """A filled arrowhead with its tip at a point, looking the way of `towards` [degrees]."""

    tip: Point
    towards: float

    @property
    def corners(self) -> tuple[Point, Point, Point]:
        """Tip and the two corners behind it."""
        angle = radians(self.towards)
        x, y = cos(angle), sin(angle)
        back = (self.tip[0] - ARROW * x, self.tip[1] - ARROW * y)
        half = ARROW / 6.0
        return (self.tip, (back[0] - half * y, back[1] + half * x), (back[0] + half * y, back[1] - half * x))


ARROW = 2.5
"""Length [mm] of an arrowhead; a third as wide: ISO 129-1, from memory."""


@dataclass(frozen=True)
class Text:
    """Words on a base line: `at` is its left end, middle or right end, `height` [mm] that of a capital.

    Turned by `turn` [degrees] about that point.
    """

    words: str
    at: Point
    height: float = 2.5
    anchor: Anchor = "left"
    turn: float = 0.0


Mark = Line | Arc | Circle | Arrow | Text


@dataclass(frozen=True)
class Page:
    """A sheet of paper of a `size` [mm] of ISO 216 with all that is on it."""

    size: Point
    marks: tuple[Mark, ...]

    @property
    def texts(self) -> tuple[Text, ...]:
        """All words."""
        return tuple(mark for mark in self.marks if isinstance(mark, Text))


@dataclass(frozen=True)
class Drawing:
    """One drawing of one or more sheets; `stem` is its file's name without ending."""

    stem: str
    pages: tuple[Page, ...]


def moved(mark: Line | Arc | Circle, scale: float, by: Point) -> Line | Arc | Circle:
    """A mark of a view [mm of the thing] on paper: scaled first, then moved.

    >>> moved(Circle((10.0, 0.0), 5.0, "visible"), 0.2, (1.0, 1.0))
    Circle(centre=(3.0, 1.0), radius=1.0, style='visible', filled=False)
    """

    def on_paper(point: Point) -> Point:
        return (point[0] * scale + by[0], point[1] * scale + by[1])

    if isinstance(mark, Line):
        return Line(on_paper(mark.start), on_paper(mark.end), mark.style, mark.width)
    if isinstance(mark, Arc):
        return Arc(on_paper(mark.centre), mark.radius * scale, mark.start, mark.end, mark.style)
    return Circle(on_paper(mark.centre), mark.radius * scale, mark.style, mark.filled)


def heading(start: Point, end: Point) -> float:
    """The way from one point to another [degrees].

    >>> heading((0.0, 0.0), (0.0, 2.0))
    90.0
    """
    return degrees(atan2(end[1] - start[1], end[0] - start[0]))
