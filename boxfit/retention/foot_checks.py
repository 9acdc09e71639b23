"""What a foot must bear: every check of it as a load against a resistance. [N, mm, MPa]

Accidental loads that come once: plates are counted with their plastic moment, as EN 1993-1-8 does in joints,
and must not come loose. Sums of shares are on the safe side (EN 1993-1-1, 6.2.1). Clauses from memory.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from math import hypot, sqrt

from boxfit.retention.foot import Foot, Part, across
from boxfit.standards.bolts import (
    Sheet,
    bearing_resistance,
    both,
    pull_through_resistance,
    shear_resistance,
    tension_resistance,
)
from boxfit.standards.holes import clearance_hole
from boxfit.standards.strengths import PARTIAL_WELD, PARTIAL_YIELD, THROAT, Strength

SCREW, SCREW_WASHER = 6.0, 18.0
"""Screws of feet that are not welded [mm], and their large washers, ISO 7093, from memory."""
TO_BODY_EDGE = 3.0
"""A body's hole is taken to stand so many of its diameters from any edge of the sheet."""
WIDEST = 0.85
"""Most of a wall's height that a foot may take in the formula of the wall [-]."""
THIN = 3.0
"""Below this [mm] a sheet is EN 1993-1-3's."""

Sum = tuple[float, float, str]
"""Load, resistance and their unit."""


@dataclass(frozen=True)
class Check:
    """One check: its name, its rule with source and clause, and the sum."""

    name: str
    rule: str
    sum: Callable[[Foot, Part], Sum]


def prying(foot: Foot) -> float:
    """What the bolt takes more than the pull [-]: the leg's end levers against the body.

    Q = F m / (2 n), n the distance to the free end and at most 1.25 m: EN 1993-1-8 6.2.4 with the leg bent
    both ways, from memory.
    """
    return 1.0 + foot.arm / (2.0 * min(foot.edge, 1.25 * foot.arm))


def bolt(foot: Foot, part: Part) -> Sum:
    """Shear and tension of the bolt to the body together."""
    sheared = across(part) / shear_resistance(foot.bolt, foot.grade)
    pulled = max(part[0], 0.0) * prying(foot) / tension_resistance(foot.bolt, foot.grade)
    return (both(sheared, pulled), 1.0, "-")


def bearing_in_foot(foot: Foot, part: Part) -> Sum:
    """The foot's hole, and the tear-out to its end."""
    sheet = Sheet(foot.thickness, foot.metal.ultimate)
    return (across(part), bearing_resistance(foot.bolt, foot.hole, sheet, foot.edge), "N")


def bearing_in_body(foot: Foot, part: Part) -> Sum:
    """The body's hole, which is taken to stand clear of any edge."""
    sheet = Sheet(foot.body.thickness, foot.body.metal.ultimate)
    edge = TO_BODY_EDGE * foot.hole
    return (across(part), bearing_resistance(foot.bolt, foot.hole, sheet, edge), "N")


def pull_through_body(foot: Foot, part: Part) -> Sum:
    """The washer, or the plate behind the sheet, through the body sheet."""
    body = foot.body
    bare = through(foot.washer, Sheet(body.thickness, body.metal.ultimate))
    spread = 0.0
    if body.plate_metal:
        over = through(body.plate, Sheet(body.thickness, body.metal.ultimate))
        spread = min(over, plate_bent(body.plate, body.plate_thickness, foot.washer, body.plate_metal))
    return (max(part[0], 0.0) * prying(foot), max(bare, spread), "N")


def through(head: float, sheet: Sheet) -> float:
    """What a head or washer [mm] bears before a sheet lets it through [N]; thin sheet also by EN 1993-1-3.

    Fp,Rd = dw t fu / gamma M2 (EN 1993-1-3 table 8.2, of screws under steady load, from memory), where that
    is less.

    >>> round(through(20.0, Sheet(1.0, 270.0)))
    4320
    """
    thick = pull_through_resistance(head, sheet)
    return (
        min(thick, head * sheet.thickness * sheet.ultimate / PARTIAL_WELD)
        if sheet.thickness < THIN
        else thick
    )


