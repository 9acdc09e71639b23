"""What reaches furthest in from a wall at the end of a row: liner, bend, bead of a weld, or ledge. [mm]"""

from dataclasses import dataclass
from math import sqrt

from boxfit.bay import BoxRules
from boxfit.box.built import BuiltBox
from boxfit.box_details import ledge, rib_depth
from boxfit.box_shape import grown, rectangles
from boxfit.layout import PlacedModule

LEDGE = "ledge"
LINER = "liner"


@dataclass(frozen=True)
class End:
    """One end of a row: what it meets there, and how far [mm] that reaches in from the inside of the wall."""

    what: str
    takes: float


def ends_of(built: BuiltBox, number: int, axis: int, modules: tuple[PlacedModule, ...]) -> tuple[End, End]:
    """The ends of a row of the tier `number` from 0 along an axis: the low one, the high one."""
    at_all = [lined(built.bay.box), _at_the_floor(built, number)]
    low, high = (_in_the_corner(built, number, axis, modules[place]) for place in (0, -1))
    return (_furthest(*at_all, low), _furthest(*at_all, high))


def ledge_ends(built: BuiltBox, number: int, ends: tuple[End, End], count: int) -> tuple[End, End] | None:
    """The ends met while the last module of a row is lowered past the ledge; None where no shelf is above.

    A row of one meets the ledge at both ends; of several the others already stand below it.
    """
    bar = ledge(built.bay.box)
    if number >= len(built.box.tiers) - 1 or bar is None:
        return None
    past = End(LEDGE, bar.width)
    return (past, past if count == 1 else min(ends, key=lambda end: end.takes))


def bend_reaches(radius: float, height: float) -> float:
    """How far [mm] a bend of inside radius [mm] reaches in at a height [mm] above the floor's inside.

    >>> bend_reaches(5.0, 0.0), bend_reaches(5.0, 2.0), bend_reaches(5.0, 5.0)
    (5.0, 1.0, 0.0)
    """
    left = max(0.0, radius - height)
    return radius - sqrt(radius**2 - left**2)


def lined(rules: BoxRules) -> End:
    """What lies on the sheet everywhere: its liner, or the ribs of a printed one."""
    return End("ribs" if rib_depth(rules) else LINER if rules.liner else "sheet", rules.liner)


def _at_the_floor(built: BuiltBox, number: int) -> End:
    """The bend, or the bead of the weld, along the floor that the tier stands on, met by a square corner."""
    rules, outlines = built.bay.box, built.box.outlines
    on_a_step = number > 0 and outlines[number] != outlines[number - 1]
    if rules.process == "printed" or (number > 0 and not on_a_step):
        return End("sheet", 0.0)
    lifted = 0.0 if on_a_step else built.box.tiers[0].stands_on - built.box.low[2] - rules.thickness
    radius = built.parts.tray.floor_radius
    if radius is not None and number == 0:
        return End("bend", bend_reaches(radius, lifted))
    return End("weld bead", max(0.0, rules.fold_shop.weld_bead - lifted))


def _in_the_corner(built: BuiltBox, number: int, axis: int, module: PlacedModule) -> End:
    """The bead in the upright corner beside a module; the further off the module, the less it reaches in."""
    rules = built.bay.box
    if rules.process == "printed":
        return End("sheet", 0.0)
    across = 1 - axis
    inside = grown(built.box.outlines[number], -rules.thickness)
    middle = (module.low[axis] + module.high[axis]) / 2.0
    spans = [
        (low[across], high[across])
        for low, high in rectangles(inside)
        if low[axis] < middle < high[axis] and low[across] < module.high[across]
    ]
    off = min(
        (
            min(module.low[across] - low, high - module.high[across])
            for low, high in spans
            if low - 1e-6 <= module.low[across] and module.high[across] <= high + 1e-6
        ),
        default=rules.fold_shop.weld_bead,
    )
    return End("weld bead", max(0.0, rules.fold_shop.weld_bead - max(0.0, off)))


def _furthest(*ends: End) -> End:
    """That which reaches furthest in; the first of equals."""
    return max(ends, key=lambda end: end.takes)
