"""Cutouts in a flat: round ones as holes, the others as contours with round corners."""

from collections.abc import Callable, Iterable
from math import pi, tan

from boxfit.bay import Point
from boxfit.box.cutouts import extent_on_face
from boxfit.box.fitting import Cutout
from boxfit.sheet.flat import Contour, Corner, Hole

Place = Callable[[Point], Point]
"""From a point on the face, along it and up (x and y on a floor), to the flat; lengths stay as they are."""
Openings = tuple[tuple[Hole, ...], tuple[Contour, ...]]
"""Holes and contours of a flat."""
QUARTER = tan(pi / 8.0)
"""Bulge of a quarter circle."""


def openings(cutouts: Iterable[tuple[Cutout, Point]], place: Place) -> Openings:
    """Holes and contours for cutouts, each with its middle [mm] on the face.

    >>> window = Cutout("sight glass", "front", (0.0, 0.0, 0.0), size=(30.0, 20.0), corner=5.0)
    >>> _, (contour,) = openings([(window, (50.0, 40.0))], lambda point: point)
    >>> contour[0], contour[1].y
    (Corner(x=60.0, y=30.0, bulge=0.41421356237309503), 35.0)
    """
    holes, contours = [], []
    for cutout, at in cutouts:
        if cutout.diameter:
            holes.append(Hole(place(at), cutout.diameter))
        else:
            contours.append(_rounded(cutout, at, place))
    return tuple(holes), tuple(contours)


def _rounded(cutout: Cutout, at: Point, place: Place) -> Contour:
    """A rectangle with round corners; mirrored where the flat shows the face from behind."""
    (left, low), (right, high) = extent_on_face(cutout)
    r = cutout.corner
    ends = [(right - r, low), (right, low + r), (right, high - r), (right - r, high)]
    ends += [(left + r, high), (left, high - r), (left, low + r), (left + r, low)]
    points = [place((at[0] + x, at[1] + y)) for x, y in ends]
    origin, along, up = place((0.0, 0.0)), place((1.0, 0.0)), place((0.0, 1.0))
    turned = (along[0] - origin[0]) * (up[1] - origin[1]) - (along[1] - origin[1]) * (up[0] - origin[0])
    bulge = QUARTER if turned > 0.0 else -QUARTER
    if r <= 0.0:
        return tuple(Corner(*point) for point in points[::2])
    return tuple(
        Corner(*point, bulge if number % 2 == 0 else 0.0)
        for number, point in enumerate(points)
        # sides that the round corners leave nothing of
        if number % 2 == 0 or not _same(point, points[(number + 1) % len(points)])
    )


def _same(one: Point, other: Point) -> bool:
    return abs(one[0] - other[0]) + abs(one[1] - other[1]) < 1e-9
