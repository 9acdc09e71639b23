"""Behind the holes of a box: what reaches in through a wall meets nothing that is inside.

Above a module a room is kept at its face. What leads its current out may use it: cable entries, the service
disconnect, the thread of a breather, and the bars that press on it (see hold_downs.py). Nothing else may, and
nobody the rooms at its sides.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from boxfit.judge.claim import ClaimedBox
from boxfit.judge.distance import Cuboid, Rectangle, block_distance
from boxfit.judge.feet import leg_cuboids
from boxfit.judge.finding import SLACK, Finding
from boxfit.judge.fittings_claim import FACES, ToldBox, ToldCutout
from boxfit.judge.outline import Outline, largest
from boxfit.judge.places import SetBox
from boxfit.judge.turning import ways_to_stand
from boxfit.module import Module

BEHIND = {
    "cable gland": 12.0,
    "connector": 20.0,
    "bars and glands": 20.0,
    "service disconnect": 45.0,
    "breather": 4.0,
    "drain": 0.0,
}
"""How deep [mm] each kind reaches behind its hole at least: common practice, no source."""
HEAD = 3.0
"""How deep [mm] the head of a screw through a wall reaches at least: common practice, no source."""
LEDGE = 10.0
"""A ledge under a shelf is so high [mm] where the headroom lets it: common practice, no source."""


@dataclass(frozen=True)
class _Inside:
    """Something inside a box [mm], and whether it is the room above a module."""

    name: str
    block: Cuboid
    above: bool = False


def judge_behind(box: SetBox, claimed: ClaimedBox, told: ToldBox, module: Module) -> Iterator[Finding]:
    """Over the section of every hole in a wall nothing stands as deep as what goes through it reaches in."""
    things = [*_modules(claimed, module), *_shelves(box, claimed), *_bars(told)]
    kinds = {one.at: one.kind for one in told.bought}
    for cutout in told.cutouts:
        kind = kinds.get(cutout.at)
        deep = HEAD if kind is None else BEHIND.get(kind, 0.0)
        if deep <= 0.0 or FACES[cutout.looks][0] == 2:
            continue
        behind = _behind(cutout, box.bay.box.thickness, deep)
        met = [
            (block_distance(behind, thing.block), thing.name)
            for thing in things
            if kind is None or not thing.above
        ]
        apart, name = min(met, default=(0.0, ""))
        if apart < -SLACK:
            text = f"{name} stands {-apart:.3f} mm into the {deep:g} mm that it needs behind the wall"
            yield Finding("fitting-behind", f"{told.name}, {cutout.what}", text, apart)


def _behind(cutout: ToldCutout, thickness: float, deep: float) -> Cuboid:
    """What is behind a hole over its own section, from the inside of the wall."""
    axis, sign = FACES[cutout.looks]
    wide, high = (cutout.diameter,) * 2 if cutout.diameter else cutout.size
    x, y, z = cutout.at
    inside = cutout.at[axis] - sign * thickness
    whole = Cuboid((x, y, z - high / 2.0), (x, y, z + high / 2.0))
    along = whole.spanning(1 - axis, cutout.at[1 - axis] - wide / 2.0, cutout.at[1 - axis] + wide / 2.0)
    return along.spanning(axis, *sorted((inside, inside - sign * deep)))


def _modules(claimed: ClaimedBox, module: Module) -> Iterator[_Inside]:
    """Bodies, and the rooms that they keep, in the first way to stand that the module allows."""
    for number, one in enumerate(claimed.modules, 1):
        name = f"module {number}"
        yield _Inside(name, Cuboid(one.low, one.high))
        ways = ways_to_stand(one, module, name)
        if not isinstance(ways, Finding):
            for kept in ways[0].kept():
                yield _Inside(f"the room of {name}", kept.slab, kept.axis == 2 and kept.sign > 0)


def _shelves(box: SetBox, claimed: ClaimedBox) -> Iterator[_Inside]:
    """Shelves under all tiers but the lowest, and the ledges that these rest on."""
    rules, tiers = box.bay.box, claimed.tiers or ()
    (x, y, _), (a, b, _) = claimed.outside.low, claimed.outside.high
    whole: Outline = ((x, y), (a, y), (a, b), (x, b))
    for lower, upper in pairwise(tiers):
        under = upper.stands_on - rules.thickness
        wide, high = rules.liner + rules.gap / 2.0, min(LEDGE, rules.headroom)
        for plan in largest(lower.outline or whole):
            inside = [(plan.low[k] + rules.thickness, plan.high[k] - rules.thickness) for k in (0, 1)]
            (low_x, high_x), (low_y, high_y) = inside
            shelf = Cuboid((low_x, low_y, under), (high_x, high_y, upper.stands_on))
            yield _Inside("a shelf", shelf)
        for bar in _round(lower.outline or whole, rules.thickness, wide):
            yield _Inside("a ledge", Cuboid((*bar.low, under - high), (*bar.high, under)))


def _round(outline: Outline, thickness: float, wide: float) -> Iterator[Rectangle]:
    """Bars along the inside of every wall of a counter-clockwise outline, as long as the wall is inside."""
    for (x, y), (a, b) in zip(outline, outline[1:] + outline[:1], strict=True):
        axis = 0 if x == a else 1
        sign = -1.0 if (b > y if axis == 0 else a < x) else 1.0
        at = (x, y)[axis] + sign * thickness
        across = sorted((at, at + sign * wide))
        start, end = sorted((y, b) if axis == 0 else (x, a))
        along = (start + thickness, end - thickness)
        if axis == 0:
            yield Rectangle((across[0], along[0]), (across[1], along[1]))
        else:
            yield Rectangle((along[0], across[0]), (along[1], across[1]))


def _bars(told: ToldBox) -> Iterator[_Inside]:
    """Hold-downs and what holds them."""
    for strip in told.strips:
        if strip.kind.startswith("hold-down"):
            yield from (_Inside(strip.name, leg) for leg in leg_cuboids(strip))
