"""Mass of a box from its outside size, the levels of its tiers and the workshop's rules: sums only.

The bent tray is its profile swept round the plan with mitred corners. A point of the profile standing
`u` [mm] outside the wall runs round a rectangle of perimeter 2 (a + b) + 8 u, so a profile of area A gives
V = 2 (a + b) A + 8 * integral of u dA (Pappus's theorem, taken per straight side). Exact; the plan is
symmetrical, so that only the height of the centre needs a sum.
"""

from dataclasses import dataclass
from math import pi

from boxfit.bay import BoxRules, Vector
from boxfit.box_details import (
    FIT,
    LID_HOLE,
    STUD_DIAMETER,
    STUD_HEIGHT,
    TRAY_HOLE,
    bend_radius,
    flange_radius,
    ledge,
    screw_count,
    stud_points,
    wall_liner_spans,
)
from boxfit.standards.materials import LINER, MATERIALS

Volume = tuple[float, float]
"""Volume [mm3] and its first moment about the outside of the floor [mm4]."""
CUBIC_METRE = 1e9


@dataclass(frozen=True)
class PartMass:
    """A part: mass [kg], volume [mm3], centre of mass [mm] from the low corner of the box's outside."""

    part: str
    mass: float
    centre: Vector
    volume: float


def box_mass(size: Vector, levels: tuple[float, ...], rules: BoxRules, cover_plate: bool = False) -> PartMass:
    """Mass [kg] and centre [mm] of the whole empty box; its volume is that of the material [mm3].

    `size` [mm] is the outside of floor, walls and lid; `levels` [mm] what each tier stands on, above the
    outside of the floor. Made of nothing (no [box] asked), it weighs nothing and its centre is the middle.

    >>> rules = BoxRules("aluminium-5754", "welded", "rectangular", 2, 0, 0, 2, 0, 0, 0, 0, 1, 1)
    >>> closed = box_mass((100, 100, 100), (2,), rules)
    >>> round(closed.volume) == 100**3 - 96**3, round(closed.mass, 5), round(closed.centre[2], 6)
    (True, 0.3066, 50.0)
    """
    parts = part_masses(size, levels, rules, cover_plate)
    mass = sum(part.mass for part in parts)
    height = sum(part.mass * part.centre[2] for part in parts) / mass if mass else size[2] / 2.0
    return PartMass("box", mass, (size[0] / 2.0, size[1] / 2.0, height), sum(part.volume for part in parts))


def part_masses(
    size: Vector, levels: tuple[float, ...], rules: BoxRules, cover_plate: bool = False
) -> tuple[PartMass, ...]:
    """Each part of an empty box: tray, lid, cover plate where made, shelves, liner where there is one.

    Arguments as for `box_mass`.
    """
    sheet = MATERIALS[rules.material].density if rules.asked else 0.0
    volumes = [
        ("tray", sheet, _tray(size, levels, rules)),
        ("lid", sheet, _lid(size, rules)),
    ]
    if cover_plate:
        volumes.append(("cover plate", sheet, _cover_plate(size, rules)))
    for number, level in enumerate(levels[1:], start=1):
        volumes.append((f"shelf {number}", sheet, _shelf(size, level, rules)))
    if rules.liner > 0.0:
        volumes.append(("liner", LINER.density, _liner(size, levels, rules)))
    return tuple(_part(name, density, volume, size) for name, density, volume in volumes)


def _part(name: str, density: float, solid: Volume, size: Vector) -> PartMass:
    """The part of a volume [mm3, mm4] and a density [kg/m3]."""
    volume, moment = solid
    height = moment / volume if volume else size[2] / 2.0
    return PartMass(name, volume * density / CUBIC_METRE, (size[0] / 2.0, size[1] / 2.0, height), volume)


def _slab(area: float, low: float, high: float) -> Volume:
    """A solid of the same plan area [mm2] all the way up."""
    volume = area * (high - low)
    return volume, volume * (low + high) / 2.0


def _total(volumes: tuple[Volume, ...]) -> Volume:
    """Solids added up."""
    return sum(volume for volume, _ in volumes), sum(moment for _, moment in volumes)


def _strip(size: Vector, across: tuple[float, float], up: tuple[float, float]) -> Volume:
    """A rectangular profile swept round the outside walls; `across` [mm] counts outwards from them."""
    area = (across[1] - across[0]) * (up[1] - up[0])
    middle = (across[0] + across[1]) / 2.0
    volume = area * (2.0 * (size[0] + size[1]) + 8.0 * middle)
    return volume, volume * (up[0] + up[1]) / 2.0


