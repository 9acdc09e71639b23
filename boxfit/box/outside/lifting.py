"""Lifting lugs for a box that is too heavy for one person once it is filled."""

from collections.abc import Iterator, Sequence

import shapely

from boxfit.bay import BoxRules, Vector
from boxfit.box.fitting import Bought
from boxfit.box.outside.place import Site
from boxfit.box.outside.wall import Wall, spread
from boxfit.box.parts import BoxParts
from boxfit.standards.common_practice import ONE_PERSON
from boxfit.standards.materials import MATERIALS

LUG_PAST = 30.0
"""How far a lug stands out past the flange [mm], so that a shackle clears it: common practice, no source."""
LUG_HIGH = 40.0
LUG_HOLE = 14.0
"""Height and hole [mm] of a lug: common practice, no source."""
ALUMINIUM_LUG, STEEL_LUG = 8.0, 5.0
"""Thickness [mm] of a lug: common practice, no source."""
LEAST_APART = 100.0
"""Lugs of a wall stand at least this far apart [mm], or the box tips."""
TRIES, FINER = 20, 10
AROUND = 40.0
"""The middle of the mass lies this far inside the lugs at least [mm]: common practice, no source."""
MOST_SLOPE = 45.0
"""A sling that stands further off upright [degrees] than this loads a lug more than is told."""
Balance = tuple[float, Vector]
"""Mass of the filled box [kg] and where it balances [mm]."""


def lifting_lugs(
    site: Site, parts: BoxParts, rules: BoxRules, filled: Balance
) -> tuple[tuple[Bought, ...], tuple[str, ...]]:
    """Four lugs about the middle of the mass, on two walls that face away from each other; else a note.

    None where one person lifts the filled box.
    """
    mass = filled[0]
    if mass <= ONE_PERSON:
        return (), ()
    words = f"{site.name}: {mass:.0f} kg filled, one person lifts {ONE_PERSON:g} kg"
    if rules.process == "printed":
        return (), (f"{words}: no lugs on a printed box: lift it on a board, with slings round the board",)
    for walls in _pairs(site.walls):
        lugs = _on_pair(site, parts, walls, filled)
        if lugs:
            each = f"four lugs, {mass / 2.0:.0f} kg for each, as two of four may carry alone"
            slings = f"slings at most {MOST_SLOPE:g} degrees off upright"
            licence = "lifting is for people with the licence for it, by local rules"
            return lugs, (f"{words}: {each}; {slings}; {licence}",)
    past = parts.tray.flange + LUG_PAST
    need = f"lugs need {past:g} mm beside two facing walls and through the opening"
    remedy = "lift it on slings or a table, for people with the licence for it"
    return (), (f"{words}: no room for lifting lugs; {need}: {remedy}",)


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


def _on_pair(site: Site, parts: BoxParts, walls: tuple[Wall, Wall], filled: Balance) -> tuple[Bought, ...]:
    """Four lugs as wide apart as they fit: at equal distances from the middle of the mass, else around it."""
    mass, middle = filled
    axis = walls[0].axis
    if not walls[1].plane < middle[axis] < walls[0].plane:
        return ()
    at = middle[1 - axis]
    widest = min(min(at - wall.along[0], wall.along[1] - at) for wall in walls)
    for step in range(TRIES):
        half = widest * (1.0 - step / TRIES)
        lugs = [_lug(parts, wall, at + side * half, mass) for wall in walls for side in (-1.0, 1.0)]
        if 2.0 * half >= LEAST_APART and all(_fits(site, lug) for lug in lugs):
            return tuple(lugs)
    lugs = [lug for wall in walls for lug in _outermost(site, parts, wall, mass)]
    if len(lugs) < 4:
        return ()
    corners = shapely.MultiPoint([lug.at[:2] for lug in lugs]).convex_hull.buffer(-AROUND)
    return tuple(lugs) if corners.contains(shapely.Point(middle[:2])) else ()


def _fits(site: Site, lug: Bought) -> bool:
    """Whether a lug is free where the box stands and on the box's way in."""
    return site.around.free(lug.body, site.taken) and site.around.clear_on_way_in(lug.body)


def _outermost(site: Site, parts: BoxParts, wall: Wall, mass: float) -> list[Bought]:
    """The first and the last lug that fit on a wall, if they are far enough apart."""
    low, high = wall.along

    def is_free(at: float) -> bool:
        return _fits(site, _lug(parts, wall, at, mass))

    places = [low + (high - low) * step / TRIES for step in range(TRIES + 1)]
    free = [at for at in places if is_free(at)]
    if not free:
        return []
    fine = [(high - low) / TRIES * step / FINER for step in range(FINER - 1, -1, -1)]
    first = next(at for more in fine if (at := max(low, free[0] - more)) == free[0] or is_free(at))
    last = next(at for more in fine if (at := min(high, free[-1] + more)) == free[-1] or is_free(at))
    return [_lug(parts, wall, at, mass) for at in (first, last)] if last - first >= LEAST_APART else []


def _lug(parts: BoxParts, wall: Wall, along: float, mass: float) -> Bought:
    """A plate welded upright to the wall under the flange."""
    tray = parts.tray
    thick = ALUMINIUM_LUG if tray.material.startswith("aluminium") else STEEL_LUG
    top = wall.levels[1] - (tray.thickness if tray.flange > 0.0 else 0.0)
    out = tray.flange + LUG_PAST
    body = wall.block(spread(along, thick), (top - LUG_HIGH, top), (0.0, out))
    about = (
        f"plate {out:g} x {LUG_HIGH:g} x {thick:g} of {tray.material}, hole {LUG_HOLE:g} mm for a shackle "
        f"{LUG_PAST / 2.0:g} mm from its outer edge, welded all round to wall and flange; for "
        f"{mass / 2.0:.0f} kg"
    )
    weight = out * LUG_HIGH * thick * MATERIALS[tray.material].density / 1e9
    name = f"lifting lug, {wall.looks} wall"
    return Bought(
        "lifting eye", name, wall.looks, wall.point(along, top), body, body, about, round(weight, 3)
    )
