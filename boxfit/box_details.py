"""Details of a box that follow from its outside size and the workshop's rules alone.

box/ makes them and weight/ weighs them; both ask here, so that they can never differ. Levels and points
are counted from the low corner of the box's outside. Figures are common practice, no source, unless said.
"""

from dataclasses import dataclass
from math import ceil

from boxfit.bay import Bay, BoxRules, Point, Vector

FIT = 0.5
"""Air [mm] each side of a shelf, beside a ledge and above the wall liner, so that parts drop in."""
LEDGE_HEIGHT = 10.0
"""Height [mm] of the bar a shelf rests on, where the headroom below it allows."""
LEAST_LEDGE = 1.0
"""A bar thinner or lower than this [mm] carries nothing."""
LID_HOLE = 5.5
"""Hole [mm] in the lid for an M5 screw: ISO 273 medium, from memory."""
TRAY_HOLE = 7.0
"""Hole [mm] in the flange for an M5 rivet-nut, from memory."""
SCREW_PITCH = 80.0
"""Lid screws stand at most this far [mm] apart, and not under 60 where the side is long enough."""
SCREW_CORNER = 15.0
"""The first lid screw is at most this far [mm] from the corner."""
STUD_DIAMETER = 10.0
STUD_HEIGHT = 4.0
"""Height [mm] of the studs under the cover plate: clears the round heads of the lid screws."""
STUD_INSET = 20.0
STUD_PITCH = 300.0


@dataclass(frozen=True)
class Ledge:
    """Section [mm] of the bar that carries a shelf, all round inside the walls."""

    width: float
    height: float


def bend_radius(rules: BoxRules) -> float:
    """Inside bend radius [mm]; 0 where nothing is folded."""
    return rules.bend_radius if rules.process == "folded" else 0.0


def flange_radius(rules: BoxRules) -> float:
    """Inside radius [mm] between wall and flange; never more than the flange has room for."""
    return min(bend_radius(rules), rules.flange)


def ledge(rules: BoxRules) -> Ledge | None:
    """The bar under a shelf: as wide as liner and gap leave, within the headroom; None where too small."""
    bar = Ledge(rules.liner + rules.gap - FIT, min(LEDGE_HEIGHT, rules.headroom))
    return bar if min(bar.width, bar.height) >= LEAST_LEDGE else None


def wall_liner_spans(
    rim: float, levels: tuple[float, ...], rules: BoxRules
) -> tuple[tuple[float, float], ...]:
    """From where to where [mm] the wall liner runs, tier by tier; interrupted by ledges and shelves.

    `rim` and `levels` (what each tier stands on) [mm] are above the outside of the floor. The lowest
    sheets stand clear of the floor liner and of the bend.
    """
    if rules.liner == 0.0:
        return ()
    bar = ledge(rules)
    below_shelf = rules.thickness + (bar.height if bar else 0.0)
    bottoms = (rules.thickness + max(rules.liner, bend_radius(rules)), *levels[1:])
    tops = (*(level - below_shelf for level in levels[1:]), rim - FIT)
    return tuple((bottom, top) for bottom, top in zip(bottoms, tops, strict=True) if top > bottom)


def least_flange(rules: BoxRules) -> float:
    """The narrowest flange [mm] that takes lid screws on its centre line.

    Hole to edge at least 1.5 t, hole to bend at least 2 t + r (common practice, no source). Holds for
    sheet up to 7 mm.
    """
    in_tray = TRAY_HOLE + 2.0 * (2.0 * rules.thickness + bend_radius(rules))
    in_lid = LID_HOLE + 2.0 * 1.5 * rules.lid_thickness
    return max(in_tray, in_lid)


def takes_screws(rules: BoxRules) -> bool:
    """Whether the flange is wide enough for lid screws."""
    return rules.flange >= least_flange(rules) - 1e-9


def _inset(flange: float) -> float:
    """Distance [mm] of the screws from the flange's edge: its centre line, nearer the edge if wide."""
    return min(flange / 2.0, SCREW_CORNER)


def _spaces(length: float, pitch: float) -> int:
    """Number of equal spaces of at most `pitch` [mm] along `length` [mm]; at least one.

    >>> _spaces(160.0, 80.0), _spaces(161.0, 80.0), _spaces(40.0, 80.0)
    (2, 3, 1)
    """
    return max(1, ceil(length / pitch - 1e-9))


def _screw_spaces(size: Vector, flange: float) -> tuple[float, int, int]:
    """Where the screw lines start [mm from the outside wall, outwards], and spaces along x and y."""
    start = flange - _inset(flange)
    return (
        start,
        _spaces(size[0] + 2.0 * start, SCREW_PITCH),
        _spaces(size[1] + 2.0 * start, SCREW_PITCH),
    )


def screw_count(size: Vector, rules: BoxRules) -> int:
    """Number of lid screws of a box of outside `size` [mm]."""
    if not takes_screws(rules):
        return 0
    _, along_x, along_y = _screw_spaces(size, rules.flange)
    return 2 * (along_x + along_y)


def screw_points(size: Vector, rules: BoxRules) -> tuple[Point, ...]:
    """Plan positions [mm] of the lid screws, the four corners first; none where the flange is too narrow.

    Even pitch along each side, one screw shared at each corner.
    """
    if not takes_screws(rules):
        return ()
    start, along_x, along_y = _screw_spaces(size, rules.flange)
    xs = _spread(-start, size[0] + start, along_x)
    ys = _spread(-start, size[1] + start, along_y)
    corners = [(x, y) for x in (xs[0], xs[-1]) for y in (ys[0], ys[-1])]
    sides_along_x = [(x, y) for y in (ys[0], ys[-1]) for x in xs[1:-1]]
    sides_along_y = [(x, y) for x in (xs[0], xs[-1]) for y in ys[1:-1]]
    return tuple(corners + sides_along_x + sides_along_y)


def _spread(start: float, end: float, spaces: int) -> list[float]:
    """`spaces` + 1 evenly spread positions from `start` to `end` [mm]."""
    return [start + (end - start) * step / spaces for step in range(spaces + 1)]


def _stud_line(length: float) -> list[float]:
    """Stud positions [mm] along one side of the box."""
    inset = min(STUD_INSET, length / 4.0)
    return _spread(inset, length - inset, _spaces(length - 2.0 * inset, STUD_PITCH))


def stud_points(size: Vector) -> tuple[Point, ...]:
    """Plan positions [mm] of the studs between lid and cover plate, inside the lid screws."""
    return tuple((x, y) for x in _stud_line(size[0]) for y in _stud_line(size[1]))


def cover_plate_lacking(top: float, bay: Bay) -> float:
    """How much [mm] is missing between a lid whose top is at `top` [mm] and the bay's top for a cover plate.

    0 where the plate can be made. The plate may use the box's clearance but not the survey's tolerance.
    """
    plate_top = top + STUD_HEIGHT + bay.box.lid_thickness
    lacking = plate_top - (bay.room.top - bay.tolerance)
    return lacking if lacking > 1e-6 else 0.0
