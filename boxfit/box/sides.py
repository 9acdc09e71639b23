"""The sides of an outline, named by the way they look, with what lies along them."""

from dataclasses import dataclass
from math import dist

from boxfit.bay import Point
from boxfit.box_details import reflex_corners
from boxfit.surface import Outline

LOOKS = {(1, 0): "front", (-1, 0): "rear", (0, 1): "left", (0, -1): "right"}


@dataclass(frozen=True)
class Side:
    """One side of a counter-clockwise outline: outside of a wall from `start` to `end` [mm].

    `name` tells which way it looks, numbered where several do; `turns` are 1 at a convex corner, else -1.
    """

    name: str
    start: Point
    end: Point
    turns: tuple[int, int]

    @property
    def length(self) -> float:
        """From corner to corner [mm]."""
        return dist(self.start, self.end)

    @property
    def along(self) -> Point:
        """The direction from start to end."""
        return ((self.end[0] - self.start[0]) / self.length, (self.end[1] - self.start[1]) / self.length)

    @property
    def outwards(self) -> Point:
        """The direction it looks; counter-clockwise, so to the right of the way."""
        return (self.along[1], -self.along[0])

    def local(self, point: Point) -> Point:
        """How far [mm] a point is along the side from its start, and how far outwards of it."""
        x, y = point[0] - self.start[0], point[1] - self.start[1]
        (ax, ay), (ox, oy) = self.along, self.outwards
        return (x * ax + y * ay, x * ox + y * oy)


def sides_of(outline: Outline) -> tuple[Side, ...]:
    """All sides in order, named by the way they look.

    >>> [side.name for side in sides_of(((0.0, 0.0), (2.0, 0.0), (2.0, 1.0), (0.0, 1.0)))]
    ['right', 'front', 'left', 'rear']
    """
    reflex = reflex_corners(outline)
    pairs = list(zip(outline, outline[1:] + outline[:1], strict=True))
    plain = [Side("", a, b, (-1 if a in reflex else 1, -1 if b in reflex else 1)) for a, b in pairs]
    looks = [LOOKS[(round(side.outwards[0]), round(side.outwards[1]))] for side in plain]
    return tuple(
        Side(_numbered(looks, place), side.start, side.end, side.turns) for place, side in enumerate(plain)
    )


def _numbered(looks: list[str], place: int) -> str:
    """A side's name, with a number where others look the same way."""
    look = looks[place]
    return look if looks.count(look) == 1 else f"{look} {looks[: place + 1].count(look)}"
