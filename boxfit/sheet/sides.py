"""The sides of an outline, where the walls and flanges along them end, and which holes are in which."""

from dataclasses import dataclass
from math import dist, sqrt

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


def mitre_gap(side: Side, flange: float, gap: float) -> float:
    """How far [mm] along the side an edge stands back from its corner for a gap [mm] between two edges.

    Both edges stand back alike. Less where two mitres nearly meet at the flange's edge.
    """
    tip = side.length + sum(side.turns) * flange
    return max(0.0, min(gap / sqrt(2.0), tip / 4.0))


def from_mitre(side: Side, point: Point) -> float:
    """How far [mm] a point over the flange is from the nearer mitre, negative past it."""
    along, out = side.local(point)
    ends = zip((along, side.length - along), side.turns, strict=True)
    return min(inwards + turn * out for inwards, turn in ends) / sqrt(2.0)


def flange_holes(
    side: Side, flange: float, holes: tuple[Point, ...], clear: float
) -> tuple[tuple[float, float], ...]:
    """Holes in the flange of a side, further than `clear` [mm] from its mitres, as (along, outwards) [mm]."""
    return tuple(
        side.local(hole)
        for hole in holes
        if 0.0 < side.local(hole)[1] < flange and from_mitre(side, hole) > clear
    )
