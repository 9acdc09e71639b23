"""Tabs on the lower edges of walls in open notches of the floor's edge, so that plates locate themselves.

Common practice, no source: tabs 20 mm long at most 150 mm apart and as deep as the floor, two or more on each
edge that has room for them, and enough air for edges that are as far out as the cut may leave them.
"""

from dataclasses import dataclass
from math import ceil

import shapely

from boxfit.bay import Point
from boxfit.box.sides import Side
from boxfit.sheet.wall import Wall
from boxfit.surface import Outline

TAB = 20.0
"""How long [mm] a tab is, a third of the edge where that is less."""
PITCH = 150.0
"""From middle to middle of two tabs [mm] at most."""


@dataclass(frozen=True)
class Tabs:
    """Tabs along one side: their `middles` [mm] from its start, how `long` and `deep` [mm] they are.

    Notches are `play` [mm] longer at both ends, and deeper by half of it: two edges meet at an end of a tab,
    of which either may be out, and only one edge at its back.
    """

    side: Side
    middles: tuple[float, ...]
    long: float
    deep: float
    play: float

    @property
    def notch_depth(self) -> float:
        """How far [mm] notches reach in from the floor's edge."""
        return self.deep + self.play / 2.0

    def in_floor(self, along: float, inwards: float) -> Point:
        """A place [mm] along the side and in from it, in plan."""
        (x, y), (ax, ay), (ox, oy) = self.side.start, self.side.along, self.side.outwards
        return (x + along * ax - inwards * ox, y + along * ay - inwards * oy)

    def notches(self) -> list[Point]:
        """The corners of all notches in plan, in the direction of the side."""
        half, deep = self.long / 2.0 + self.play, self.notch_depth
        found = []
        for middle in self.middles:
            low, high = middle - half, middle + half
            found += [self.in_floor(low, 0.0), self.in_floor(low, deep)]
            found += [self.in_floor(high, deep), self.in_floor(high, 0.0)]
        return found

    def in_wall(self) -> list[Point]:
        """The corners of all tabs on a wall seen from inside, its lower edge at 0, from left to right."""
        half, length = self.long / 2.0, self.side.length
        found = []
        for middle in sorted(length - middle for middle in self.middles):
            low, high = middle - half, middle + half
            found += [(low, 0.0), (low, -self.deep), (high, -self.deep), (high, 0.0)]
        return found


def tabs_of(wall: Wall, floor: shapely.Geometry, cut: float) -> Tabs:
    """The tabs of a wall that stands on a floor; none where the floor would be left with too little sheet.

    `floor` is what of the floor's plan [mm] is solid; `cut` [mm] is how far a cut edge may be out.
    """
    side, deep, play = wall.side, wall.fold.thickness, 2.0 * cut
    low, high = -wall.past(0, 0.0), side.length + wall.past(1, 0.0)
    long = min(TAB, (high - low) / 3.0)
    tabs = Tabs(side, _middles(low, high), long, deep, play)
    firm = tuple(middle for middle in tabs.middles if long >= 2.0 * deep and _holds(tabs, middle, floor))
    return Tabs(side, firm, long, deep, play)


def _middles(low: float, high: float) -> tuple[float, ...]:
    """In the middles of equal spaces along an edge.

    >>> _middles(0.0, 90.0), _middles(0.0, 50.0)
    ((22.5, 67.5), (25.0,))
    """
    spaces = max(ceil((high - low) / PITCH - 1e-9), 2 if high - low >= 4.0 * TAB else 1)
    return tuple(low + (high - low) * (place + 0.5) / spaces for place in range(spaces))


def _holds(tabs: Tabs, middle: float, floor: shapely.Geometry) -> bool:
    """Whether round a notch a sheet's thickness is left of the floor, twice the notch's depth away too."""
    half = tabs.long / 2.0 + tabs.play + tabs.deep - 1e-6
    back = 2.0 * tabs.notch_depth + tabs.deep
    corners = [(middle - half, 1e-6), (middle + half, 1e-6), (middle + half, back), (middle - half, back)]
    return bool(floor.contains(shapely.Polygon([tabs.in_floor(*corner) for corner in corners])))


def notched(outline: Outline, tabs: dict[Point, Tabs]) -> list[Point]:
    """A floor's outline with the notches of every side that has tabs, by where the side starts."""
    points: list[Point] = []
    for start in outline:
        points.append(start)
        if start in tabs:
            points += tabs[start].notches()
    return points
