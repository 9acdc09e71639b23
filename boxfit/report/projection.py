"""The three views of the car, and how the things look in them."""

from dataclasses import dataclass
from functools import lru_cache
from math import cos, pi, sin, sqrt

from boxfit.bay import Bay, Block, Cylinder, Keepout, Opening, Point, Shell, Surface, Vector, Way
from boxfit.report.silhouette import Signed, silhouettes, trimmed
from boxfit.surface import Outline


@dataclass(frozen=True)
class View:
    """A way of looking at the car: the axis running across the page, up the page, and towards the reader."""

    name: str
    title: str
    across: Signed
    upwards: Signed
    nearer: Signed

    def flat(self, point: Vector) -> Point:
        """Where the point stands in the view [mm of the car]."""
        (across, way), (upwards, turn) = self.across, self.upwards
        return (point[across] * way, point[upwards] * turn)

    def nearness(self, low: Vector, high: Vector) -> float:
        """How near the reader a solid's nearest face lies [mm], larger being nearer."""
        axis, way = self.nearer
        return max(low[axis] * way, high[axis] * way)


PLAN = View("plan", "Plan, seen from above; front of the car to the left", (0, -1), (1, -1), (2, 1))
SIDE = View("side", "Side, seen from the left of the car; front to the left", (0, -1), (2, 1), (1, 1))
REAR = View("rear", "Rear, seen from behind; left of the car to the left", (1, -1), (2, 1), (0, -1))
VIEWS = (PLAN, SIDE, REAR)

WAYS: dict[Way, Signed] = {
    "up": (2, 1),
    "down": (2, -1),
    "front": (0, 1),
    "rear": (0, -1),
    "left": (1, 1),
    "right": (1, -1),
}


def rectangle(view: View, low: Vector, high: Vector) -> tuple[Point, ...]:
    """A block's outline in the view.

    >>> rectangle(SIDE, (0, 0, 0), (10, 20, 30))
    ((-10, 0), (0, 0), (0, 30), (-10, 30))
    """
    (left, bottom), (right, top) = (
        tuple(map(choose, zip(view.flat(low), view.flat(high), strict=True))) for choose in (min, max)
    )
    return ((left, bottom), (right, bottom), (right, top), (left, top))


def extents(bay: Bay) -> tuple[Vector, Vector]:
    """The lowest and highest corner [mm] of the block round a bay's room."""
    if isinstance(bay.room, Shell):
        return bay.room.low, bay.room.high
    across, along = zip(*bay.room.outline, strict=True)
    return (min(across), min(along), bay.room.floor), (max(across), max(along), bay.room.top)


def bay_outlines(view: View, bay: Bay) -> tuple[Outline, ...]:
    """The room's outlines in the view, the largest first; a prism has one.

    That is its outline in plan, and its floor and top with its ends in the other views.
    """
    room = bay.room
    if isinstance(room, Shell):
        others = sorted({view.across[0], view.upwards[0]})
        seen = _seen(view, bay)
        return tuple(tuple(view.flat(_lifted(view.nearer[0], 0.0, others, p)) for p in one) for one in seen)
    if view is PLAN:
        return (tuple(view.flat((x, y, 0.0)) for x, y in room.outline),)
    return (rectangle(view, *extents(bay)),)


def _seen(view: View, bay: Bay) -> tuple[Outline, ...]:
    """What a room of any shape shows in the view, across its two axes in their order."""
    room = bay.room
    assert isinstance(room, Shell)
    rough = {PLAN.name: room.plan, SIDE.name: room.side, REAR.name: room.rear}[view.name]
    first, second = sorted({view.across[0], view.upwards[0]})
    return trimmed(room.surface, rough, ((first, 1), (second, 1)), bay.tolerance)


def bay_points(view: View, bay: Bay) -> Outline:
    """The points of all the room's outlines in the view."""
    return tuple(point for outline in bay_outlines(view, bay) for point in outline)


def cylinder_points(bar: Cylinder, count: int = 48) -> tuple[Vector, ...]:
    """Points [mm] on the rims of both flat ends of a bar.

    >>> low_end = cylinder_points(Cylinder((0, 0, 0), (0, 0, 50), 20), 4)[:4]
    >>> sorted({(round(x) + 0, round(y) + 0, round(z)) for x, y, z in low_end})
    [(-10, 0, 0), (0, -10, 0), (0, 10, 0), (10, 0, 0)]
    """
    axis = _unit(_minus(bar.end, bar.start))
    least = min(range(3), key=lambda k: abs(axis[k]))
    first = _unit(_cross(axis, (float(least == 0), float(least == 1), float(least == 2))))
    second = _cross(axis, first)
    points: list[Vector] = []
    for end in (bar.start, bar.end):
        for step in range(count):
            c, s = (bar.diameter / 2 * f(2 * pi * step / count) for f in (cos, sin))
            x, y, z = (end[k] + c * first[k] + s * second[k] for k in range(3))
            points.append((x, y, z))
    return tuple(points)


@lru_cache(maxsize=256)
def keepout_outlines(view: View, keepout: Keepout) -> tuple[Outline, ...]:
    """A keep-out's outlines in the view, the largest first, without holes; a surface may have several.

    That of a bar is right to within a hundredth of its diameter.
    """
    from shapely import MultiPoint

    solid = keepout.solid
    if isinstance(solid, Block):
        return (rectangle(view, solid.low, solid.high),)
    if isinstance(solid, Surface):
        return silhouettes(solid, (view.across, view.upwards))
    hull = MultiPoint([view.flat(point) for point in cylinder_points(solid)]).convex_hull
    return (tuple((x, y) for x, y in list(hull.exterior.coords)[:-1]),)


def opening_outline(view: View, bay: Bay, opening: Opening) -> tuple[Point, ...]:
    """The hole a box passes: its outline where the view faces it, otherwise a line on the bay's side."""
    axis, way = WAYS[opening.way]
    low, high = extents(bay)
    level = high[axis] if way > 0 else low[axis]
    others = [k for k in range(3) if k != axis]
    flat = opening.outline or _sides(bay, axis, others)
    solid = [_lifted(axis, level, others, point) for point in flat]
    points = tuple(view.flat(point) for point in solid)
    if axis == view.nearer[0]:
        return points
    return (min(points), max(points))


def _sides(bay: Bay, axis: int, others: list[int]) -> tuple[Point, ...]:
    """The whole side of the bay that an opening without outline leaves open."""
    if axis == 2:
        return _seen(PLAN, bay)[0] if isinstance(bay.room, Shell) else bay.room.outline
    low, high = extents(bay)
    (a, b), (c, d) = ((low[k], high[k]) for k in others)
    return ((a, c), (b, c), (b, d), (a, d))


def _lifted(axis: int, level: float, others: list[int], point: Point) -> Vector:
    found = {axis: level, others[0]: point[0], others[1]: point[1]}
    return (found[0], found[1], found[2])


def _minus(a: Vector, b: Vector) -> Vector:
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2])


def _cross(a: Vector, b: Vector) -> Vector:
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def _unit(a: Vector) -> Vector:
    length = sqrt(a[0] ** 2 + a[1] ** 2 + a[2] ** 2)
    return (a[0] / length, a[1] / length, a[2] / length)
