"""Stiffening bars: each stands on its box, within what the rules keep for it, clear of all else."""

from collections.abc import Iterator, Sequence

from boxfit.judge.distance import Cuboid, block_distance, least_shortfall
from boxfit.judge.feet import leg_cuboids
from boxfit.judge.finding import SLACK, Finding
from boxfit.judge.fittings_claim import FACES, Looks, ToldStrip
from boxfit.judge.places import SetBox, obstacles

BAR = "stiffening bar"


def judge_bars(box: SetBox, strips: Sequence[ToldStrip], all_parts: Sequence[Cuboid]) -> Iterator[Finding]:
    """Every bar of a box from its legs alone: on a wall or the floor, in no box, in its own room, in its bay.

    Whether bars meet feet, bought parts or one another is judged where all these are known together.
    """
    for strip in strips:
        if strip.kind != BAR:
            continue
        place = f"{box.place}, {strip.name}"
        for leg in leg_cuboids(strip):
            yield from _on_box(box, strip.along, leg, place)
            apart = min((block_distance(leg, part) for part in all_parts), default=0.0)
            if apart < -SLACK:
                yield Finding("fitting-meets", place, f"{-apart:.3f} mm deep in a box", apart)
            yield from _in_bay(box, leg, place)


def _on_box(box: SetBox, looks: Looks, leg: Cuboid, place: str) -> Iterator[Finding]:
    """A bar stands on a face of its box that looks its way, and no further out than the rules ask."""
    axis, sign = FACES[looks]
    foot = leg.low[axis] if sign > 0 else leg.high[axis]
    beside = [
        (foot - (body.high[axis] if sign > 0 else body.low[axis])) * sign
        for body in box.bodies
        if all(leg.low[k] < body.high[k] and body.low[k] < leg.high[k] for k in range(3) if k != axis)
    ]
    off = min(beside, key=abs, default=None)
    if off is None or abs(off) > SLACK:
        text = "stands on no wall and under no floor of its box"
        yield Finding("bar-off-box", place, text, off)
    rules = box.bay.box
    own = rules.stiffening_floor_depth
    deep = rules.stiffening_depth if axis < 2 or own is None else own
    past = leg.high[axis] - leg.low[axis] - deep
    if past > SLACK:
        text = f"stands {past:.3f} mm further out than the {deep:g} mm kept for it"
        yield Finding("bar-outside", place, text, past)


def _in_bay(box: SetBox, leg: Cuboid, place: str) -> Iterator[Finding]:
    """A bar keeps from walls, floor and keep-outs what its box does."""
    for obstacle in obstacles(box.bay):
        figure = least_shortfall((leg,), obstacle.measure, obstacle.needed)
        if figure is not None:
            text = f"{figure:.3f} mm from {obstacle.name}, {obstacle.needed:g} mm needed"
            yield Finding("fitting-outside", place, text, figure)
