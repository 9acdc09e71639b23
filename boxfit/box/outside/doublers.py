"""Doublers: plates of the box's own metal welded all round on its wall, with a foot welded on them."""

from dataclasses import replace

from boxfit.bay import Mount
from boxfit.box.fitting import Looks, Strip
from boxfit.box.outside.foot_shapes import BELOW_FLANGE, ON_WALL, PLUS, Chosen, Try, vector
from boxfit.box.outside.wall import Span, Wall
from boxfit.box.strip_legs import strip_blocks

LEAST_PAST = 8.0
"""A doubler reaches at least so far [mm] past its foot's welds, for its own: common practice, no source."""


def raised(wall: Wall, by: float) -> Wall:
    """A wall as a foot on a doubler of that thickness [mm] finds it."""
    return replace(wall, plane=wall.plane + wall.sign * by) if by else wall


def doubler_under(one: Try, chosen: Chosen, material: str, mount: Mount) -> Strip | None:
    """The plate under a foot: as far past the foot's welds on all sides, less where the wall is not flat.

    None where the wall leaves too little of it.
    """
    wall, thick = one.wall, chosen.doubler
    leg, across = strip_blocks(one.strip)[-1], 1 - one.wall.axis
    way = one.strip.legs[-1][0]
    spans = {axis: (leg.low[axis], leg.high[axis]) for axis in (across, 2)}
    axis = 2 if way in ("up", "down") else across
    low, high = spans[axis]
    # welds run over the last of the leg
    spans[axis] = (high - ON_WALL, high) if way in ("up", "left", "front") else (low, low + ON_WALL)
    limits = {across: _inset(wall), 2: _levels(wall)}
    reach = {
        k: (max(spans[k][0] - chosen.past, limits[k][0]), min(spans[k][1] + chosen.past, limits[k][1]))
        for k in spans
    }
    # beside the welds there must be room for its own; past their ends it may end with them
    other = across if axis == 2 else 2
    beside = min(spans[other][0] - reach[other][0], reach[other][1] - spans[other][1])
    ends = min(spans[axis][0] - reach[axis][0], reach[axis][1] - spans[axis][1])
    if beside < LEAST_PAST or ends < 0.0:
        return None
    start = [0.0, 0.0, 0.0]
    start[wall.axis] = wall.plane - wall.sign * thick
    start[across], start[2] = reach[across][0], reach[2][0]
    wide, high_up = (reach[k][1] - reach[k][0] for k in (across, 2))
    looks: Looks = wall.looks
    return Strip(
        kind="doubler",
        name=f"doubler, {mount.name}",
        material=material,
        thickness=thick,
        radius=0.0,
        start=vector([round(value, 6) for value in start]),
        along=PLUS[across],
        width=round(wide, 6),
        legs=(("up", round(high_up, 6)),),
        inwards=looks,
        notes=("on the wall under its foot, welded all round before the foot is",),
    )


def _inset(wall: Wall) -> Span:
    """Where the flat of a wall is, between its corners."""
    return (wall.corners[0] + 2.0 * wall.thickness, wall.corners[1] - 2.0 * wall.thickness)


def _levels(wall: Wall) -> Span:
    """The same between floor and flange."""
    return (wall.levels[0] + 2.0 * wall.thickness, wall.levels[1] - wall.thickness - BELOW_FLANGE)
