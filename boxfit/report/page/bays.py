"""The car's bays, what stays in them, openings and axles, for the turnable model."""

from collections.abc import Iterator

import numpy as np

from boxfit.bay import Bay, Block, Cylinder, Keepout, Prism, Surface, Vector
from boxfit.car import Car
from boxfit.report.page.shown import Colour, Facets, Label, Line, Shown
from boxfit.report.page.thin import thinned
from boxfit.report.projection import VIEWS, WAYS, cylinder_points, extents, opening_outline
from boxfit.surface import Outline

ROUND = 32
"""Corners of a round bar's ends."""
BAY: Colour = (0.80, 0.78, 0.70, 1.0)
BODY: Colour = (0.62, 0.60, 0.55, 0.35)
"""Metal that was scanned is looked through, as it may lie on every side of the room."""
OPENING: Colour = (0.0, 0.17, 0.11, 1.0)
CAR_LINES: Colour = (0.10, 0.10, 0.10, 1.0)
KEEPOUT: Colour = (0.26, 0.05, 0.17, 1.0)
BY_REASON: dict[str, Colour] = {"moving": (0.07, 0.05, 0.33, 1.0), "hot": (0.33, 0.01, 0.03, 1.0)}
BLOCK_FACES = (
    (0, 2, 1), (1, 2, 3), (4, 5, 6), (5, 7, 6), (0, 1, 4), (1, 5, 4),
    (2, 6, 3), (3, 6, 7), (0, 4, 2), (2, 4, 6), (1, 3, 5), (3, 7, 5),
)  # fmt: skip
"""The faces of a block whose corner number is 4 for high z, 2 for high y, 1 for high x."""


def bay_parts(car: Car) -> Iterator[Shown]:
    """The rooms, seen from within, and the keep-outs."""
    for bay in car.bays:
        body = not isinstance(bay.room, Prism) and bay.room.reads == "body"
        yield Shown(
            bay.name, "bay", "", room_facets(bay), BODY if body else BAY, look="skin" if body else "room"
        )
        for keepout in bay.keepouts:
            colour = BY_REASON.get(keepout.reason, KEEPOUT)
            yield Shown(f"{keepout.name} in the {bay.name}", "keep-out", "", solid_facets(keepout), colour)


def room_facets(bay: Bay) -> Facets:
    """The surface of a bay's room."""
    room = bay.room
    if isinstance(room, Prism):
        return _upright(room.outline, room.floor, room.top)
    return thinned(Facets(room.surface.points, room.surface.triangles, rough=True))


def solid_facets(keepout: Keepout) -> Facets:
    """The surface of a keep-out."""
    solid = keepout.solid
    if isinstance(solid, Surface):
        return thinned(Facets(solid.points, solid.triangles, rough=True))
    return _bar(solid) if isinstance(solid, Cylinder) else block_facets(solid)


def block_facets(block: Block) -> Facets:
    """The twelve triangles of a block."""
    ends = (block.low, block.high)
    corners = [(ends[k & 1][0], ends[k >> 1 & 1][1], ends[k >> 2][2]) for k in range(8)]
    return Facets(np.array(corners, dtype=np.float64), np.array(BLOCK_FACES))


def _bar(bar: Cylinder) -> Facets:
    """A round bar: its mantle and two flat ends."""
    points = [*cylinder_points(bar, ROUND), bar.start, bar.end]
    first, last = 2 * ROUND, 2 * ROUND + 1
    faces: list[tuple[int, int, int]] = []
    for k in range(ROUND):
        on = (k + 1) % ROUND
        faces += [(k, on, ROUND + k), (on, ROUND + on, ROUND + k)]
        faces += [(first, on, k), (last, ROUND + k, ROUND + on)]
    return Facets(np.array(points, dtype=np.float64), np.array(faces))


def _upright(outline: Outline, floor: float, top: float) -> Facets:
    """A prism between two levels; `outline` runs counter-clockwise."""
    import shapely

    count = len(outline)
    corners = [(x, y, level) for level in (floor, top) for x, y in outline]
    number = {point: k for k, point in enumerate(outline)}
    faces: list[tuple[int, int, int]] = []
    for part in shapely.constrained_delaunay_triangles(shapely.Polygon(outline)).geoms:
        one, two, three = (number[(x, y)] for x, y in list(part.exterior.coords)[:3])
        if not part.exterior.is_ccw:
            two, three = three, two
        faces += [(one, three, two), (count + one, count + two, count + three)]
    for k in range(count):
        on = (k + 1) % count
        faces += [(k, on, count + k), (on, count + on, count + k)]
    return Facets(np.array(corners, dtype=np.float64), np.array(faces))


def car_lines(car: Car) -> Iterator[Line]:
    """Openings, and on the ground the centre line and the axles between the middles of the wheels."""
    for bay in car.bays:
        if bay.opening:
            yield Line(f"opening of the {bay.name}", "opening", _closed(_opening(bay)), OPENING)
    rear = -car.wheelbase
    strokes: list[tuple[Vector, Vector]] = [((0.0, 0.0, 0.0), (rear, 0.0, 0.0))]
    for x, track in ((0.0, car.track_front), (rear, car.track_rear)):
        strokes.append(((x, -track / 2, 0.0), (x, track / 2, 0.0)))
        strokes += [((x - 120.0, y, 0.0), (x + 120.0, y, 0.0)) for y in (-track / 2, track / 2)]
    yield Line("axles and centre line on the ground", "car lines", tuple(strokes), CAR_LINES)


def car_labels(car: Car) -> Iterator[Label]:
    """Which end is which, and the bays' names above them."""
    yield Label("front axle", (0.0, 0.0, 0.0))
    yield Label("rear axle", (-car.wheelbase, 0.0, 0.0))
    for bay in car.bays:
        low, high = extents(bay)
        yield Label(bay.name, ((low[0] + high[0]) / 2, (low[1] + high[1]) / 2, high[2]))


def _opening(bay: Bay) -> tuple[Vector, ...]:
    """The corners of the hole, on the side of the bay that is furthest its way."""
    assert bay.opening is not None
    axis, way = WAYS[bay.opening.way]
    low, high = extents(bay)
    view = next(view for view in VIEWS if view.nearer[0] == axis)
    (across, turn), (upwards, lift) = view.across, view.upwards
    corners: list[Vector] = []
    for flat in opening_outline(view, bay, bay.opening):
        place = {axis: (high if way > 0 else low)[axis], across: flat[0] * turn, upwards: flat[1] * lift}
        corners.append((place[0], place[1], place[2]))
    return tuple(corners)


def _closed(corners: tuple[Vector, ...]) -> tuple[tuple[Vector, Vector], ...]:
    return tuple(zip(corners, corners[1:] + corners[:1], strict=True))
