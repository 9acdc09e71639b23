"""Mass of a box from the outlines and levels of its tiers and the workshop's rules: sums only, exact.

Every part is a profile round one or more of the outlines (see swept.py). Profiles depend on heights, rules
and whether the floor is bent: boxes which differ in plan only share them, and a search weighs thousands.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import lru_cache

from boxfit.bay import BoxRules, Point, Vector
from boxfit.box_blank import floor_radius
from boxfit.box_details import (
    TRAY_HOLE,
    flange_radius,
    ledge,
    rib_depth,
    screw_count,
    screw_points,
    shelf_inset,
    stud_count,
    stud_points,
    wall_liner_spans,
)
from boxfit.box_shape import rectangle
from boxfit.standards.materials import LINER, MATERIALS
from boxfit.surface import Outline
from boxfit.weight.lid_mass import Round, disc, lid_parts
from boxfit.weight.rib_mass import Standing, ribs_of, ribs_swept
from boxfit.weight.swept import (
    Profile,
    Swept,
    bend,
    less,
    plan_of,
    prism,
    strip,
    total,
    volume_and_lift,
)

CUBIC_METRE = 1e9
Piece = tuple[int, Profile]
"""The tier whose outline a profile goes round, and the profile."""


@dataclass(frozen=True)
class PartMass:
    """A part: mass [kg], volume [mm3], centre of mass [mm] from the low corner of the box's extent."""

    part: str
    mass: float
    centre: Vector
    volume: float


@dataclass(frozen=True)
class _Made:
    """A part: density [kg/m3], one profile for each outline, the round bars or holes in it, and its ribs."""

    name: str
    density: float
    profiles: tuple[Profile, ...]
    round: tuple[Round, ...] = ()
    ribs: tuple[Standing, ...] = ()


@dataclass(frozen=True)
class _Heights:
    """What of a box does not depend on its plan but for the floor's bend.

    `outline_of` tells which outline each tier has, from 0; `floor_radius` [mm] is as in box_blank.py.
    """

    height: float
    levels: tuple[float, ...]
    outline_of: tuple[int, ...]
    rules: BoxRules
    floor_radius: float | None = None

    @property
    def rim(self) -> float:
        """The top of the flange [mm], under lid and gasket."""
        return self.height - self.rules.rim_below_top


def box_mass(
    outlines: tuple[Outline, ...],
    height: float,
    levels: tuple[float, ...],
    rules: BoxRules,
    cover_plate: bool = False,
    returned: bool = True,
) -> PartMass:
    """Mass [kg] and centre [mm] of the whole empty box; its volume is that of the material [mm3].

    `outlines` [mm] are the outside of the walls round each tier, lowest first, in any coordinates; `height`
    [mm] is that of floor, walls and lid; `levels` [mm] what each tier stands on, above the outside of the
    floor. The cover plate has returned edges where `returned`. Made of nothing (no [box] asked), it weighs
    nothing and its centre is the middle.

    >>> from boxfit.box_shape import rectangle
    >>> rules = BoxRules("aluminium-5754", "welded", "rectangular", 2, 0, 0, 2, 0, 0, 0, 0, 1, 1)
    >>> closed = box_mass((rectangle((0, 0), (100, 100)),), 100, (2,), rules)
    >>> round(closed.volume) == 100**3 - 96**3, round(closed.mass, 5), round(closed.centre[2], 6)
    (True, 0.3066, 50.0)
    """
    parts = part_masses(outlines, height, levels, rules, cover_plate, returned)
    mass, volume = sum(part.mass for part in parts), sum(part.volume for part in parts)
    if not mass:
        low, high = _extent(outlines)
        return PartMass("box", mass, _middle(low, high, height), volume)
    x, y, z = (sum(part.mass * part.centre[axis] for part in parts) / mass for axis in range(3))
    return PartMass("box", mass, (x, y, z), volume)


def part_masses(
    outlines: tuple[Outline, ...],
    height: float,
    levels: tuple[float, ...],
    rules: BoxRules,
    cover_plate: bool = False,
    returned: bool = True,
) -> tuple[PartMass, ...]:
    """Each part of an empty box: tray, lid, gasket, cover plate, shelves, liner, those that there are.

    Arguments as for `box_mass`.
    """
    different = tuple(dict.fromkeys(outlines))
    numbers = tuple(different.index(outline) for outline in outlines)
    radius = floor_radius(different, height - rules.rim_below_top, rules)
    parts = _parts(_Heights(height, levels, numbers, rules, radius), cover_plate, returned)
    low, high = _extent(different)
    if len(different) == 1 and len(different[0]) == 4:
        size = (high[0] - low[0], high[1] - low[1])
        return tuple(_of_rectangle(part, size, height, rules) for part in parts)
    from_corner = tuple(tuple((x - low[0], y - low[1]) for x, y in outline) for outline in different)
    middle = _middle(low, high, height)
    return tuple(_of_outlines(part, from_corner, middle, rules) for part in parts)


def _extent(outlines: tuple[Outline, ...]) -> tuple[Point, Point]:
    """Low and high corner [mm] of all outlines."""
    xs, ys = ([corner[axis] for outline in outlines for corner in outline] for axis in (0, 1))
    return (min(xs), min(ys)), (max(xs), max(ys))


def _middle(low: Point, high: Point, height: float) -> Vector:
    """The middle [mm] of the extent, from its low corner."""
    return ((high[0] - low[0]) / 2.0, (high[1] - low[1]) / 2.0, height / 2.0)


