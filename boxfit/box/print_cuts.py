"""Where a printed part is cut into pieces that fit the printer's bed, and how the pieces are keyed.

Cuts are even, and move a little away from walls, holes and ribs; see print_joints.py for the joints. Figures
here: common practice, no source.
"""

from itertools import permutations
from math import ceil, prod

from boxfit.bay import Vector
from boxfit.box.print_joints import (
    AROUND,
    KEY_DEPTH,
    Division,
    Span,
    ToCut,
    UprightCut,
    inwards,
    keys,
    lap_of,
    level_cut,
    runs,
    sides,
)
from boxfit.workshop import PrintShop

SPARE = 6.0
"""Room [mm] on the bed by which a cut may move away from the even place."""
LEAST_PIECE = 40.0
"""Pieces shorter than this [mm] are slivers."""
LEAST_STRIP = 15.0
"""A cut keeps so far [mm] from the edge of a plate, so that no strip is left."""
STEP = 1.0
"""How finely [mm] places for a cut are tried."""
LEAST_JOINT = 0.05
"""Air [mm] of a joint at the least: no printer is truer."""
MOST_JOINT = 1.0
"""Air [mm] of a joint at the most: half of what a dovetail widens by at each side."""
MOST_PIECES = 100
"""In more pieces than this nobody puts anything together."""
IN_THE_WAY = 10.0
"""Weight of a hole under a cut; a rib there counts 1, a wall that runs along it ten holes."""

Way = tuple[float, float, tuple[float, ...]]
"""Cuts so far: how bad they are, how far from even [mm2], and their places [mm], the low end before them."""
Bad = tuple[float, float, float]
"""From where to where [mm] a cut should not be, and how bad it is there."""


def _joints(lap: float) -> float:
    """What the joints at both ends add to a piece [mm]: a dovetail or a lap at one, a lap at the other."""
    return max(KEY_DEPTH, lap) + lap


def least_bed(lap: float) -> float:
    """The shortest side [mm] of a bed that takes a piece with its joints, where walls lap so far [mm].

    >>> least_bed(6.0)
    60.0
    """
    return LEAST_PIECE + _joints(lap) + SPARE


def cannot_cut(what: str, size: Vector, thickness: float, shop: PrintShop) -> tuple[str, ...]:
    """Why something of a size, its walls of a thickness [mm], cannot be cut for a shop; empty where it can.

    >>> cannot_cut("the tray", (300.0, 300.0, 300.0), 4.0, PrintShop(joint=1.5))
    ('print_shop.joint: dovetails go together with 0.05 mm of air at least, hold with 1 at most (got 1.5)',)
    """
    lap, problems = lap_of(thickness, shop), []
    if not LEAST_JOINT <= shop.joint <= MOST_JOINT:
        problems.append(
            f"print_shop.joint: dovetails go together with {LEAST_JOINT:g} mm of air at least, hold with "
            f"{MOST_JOINT:g} at most (got {shop.joint:g})"
        )
    if min(shop.bed) < least_bed(lap):
        short = f"(got {min(shop.bed):g})"
        return (
            *problems,
            f"print_shop.bed: a piece with its joints takes {least_bed(lap):g} each way {short}",
        )
    count = prod(piece_counts(size, shop.bed, lap)[0])
    if count > MOST_PIECES:
        bed = " x ".join(f"{side:g}" for side in shop.bed)
        problems.append(
            f"print_shop.bed: {what} would fall into {count} pieces, {MOST_PIECES} at most (got {bed})"
        )
    return tuple(problems)


def piece_counts(size: Vector, bed: Vector, lap: float) -> tuple[tuple[int, int, int], Vector]:
    """Pieces along x, y and z, as few as can be, and the bed [mm] turned as those pieces lie on it.

    Walls lap so far [mm] to each side of a cut.

    >>> piece_counts((460.0, 300.0, 120.0), (300.0, 250.0, 250.0), 0.0)
    ((2, 1, 1), (250.0, 300.0, 250.0))
    """
    turned = dict.fromkeys((x, y, z) for x, y, z in permutations(bed))
    found = [(_counts(size, way, lap), way) for way in turned]
    return min(found, key=lambda counted: prod(counted[0]))


def _counts(size: Vector, bed: Vector, lap: float) -> tuple[int, int, int]:
    """Pieces along each axis on a bed that is not turned."""
    usable = (max(1.0, side - _joints(lap) - SPARE) for side in bed)
    x, y, z = (
        1 if long <= side else ceil(long / free) for long, side, free in zip(size, bed, usable, strict=True)
    )
    return x, y, z


