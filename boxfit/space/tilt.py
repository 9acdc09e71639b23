"""A box that does not go straight in: what it lacks, and whether tilting it or making two of it would do.

Tilting is looked at in two planes, turning about one axis of the car at a time without shifting along that
axis. A working aid: nothing is known of what stands outside the bay, and a card mock-up comes first.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from math import hypot

import shapely

from boxfit.bay import Bay, Opening, Shell, Vector
from boxfit.module import AXES, Axis
from boxfit.space.crosscut import OUTWARDS, Plane, bounds, crosscut, gate, planes
from boxfit.space.free import BoxLevels, plan_room
from boxfit.space.plan import PlanRoom
from boxfit.space.tilt_raster import STEP, Part, Turning, Window

FINE = 0.1
"""What a box lacks going straight is told to this [mm]."""
MOST_TILT_LACK = 320.0
"""A box that would have to be shorter by more than this [mm] to be tilted in is not asked by how much."""
COARSE = 10.0
"""What a box lacks to be tilted in is told to this [mm]."""
LEAST_LENGTH = 1.0
"""No box is thought shorter than this [mm]."""
TOUCH = 1e-3
"""A box this near [mm] to where it may stand stands there."""
ENDS: dict[Axis, tuple[str, str]] = {"x": ("rear", "front"), "y": ("right", "left"), "z": ("bottom", "top")}


@dataclass(frozen=True)
class Split:
    """Two boxes in place of one, each `size` [mm] long outside along `axis`, its walls and flange included.

    `lacks` [mm] is how much shorter each would have to be to go straight in, 0 where it goes, None where it
    is the other side that is too long; `together` says whether both have a place there, flanges touching at
    nothing.
    """

    axis: Axis
    size: float
    lacks: float | None
    together: bool


@dataclass(frozen=True)
class Lack:
    """How much smaller [mm] a box would have to be along `axis`, None for all round, to go straight in."""

    axis: Axis | None
    by: float


@dataclass(frozen=True)
class WayIn:
    """How a box gets to its place.

    `straight_lacks` [mm] is the least of `lacks`, along `straight_axis` or all round; 0 where the box goes
    straight in, `shift` [mm] from its place. `shift` is None where it goes straight in nowhere.
    `greatest_angle` [degrees] is how far it must be tilted about `tilt_axis`, `leading` the end that goes
    in first; `tilted_lacks` [mm] how much shorter it would have to be to be tilted in, None where more than
    `MOST_TILT_LACK`.
    """

    bay: str
    straight: bool
    lacks: tuple[Lack, ...] = ()
    shift: float | None = None
    tilted: bool = False
    tilt_axis: Axis | None = None
    leading: str = ""
    greatest_angle: float = 0.0
    tilted_lacks: float | None = 0.0
    splits: tuple[Split, ...] = ()

    @property
    def straight_lacks(self) -> float:
        """The least that would let it go straight in [mm]."""
        return min((lack.by for lack in self.lacks), default=0.0)

    @property
    def straight_axis(self) -> Axis | None:
        """Along which axis; None for all round or nothing."""
        return min(self.lacks, key=lambda lack: lack.by).axis if self.lacks else None


def way_in(bay: Bay, low: Vector, high: Vector) -> WayIn:
    """How a box with its outside from `low` to `high` [mm], flange apart, gets to its place.

    Only for a bay with an opening, and a box that keeps every distance in its place.
    """
    opening = bay.opening
    if opening is None:
        return WayIn(bay.name, straight=True)
    size = (high[0] - low[0], high[1] - low[1], high[2] - low[2])
    places = _room(bay, low[2], size[2]).places(size[0], size[1])
    if not places.is_empty:
        shift = float(places.distance(shapely.Point(low[0], low[1])))
        if shift <= TOUCH:
            return WayIn(bay.name, straight=True, shift=0.0)
        found = WayIn(bay.name, straight=False, shift=shift)
    else:
        found = WayIn(bay.name, straight=False, lacks=_lacks(bay, low[2], size))
    splits = tuple(
        _split(bay, low[2], size, axis) for axis in (0, 1) if AXES[axis] != AXES[OUTWARDS[opening.way][0]]
    )
    return replace(_tilted(bay, opening, low, high, found), splits=splits)


def _room(bay: Bay, bottom: float, height: float) -> PlanRoom:
    """The free plan, way in included, for a box of this height."""
    top = bottom + height
    return plan_room(bay, BoxLevels(bottom, top - bay.box.rim_below_top - bay.box.thickness, top))


def _lacks(bay: Bay, bottom: float, size: Vector) -> tuple[Lack, ...]:
    """Along each axis across the way, and all round, how much smaller it would have to be."""
    room = _room(bay, bottom, size[2])
    wanted: dict[Axis | None, Callable[[float], bool]] = {
        "x": lambda by: room.deepest(size[0] - by) >= size[1] - FINE / 100,
        "y": lambda by: room.deepest(size[0]) >= size[1] - by - FINE / 100,
        "z": lambda by: not _room(bay, bottom, size[2] - by).places(size[0], size[1]).is_empty,
        None: lambda by: room.deepest(size[0] - by) >= size[1] - by - FINE / 100,
    }
    assert bay.opening is not None
    along = AXES[OUTWARDS[bay.opening.way][0]]
    if along != "z":
        del wanted[None]
    wanted.pop(along)
    found: list[Lack] = []
    for axis, fits in wanted.items():
        most = min(size[:2]) if axis is None else size[AXES.index(axis)]
        if axis == "z":
            most -= bay.box.rim_below_top + bay.box.thickness
        step = COARSE if axis == "z" and isinstance(bay.room, Shell) else FINE  # a scan's plans take long
        by = least(fits, most, step)
        if by is not None and all(by < one.by for one in found if axis is None):
            found.append(Lack(axis, by))
    return tuple(found)


def least(fits: Callable[[float], bool], most: float, step: float) -> float | None:
    """The least number of steps [mm], well below `most`, by which something fits; None where it never does.

    >>> least(lambda by: by >= 12.3, 100.0, 0.5)
    12.5
    """
    few, many = 0, max(0, int((most - LEAST_LENGTH) / step))
    if not fits(many * step):
        return None
    while few < many:
        middle = (few + many) // 2
        few, many = (few, middle) if fits(middle * step) else (middle + 1, many)
    return many * step


def _split(bay: Bay, bottom: float, size: Vector, axis: int) -> Split:
    """Two boxes side by side along an axis; each takes half, and needs a wall, liner and gap more."""
    rules = bay.box
    half = size[axis] / 2.0 + rules.thickness + rules.liner + rules.gap
    plan = [size[0], size[1]]
    plan[axis] = half
    room = _room(bay, bottom, size[2])
    places = room.places(plan[0], plan[1])
    if places.is_empty:

        def fits(by: float) -> bool:
            smaller = [length - by if k == axis else length for k, length in enumerate(plan)]
            return not room.places(smaller[0], smaller[1]).is_empty

        short = least(fits, half, FINE)
        return Split(AXES[axis], half, short, together=False)
    apart = places.bounds[axis + 2] - places.bounds[axis]
    return Split(AXES[axis], half, 0.0, together=apart >= half + 2 * rules.reach - TOUCH)


def _tilted(bay: Bay, opening: Opening, low: Vector, high: Vector, found: WayIn) -> WayIn:
    """The answer with what tilting does: the plane that asks for the least angle or shortening."""
    best: WayIn | None = None
    for plane in planes(opening.way):
        angle = turning(bay, opening, plane, (low, high), 0.0).least_angle()
        if angle is not None and (best is None or abs(angle) < best.greatest_angle):
            axis = AXES[plane.turns]
            leading = ENDS[AXES[plane.across]][0 if angle > 0 else 1]
            best = replace(found, tilted=True, tilt_axis=axis, leading=leading, greatest_angle=abs(angle))
    if best is not None:
        return best
    lacking: list[tuple[float, Axis]] = []
    for plane in planes(opening.way):
        length = high[plane.across] - low[plane.across]
        most = min(MOST_TILT_LACK, length - STEP)

        def fits(by: float, plane: Plane = plane) -> bool:
            return turning(bay, opening, plane, (low, high), by).passes

        by = least(fits, most, COARSE)
        if by is not None:
            lacking.append((by, AXES[plane.turns]))
    if not lacking:
        return replace(found, tilted_lacks=None)
    return replace(found, tilt_axis=min(lacking)[1], tilted_lacks=min(lacking)[0])


def turning(bay: Bay, opening: Opening, plane: Plane, box: tuple[Vector, Vector], by: float) -> Turning:
    """The box, shorter by `by` [mm] in the plane, in its place and ready to be turned."""
    walls = _with_bars(bay, *box)
    whole = (walls, _slab(bay, *box)) if bay.box.flange else (walls,)
    parts = [_shorter(part, plane.across, by) for part in whole]
    middle = plane.flat(tuple((a + b) / 2.0 for a, b in zip(*parts[0], strict=True)))  # type: ignore[arg-type]
    set_up = []
    for low, high in parts:
        (u, v), (a, b) = plane.flat(low), plane.flat(high)
        span = (low[plane.turns] - bay.tolerance + 1e-6, high[plane.turns] + bay.tolerance - 1e-6)
        obstacles = tuple(
            tuple((x - middle[0], y - middle[1]) for x, y in piece)
            for piece in crosscut(bay, opening, plane, span)
        )
        ends = sorted((v, b))
        set_up.append(
            Part((u - middle[0], ends[0] - middle[1]), (a - middle[0], ends[1] - middle[1]), obstacles)
        )
    return Turning(tuple(set_up), _window(bay, plane, middle, set_up), bay.tolerance)


def _shorter(box: tuple[Vector, Vector], axis: int, by: float) -> tuple[Vector, Vector]:
    low, high = list(box[0]), list(box[1])
    low[axis] += by / 2.0
    high[axis] -= by / 2.0
    return (low[0], low[1], low[2]), (high[0], high[1], high[2])


def _with_bars(bay: Bay, low: Vector, high: Vector) -> tuple[Vector, Vector]:
    """Floor, walls and lid with what stiffening bars take beside and below them."""
    out, below = bay.box.bars_beside, bay.box.bars_below
    return (low[0] - out, low[1] - out, low[2] - below), (high[0] + out, high[1] + out, high[2])


def _slab(bay: Bay, low: Vector, high: Vector) -> tuple[Vector, Vector]:
    """Flange and lid."""
    flange, bottom = bay.box.flange, high[2] - bay.box.rim_below_top - bay.box.thickness
    return (low[0] - flange, low[1] - flange, bottom), (high[0] + flange, high[1] + flange, high[2])


def _window(bay: Bay, plane: Plane, middle: tuple[float, float], parts: list[Part]) -> Window:
    """The middle stays over the bay; it is out where all of the box is past the opening at any angle."""
    (left, low), (right, high) = (plane.flat(corner) for corner in bounds(bay))
    reach = max(
        hypot(u, v)
        for part in parts
        for u in (part.low[0], part.high[0])
        for v in (part.low[1], part.high[1])
    )
    out = gate(bay, plane) - middle[1] + reach + bay.tolerance + STEP
    return Window(max(middle[0] - left, 0.0), max(right - middle[0], 0.0), middle[1] - min(low, high), out)
