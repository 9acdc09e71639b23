"""Gasket and cover plate of a box by the workshop's rules alone, as box_details has the rest.

box/ makes them, weight/ weighs them, sheet/ and solid/ draw them; all ask here. Distances count outwards from
the outside of the walls at the rim. Figures are common practice, no source, unless said.
"""

from math import sqrt

from boxfit.bay import Bay, BoxRules
from boxfit.box_details import (
    STUD_HEIGHT,
    TRAY_HOLE,
    bend_radius,
    flange_radius,
    least_flange,
    least_inset,
    screw_inset,
    takes_screws,
)
from boxfit.standards.bending import least_inside_radius
from boxfit.standards.holes import clearance_hole

COVER_AIR = 1.0
"""Air [mm] between the edge of the lid and the returned edge of the cover plate, so that it drops on."""
RELIEF = 0.35
"""How far past a bend its corner relief reaches at most, as a share of the bend's mean radius (our own)."""
STUD_THREAD = 6.0
"""Thread [mm] of the studs that hold the cover plate: M6."""
STUD_HOLE = clearance_hole(STUD_THREAD)
"""Hole [mm] in the cover plate for a stud."""
DOME_NUT = 12.0
"""Height [mm] of an M6 dome nut, DIN 1587, from memory."""
LOW_NUT = 3.2
"""Height [mm] of an M6 low nut, ISO 4035, from memory; the stud ends flush with it."""
NUT_ACROSS = 12.0
"""Room in plan [mm] that a nut needs: 10 across flats, 11.1 across corners, from memory."""


def has_gasket(rules: BoxRules) -> bool:
    """Whether a gasket lies between flange and lid."""
    return rules.gasket_width > 0.0 and rules.gasket_thickness > 0.0


def gasket_too_wide(rules: BoxRules) -> float:
    """The widest gasket [mm] that fits between the flange's bend and the lid screws; 0 where none does.

    The screws then stand as near the flange's edge as its holes may.

    >>> rules = BoxRules("aluminium-5754", "folded", "rectangular", 2.5, 2.5, 22, 2, 10, 3, 4, 5, 1, 1)
    >>> gasket_too_wide(rules)  # 22 less 2.5 of bend, a hole of 7 and 3.75 to the edge
    8.75
    """
    return max(0.0, rules.flange - flange_radius(rules) - least_inset(rules) - TRAY_HOLE / 2.0)


def least_gasket_flange(rules: BoxRules) -> float:
    """The narrowest flange [mm] that has room for gasket and lid screws.

    >>> base = ("aluminium-5754", "folded", "rectangular", 2.5, 2.5, 22, 2, 10, 3, 4, 5, 1, 1)
    >>> least_gasket_flange(BoxRules(*base, gasket_width=10.0, gasket_thickness=4.0))
    23.25
    """
    beside = bend_radius(rules) + rules.gasket_width + TRAY_HOLE / 2.0 + least_inset(rules)
    return max(beside, least_flange(rules))


def gasket_line(rules: BoxRules) -> float:
    """How far [mm] outwards of the walls the gasket's middle runs: between the bend and the screws' holes."""
    outer = rules.flange - (screw_inset(rules) + TRAY_HOLE / 2.0 if takes_screws(rules) else 0.0)
    return (flange_radius(rules) + outer) / 2.0


def cover_material(rules: BoxRules) -> str:
    """What the cover plate is made of: its own material or the box's."""
    return rules.cover_material or rules.material


def cover_radius(rules: BoxRules) -> float | None:
    """Inside radius [mm] of its returned edges: the box's, or what its own material takes if that is more.

    None where it is printed, its edges square. A welded box has a folded cover plate.

    >>> rules = BoxRules("aluminium-5754", "folded", "rectangular", 2.5, 2.5, 22, 3, 10, 3, 4, 5, 1, 1)
    >>> cover_radius(rules)  # EN 485-2 asks one thickness of 5754
    3.0
    """
    if rules.process == "printed":
        return None
    least = least_inside_radius(cover_material(rules), rules.lid_thickness)
    return max(rules.bend_radius, least.radius if least else 0.0)


def cover_air(rules: BoxRules) -> float:
    """Air [mm] between lid edge and returned edge; more where the bend would reach in to the lid's edge."""
    radius = cover_radius(rules) or 0.0
    if radius <= STUD_HEIGHT:
        return COVER_AIR
    bend = radius - sqrt(radius**2 - (radius - STUD_HEIGHT) ** 2)
    return max(COVER_AIR, bend + COVER_AIR / 2.0)


def cover_past_flange(rules: BoxRules) -> float:
    """How far [mm] the returned edges stand out past the flange: air and sheet."""
    return cover_air(rules) + rules.lid_thickness


def cover_reach(rules: BoxRules) -> float:
    """How far [mm] outwards of the walls the outside of the returned edges is."""
    return rules.flange + cover_past_flange(rules)


def least_return(rules: BoxRules) -> float:
    """The shortest returned edge [mm], inside: what the brake holds, or 3 t + r; past a corner's relief.

    >>> rules = BoxRules("aluminium-5754", "folded", "rectangular", 2.5, 2.5, 22, 2, 10, 3, 4, 5, 1, 1)
    >>> least_return(rules)
    8.5
    """
    radius, thick = cover_radius(rules), rules.lid_thickness
    if radius is None:
        return 0.0
    brake = rules.fold_shop.least_flange
    # a relief reaches 0.41 of half the bend's sheet past the bend, which uses at most that of its middle
    relief = radius + RELIEF * (radius + thick / 2.0) + COVER_AIR
    return max(3.0 * thick + radius if brake is None else brake, relief)


def return_height(rules: BoxRules) -> float:
    """From the top of the cover plate to the lower end of its returned edges [mm], outside.

    Down to the underside of the flange, further where the brake asks for more.

    >>> rules = BoxRules("aluminium-5754", "folded", "rectangular", 2.5, 2.5, 22, 2, 10, 3, 4, 5, 1, 1)
    >>> return_height(rules)  # plate 2, studs 4, lid 2, flange 2.5
    10.5
    """
    hides = STUD_HEIGHT + rules.rim_below_top + rules.thickness
    return rules.lid_thickness + max(hides, least_return(rules))


def cover_height(rules: BoxRules) -> float:
    """What the cover plate needs above the lid at least [mm]: studs, plate and low nuts."""
    return STUD_HEIGHT + rules.lid_thickness + LOW_NUT


def room_beside(rules: BoxRules) -> float:
    """How far [mm] a cover plate may stand out past the flange at most: into the clearance.

    Boxes of one bay each take half of what is between them.
    """
    return rules.clearance / 2.0 if rules.boxes > 1 else rules.clearance


def expects_returns(rules: BoxRules) -> bool:
    """Whether returned edges find room round every box of these rules, keep-outs with a reason aside."""
    return cover_past_flange(rules) <= room_beside(rules) + 1e-9


def cover_plate_lacking(top: float, bay: Bay) -> float:
    """How much [mm] is missing between a lid whose top is at `top` [mm] and the bay's top for a cover plate.

    0 where it and its low nuts find room. They may use the box's clearance but not the survey's tolerance.
    """
    lacking = top + cover_height(bay.box) - (bay.room.top - bay.tolerance)
    return lacking if lacking > 1e-6 else 0.0
