"""What a cable keeps off: boxes with all that is fixed to them, keep-outs, and cables laid before. [mm]"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import ceil, dist

import numpy as np
import shapely
from numpy.typing import NDArray

from boxfit.bay import Bay, Block, Cylinder, Keepout, Vector
from boxfit.box.built import BuiltBox
from boxfit.box.outside.around import own_blocks
from boxfit.box.strip_legs import strip_blocks
from boxfit.box.wiring.route import Route
from boxfit.box.wiring.way import Dear, Places

Flags = NDArray[np.bool_]
CLEAR = 5.0
"""Between a cable and a box or what is fixed to it: common practice, no source."""
GROUND = 120.0
"""Nothing of a cable hangs lower than this above the ground: common practice, no source."""
NUT = 20.0
"""Blocks smaller than this are rivet-nuts under the flange, which shades them."""
PIECES = 8
"""A slanting bar is looked at in so many pieces."""
FAR = 1e5
TOP = 2000.0
"""Going out through the top of a bay counts like so much more: bonnet or boot lid close there."""
WALL, ALONG = 150.0, 4.0
"""Going through a bay's wall counts like so much more cable; running along it so many times its length."""


@dataclass(frozen=True)
class Obstacle:
    """A solid with its name, and how far [mm] the outside of a cable stays away from it."""

    name: str
    solid: Block | Cylinder
    distance: float


def box_obstacles(built: Sequence[BuiltBox]) -> tuple[Obstacle, ...]:
    """Every box, its flange and cover plate, bought parts, feet, doublers, lugs and stiffening bars."""
    found: list[Obstacle] = []
    for one in built:
        name, fittings = one.parts.name, one.parts.fittings
        found += [Obstacle(name, block, CLEAR) for block in own_blocks(one.parts) if _longest(block) >= NUT]
        found += [Obstacle(f"{name} {bought.name}", bought.body, CLEAR) for bought in fittings.bought]
        for strip in fittings.strips:
            if strip.kind in ("foot", "lifting lug", "stiffening bar", "doubler"):
                found += [Obstacle(f"{name} {strip.name}", block, CLEAR) for block in strip_blocks(strip)]
    return tuple(found)


def _longest(block: Block) -> float:
    return max(high - low for low, high in zip(block.low, block.high, strict=True))


def kept_from(bay: Bay, keepout: Keepout) -> float:
    """How far a cable stays from a keep-out: the survey's tolerance; from what moves or is hot as a box."""
    return keepout.distance if keepout.reason else bay.tolerance


def barred_blocks(
    obstacles: Iterable[Obstacle], bays: Iterable[Bay], own: Sequence[Block], across: float
) -> list[Block]:
    """Where the middle of a cable may not be: all but the glands it comes from itself, and the ground."""
    half = across / 2.0
    found = [
        _grown(one.solid, one.distance + half)
        for one in obstacles
        if isinstance(one.solid, Block) and one.solid not in own
    ]
    for bay in bays:
        for keepout in bay.keepouts:
            by = kept_from(bay, keepout) + half
            found += [_grown(block, by) for block in _blocks(keepout)]
    return [*found, Block((-FAR, -FAR, -FAR), (FAR, FAR, GROUND + half))]


def hulls(built: Sequence[BuiltBox], bays: Iterable[Bay], across: float) -> list[Block]:
    """Round each box with its flange, and each keep-out: where a cable's middle may just pass them."""
    found = []
    for one in built:
        blocks = own_blocks(one.parts)
        lows, highs = zip(*((block.low, block.high) for block in blocks), strict=True)
        hull = Block(
            _vector([min(at) for at in zip(*lows, strict=True)]),
            _vector([max(at) for at in zip(*highs, strict=True)]),
        )
        found.append(_grown(hull, CLEAR + across / 2.0))
    for bay in bays:
        for keepout in bay.keepouts:
            blocks = tuple(_blocks(keepout))
            by = kept_from(bay, keepout) + across / 2.0
            found += [_grown(block, by) for block in (blocks[0], blocks[-1])]
    return found


def _blocks(keepout: Keepout) -> Iterator[Block]:
    """Blocks round a solid; round a slanting bar several."""
    solid = keepout.solid
    if isinstance(solid, Block):
        yield solid
    elif isinstance(solid, Cylinder):
        length, radius = dist(solid.start, solid.end), solid.diameter / 2.0
        ways = [(b - a) / length for a, b in zip(solid.start, solid.end, strict=True)]
        out = [radius * max(0.0, 1.0 - way * way) ** 0.5 for way in ways]
        places = [
            _vector([a + (b - a) * part / PIECES for a, b in zip(solid.start, solid.end, strict=True)])
            for part in range(PIECES + 1)
        ]
        count = 1 if max(abs(way) for way in ways) > 1.0 - 1e-6 else PIECES
        for one, other in pairwise(places[:: PIECES // count]):
            ends = list(zip(one, other, out, strict=True))
            yield Block(
                _vector([min(a, b) - by for a, b, by in ends]), _vector([max(a, b) + by for a, b, by in ends])
            )
    else:
        yield Block(solid.low, solid.high)


def cable_blocks(route: Route, across: float) -> list[Block]:
    """Where the middle of another cable may not be because of one that is laid, its corners square."""
    by = (route.across + across) / 2.0 + 1.0
    return [
        _grown(
            Block(
                _vector([min(a, b) for a, b in zip(one, other, strict=True)]),
                _vector([max(a, b) for a, b in zip(one, other, strict=True)]),
            ),
            by,
        )
        for one, other in pairwise(route.points)
    ]


def _grown(block: Block, by: float) -> Block:
    return Block(_vector([low - by for low in block.low]), _vector([high + by for high in block.high]))


def _vector(values: Sequence[float]) -> Vector:
    x, y, z = values
    return (x, y, z)


def walls_dear(bay: Bay, across: float) -> Dear:
    """What the walls of a bay cost, as its outline in plan has them: passages, and running along too near."""
    room = bay.room
    off = across / 2.0 + bay.tolerance
    plan = shapely.Polygon(room.outline)
    inner, outer = (plan.buffer(by, join_style="mitre") for by in (-off, off))

    def within(places: Places, area: shapely.Geometry, by: float) -> Flags:
        level = (places[:, 2] >= room.floor - by) & (places[:, 2] <= room.top + by)
        return np.asarray(level & shapely.contains_xy(area, places[:, 0], places[:, 1]), dtype=bool)

    def cost(one: Places, other: Places) -> Places:
        inside = [within(places, inner, -off) for places in (one, other)]
        near = [within(places, outer, off) & ~deep for places, deep in zip((one, other), inside, strict=True)]
        length = np.abs(one - other).sum(axis=1)
        passed = inside[0] != inside[1]
        over = passed & (np.maximum(one[:, 2], other[:, 2]) > room.top - off)
        found = WALL * passed + TOP * over + (ALONG - 1.0) * length * (near[0] & near[1])
        return np.asarray(found, dtype=np.float64)

    return cost


def straight_pieces(route: Route, longest: float) -> Iterator[tuple[Vector, Vector]]:
    """The straight stretches without their round corners, none longer than asked [mm]."""
    ends = [route.points[0], *(end for arc in route.arcs for end in (arc.start, arc.end)), route.points[-1]]
    for one, other in zip(ends[::2], ends[1::2], strict=True):
        parts = max(1, ceil(dist(one, other) / longest))
        places = [
            _vector([a + (b - a) * part / parts for a, b in zip(one, other, strict=True)])
            for part in range(parts + 1)
        ]
        yield from pairwise(places)