def _of_rectangle(made: _Made, size: Point, height: float, rules: BoxRules) -> PartMass:
    """A part of a plain box: its plan is symmetrical, so that only the height of the centre needs a sum."""
    around, plan = 2.0 * (size[0] + size[1]), size[0] * size[1]
    volume, lift = volume_and_lift(plan, around, made.profiles[0])
    for one in made.round:
        count = screw_count(size, rules) if one.at == "screws" else stud_count(size)
        low, high = one.up
        bars = one.sign * count * one.section * (high - low)
        volume, lift = volume + bars, lift + bars * (low + high) / 2.0
    if made.ribs:
        for rib in ribs_swept((rectangle((0.0, 0.0), size),), made.ribs, rules):
            volume, lift = volume + rib.volume, lift + rib.z
    centre = (size[0] / 2.0, size[1] / 2.0, lift / volume if volume else height / 2.0)
    return PartMass(made.name, volume * made.density / CUBIC_METRE, centre, volume)


def _of_outlines(made: _Made, outlines: tuple[Outline, ...], middle: Vector, rules: BoxRules) -> PartMass:
    """A part of a stepped box; the outlines count from the low corner of the extent."""
    pairs = zip(outlines, made.profiles, strict=True)
    pieces = [plan_of(outline).swept(profile) for outline, profile in pairs if any(profile)]
    for one in made.round:
        points = screw_points(outlines[-1], rules) if one.at == "screws" else stud_points(outlines[-1])
        low, high = one.up
        bar = one.sign * one.section * (high - low)
        pieces += [Swept(bar, bar * x, bar * y, bar * (low + high) / 2.0) for x, y in points]
    pieces += ribs_swept(outlines, made.ribs, rules)
    volume, x, y, z = (sum(terms) for terms in zip(*pieces, strict=True)) if pieces else (0.0,) * 4
    centre = (x / volume, y / volume, z / volume) if volume else middle
    return PartMass(made.name, volume * made.density / CUBIC_METRE, centre, volume)


@lru_cache(maxsize=1024)
def _parts(box: _Heights, cover_plate: bool, returned: bool) -> tuple[_Made, ...]:
    """Everything a box is made of."""
    rules, rim = box.rules, box.rim
    sheet = MATERIALS[rules.material].density if rules.asked else 0.0
    holes = Round((rim - rules.thickness, rim), disc(TRAY_HOLE), -1, "screws")
    tray = _made(box, "tray", sheet, [*_tray(box)], (holes,))
    found = [replace(tray, ribs=ribs_of(box.outline_of, rim, box.levels, rules))]
    for part in lid_parts(box.height, rules, cover_plate, returned):
        found.append(_made(box, part.name, part.density, [(box.outline_of[-1], part.profile)], part.round))
    for tier, level in enumerate(box.levels[1:], start=1):
        plate = [(box.outline_of[tier - 1], prism((level - rules.thickness, level), -shelf_inset(rules)))]
        found.append(_made(box, f"shelf {tier}", sheet, plate))
    if rules.liner > 0.0 and not rib_depth(rules):
        found.append(_made(box, "liner", LINER.density, [*_liner(box)]))
    return tuple(found)


def _made(
    box: _Heights, name: str, density: float, pieces: list[Piece], bars: tuple[Round, ...] = ()
) -> _Made:
    """A part, its pieces added up outline by outline."""
    numbers = range(max(box.outline_of) + 1)
    sums = tuple(total([profile for outline, profile in pieces if outline == one]) for one in numbers)
    return _Made(name, density, sums, bars)


def _tray(box: _Heights) -> Iterator[Piece]:
    """Floor, walls, step floors, flange and ledges."""
    rules, thick, first = box.rules, box.rules.thickness, box.outline_of[0]
    if box.floor_radius is not None:
        outer = box.floor_radius + thick
        yield first, prism((0.0, thick), -outer)
        yield first, bend((-outer, outer), (outer - thick, outer), 1)
        foot = outer
    else:
        yield first, prism((0.0, thick))
        foot = thick
    yield from _walls(box, foot)
    yield from _flange(box)
    bar = ledge(rules)
    for tier, level in enumerate(box.levels[1:] if bar else (), start=1):
        if bar:
            up = (level - thick - bar.height, level - thick)
            yield box.outline_of[tier - 1], strip((-thick - bar.width, -thick), up)


def _walls(box: _Heights, foot: float) -> Iterator[Piece]:
    """Walls from `foot` [mm] up, and where the outline widens the step floor that they stand on."""
    thick = box.rules.thickness
    folded = box.rules.process == "folded" and box.rules.flange
    end = box.rim - thick - flange_radius(box.rules) if folded else box.rim
    outline = box.outline_of[0]
    for other, level in zip(box.outline_of[1:], box.levels[1:], strict=True):
        if other != outline:
            yield outline, strip((-thick, 0.0), (foot, level - thick))
            yield other, prism((level - thick, level))
            yield outline, less(prism((level - thick, level), -thick))
            outline, foot = other, level
    yield outline, strip((-thick, 0.0), (foot, end))


def _flange(box: _Heights) -> Iterator[Piece]:
    """The flange with its bend, round the outline at the top."""
    rules, thick, top = box.rules, box.rules.thickness, box.outline_of[-1]
    radius = flange_radius(rules)
    if rules.process == "folded" and rules.flange:
        yield top, bend((radius, box.rim - thick - radius), (radius, radius + thick), -1)
    yield top, strip((radius, rules.flange), (box.rim - thick, box.rim))


def _liner(box: _Heights) -> Iterator[Piece]:
    """Floor sheet, as far as the floor is flat, and wall sheets."""
    thick, liner, radius = box.rules.thickness, box.rules.liner, box.floor_radius or 0.0
    yield box.outline_of[0], prism((thick, thick + liner), -thick - radius)
    for tier, span in wall_liner_spans(box.rim, box.levels, box.rules, radius):
        yield box.outline_of[tier], strip((-thick - liner, -thick), span)
