"""What a cable as laid comes too near to, and where it goes through the walls of bays. [mm]

Boxes, fittings and keep-outs are measured at places all along the cable; surfaces of scans and solids for
whole stretches. Between the bays nothing was surveyed: how much of a cable lies there is told.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import dist

import numpy as np
import shapely
from numpy.typing import NDArray

from boxfit.bay import Bay, Block, Cylinder, Prism, Shell, Surface, Vector
from boxfit.box.wiring.obstacles import GROUND, Obstacle, kept_from, straight_pieces
from boxfit.box.wiring.route import Route
from boxfit.space.distance import solid_distance
from boxfit.space.near import nearest

STEP = 5.0
"""Places along a cable are no further apart than this."""
LONG = 400.0
"""Stretches are held against surfaces in pieces no longer than this."""
SLACK = 0.01
Numbers = NDArray[np.float64]


@dataclass(frozen=True)
class Clash:
    """A cable too near to something: what, where, how far apart outside to outside, and how far is asked."""

    what: str
    at: Vector
    distance: float
    needed: float


@dataclass(frozen=True)
class Passage:
    """Where a cable goes through the boundary of a bay: a wall needs a hole with a grommet."""

    bay: str
    through: str
    at: Vector


def clashes(
    route: Route, obstacles: Sequence[Obstacle], bays: Sequence[Bay], others: Sequence[tuple[str, Route]]
) -> tuple[Clash, ...]:
    """Everything a cable is too near to, each once, at its worst place."""
    places, half = np.array(route.samples(STEP)), route.across / 2.0
    found: dict[str, Clash] = {}

    def held(name: str, gaps: Numbers, needed: float) -> None:
        worst = int(gaps.argmin())
        apart = float(gaps[worst]) - half
        if apart < needed - SLACK and (name not in found or apart < found[name].distance):
            found[name] = Clash(name, _vector(places[worst]), apart, needed)

    for one in obstacles:
        held(one.name, gaps_to(one.solid, places), one.distance)
    for bay in bays:
        for keepout in bay.keepouts:
            name, needed = f"{keepout.name} ({bay.name})", kept_from(bay, keepout)
            if isinstance(keepout.solid, Surface):
                needed += keepout.solid.off
                for clash in _to_surface(name, keepout.solid, route, needed):
                    found.setdefault(name, clash)
            else:
                held(name, gaps_to(keepout.solid, places), needed)
    for name, other in others:
        beside = np.array(other.samples(STEP))
        apart = np.sqrt(((places[:, None, :] - beside[None, :, :]) ** 2).sum(axis=2)).min(axis=1)
        held(name, apart - other.across / 2.0, 0.0)
    held("the ground", places[:, 2], GROUND)
    return tuple(found.values())


def gaps_to(solid: Block | Cylinder, places: Numbers) -> Numbers:
    """How far places (n x 3) are from a block or a bar with flat ends, 0 within it.

    >>> gaps_to(Block((0, 0, 0), (1, 1, 1)), np.array([[4.0, 5.0, 0.5]])).tolist()
    [5.0]
    """
    if isinstance(solid, Block):
        off = np.maximum(np.array(solid.low) - places, places - np.array(solid.high))
        return np.asarray(np.sqrt((np.maximum(off, 0.0) ** 2).sum(axis=1)))
    start, length = np.array(solid.start), dist(solid.start, solid.end)
    way = (np.array(solid.end) - start) / length
    along = (places - start) @ way
    across = np.sqrt((((places - start) - along[:, None] * way) ** 2).sum(axis=1))
    beyond = np.maximum(np.maximum(-along, along - length), 0.0)
    return np.asarray(np.hypot(np.maximum(across - solid.diameter / 2.0, 0.0), beyond))


def _to_surface(name: str, surface: Surface, route: Route, needed: float) -> Iterator[Clash]:
    """The worst stretch or corner too near to a surface, if there is one."""
    reach, half = needed + route.across / 2.0, route.across / 2.0
    worst: Clash | None = None
    for block in _blocks(route):
        over = all(
            block.low[k] - reach <= surface.high[k] and surface.low[k] <= block.high[k] + reach
            for k in range(3)
        )
        if over:
            apart = solid_distance(block, surface) - half
            if apart < needed - SLACK and (worst is None or apart < worst.distance):
                worst = Clash(name, nearest(block, surface).at, apart, needed)
    if worst:
        yield worst


def _blocks(route: Route) -> Iterator[Block]:
    """The straight stretches as flat blocks, and places along the corners as blocks without any size."""
    for one, other in straight_pieces(route, LONG):
        ends = list(zip(one, other, strict=True))
        yield Block(_vector([min(pair) for pair in ends]), _vector([max(pair) for pair in ends]))
    for arc in route.arcs:
        for at in (arc.start, arc.middle, arc.end):
            yield Block(at, at)


def passages(route: Route, bays: Sequence[Bay]) -> tuple[Passage, ...]:
    """Where the middle of a cable goes into a bay or out of it, in the order of the way."""
    places = np.array(route.samples(STEP))
    found: list[tuple[int, Passage]] = []
    for bay in bays:
        inside = _within(bay, places)
        for place in np.flatnonzero(inside[1:] != inside[:-1]):
            at = places[place] if inside[place] else places[place + 1]
            beyond = places[place + 1] if inside[place] else places[place]
            found.append((int(place), Passage(bay.name, _side(bay, beyond), _vector(at))))
    return tuple(passage for _, passage in sorted(found, key=lambda one: one[0]))


def _side(bay: Bay, beyond: Numbers) -> str:
    """What of a bay's boundary lies between it and a place just outside."""
    room = bay.room
    if beyond[2] > room.top:
        return "top"
    if beyond[2] < room.floor:
        return "floor"
    return "wall"


