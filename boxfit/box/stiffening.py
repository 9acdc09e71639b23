"""Stiffening bars: flat bar on edge, welded outside on walls and under the floor where these fail without.

Upright on walls, across the shorter side under the floor. Of each wall and floor as few as pass under the
car's rule set; they keep clear of whatever else is fixed to boxes, so that the widest bay between two tells.
Where no number passes, the fewest that come near to the best, and the sums of retention say so.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from boxfit.bay import Block
from boxfit.box.bar_spread import free_spans, spread_bars
from boxfit.box.bar_words import bar_places
from boxfit.box.built import BuiltBox
from boxfit.box.fitting import Looks, Strip
from boxfit.box.outside.around import own_blocks
from boxfit.box.outside.foot_shapes import PLUS
from boxfit.box.outside.wall import Span, Wall
from boxfit.box.retention.barred import KIND, ON_WALLS, UNDER_FLOOR, corner_of, long_axis, stiffened
from boxfit.box.retention.panels import Pressing, pressed_floor, pressed_walls
from boxfit.box.retention.whole import factor_of
from boxfit.box.strip_legs import strip_blocks
from boxfit.box_shape import rectangles
from boxfit.module import Module
from boxfit.retention.panel import Panel
from boxfit.retention.stiffened import STITCH, Stiffened, stitches
from boxfit.standards.load_factors import LoadFactors
from boxfit.standards.strengths import STRENGTHS

SPARE = 5.0
"""What a bar keeps [mm] along the wall from whatever is fixed there, for its welds: common practice, no
source."""
LEAST_APART = 40.0
"""Bars stand at least so far [mm] apart, so that a torch reaches between: common practice, no source."""
NEAR_BEST = 1.05
"""Where nothing passes, fewer bars do that leave no more than so many times the least utilisation [-]."""
SIDES: tuple[Looks, ...] = ("front", "rear", "left", "right")


@dataclass(frozen=True)
class Row:
    """Where bars of one wall or floor may be: along `axis` within `ends` [mm], `depth` [mm] on edge.

    They end `past` [mm] short of what carries the sheet; `pressure` [MPa] is of the pull towards it. `key`
    of [box] makes bars deeper; `wall` is None for the floor.
    """

    panel: Panel
    pressure: float
    axis: int
    ends: Span
    depth: float
    key: str
    past: float
    wall: Wall | None = None


def with_bars(rules: LoadFactors, module: Module, built: tuple[BuiltBox, ...]) -> tuple[BuiltBox, ...]:
    """The boxes with the stiffening bars that their rules ask for; the same where they ask for none."""
    found: list[BuiltBox] = []
    for number, one in enumerate(built):
        own = one.bay.box
        asked = own.bars_beside > 0.0 or own.bars_below > 0.0
        if asked and one.parts.tray.material in STRENGTHS:
            others = [other for other in (*found, *built[number:]) if other is not one]
            found.append(_barred(rules, module, one, others))
        else:
            found.append(one)
    return tuple(found)


def _barred(rules: LoadFactors, module: Module, one: BuiltBox, others: Sequence[BuiltBox]) -> BuiltBox:
    """One box with its bars, which keep clear of all that stands round it."""
    taken = [block for each in (one, *others) for block in _filled(each)]
    bars: list[Strip] = []
    for row in _rows(rules, module, one):
        chosen = _chosen(row, one, taken)
        if not chosen:
            continue
        bars += [
            replace(bar, name=f"{one.parts.name} {KIND} {len(bars) + place}")
            for place, bar in enumerate(chosen, start=1)
        ]
        taken += [block for bar in chosen for block in strip_blocks(bar)]
    if not bars:
        return one
    own = one.parts.fittings
    parts = replace(one.parts, fittings=replace(own, strips=(*own.strips, *bars)))
    told = "; ".join(bar_places(parts))
    note = f"{parts.name}: stiffening bars welded outside: {told}; stitched along both sides"
    fittings = replace(parts.fittings, notes=(*own.notes, note))
    return replace(one, parts=replace(parts, fittings=fittings))


def _filled(one: BuiltBox) -> Iterator[Block]:
    """All that a box fills or keeps free, as blocks."""
    fittings = one.parts.fittings
    yield from own_blocks(one.parts)
    for strip in fittings.strips:
        yield from strip_blocks(strip)
    for bought in fittings.bought:
        yield from (bought.body, bought.keeps)


def _rows(rules: LoadFactors, module: Module, one: BuiltBox) -> Iterator[Row]:
    """The floor, then every wall that modules press on, where bars are asked there."""
    box, tray = one.bay.box, one.parts.tray
    if box.bars_below > 0.0 and (factor := factor_of(rules, "down")) > 0.0:
        panel, pressure = pressed_floor(Pressing(one, module, "down", factor, ()))
        axis, band = long_axis(panel.size), tray.bands[0]
        ends = (band.low[axis], band.high[axis])
        past = corner_of(tray)
        yield Row(panel, pressure, axis, ends, box.bars_below, UNDER_FLOOR, past)
    for side in SIDES if box.bars_beside > 0.0 else ():
        factor = factor_of(rules, side)
        for each in pressed_walls(Pressing(one, module, side, factor, ())) if factor > 0.0 else ():
            wall = each.wall
            past = max(corner_of(tray), wall.levels[1] - _top(one, wall))
            yield Row(
                each.panel,
                each.pressure,
                1 - wall.axis,
                wall.corners,
                box.bars_beside,
                ON_WALLS,
                past,
                wall,
            )


def _top(one: BuiltBox, wall: Wall) -> float:
    """The level [mm] where bars of a wall end: below the bend or bead of the flange, or of a step floor."""
    tray, shop = one.parts.tray, one.bay.box.fold_shop
    if wall.levels[1] < tray.bands[-1].top - 1e-6:
        return wall.levels[1] - shop.weld_bead
    if tray.flange <= 0.0:
        return wall.levels[1]
    bend = shop.weld_bead if tray.bend_radius is None else min(tray.bend_radius, tray.flange)
    return wall.levels[1] - tray.thickness - bend


def _chosen(row: Row, one: BuiltBox, taken: Sequence[Block]) -> tuple[Strip, ...]:
    """The fewest bars that pass; else the fewest that come near the best; none where they are not needed."""
    plain = row.panel.share(row.pressure)
    if plain <= 1.0:
        return ()
    free = _free(row, one, taken)
    tried: list[tuple[float, tuple[Strip, ...]]] = [(plain, ())]
    most = int((row.ends[1] - row.ends[0]) / LEAST_APART)
    for count in range(1, most + 1):
        places = spread_bars(row.ends, free, count, LEAST_APART)
        if len(places) < count:
            break
        bars = tuple(_bar(row, one, place) for place in places)
        worst = _stiffened(row, bars).worst(row.pressure)
        if worst <= 1.0:
            return bars
        tried.append((worst, bars))
    best = min(worst for worst, _ in tried)
    return next(bars for worst, bars in tried if worst <= NEAR_BEST * best)


def _stiffened(row: Row, bars: Sequence[Strip]) -> Stiffened:
    blocks = [strip_blocks(bar)[0] for bar in bars]
    span = row.panel.size[1] if row.wall else row.panel.size[1 - row.axis]
    return stiffened(row.panel, (bars[0], blocks), (row.axis, row.ends), span, row.past, row.key)


def _free(row: Row, one: BuiltBox, taken: Sequence[Block]) -> tuple[Span, ...]:
    """Where the middle of a bar may be, clear of corners and of all that is taken."""
    half = one.bay.box.stiffening_thickness / 2.0
    corner = corner_of(one.parts.tray) + half
    barred = [
        (block.low[row.axis] - half - SPARE, block.high[row.axis] + half + SPARE)
        for block in taken
        if _meets_row(row, one, block)
    ]
    if row.wall is None:  # no bar under a corner of an outline with steps
        corners = {point[row.axis] for point in one.parts.tray.bands[0].outline}
        barred += [(place - corner, place + corner) for place in corners]
    return free_spans((row.ends[0] + corner, row.ends[1] - corner), barred)


def _meets_row(row: Row, one: BuiltBox, block: Block) -> bool:
    """Whether a block stands where bars of the row would, wherever along it."""
    middle = (row.ends[0] + row.ends[1]) / 2.0
    bar = strip_blocks(_bar(row, one, middle))[0]
    others = [axis for axis in range(3) if axis != row.axis]
    low, high = list(bar.low), list(bar.high)
    if row.wall is None:  # of an outline with steps the bar in the middle may be shorter than others
        across, band = 1 - row.axis, one.parts.tray.bands[0]
        low[across], high[across] = band.low[across], band.high[across]
    return all(block.low[k] < high[k] - 1e-6 and low[k] < block.high[k] - 1e-6 for k in others)


def _bar(row: Row, one: BuiltBox, place: float) -> Strip:
    """The bar with its middle at a place of the row [mm]."""
    box, tray = one.bay.box, one.parts.tray
    half = box.stiffening_thickness / 2.0
    start = [0.0, 0.0, 0.0]
    start[row.axis] = round(place - half, 6)
    along: Looks
    leg: tuple[Looks, float]
    if row.wall:
        start[row.wall.axis], start[2] = row.wall.plane, row.wall.levels[0]
        along, leg = row.wall.looks, ("up", round(_top(one, row.wall) - row.wall.levels[0], 6))
    else:
        across = 1 - row.axis
        ends = _chord(one, row.axis, (place - half, place + half))
        start[across], start[2] = ends[0], tray.bands[0].bottom
        along, leg = "down", (PLUS[across], round(ends[1] - ends[0], 6))
    x, y, z = start
    made = stitches(leg[1], min(tray.thickness, box.stiffening_thickness))
    stitched = (
        f"{made.count} stitches of {made.length:g} mm on each side, {made.pitch:.1f} mm from one to the next"
    )
    return Strip(
        kind=KIND,
        name=KIND,
        material=tray.material,
        thickness=box.stiffening_thickness,
        radius=0.0,
        start=(x, y, z),
        along=along,
        width=row.depth,
        legs=(leg,),
        inwards=PLUS[row.axis],
        notes=(
            f"flat bar {row.depth:g} x {box.stiffening_thickness:g} mm on edge",
            stitched if made.count > 1 else f"welded all along both sides, shorter than two of {STITCH:g} mm",
        ),
        bar=True,
    )


def _chord(one: BuiltBox, axis: int, strip: Span) -> Span:
    """From where to where the floor reaches across a strip of it [mm]: of steps the longest stretch that is
    whole."""
    across = 1 - axis
    found = [
        (low[across], high[across])
        for low, high in rectangles(one.parts.tray.bands[0].outline)
        if low[axis] - 1e-6 <= strip[0] and strip[1] <= high[axis] + 1e-6
    ]
    joined: list[Span] = []
    for start, end in sorted(found):
        if joined and start <= joined[-1][1] + 1e-6:
            joined[-1] = (joined[-1][0], max(joined[-1][1], end))
        else:
            joined.append((start, end))
    return max(joined, key=lambda span: span[1] - span[0]) if joined else strip