def divided(part: ToCut, shop: PrintShop) -> Division:
    """The cuts of a part for a bed: even, away from walls, holes and, where it can be, from ribs."""
    lap = lap_of(part.thickness, shop)
    _, bed = piece_counts(part.size, shop.bed, lap)
    places = [_places(part, axis, bed[axis], lap) for axis in (0, 1)]
    upright = [
        UprightCut(
            axis, at, runs(part, axis, at, lap, shop.joint), keys(part, axis, at, places[1 - axis], lap)
        )
        for axis in (0, 1)
        for at in places[axis]
    ]
    levels = _places(part, 2, bed[2], lap)
    return Division(
        tuple(upright), tuple(level_cut(part, at, lap, shop.joint) for at in levels), shop.joint, bed
    )


def _places(part: ToCut, axis: int, bed: float, lap: float) -> tuple[float, ...]:
    """Where to cut across an axis: one piece more than needed if that keeps clear of what is in the way."""
    size = part.size[axis]
    if size <= bed:
        return ()
    usable = max(1.0, bed - _joints(lap))
    bad = _level_bad(part, lap) if axis == 2 else _upright_bad(part, axis, lap)
    least = ceil(size / max(1.0, usable - SPARE))
    found = [_chosen(part, axis, usable, count, bad) for count in (least, least + 1)]
    return found[0][1] if found[0][0] < IN_THE_WAY else min(found)[1]


def _chosen(
    part: ToCut, axis: int, usable: float, count: int, bad: list[Bad]
) -> tuple[float, tuple[float, ...]]:
    """How bad the best cuts for so many pieces are, and where they are: of those alike the most even.

    Cut by cut, the best way to have come to each place is kept.
    """
    low, high = part.low[axis], part.high[axis]
    pitch = (high - low) / count
    sizes = (min(LEAST_PIECE, 2.0 / 3.0 * pitch), usable)
    ways: list[Way] = [(0.0, 0.0, (low,))]
    for number in range(1, count):
        even = low + pitch * number
        steps = int(pitch / 3.0 / STEP)
        places = [even + STEP * step for step in range(-steps, steps + 1)]
        reached = [_reached(ways, at, abs(at - even), _badness(at, bad), sizes) for at in places]
        ways = [way for way in reached if way]
    # even cuts are always among them, as the pieces are counted with room to spare
    last = [way for way in ways if sizes[0] <= high - way[2][-1] <= sizes[1]]
    weight, _, places_taken = min(last)
    return weight, places_taken[1:]


def _badness(at: float, bad: list[Bad]) -> float:
    """The weight of all that a cut at a place meets."""
    return sum(weight for low, high, weight in bad if low < at < high)


def _reached(ways: list[Way], at: float, off: float, weight: float, sizes: Span) -> Way | None:
    """The best way to a place; None where no piece to it is of a size [mm] between `sizes`."""
    fit = [way for way in ways if sizes[0] <= at - way[2][-1] <= sizes[1]]
    if not fit:
        return None
    best = min(fit)
    return best[0] + weight, best[1] + off * off, (*best[2], at)


def _upright_bad(part: ToCut, axis: int, lap: float) -> list[Bad]:
    """Where an upright cut would run along a wall, through a hole, or split a rib along its length."""
    reach = max(KEY_DEPTH, lap) + AROUND
    bad: list[Bad] = []
    for wall in part.walls:
        deep = part.thickness + part.inwards
        for one, other in sides(wall.outline, 1 - axis):
            turned = inwards(one, other, 1 - axis) * deep
            ends = sorted((one[axis], one[axis] + turned))
            bad.append((ends[0] - reach, ends[1] + reach, 10.0 * IN_THE_WAY))
    for edge in {corner[axis] for plate in part.plates for corner in plate.outline}:
        bad.append((edge - LEAST_STRIP, edge + LEAST_STRIP, 5.0 * IN_THE_WAY))
    for stop in part.stops:
        inside_wall = lap if stop.high[2] - stop.low[2] > part.thickness + 2.0 * AROUND else 0.0
        free = AROUND + inside_wall
        bad.append((stop.low[axis] - free, stop.high[axis] + free, IN_THE_WAY))
    for rib in part.ribs:
        along = rib.high[axis] - rib.low[axis] > rib.high[1 - axis] - rib.low[1 - axis]
        upright = rib.high[2] - rib.low[2] > rib.high[axis] - rib.low[axis]
        if upright or not along:
            bad.append((rib.low[axis] - max(KEY_DEPTH, lap) - 1.0, rib.high[axis] + lap + 1.0, 1.0))
    return bad


def _level_bad(part: ToCut, lap: float) -> list[Bad]:
    """Where a level cut would run along a plate or a ledge, or through a cutout in a wall."""
    edge = lap + AROUND
    holes = [(stop.low[2] - edge, stop.high[2] + edge, IN_THE_WAY) for stop in part.stops]
    return [(low - edge, high + edge, 10.0 * IN_THE_WAY) for low, high in part.levels] + holes
