"""Lifting lugs for a box that is too heavy for one person once it is filled."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from math import floor

import shapely

from boxfit.bay import BoxRules, Vector
from boxfit.box.fitting import Strip
from boxfit.box.outside.lug_shapes import (
    Size,
    bears,
    foot_of_lug,
    lug_at,
    notes_of_lug,
    sizes_on,
    slope_left,
)
from boxfit.box.outside.place import Site
from boxfit.box.outside.wall import Wall
from boxfit.box.parts import BoxParts
from boxfit.box.strip_legs import strip_blocks
from boxfit.standards.common_practice import ONE_PERSON

LEAST_APART = 100.0
"""Lugs of a wall stand at least this far apart [mm], or the box tips."""
TRIES, FINER = 20, 10
AROUND = 40.0
"""The middle of the mass lies this far inside the lugs at least [mm]: common practice, no source."""
Balance = tuple[float, Vector]
"""Mass of the filled box [kg] and where it balances [mm]."""
Lugs = tuple[Strip, ...]


def lifting_lugs(
    site: Site, parts: BoxParts, rules: BoxRules, filled: Balance
) -> tuple[Lugs, tuple[str, ...]]:
    """Four lugs about the middle of the mass, on two walls that face away from each other; else a note.

    The least lugs that bear their share and find room; where none do, the largest that find room, and the
    sums of retention tell what they lack. None where one person lifts the filled box.
    """
    mass = filled[0]
    if mass <= ONE_PERSON:
        return (), ()
    words = f"{site.name}: {mass:.0f} kg filled, one person lifts {ONE_PERSON:g} kg"
    if rules.process == "printed":
        return (), (f"{words}: no lugs on a printed box: lift it on a board, with slings round the board",)
    weak: Lugs = ()
    for walls in _pairs(site.walls):
        strong, largest = _least_that_bear(site, parts, walls, filled)
        if strong:
            return _named(site, parts, strong, mass), (f"{words}: {_told(parts, mass)}",)
        weak = weak or largest
    if weak:
        lacking = "lugs that bear it find no room, these do not: see retention.csv"
        return _named(site, parts, weak, mass), (f"{words}: {lacking}; {_told(parts, mass)}",)
    wall = site.walls[0]
    past = lug_at(parts, wall, sum(wall.corners) / 2.0, sizes_on(parts, wall)[0]).legs[0][1]
    need = f"lugs need {past:g} mm beside two facing walls and through the opening"
    remedy = "lift it on slings or a table, for people with the licence for it"
    return (), (f"{words}: no room for lifting lugs; {need}: {remedy}",)


def _told(parts: BoxParts, mass: float) -> str:
    """What whoever lifts the box must know."""
    each = f"four lugs, {mass / 2.0:.0f} kg for each, as two of four may carry alone"
    slope = floor(slope_left(parts))
    slings = f"slings at most {slope} degrees off upright, from a spreader beam"
    return f"{each}; {slings}; lifting is for people with the licence for it, by local rules"


def _named(site: Site, parts: BoxParts, lugs: Lugs, mass: float) -> Lugs:
    """Lugs with their names and what their maker must know."""
    return tuple(
        replace(lug, name=f"{site.name} lifting lug {number}", notes=notes_of_lug(parts, lug, mass))
        for number, lug in enumerate(lugs, start=1)
    )


def _pairs(walls: Sequence[Wall]) -> Iterator[tuple[Wall, Wall]]:
    """Facing walls of the uppermost band, those furthest apart first."""
    rim = max(wall.levels[1] for wall in walls)
    upper = [wall for wall in walls if wall.levels[1] == rim]
    pairs = [
        (one, other)
        for one in upper
        for other in upper
        if one.axis == other.axis and one.sign == 1 and other.sign == -1 and one.plane > other.plane
    ]
    yield from sorted(pairs, key=lambda pair: (pair[1].plane - pair[0].plane, pair[0].axis))


def _least_that_bear(
    site: Site, parts: BoxParts, walls: tuple[Wall, Wall], filled: Balance
) -> tuple[Lugs, Lugs]:
    """The least lugs that bear and find room on two walls; where none do, the largest that find room."""
    mass, middle = filled
    sizes = [size for size in sizes_on(parts, walls[0]) if size in sizes_on(parts, walls[1])]
    tight: list[Size] = []
    least = _on_pair(site, parts, walls, (middle, sizes[0]))
    if not least:
        return (), ()
    for size in sizes:
        if all(bears(parts, wall, size, mass) for wall in walls):
            lugs = _tried(site, parts, walls, (middle, size, tight))
            if lugs:
                return lugs, ()
    weak = (_tried(site, parts, walls, (middle, size, tight)) for size in reversed(sizes))
    return (), next((lugs for lugs in weak if lugs), least)


def _tried(
    site: Site, parts: BoxParts, walls: tuple[Wall, Wall], wanted: tuple[Vector, Size, list[Size]]
) -> Lugs:
    """Lugs of a size, none where it contains one that found no room; those that find none are noted there."""
    middle, size, tight = wanted
    if any(size.contains(one) for one in tight):
        return ()
    lugs = _on_pair(site, parts, walls, (middle, size))
    if not lugs:
        tight.append(size)
    return lugs


def _on_pair(site: Site, parts: BoxParts, walls: tuple[Wall, Wall], wanted: tuple[Vector, Size]) -> Lugs:
    """Four lugs as wide apart as they fit: at equal distances from the middle of the mass, else around it."""
    middle, size = wanted
    axis = walls[0].axis
    if not walls[1].plane < middle[axis] < walls[0].plane:
        return ()
    at = middle[1 - axis]
    widest = min(min(at - wall.along[0], wall.along[1] - at) for wall in walls)
    for step in range(TRIES):
        half = widest * (1.0 - step / TRIES)
        lugs = [lug_at(parts, wall, at + side * half, size) for wall in walls for side in (-1.0, 1.0)]
        if 2.0 * half >= LEAST_APART and all(_fits(site, lug) for lug in lugs):
            return tuple(lugs)
    lugs = [lug for wall in walls for lug in _outermost(site, parts, wall, size)]
    if len(lugs) < 4:
        return ()
    corners = shapely.MultiPoint([foot_of_lug(lug)[:2] for lug in lugs]).convex_hull.buffer(-AROUND)
    return tuple(lugs) if corners.contains(shapely.Point(middle[:2])) else ()


def _fits(site: Site, lug: Strip) -> bool:
    """Whether a lug is free where the box stands and on the box's way in."""
    (block,) = strip_blocks(lug)
    return site.around.free(block, site.taken) and site.around.clear_on_way_in(block)


def _outermost(site: Site, parts: BoxParts, wall: Wall, size: Size) -> list[Strip]:
    """The first and the last lug that fit on a wall, if they are far enough apart."""
    low, high = wall.along

    def is_free(at: float) -> bool:
        return _fits(site, lug_at(parts, wall, at, size))

    places = [low + (high - low) * step / TRIES for step in range(TRIES + 1)]
    free = [at for at in places if is_free(at)]
    if not free:
        return []
    fine = [(high - low) / TRIES * step / FINER for step in range(FINER - 1, -1, -1)]
    first = next(at for more in fine if (at := max(low, free[0] - more)) == free[0] or is_free(at))
    last = next(at for more in fine if (at := min(high, free[-1] + more)) == free[-1] or is_free(at))
    return [lug_at(parts, wall, at, size) for at in (first, last)] if last - first >= LEAST_APART else []
