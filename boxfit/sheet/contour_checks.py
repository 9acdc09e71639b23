"""Whether a flat can be cut and folded at all: closed lines, each once, within the outer one; reliefs."""

from collections.abc import Iterator
from itertools import combinations
from math import dist
from typing import TYPE_CHECKING

from boxfit.bay import Point
from boxfit.sheet.finding import Finding
from boxfit.sheet.flat import Bend, Contour, Flat, contour_area
from boxfit.sheet.outline import points_of

if TYPE_CHECKING:
    from shapely import Polygon

CLOSE = 1e-3
"""Places nearer together than this [mm] are one; far below what any shop cuts."""
DRAWN = 0.05
"""Arcs are drawn with short lines, which are off by less than this [mm] in any relief."""
REACH = 1e5
"""Further [mm] than any sheet."""


def contour_findings(flat: Flat) -> tuple[Finding, ...]:
    """Contours that are not closed, cross themselves or are there twice; openings that reach past the edge;
    holes cut twice; folds without a relief at their ends."""
    found = [*_shapes(flat), *_twice(flat)]
    if not found:
        found = [*_past_the_edge(flat), *(one for bend in flat.bends for one in _relief(flat, bend))]
    return tuple(found)


def _shapes(flat: Flat) -> Iterator[Finding]:
    """Each contour by itself."""
    from shapely import Polygon
    from shapely.validation import explain_validity

    for contour in flat.contours:
        points = points_of(contour)
        place = f"contour at {_at(points[0])}" if points else "contour without points"
        pairs = zip(points, points[1:] + points[:1], strict=True)
        if (
            len(points) < 3
            or abs(contour_area(contour)) < CLOSE
            or any(dist(*pair) < CLOSE for pair in pairs)
        ):
            yield Finding("contour not closed", flat.name, place, 0.0, 0.0)
        elif not (drawn := Polygon(points)).is_valid:
            where = explain_validity(drawn).partition("[")[2].rstrip("]").split()
            spot = f"contour at {_at((float(where[0]), float(where[1])))}" if len(where) == 2 else place
            yield Finding("contour crosses itself", flat.name, spot, 0.0, 0.0)


def _twice(flat: Flat) -> Iterator[Finding]:
    """What would be cut twice at the same place."""
    for one, other in combinations(flat.contours, 2):
        if _corners(one) == _corners(other):
            yield Finding("contour cut twice", flat.name, f"contour at {_at(points_of(one)[0])}", 0.0, 0.0)
    for hole, again in combinations(flat.holes, 2):
        if dist(hole.at, again.at) < CLOSE:
            yield Finding("hole cut twice", flat.name, f"hole at {_at(hole.at)}", 0.0, 0.0)


def _corners(contour: Contour) -> frozenset[tuple[float, float]]:
    return frozenset((round(one.x / CLOSE), round(one.y / CLOSE)) for one in contour)


def _past_the_edge(flat: Flat) -> Iterator[Finding]:
    """Openings and holes that do not lie within the outer contour."""
    from shapely import Point as Spot
    from shapely import Polygon

    outer, *openings = (Polygon(points_of(contour)) for contour in flat.contours)
    for opening in openings:
        if not outer.covers(opening):
            place = f"opening at {_at((opening.centroid.x, opening.centroid.y))}"
            yield Finding("opening past the edge", flat.name, place, 0.0, 0.0)
    for hole in flat.holes:
        if not outer.covers(Spot(hole.at).buffer(hole.diameter / 2.0)):
            yield Finding("opening past the edge", flat.name, f"hole at {_at(hole.at)}", 0.0, 0.0)


def _relief(flat: Flat, bend: Bend) -> Iterator[Finding]:
    """At either end of a fold the sheet must end all across the bend, within what the bend uses up.

    An edge that runs aslant across the bend, as at a mitre, may be so much further out or in. Where the sheet
    goes on it would tear: there has to be a cut.
    """
    from shapely import Polygon

    outer = Polygon(points_of(flat.contours[0]))
    half = dist(bend.start, bend.end) / 2.0
    middle = ((bend.start[0] + bend.end[0]) / 2.0, (bend.start[1] + bend.end[1]) / 2.0)
    slant = bend.allowance + flat.thickness
    for end in (bend.start, bend.end):
        along = ((end[0] - middle[0]) / half, (end[1] - middle[1]) / half)
        across = (-along[1], along[0])
        for part in (-0.5, 0.0, 0.5):
            off = part * bend.allowance
            start = (middle[0] + off * across[0], middle[1] + off * across[1])
            past = _sheet_ahead(outer, start, along) - half
            if past > (slant if part else DRAWN):
                yield Finding("no relief", flat.name, f"end of the fold at {_at(end)}", 0.0, flat.thickness)
                break


def _sheet_ahead(outer: "Polygon", start: Point, along: Point) -> float:
    """How far [mm] from a place the sheet goes on one way."""
    from shapely import LineString, get_parts
    from shapely import Point as Spot

    ray = LineString([start, (start[0] + REACH * along[0], start[1] + REACH * along[1])])
    inside = get_parts(ray.intersection(outer))
    first = [part for part in inside if part.distance(Spot(start)) < CLOSE]
    return max((part.length for part in first), default=0.0)


def _at(point: Point) -> str:
    """A place in the flat."""
    return f"{point[0]:.1f}, {point[1]:.1f}"
