"""What a fold shop would send back: its rules on holes, openings, flanges, sheets, radii and the brake.

Hole to edge 1.5 t, hole to bend 2 t + r, hole to hole 2 t, hole at least t, shortest flange 3 t + r: common
practice, no source. What is wrong with the lines themselves: contour_checks.
"""

from collections.abc import Iterator
from itertools import combinations
from math import dist

from boxfit.sheet.contour_checks import contour_findings
from boxfit.sheet.finding import Finding
from boxfit.sheet.flat import Bend, Contour, Flat, Hole
from boxfit.sheet.outline import distance_to_contour, distance_to_line, points_of
from boxfit.standards.bending import least_inside_radius
from boxfit.workshop import FoldShop

CLOSE = 1e-6


def findings_of(flat: Flat, shop: FoldShop) -> tuple[Finding, ...]:
    """All rules that a flat does not keep: those of its lines first, then of the sheet, folds and holes.

    What is sawn from flat bar is drilled, so that the rules for cutting sheet do not bind it: half a hole's
    diameter to the edge is enough (common practice, no source).
    """
    if flat.bar:
        return (*contour_findings(flat), *(found for hole in flat.holes for found in _drilled(flat, hole)))
    found = [*contour_findings(flat), *_sheet(flat, shop), *_radius(flat)]
    found += [finding for bend in flat.bends for finding in _fold(flat, bend, shop)]
    found += [finding for hole in flat.holes for finding in _hole(flat, hole)]
    found += _holes_apart(flat)
    # the first opening of a step floor is what the walls below leave of it, no hole in it
    first = 2 if " step floor" in flat.name else 1
    found += [finding for contour in flat.contours[first:] for finding in _opening(flat, contour)]
    return tuple(found)


def _sheet(flat: Flat, shop: FoldShop) -> Iterator[Finding]:
    """Cut from one sheet, its edge left free; bars are not."""
    if not flat.bar and not shop.takes(flat.size):
        long, short = max(flat.size), min(flat.size)
        most = [side - 2.0 * shop.sheet_edge for side in sorted(shop.sheet, reverse=True)]
        figure, limit = (long, most[0]) if long > most[0] else (short, most[1])
        place = f"blank of {long:.1f} x {short:.1f}"
        yield Finding("blank larger than the sheet", flat.name, place, figure, limit)


def _radius(flat: Flat) -> Iterator[Finding]:
    """No tighter than the sheet takes; all bends of a flat are alike."""
    least = least_inside_radius(flat.material, flat.thickness)
    for radius in sorted({bend.radius for bend in flat.bends}):
        if least and radius < least.radius - CLOSE:
            place = f"inside radius in {flat.material}, {least.source}"
            yield Finding("radius too tight", flat.name, place, radius, least.radius)


def _fold(flat: Flat, bend: Bend, shop: FoldShop) -> Iterator[Finding]:
    """What is folded is held by the tool, and the tool is long enough."""
    rule = 3.0 * flat.thickness + bend.radius
    least = rule if shop.least_flange is None else shop.least_flange
    place, length = f"fold {_at(bend.start)}", dist(bend.start, bend.end)
    if bend.leg < least - CLOSE:
        yield Finding("flange too short", flat.name, place, bend.leg, least)
    if length > shop.brake + CLOSE:
        yield Finding("fold longer than the brake", flat.name, place, length, shop.brake)


def _hole(flat: Flat, hole: Hole) -> Iterator[Finding]:
    """Large enough, and clear of edges and bends; bends count from the inside of the other leg."""
    thick, half, place = flat.thickness, hole.diameter / 2.0, f"hole {_at(hole.at)}"
    if hole.diameter < thick - CLOSE:
        yield Finding("hole too small", flat.name, place, hole.diameter, thick)
    yield from _to_edge(flat, hole, 1.5 * thick)
    for bend in flat.bends:
        tangent = distance_to_line(hole.at, bend.start, bend.end) - bend.allowance / 2.0
        apart, least = tangent + bend.radius - half, 2.0 * thick + bend.radius
        if apart < least - CLOSE:
            yield Finding("hole to bend", flat.name, place, apart, least)


def _drilled(flat: Flat, hole: Hole) -> Iterator[Finding]:
    """Far enough from the edge of a bar."""
    yield from _to_edge(flat, hole, hole.diameter / 2.0)


def _to_edge(flat: Flat, hole: Hole, least: float) -> Iterator[Finding]:
    """So far [mm] from every contour at least."""
    edge = min(distance_to_contour(hole.at, contour) for contour in flat.contours) - hole.diameter / 2.0
    if edge < least - CLOSE:
        yield Finding("hole to edge", flat.name, f"hole {_at(hole.at)}", edge, least)


def _holes_apart(flat: Flat) -> Iterator[Finding]:
    """What is left between two holes holds; the same hole twice is told by contour_checks."""
    least = 2.0 * flat.thickness
    for one, other in combinations(flat.holes, 2):
        between = dist(one.at, other.at)
        left = between - (one.diameter + other.diameter) / 2.0
        if between > CLOSE and left < least - CLOSE:
            place = f"holes {_at(one.at)} and {_at(other.at)}"
            yield Finding("hole to hole", flat.name, place, left, least)


def _opening(flat: Flat, contour: Contour) -> Iterator[Finding]:
    """As a hole, from its nearest place: other openings, the part's edge, holes and bends."""
    points, thick = points_of(contour), flat.thickness
    middle = (sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points))
    place, others = f"opening {_at(middle)}", [one for one in flat.contours if one is not contour]
    edge = min(distance_to_contour(point, other) for point in points for other in others)
    edge = min([edge, *(distance_to_contour(one.at, contour) - one.diameter / 2.0 for one in flat.holes)])
    if edge < 1.5 * thick - CLOSE:
        yield Finding("hole to edge", flat.name, place, edge, 1.5 * thick)
    for bend in flat.bends:
        line = min(distance_to_line(point, bend.start, bend.end) for point in points)
        apart, least = line - bend.allowance / 2.0 + bend.radius, 2.0 * thick + bend.radius
        if apart < least - CLOSE:
            yield Finding("hole to bend", flat.name, place, apart, least)


def _at(point: tuple[float, float]) -> str:
    """A place in the flat."""
    return f"at {point[0]:.1f}, {point[1]:.1f}"