def _bend(size: Vector, centre: tuple[float, float], radii: tuple[float, float], outwards: int) -> Volume:
    """A quarter ring between two radii [mm] swept round the outside walls.

    `outwards` is 1 for the floor bend (outside and below its centre), -1 for the flange bend (inside and
    above it). First moments of a quarter disc: R^3 / 3 about its straight sides; product R^4 / 8.
    """
    across, up = centre
    small, large = radii
    area = pi / 4.0 * (large**2 - small**2)
    first = (large**3 - small**3) / 3.0
    product = (large**4 - small**4) / 8.0
    area_across = area * across + outwards * first
    area_up = area * up - outwards * first
    area_both = area * across * up + outwards * first * (up - across) - product
    perimeter = 2.0 * (size[0] + size[1])
    return perimeter * area + 8.0 * area_across, perimeter * area_up + 8.0 * area_both


def _tray(size: Vector, levels: tuple[float, ...], rules: BoxRules) -> Volume:
    """Floor, walls, flange and ledges, less the holes for the rivet-nuts."""
    thick, flange, rim = rules.thickness, rules.flange, size[2] - rules.lid_thickness
    shell = _folded if rules.process == "folded" else _square
    holes = _slab(-screw_count(size, rules) * pi / 4.0 * TRAY_HOLE**2, rim - thick, rim)
    bar = ledge(rules)
    bars = (
        ()
        if bar is None
        else tuple(
            _strip(size, (-thick - bar.width, -thick), (level - thick - bar.height, level - thick))
            for level in levels[1:]
        )
    )
    return _total((shell(size, rim, flange, rules), holes, *bars))


def _folded(size: Vector, rim: float, flange: float, rules: BoxRules) -> Volume:
    """Floor, walls and flange with their bends."""
    thick, radius, upper = rules.thickness, bend_radius(rules), flange_radius(rules)
    outer = radius + thick
    floor = _slab((size[0] - 2.0 * outer) * (size[1] - 2.0 * outer), 0.0, thick)
    floor_bend = _bend(size, (-outer, outer), (radius, outer), 1)
    if flange == 0.0:
        return _total((floor, floor_bend, _strip(size, (-thick, 0.0), (outer, rim))))
    start = rim - thick - upper
    return _total(
        (
            floor,
            floor_bend,
            _strip(size, (-thick, 0.0), (outer, start)),
            _bend(size, (upper, start), (upper, upper + thick), -1),
            _strip(size, (upper, flange), (rim - thick, rim)),
        )
    )


def _square(size: Vector, rim: float, flange: float, rules: BoxRules) -> Volume:
    """Floor, walls and flange with square corners."""
    thick = rules.thickness
    return _total(
        (
            _slab(size[0] * size[1], 0.0, thick),
            _strip(size, (-thick, 0.0), (thick, rim)),
            _strip(size, (0.0, flange), (rim - thick, rim)),
        )
    )


def _plate_area(size: Vector, flange: float) -> float:
    """Plan [mm2] of lid and cover plate."""
    return (size[0] + 2.0 * flange) * (size[1] + 2.0 * flange)


def _lid(size: Vector, rules: BoxRules) -> Volume:
    """The lid less its screw holes."""
    holes = screw_count(size, rules) * pi / 4.0 * LID_HOLE**2
    return _slab(_plate_area(size, rules.flange) - holes, size[2] - rules.lid_thickness, size[2])


def _cover_plate(size: Vector, rules: BoxRules) -> Volume:
    """The cover plate and its studs."""
    studs = len(stud_points(size)) * pi / 4.0 * STUD_DIAMETER**2
    bottom = size[2] + STUD_HEIGHT
    plate = _slab(_plate_area(size, rules.flange), bottom, bottom + rules.lid_thickness)
    return _total((plate, _slab(studs, size[2], bottom)))


def _shelf(size: Vector, level: float, rules: BoxRules) -> Volume:
    """The sheet directly below `level` [mm]."""
    less = 2.0 * (rules.thickness + FIT)
    return _slab((size[0] - less) * (size[1] - less), level - rules.thickness, level)


def _liner(size: Vector, levels: tuple[float, ...], rules: BoxRules) -> Volume:
    """Floor sheet, as far as the floor is flat, and wall sheets."""
    thick, liner = rules.thickness, rules.liner
    less = 2.0 * (thick + bend_radius(rules))
    floor = _slab((size[0] - less) * (size[1] - less), thick, thick + liner)
    spans = wall_liner_spans(size[2] - rules.lid_thickness, levels, rules)
    return _total((floor, *(_strip(size, (-thick - liner, -thick), span) for span in spans)))