def _within(bay: Bay, places: Numbers) -> NDArray[np.bool_]:
    """Which places lie in what was surveyed of a bay: in its outline in plan, between floor and top."""
    room = bay.room
    outline = room.outline if isinstance(room, Prism) else room.plan[0]
    level = (places[:, 2] >= room.floor) & (places[:, 2] <= room.top)
    inside = level & shapely.contains_xy(shapely.Polygon(outline), places[:, 0], places[:, 1])
    return np.asarray(inside, dtype=bool)


def unsurveyed(route: Route, bays: Sequence[Bay]) -> float:
    """How much of a cable [mm] lies in no bay."""
    places = np.array(route.samples(STEP))
    inside = np.zeros(len(places), dtype=bool)
    for bay in bays:
        inside |= _within(bay, places)
    steps = np.sqrt(((places[1:] - places[:-1]) ** 2).sum(axis=1))
    return float(steps[~(inside[1:] & inside[:-1])].sum())


def along_walls(route: Route, bay: Bay) -> float:
    """How much of a cable [mm] runs nearer to the walls of a bay than the survey's tolerance allows.

    Where it passes through a wall squarely, that much is left out. 0 where it stays clear.
    """
    off = route.across / 2.0 + bay.tolerance
    if isinstance(bay.room, Shell):
        return 0.0
    places = np.array(route.samples(STEP))
    gaps = _wall_gaps(bay.room, places)
    steps = [dist(one, other) for one, other in pairwise(map(tuple, places))]
    near = sum(step for step, a, b in zip(steps, gaps, gaps[1:], strict=False) if max(a, b) < off - SLACK)
    through = sum(1 for one in passages(route, (bay,)))
    return max(0.0, near - through * (2.0 * off + 2.0 * STEP))


def _wall_gaps(room: Prism, places: Numbers) -> Numbers:
    """How far places are from the boundary of a room, walls, floor and top."""
    plan = shapely.Polygon(room.outline)
    side = shapely.distance(plan.exterior, shapely.points(places[:, :2]))
    over = np.abs(np.stack([places[:, 2] - room.floor, places[:, 2] - room.top])).min(axis=0)
    inside = shapely.contains_xy(plan, places[:, 0], places[:, 1])
    level = (places[:, 2] >= room.floor) & (places[:, 2] <= room.top)
    gaps = np.where(inside & level, np.minimum(side, over), np.inf)
    gaps = np.where(level & ~inside, side, gaps)
    return np.asarray(np.where(inside & ~level, over, gaps))


def met_metal(route: Route, bay: Bay) -> tuple[Vector, ...]:
    """Where a cable meets the surveyed metal of a bay: a hole with a grommet there, or another way."""
    if not isinstance(bay.room, Shell):
        return ()
    surface, found = bay.room.surface, list[Vector]()
    for block in _blocks(route):
        reach = route.across / 2.0
        if all(
            block.low[k] - reach <= surface.high[k] and surface.low[k] <= block.high[k] + reach
            for k in range(3)
        ):
            gap = nearest(block, surface)
            if gap.distance < reach:
                found.append(gap.to)
    return tuple(found)


def _vector(values: "Sequence[float] | Numbers") -> Vector:
    x, y, z = (float(value) for value in values)
    return (x, y, z)
