"""Flats of a tray folded up and stood where they belong in the car: both faces of points of the sheet."""

from collections.abc import Iterable

from boxfit.bay import Point, Vector
from boxfit.box.parts import Plate, Tray
from boxfit.box.sides import Side, sides_of
from boxfit.sheet.flat import Flat
from boxfit.sheet.outline import points_of
from tests.sheet.refold import folded, within_a_bend

Points = list[tuple[Vector, Vector]]
"""Far and seen face of points of the sheet [mm]; of a tray the far face is the outside."""


def edge_points(flat: Flat, base: Point) -> Iterable[Point]:
    """Those of all contours that no bend uses up."""
    return (
        point
        for contour in flat.contours
        for point in points_of(contour)
        if not within_a_bend(flat, base, point)
    )


def blank_stood(tray: Tray, flat: Flat, points: Iterable[Point] | None = None) -> Points:
    """Points of a cross blank; it is drawn about the middle of its floor."""
    base = (flat.size[0] / 2.0, flat.size[1] / 2.0)
    low, high = tray.outside.low, tray.outside.high
    middle = ((low[0] + high[0]) / 2.0, (low[1] + high[1]) / 2.0, low[2])
    taken = [base, *edge_points(flat, base)] if points is None else points
    found = (folded(flat, base, point) for point in taken)
    return [(_moved(far, middle), _moved(seen, middle)) for far, seen in found]


def wall_stood(band: Plate, side: Side, wall: Flat, points: Iterable[Point] | None = None) -> Points:
    """Points of a wall panel that ends with its band and is seen from inside, marked half way along."""
    base = wall.marks[0].at
    taken = list(edge_points(wall, base) if points is None else points)
    top = max(max(far[1], seen[1]) for far, seen in (folded(wall, base, p) for p in edge_points(wall, base)))

    def in_car(x: float, up: float, depth: float) -> Vector:
        along, out = side.length / 2.0 - x, -depth
        plan = [side.start[k] + along * side.along[k] + out * side.outwards[k] for k in (0, 1)]
        return (plan[0], plan[1], band.top + up - top)

    return [(in_car(*far), in_car(*seen)) for far, seen in (folded(wall, base, p) for p in taken)]


def floor_stood(tray: Tray, plate: Plate, flat: Flat, points: Iterable[Point] | None = None) -> Points:
    """Points of a floor panel, whose extent is that of its plate."""
    x, y, _ = plate.low
    taken = edge_points(flat, (0.0, 0.0)) if points is None else points
    low, high = plate.bottom, plate.bottom + tray.thickness
    return [((x + a, y + b, low), (x + a, y + b, high)) for a, b in taken]


def panels_of(tray: Tray, flats: tuple[Flat, ...]) -> Iterable[tuple[Flat, Plate, Side | None]]:
    """Floors and walls of a tray made of panels, each with the floor's plate or the wall's band and side."""
    by_name = {flat.name: flat for flat in flats}
    yield by_name[f"{tray.name} floor"], tray.bands[0], None
    for number, step in enumerate(tray.step_floors, start=1):
        which = f" {number}" if len(tray.step_floors) > 1 else ""
        yield by_name[f"{tray.name} step floor{which}"], step.plate, None
    for place, band in enumerate(tray.bands, start=1):
        tier = f" {place}" if len(tray.bands) > 1 else ""
        for side in sides_of(band.outline):
            if wall := by_name.get(f"{tray.name} wall{tier} {side.name}"):
                yield wall, band, side


def all_stood(tray: Tray, flats: tuple[Flat, ...]) -> Points:
    """Every point of every flat of a tray whose flange is folded, or which has none."""
    if len(flats) == 1:
        return blank_stood(tray, flats[0])
    found: Points = []
    for flat, plate, side in panels_of(tray, flats):
        found += wall_stood(plate, side, flat) if side else floor_stood(tray, plate, flat)
    return found


def _moved(point: Vector, by: Vector) -> Vector:
    return (point[0] + by[0], point[1] + by[1], point[2] + by[2])
