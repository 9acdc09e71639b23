"""Made cable housings: collar, cover and blocks stand within the room told for one, over its slot."""

from collections.abc import Iterator
from math import dist

from boxfit.judge.distance import Cuboid
from boxfit.judge.feet import leg_cuboids
from boxfit.judge.finding import SLACK, Finding
from boxfit.judge.fittings_claim import FACES, ToldBought, ToldBox

CONTENTS = "bars and glands"
KINDS = ("cable housing", "housing cover", "housing block")


def judge_housings(told: ToldBox) -> Iterator[Finding]:
    """Every part of a housing within one such room; a collar and a cover for every room, the slot in it."""
    rooms = [one for one in told.bought if one.kind == CONTENTS]
    parts: dict[str, list[tuple[str, Cuboid]]] = {one.name: [] for one in rooms}
    for strip in told.strips:
        if strip.kind not in KINDS:
            continue
        whole = _around(leg_cuboids(strip))
        out = [(_past(whole, one), one.name) for one in rooms]
        figure, room = min(out, default=(0.0, ""))
        if not room or figure > SLACK:
            text = f"{figure:.3f} mm out of the room told for it" if room else "no room is told for it"
            yield Finding("housing-astray", f"{told.name}, {strip.name}", text, figure)
        else:
            parts[room].append((strip.kind, whole))
    for one in rooms:
        yield from _whole(told, one, parts[one.name])


def _whole(told: ToldBox, one: ToldBought, parts: list[tuple[str, Cuboid]]) -> Iterator[Finding]:
    """A collar on the wall and a cover at the far end, the slot within the collar."""
    place = f"{told.name}, {one.name}"
    axis, sign = FACES[one.looks]
    for kind, on_wall in (("cable housing", True), ("housing cover", False)):
        found = [whole for name, whole in parts if name == kind]
        if len(found) != 1:
            text = f"{len(found)} of its {kind}, one is needed"
            yield Finding("housing-astray", place, text, float(len(found)))
            continue
        low, high = found[0].low[axis] - one.body.low[axis], found[0].high[axis] - one.body.high[axis]
        off = abs(low if on_wall == (sign > 0) else high)
        if off > SLACK:
            yield Finding("housing-astray", place, f"its {kind} ends {off:.3f} mm off", off)
    slots = [cutout for cutout in told.cutouts if dist(cutout.at, one.at) <= SLACK]
    if not slots:
        yield Finding("housing-astray", place, "no slot is told for it", None)
    for slot in slots:
        half = {1 - axis: slot.size[0] / 2.0, 2: slot.size[1] / 2.0}
        past = max(
            max(one.body.low[k] - slot.at[k] + half[k], slot.at[k] + half[k] - one.body.high[k]) for k in half
        )
        if past > SLACK:
            yield Finding("housing-astray", place, f"its slot reaches {past:.3f} mm past it", past)


def _around(legs: tuple[Cuboid, ...]) -> Cuboid:
    """The extent of all legs."""
    x, y, z = (min(leg.low[k] for leg in legs) for k in range(3))
    a, b, c = (max(leg.high[k] for leg in legs) for k in range(3))
    return Cuboid((x, y, z), (a, b, c))


def _past(part: Cuboid, room: ToldBought) -> float:
    """How far a part stands out of a room [mm], 0 where it does not."""
    low, high = room.body.low, room.body.high
    return max(0.0, *(max(low[k] - part.low[k], part.high[k] - high[k]) for k in range(3)))
