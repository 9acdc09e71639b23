"""The way of one cable: straight stretches square to the car, every corner rounded alike. [mm]"""

from dataclasses import dataclass
from itertools import pairwise
from math import ceil, cos, dist, pi, sin

from boxfit.bay import Vector
from boxfit.standards.cable_entry import BEND


@dataclass(frozen=True)
class Arc:
    """A quarter round from `start` to `end` about `centre`, `middle` half way along it."""

    start: Vector
    middle: Vector
    end: Vector
    centre: Vector


@dataclass(frozen=True)
class Route:
    """A cable of an outside diameter from the first to the last of `points`, the corners between them square.

    >>> route = Route(((0.0, 0.0, 0.0), (1000.0, 0.0, 0.0), (1000.0, 800.0, 0.0)), 20.0)
    >>> route.radius, round(route.length, 1)
    (130.0, 1744.2)
    """

    points: tuple[Vector, ...]
    across: float

    @property
    def radius(self) -> float:
        """Of the corners, in the middle of the cable: `BEND` outside diameters are left inside of it."""
        return (BEND + 0.5) * self.across

    @property
    def corners(self) -> int:
        """How many corners are rounded."""
        return max(0, len(self.points) - 2)

    @property
    def length(self) -> float:
        """Along the middle of the cable: the straight lines less what every round corner saves."""
        straight = sum(dist(one, other) for one, other in pairwise(self.points))
        return straight - self.corners * self.radius * (2.0 - pi / 2.0)

    @property
    def slack(self) -> float:
        """What the shortest stretch is longer than its round corners ask; less than 0 where they meet."""
        last = len(self.points) - 2
        left = [
            dist(one, other) - self.radius * ((place > 0) + (place < last))
            for place, (one, other) in enumerate(pairwise(self.points))
        ]
        return min(left)

    @property
    def arcs(self) -> tuple[Arc, ...]:
        """The round corners in their order."""
        inner = range(1, len(self.points) - 1)
        return tuple(self._arc(*self.points[place - 1 : place + 2]) for place in inner)

    def _arc(self, before: Vector, at: Vector, after: Vector) -> Arc:
        back, on = _way(at, before), _way(at, after)
        start, end = _moved(at, back, self.radius), _moved(at, on, self.radius)
        centre = _moved(start, on, self.radius)
        return Arc(start, _on_arc(centre, back, on, self.radius, pi / 4.0), end, centre)

    def samples(self, step: float) -> tuple[Vector, ...]:
        """Places along the middle of the cable, none further apart than `step` [mm]; ends and corners too."""
        found: list[Vector] = [self.points[0]]
        for place, arc in enumerate(self.arcs):
            before, corner, after = self.points[place : place + 3]
            _straight(found, arc.start, step)
            back, on = _way(corner, before), _way(corner, after)
            parts = ceil(self.radius * pi / 2.0 / step)
            found += [
                _on_arc(arc.centre, back, on, self.radius, pi / 2.0 * part / parts)
                for part in range(1, parts + 1)
            ]
        _straight(found, self.points[-1], step)
        return tuple(found)


def _straight(found: list[Vector], end: Vector, step: float) -> None:
    """Adds places from the last one on to an end."""
    start = found[-1]
    parts = ceil(dist(start, end) / step)
    for part in range(1, parts + 1):
        share = part / parts
        x, y, z = (a + (b - a) * share for a, b in zip(start, end, strict=True))
        found.append((x, y, z))


def _way(start: Vector, end: Vector) -> Vector:
    """From one place to another, of length 1."""
    length = dist(start, end)
    x, y, z = ((b - a) / length for a, b in zip(start, end, strict=True))
    return (x, y, z)


def _moved(at: Vector, way: Vector, by: float) -> Vector:
    x, y, z = (here + along * by for here, along in zip(at, way, strict=True))
    return (x, y, z)


def _on_arc(centre: Vector, back: Vector, on: Vector, radius: float, angle: float) -> Vector:
    """A place on a quarter round that starts where `on` looks away from the centre.

    It begins at centre - on * radius and ends at centre - back * radius.
    """
    x, y, z = (
        here - radius * (cos(angle) * ahead + sin(angle) * behind)
        for here, ahead, behind in zip(centre, on, back, strict=True)
    )
    return (x, y, z)
