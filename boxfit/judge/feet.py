"""Feet: each from a mount of the bay to a wall of the box, worked out from the strip's legs alone."""

from collections.abc import Iterator, Sequence
from math import dist

from boxfit.bay import Vector
from boxfit.judge.distance import Cuboid, block_distance, shortfall
from boxfit.judge.finding import SLACK, Finding
from boxfit.judge.fittings_claim import FACES, Looks, ToldStrip
from boxfit.judge.places import SetBox, keepout_obstacle

DOUBLER = "doubler"
BOLT_AIR = 3.0
"""A hole is no more than this much wider than its bolt [mm]."""


def leg_cuboids(strip: ToldStrip) -> tuple[Cuboid, ...]:
    """What each leg fills [mm], corners square; each fold turns to the inside of the leg before it."""
    found = []
    inwards = _way(strip.inwards)
    for start, way, length in _legs(strip):
        corners = [
            _moved(start, (way, far), (_way(strip.along), wide), (inwards, deep))
            for far in (0.0, length)
            for wide in (0.0, strip.width)
            for deep in (0.0, strip.thickness)
        ]
        low, high = ([pick(one[k] for one in corners) for k in range(3)] for pick in (min, max))
        found.append(Cuboid((low[0], low[1], low[2]), (high[0], high[1], high[2])))
        inwards = (-way[0], -way[1], -way[2])
    return tuple(found)


def judge_feet(box: SetBox, strips: Sequence[ToldStrip]) -> list[Finding]:
    """Every foot is bolted at a mount, lies on a wall of its box and meets neither box nor keep-out."""
    findings: list[Finding] = []
    plates = [leg for strip in strips if strip.kind == DOUBLER for leg in leg_cuboids(strip)]
    for strip in strips:
        if strip.kind == "foot":
            findings += _judge_foot(box, strip, f"{box.place}, {strip.name}", plates)
        if strip.kind == DOUBLER:
            findings += _judge_doubler(box, strip, f"{box.place}, {strip.name}")
    return findings


def _judge_doubler(box: SetBox, strip: ToldStrip, place: str) -> Iterator[Finding]:
    """A doubler lies flat on a wall of its box, in no box, and off what stays in the bay."""
    if len(strip.legs) != 1:
        text = f"has {len(strip.legs)} legs, a flat plate has one"
        yield Finding("doubler-off-wall", place, text, None)
        return
    (leg,) = leg_cuboids(strip)
    axis, sign = FACES[strip.inwards]
    foot = leg.low[axis] if sign > 0 else leg.high[axis]
    others = [k for k in range(3) if k != axis]
    beside = [
        (foot - (body.high[axis] if sign > 0 else body.low[axis])) * sign
        for body in box.bodies
        if all(leg.low[k] >= body.low[k] - SLACK and leg.high[k] <= body.high[k] + SLACK for k in others)
    ]
    off = min(beside, key=abs, default=None)
    if axis == 2 or off is None or abs(off) > SLACK:
        yield Finding("doubler-off-wall", place, "lies on no wall of the box with all of it", off)
    yield from _clear(box, (leg,), place)


def _judge_foot(box: SetBox, strip: ToldStrip, place: str, plates: Sequence[Cuboid]) -> Iterator[Finding]:
    off = _off_mount(box, strip)
    if off is None or off > SLACK:
        text = "no hole for a bolt" if off is None else f"its hole is {off:.3f} mm from any mount of the bay"
        yield Finding("foot-off-mount", place, text, off)
    legs = leg_cuboids(strip)
    on_wall = min(_off_wall((*box.bodies, *plates), legs[-1], strip), key=abs, default=None)
    if on_wall is None or abs(on_wall) > SLACK:
        yield Finding("foot-off-box", place, "its last leg lies on no wall of the box", on_wall)
    yield from _clear(box, legs, place)


def _clear(box: SetBox, legs: Sequence[Cuboid], place: str) -> Iterator[Finding]:
    """None of it in its own box, nor near what stays in the bay."""
    apart = min(block_distance(leg, part) for leg in legs for part in box.parts)
    if apart < -SLACK:
        yield Finding("fitting-meets", place, f"{-apart:.3f} mm deep in its box", apart)
    for keepout in box.bay.keepouts:
        needed = keepout.distance if keepout.reason else box.bay.tolerance
        obstacle = keepout_obstacle(keepout, "", needed)
        short = [figure for leg in legs if (figure := shortfall(leg, obstacle.measure, needed)) is not None]
        if short:
            text = f"{min(short):.3f} mm from {keepout.name}, {needed:g} mm needed"
            yield Finding("fitting-outside", place, text, min(short))


def _off_mount(box: SetBox, strip: ToldStrip) -> float | None:
    """From the hole in the first leg to the nearest mount whose bolt it takes [mm]; None without a hole."""
    holes = [hole for hole in strip.holes if hole.leg == 0]
    if not holes:
        return None
    start, way, _ = next(iter(_legs(strip)))
    at = _moved(start, (_way(strip.along), holes[0].along), (way, holes[0].across))
    fitting = [
        mount
        for mount in box.bay.mounts
        if mount.bolt < holes[0].diameter <= mount.bolt + BOLT_AIR and mount.faces == strip.inwards
    ]
    return min((dist(at, mount.at) for mount in fitting), default=None)


def _off_wall(walls: Sequence[Cuboid], leg: Cuboid, strip: ToldStrip) -> Iterator[float]:
    """How far [mm] the outside of the last leg is from each wall or doubler that it lies beside."""
    way = _way(strip.legs[-2].way) if len(strip.legs) > 1 else _way(strip.inwards)
    axis = next(k for k in range(3) if way[k])
    for body in walls:
        others = [k for k in range(3) if k != axis]
        if all(leg.low[k] < body.high[k] and leg.high[k] > body.low[k] for k in others):
            yield body.low[axis] - leg.high[axis] if way[axis] > 0 else leg.low[axis] - body.high[axis]


def _legs(strip: ToldStrip) -> Iterator[tuple[Vector, Vector, float]]:
    """Where each leg starts on its outside, its way and its length."""
    at = strip.start
    for leg in strip.legs:
        way = _way(leg.way)
        yield at, way, leg.length
        at = _moved(at, (way, leg.length))


def _way(looks: Looks) -> Vector:
    axis, sign = FACES[looks]
    x, y, z = (float(sign) if k == axis else 0.0 for k in range(3))
    return (x, y, z)


def _moved(point: Vector, *ways: tuple[Vector, float]) -> Vector:
    x, y, z = (point[k] + sum(way[k] * far for way, far in ways) for k in range(3))
    return (x, y, z)