def plate_bent(side: float, thickness: float, washer: float, metal: Strength) -> float:
    """What a square plate held round its edge bears in its middle [N]: yield lines, 8 m / (1 - d/a).

    Source: Johansen's yield line theory, from memory.

    >>> from boxfit.standards.strengths import STRENGTHS
    >>> round(plate_bent(60.0, 2.0, 20.0, STRENGTHS["steel-s235"]))
    2564
    """
    moment = metal.yielding / PARTIAL_YIELD * thickness**2 / 4.0
    return 8.0 * moment / (1.0 - min(washer / side, 0.8))


def leg_pulled(foot: Foot, part: Part) -> Sum:
    """The leg on the body bent by the bolt: half a T-stub that levers, F = 2 m l / a."""
    length = min(foot.width, 4.0 * foot.arm + 1.25 * foot.edge)
    moment = length * foot.thickness**2 / 4.0 * foot.design
    return (max(part[0], 0.0), 2.0 * moment / foot.arm, "N")


def legs_across(foot: Foot, part: Part) -> Sum:
    """The legs bent between bolt and wall by what acts across the bolt; for a trough by its pull as well."""
    design, area = foot.design, foot.width * foot.thickness
    flat = area * foot.thickness / 4.0 * design
    square, along, aside = foot.on_wall(part)
    bent = square * max(foot.start - foot.thickness / 2.0, 0.0)
    if foot.trough:
        bent += along * foot.off
    edgewise = aside * foot.off / (area * foot.width / 4.0 * design)
    sheared = sqrt(3.0) * hypot(along, aside) / (area * design)
    return (bent / flat + edgewise + sheared + square / (area * design), 1.0, "-")


def weld(foot: Foot, part: Part) -> Sum:
    """Two fillets along the sides of the leg on the wall, the highest force on a millimetre of them."""
    wall = foot.wall
    square, along, aside = foot.on_wall(part)
    twist, tip = foot.sideways(part)
    out = (
        square / (2.0 * wall.length)
        + 3.0 * foot.moment(part) / wall.length**2
        + tip / foot.width / wall.length
    )
    up = along / (2.0 * wall.length) + twist / foot.width / wall.length
    thinner = min(foot.thickness, wall.under_weld)
    ultimate = min(foot.metal.ultimate_softened, wall.metal.ultimate_softened)
    bears = THROAT * thinner * ultimate / (sqrt(3.0) * PARTIAL_WELD)
    return (hypot(out, up, aside / (2.0 * wall.length)), bears, "N/mm")


def beside_weld(foot: Foot, part: Part) -> Sum:
    """The wall's own sheet along the welds, or the doubler's, softened by them."""
    wall = foot.wall
    _, along, aside = foot.on_wall(part)
    up = along / (2.0 * wall.length) + foot.sideways(part)[0] / foot.width / wall.length
    bears = wall.under_weld * wall.metal.yielding_softened / (sqrt(3.0) * PARTIAL_YIELD)
    return (hypot(up, aside / (2.0 * wall.length)), bears, "N/mm")


def screw_parts(foot: Foot, part: Part) -> tuple[float, float]:
    """Shear and tension [N] of the screw that takes most."""
    wall = foot.wall
    square, along, aside = foot.on_wall(part)
    twist, tip = foot.sideways(part)
    lever = wall.length - wall.from_end
    sheared = hypot(along / wall.screws + twist / wall.apart, aside / wall.screws)
    turned = foot.moment(part) / lever / wall.screws
    return (sheared, square / wall.screws + turned + tip / wall.apart)


def screws(foot: Foot, part: Part) -> Sum:
    """The screws through the wall."""
    sheared, pulled = screw_parts(foot, part)
    shares = (sheared / shear_resistance(SCREW, foot.grade), pulled / tension_resistance(SCREW, foot.grade))
    return (both(*shares), 1.0, "-")


def screws_in_wall(foot: Foot, part: Part) -> Sum:
    """The wall's holes: bearing, and washers pulled through, as shares together."""
    sheared, pulled = screw_parts(foot, part)
    sheet, hole = Sheet(foot.wall.thickness, foot.wall.metal.ultimate), clearance_hole(SCREW)
    edge = min(TO_BODY_EDGE * hole, foot.wall.apart)
    bears = bearing_resistance(SCREW, hole, sheet, edge)
    return (sheared / bears + pulled / through(SCREW_WASHER, sheet), 1.0, "-")


