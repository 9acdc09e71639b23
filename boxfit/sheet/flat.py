"""A part as it is cut from sheet: contours, holes, bend lines and marks, seen from the inside of the box."""

from dataclasses import dataclass, replace
from math import atan, hypot, pi, sin

from boxfit.bay import Point, Vector


@dataclass(frozen=True)
class Corner:
    """A point [mm] of a contour; `bulge` is the tangent of a quarter of the arc's angle to the next one.

    0 where the way to the next corner is straight, positive where it turns to the left.
    """

    x: float
    y: float
    bulge: float = 0.0


Contour = tuple[Corner, ...]
"""Closed: the last corner leads to the first."""


@dataclass(frozen=True)
class Hole:
    """A round hole [mm]."""

    at: Point
    diameter: float


@dataclass(frozen=True)
class Bend:
    """A fold about the line from `start` to `end`, the middle of the sheet that the bend uses up.

    `up` is towards the eye. `angle` [degrees] is what is folded; `radius` [mm] the inside radius; `k` [-] the
    share of the thickness between the inside and the neutral fibre; `allowance` [mm] the sheet used up; `leg`
    [mm] the inside length of what is folded, from the inside of the other leg; `by_table` that K is from the
    shop's own table and not that of DIN 6935.
    """

    start: Point
    end: Point
    up: bool
    angle: float
    radius: float
    k: float
    allowance: float
    leg: float
    by_table: bool = False


@dataclass(frozen=True)
class Mark:
    """A place [mm] to be marked on the sheet, and what goes there."""

    at: Point
    text: str


@dataclass(frozen=True)
class Flat:
    """One part as it is cut: the first contour is the outer one, others are openings in it.

    `formed` [mm] are the outside dimensions once folded, the plan's two and then the height. `notes` tell
    what the maker must know; `quantity` how many alike are cut; `bar` that it is sawn from flat bar and not
    cut from sheet; `lines` are closed lines to be marked, the last point of each leading to its first.
    """

    name: str
    material: str
    thickness: float
    contours: tuple[Contour, ...]
    formed: Vector
    holes: tuple[Hole, ...] = ()
    bends: tuple[Bend, ...] = ()
    marks: tuple[Mark, ...] = ()
    notes: tuple[str, ...] = ()
    quantity: int = 1
    bar: bool = False
    lines: tuple[tuple[Point, ...], ...] = ()

    @property
    def size(self) -> Point:
        """The extent [mm] of the outer contour; its arcs never reach further than its corners."""
        xs, ys = [one.x for one in self.contours[0]], [one.y for one in self.contours[0]]
        return (max(xs) - min(xs), max(ys) - min(ys))

    @property
    def area(self) -> float:
        """What is left of the sheet [mm2], openings and holes cut out."""
        outer, *openings = (abs(contour_area(contour)) for contour in self.contours)
        return outer - sum(openings) - sum(pi / 4.0 * hole.diameter**2 for hole in self.holes)


def contour_area(contour: Contour) -> float:
    """What a contour encloses [mm2], positive where it is counter-clockwise; exact for arcs.

    >>> square = (Corner(0.0, 0.0), Corner(2.0, 0.0), Corner(2.0, 1.0), Corner(0.0, 1.0))
    >>> contour_area(square)
    2.0
    >>> round(contour_area((Corner(0.0, 0.0, 1.0), Corner(2.0, 0.0, 1.0))), 4)
    3.1416
    """
    pairs = zip(contour, contour[1:] + contour[:1], strict=True)
    return sum(
        (one.x * other.y - other.x * one.y) / 2.0 + _segment(one, hypot(other.x - one.x, other.y - one.y))
        for one, other in pairs
    )


def _segment(corner: Corner, chord: float) -> float:
    """Between an arc and its chord [mm2], positive where the arc turns to the left."""
    if corner.bulge == 0.0:
        return 0.0
    angle = 4.0 * atan(corner.bulge)
    radius = chord * (1.0 + corner.bulge**2) / (4.0 * abs(corner.bulge))
    return radius**2 * (angle - sin(angle)) / 2.0


def straight(points: "tuple[Point, ...] | list[Point]") -> Contour:
    """A contour without arcs."""
    return tuple(Corner(x, y) for x, y in points)


def from_origin(flat: Flat) -> Flat:
    """The flat moved so that its extent begins at the origin."""
    x = min(corner.x for corner in flat.contours[0])
    y = min(corner.y for corner in flat.contours[0])

    def moved(point: Point) -> Point:
        return (point[0] - x, point[1] - y)

    return replace(
        flat,
        contours=tuple(
            tuple(Corner(*moved((one.x, one.y)), one.bulge) for one in contour) for contour in flat.contours
        ),
        holes=tuple(replace(hole, at=moved(hole.at)) for hole in flat.holes),
        bends=tuple(replace(bend, start=moved(bend.start), end=moved(bend.end)) for bend in flat.bends),
        marks=tuple(replace(mark, at=moved(mark.at)) for mark in flat.marks),
        lines=tuple(tuple(map(moved, line)) for line in flat.lines),
    )
