"""Lifting lugs: clear of all round the box, on one of its walls, holes sound, about its balance point."""

from collections.abc import Iterator, Sequence
from math import dist

import shapely

from boxfit.judge.around import around_fittings
from boxfit.judge.claim import ClaimedBox
from boxfit.judge.distance import Cuboid, block_distance, face_gaps, shortfall
from boxfit.judge.feet import leg_cuboids
from boxfit.judge.finding import SLACK, Finding
from boxfit.judge.fittings_claim import FACES, ToldStrip
from boxfit.judge.insertion import judge_carried
from boxfit.judge.places import SetBox
from boxfit.standards.lifting import BOW

KIND = "lifting lug"


def judge_lugs(
    box: SetBox, claimed: ClaimedBox, strips: Sequence[ToldStrip], all_parts: Sequence[Cuboid]
) -> list[Finding]:
    """All that is wrong with the lugs of a box; `all_parts` are those of every box."""
    lugs = [strip for strip in strips if strip.kind == KIND]
    findings: list[Finding] = []
    for lug in lugs:
        place, (body, *_) = f"{box.place}, {lug.name}", leg_cuboids(lug)
        findings += _judge_body(box, body, place, all_parts)
        findings += _judge_stand(box, body, lug, place)
        findings += _judge_hole(box, lug, body, place)
    return findings + list(_judge_balance(box, claimed, lugs))


def _judge_body(box: SetBox, body: Cuboid, place: str, all_parts: Sequence[Cuboid]) -> Iterator[Finding]:
    """Clear of the bay at rest and, as it is welded to the box, on the box's way in; in no box."""
    short = [
        figure
        for obstacle in around_fittings(box.bay)
        if (figure := shortfall(body, obstacle.measure, obstacle.needed)) is not None
    ]
    if short:
        text = f"{min(short):.3f} mm from the bay, {box.bay.tolerance:g} mm needed"
        yield Finding("fitting-outside", place, text, min(short))
    apart = min((block_distance(body, part) for part in all_parts), default=0.0)
    if apart < -SLACK:
        yield Finding("fitting-meets", place, f"{-apart:.3f} mm deep in a box", apart)
    if box.bay.opening is not None:
        yield from judge_carried(box, place, body, box.bay.opening)


def _judge_stand(box: SetBox, body: Cuboid, lug: ToldStrip, place: str) -> Iterator[Finding]:
    """Its inner end lies on the outside of a wall that looks its way."""
    axis, sign = FACES[lug.legs[0].way]
    inner = body.low[axis] if sign > 0 else body.high[axis]
    off = [
        abs(inner - (wall.high[axis] if sign > 0 else wall.low[axis]))
        for wall in box.bodies
        if all(gap < -SLACK for k, gap in enumerate(face_gaps(body, wall)) if k != axis)
    ]
    figure = min(off, default=None)
    if axis == 2 or figure is None or figure > SLACK:
        yield Finding("lug-off-box", place, "lies on no wall of its box", figure)


def _judge_hole(box: SetBox, lug: ToldStrip, body: Cuboid, place: str) -> Iterator[Finding]:
    """One hole with 1.5 t of metal round it, so far past flange and lid that a shackle hangs free."""
    if len(lug.holes) != 1:
        yield Finding("lug-hole", place, f"{len(lug.holes)} holes, one is needed", float(len(lug.holes)))
        return
    (hole,) = lug.holes
    length, round_it = lug.legs[0].length, lug.rounded
    left = min(hole.along, lug.width - hole.along, hole.across, length - hole.across)
    for corner in (round_it, lug.width - round_it):
        outside = hole.along < corner if corner == round_it else hole.along > corner
        if hole.across > length - round_it and outside:
            left = min(left, round_it - dist((hole.across, hole.along), (length - round_it, corner)))
    metal = left - hole.diameter / 2.0
    if metal < 1.5 * lug.thickness - SLACK:
        text = f"{metal:.3f} mm of metal beside its hole, {1.5 * lug.thickness:g} mm needed"
        yield Finding("lug-hole", place, text, metal)
    axis, sign = FACES[lug.legs[0].way]
    inner = body.low[axis] if sign > 0 else body.high[axis]
    over = [
        (part.high[axis] if sign > 0 else part.low[axis])
        for part in box.slabs
        if all(gap < -SLACK for k, gap in enumerate(face_gaps(body, part)) if k == 1 - axis)
        and part.low[axis] - SLACK <= inner <= part.high[axis] + SLACK
    ]
    past = hole.across - max(((end - inner) * sign for end in over), default=0.0)
    if past < BOW / 2.0 - SLACK:
        yield Finding("lug-hole", place, f"{past:.3f} mm past the flange, {BOW / 2.0:g} mm needed", past)


def _judge_balance(box: SetBox, claimed: ClaimedBox, lugs: Sequence[ToldStrip]) -> Iterator[Finding]:
    """There are four, and the middle of its modules lies between their holes."""
    if not lugs or not claimed.modules:
        return
    middles = [
        [(low + high) / 2.0 for low, high in zip(one.low, one.high, strict=True)] for one in claimed.modules
    ]
    x, y = (sum(middle[k] for middle in middles) / len(middles) for k in (0, 1))
    holes = [_hole_middle(lug) for lug in lugs if lug.holes]
    around = shapely.MultiPoint(holes).convex_hull
    off = around.distance(shapely.Point(x, y))
    if len(lugs) < 4 or off > SLACK:
        text = f"{len(lugs)} lugs, the middle of the modules {off:.3f} mm out of what they enclose"
        yield Finding("lug-balance", box.place, text, off)


def _hole_middle(lug: ToldStrip) -> tuple[float, float]:
    """Where a lug's hole is, in plan."""
    axis, sign = FACES[lug.legs[0].way]
    body = leg_cuboids(lug)[0]
    at = [(low + high) / 2.0 for low, high in zip(body.low, body.high, strict=True)]
    inner = body.low[axis] if sign > 0 else body.high[axis]
    at[axis] = inner + sign * lug.holes[0].across
    return (at[0], at[1])