def patch(
    size: tuple[float, float], foot_size: tuple[float, float], thickness: float, design: float
) -> float:
    """What a wall bears square off its plane on a patch of it [N], by yield lines.

    N = fy t^2 / (1 - b) (2 h + 4 sqrt(1 - b)), b and h the patch's sides over the wall's shorter one, across
    and along. Source: EN 1993-1-8 table 7.11 (face of a hollow section), from memory; for b up to 0.85.

    >>> round(patch((300.0, 150.0), (45.0, 60.0), 2.5, 72.7))
    2692
    """
    short = min(size)
    share, length = min(foot_size[0] / short, WIDEST), foot_size[1] / short
    return design * thickness**2 / (1.0 - share) * (2.0 * length + 4.0 * sqrt(1.0 - share))


def wall_bent(foot: Foot, part: Part) -> Sum:
    """The wall where the foot is fixed, pressed or pulled off its plane and turned."""
    wall = foot.wall
    design = wall.metal.yielding_softened / PARTIAL_YIELD
    square = foot.on_wall(part)[0]
    thick = wall.bending
    whole = patch(wall.size, (wall.length, foot.width), thick, design)
    half = patch(wall.size, (wall.length / 2.0, foot.width), thick, design)
    beside = patch(wall.size, (wall.length, foot.width / 2.0), thick, design)
    turned = foot.moment(part) / (wall.length / 2.0) / half
    tipped = foot.sideways(part)[1] / (foot.width / 2.0) / beside
    return (square / whole + turned + tipped, 1.0, "-")


def as_doubler(foot: Foot) -> Foot:
    """The doubler in its foot's place: welded to the bare wall, bearing what the foot brings."""
    wall, plate = foot.wall, foot.wall.doubler
    assert plate is not None  # callers have asked
    bare = replace(wall, doubler=None, length=plate.length)
    along = foot.along + plate.off  # on the safe side where it lies nearer to the bolt
    return replace(foot, thickness=plate.thickness, width=plate.width, along=along, wall=bare)


def doubler_on_wall(foot: Foot, part: Part) -> Sum:
    """The bare wall round a doubler, pressed or pulled off its plane and turned."""
    return wall_bent(as_doubler(foot), part)


def doubler_weld(foot: Foot, part: Part) -> Sum:
    """The welds along two sides of a doubler; those along the others are left out, on the safe side."""
    return weld(as_doubler(foot), part)


def beside_doubler(foot: Foot, part: Part) -> Sum:
    """The wall's own sheet along the same welds."""
    return beside_weld(as_doubler(foot), part)


ALWAYS = (
    Check("bolt", "EN 1993-1-8 table 3.4, shear and tension; levering 6.2.4", bolt),
    Check("bearing in the foot", "EN 1993-1-8 table 3.4, tear-out included", bearing_in_foot),
    Check("bearing in the body sheet", "EN 1993-1-8 table 3.4, EN 1993-1-3 table 8.4", bearing_in_body),
    Check("pull-through of the body sheet", "EN 1993-1-8 table 3.4, EN 1993-1-3 8.3", pull_through_body),
    Check("foot bent at the bolt", "EN 1993-1-8 6.2.4, 6.2.6.6 (cleat)", leg_pulled),
    Check("foot bent across", "EN 1993-1-1 6.2.1, shares of plastic resistance added", legs_across),
    Check("wall at the foot", "EN 1993-1-8 table 7.11, yield lines; EN 1999-1-1 softened zone", wall_bent),
)
WELDED = (
    Check("weld of the foot", "EN 1993-1-8 4.5.3.3, EN 1999-1-1 8.6.3", weld),
    Check("wall beside the weld", "EN 1999-1-1 8.6.3.4, softened zone", beside_weld),
)
SCREWED = (
    Check("wall screws", "EN 1993-1-8 table 3.4", screws),
    Check("wall at the screws", "EN 1993-1-8 table 3.4, EN 1993-1-3 8.3", screws_in_wall),
)


DOUBLED = (
    Check(
        "wall at the doubler",
        "EN 1993-1-8 table 7.11, yield lines; EN 1999-1-1 softened zone",
        doubler_on_wall,
    ),
    Check("weld of the doubler", "EN 1993-1-8 4.5.3.3, EN 1999-1-1 8.6.3", doubler_weld),
    Check("wall beside the doubler's weld", "EN 1999-1-1 8.6.3.4, softened zone", beside_doubler),
)


def checks_of(foot: Foot) -> tuple[Check, ...]:
    """All that a foot is asked."""
    doubled = DOUBLED if foot.wall.doubler else ()
    return (*ALWAYS, *(SCREWED if foot.wall.screws else WELDED), *doubled)
