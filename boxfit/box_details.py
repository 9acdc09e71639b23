"""Details of a box that follow from its outside size and the workshop's rules alone.

box/ makes them and weight/ weighs them; both ask here, so that they can never differ. Levels are counted
from the outside of the floor, points as the outline they go round. Figures are common practice, no source,
unless said.
"""

from dataclasses import dataclass
from itertools import pairwise
from math import ceil, dist

from boxfit.bay import BoxRules, Point
from boxfit.box_shape import grown, rectangles
from boxfit.standards.holes import clearance_hole
from boxfit.surface import Outline

FIT = 0.5
"""Air [mm] each side of a shelf, beside a ledge and above the wall liner, so that parts drop in."""
LEDGE_HEIGHT = 10.0
"""Height [mm] of the bar a shelf rests on, where the headroom below it allows."""
LEAST_LEDGE = 1.0
"""A bar thinner or lower than this [mm] carries nothing."""
LID_HOLE = clearance_hole(5.0)
"""Hole [mm] in the lid for an M5 screw: ISO 273 medium."""
TRAY_HOLE = 7.0
"""Hole [mm] in the flange for an M5 rivet-nut, from memory."""
SCREW_PITCH = 80.0
"""Lid screws stand at most this far [mm] apart, and not under 60 where the side is long enough."""
SCREW_CORNER = 15.0
"""The first lid screw is at most this far [mm] from the corner."""
STUD_DIAMETER = 10.0
STUD_HEIGHT = 4.0
"""Height [mm] of the studs' collars under the cover plate: clears the lid screws, washer 1, head 2.75."""
STUD_INSET = 20.0
STUD_PITCH = 300.0
STUDS_APART = 60.0
"""Studs on a stepped box stand at least this far [mm] apart."""
SCREWS_APART = 20.0
"""Screws round a stepped box stand at least this far [mm] apart."""


@dataclass(frozen=True)
class Ledge:
    """Section [mm] of the bar that carries a shelf, all round inside the walls."""

    width: float
    height: float


def bend_radius(rules: BoxRules) -> float:
    """Inside radius [mm] of every fold; 0 where nothing is folded."""
    return rules.bend_radius if rules.process == "folded" else 0.0


def flange_radius(rules: BoxRules) -> float:
    """Inside radius [mm] between wall and flange; never more than the flange has room for."""
    return min(bend_radius(rules), rules.flange)


def rib_depth(rules: BoxRules) -> float:
    """How deep [mm] the ribs of a printed box are, in the liner's place; 0 where it has a liner instead."""
    return rules.liner if rules.process == "printed" else 0.0


def shelf_inset(rules: BoxRules) -> float:
    """From the outside of the walls to the edge of a shelf [mm]: it drops in between walls, or their ribs."""
    return rules.thickness + rib_depth(rules) + FIT


def least_ledge(rules: BoxRules) -> float:
    """The narrowest bar [mm] that carries a shelf: past ribs and the air beside it where there are ribs."""
    return LEAST_LEDGE + (rib_depth(rules) + FIT if rib_depth(rules) else 0.0)


def ledge(rules: BoxRules) -> Ledge | None:
    """The bar under a shelf, within the headroom; None where too small.

    It takes the liner's depth and half the gap, so that modules of the tier below are still lowered past it.
    """
    bar = Ledge(rules.liner + rules.gap / 2.0, min(LEDGE_HEIGHT, rules.headroom))
    return bar if bar.width >= least_ledge(rules) and bar.height >= LEAST_LEDGE else None


def wall_liner_spans(
    rim: float, levels: tuple[float, ...], rules: BoxRules, floor_radius: float
) -> tuple[tuple[int, tuple[float, float]], ...]:
    """Which tiers, from 0, have wall liner, and from where to where [mm] it runs, between ledges and shelves.

    `rim` and `levels` (what each tier stands on) [mm] are above the outside of the floor. The lowest
    sheets stand clear of the floor liner and of the bend, whose inside radius is `floor_radius` [mm].
    None where ribs take the liner's place.
    """
    if rules.liner == 0.0 or rib_depth(rules):
        return ()
    bar = ledge(rules)
    below_shelf = rules.thickness + (bar.height if bar else 0.0)
    bottoms = (rules.thickness + max(rules.liner, floor_radius), *levels[1:])
    tops = (*(level - below_shelf for level in levels[1:]), rim - FIT)
    spans = enumerate(zip(bottoms, tops, strict=True))
    return tuple((tier, (bottom, top)) for tier, (bottom, top) in spans if top > bottom)


def least_flange(rules: BoxRules) -> float:
    """The narrowest flange [mm] that takes lid screws on its centre line.

    Hole to edge at least 1.5 t, hole to bend at least 2 t + r (common practice, no source). Holds for
    sheet up to 7 mm.
    """
    in_tray = TRAY_HOLE + 2.0 * (2.0 * rules.thickness + bend_radius(rules))
    in_lid = LID_HOLE + 2.0 * 1.5 * rules.lid_thickness
    return max(in_tray, in_lid)


def least_side(rules: BoxRules) -> float:
    """The shortest side [mm] between two corners: two bends where it is folded, else the sheet itself.

    Common practice, no source.
    """
    return 2.0 * (bend_radius(rules) + rules.thickness) if rules.process == "folded" else rules.thickness


def takes_screws(rules: BoxRules) -> bool:
    """Whether the flange is wide enough for lid screws."""
    return rules.flange >= least_flange(rules) - 1e-9


def least_inset(rules: BoxRules) -> float:
    """The least distance [mm] of a screw from the flange's edge: hole to edge 1.5 t in flange and lid."""
    return max(TRAY_HOLE / 2.0 + 1.5 * rules.thickness, LID_HOLE / 2.0 + 1.5 * rules.lid_thickness)


def screw_inset(rules: BoxRules) -> float:
    """Distance [mm] of the screws from the flange's edge: its centre line, nearer the edge if wide.

    A gasket, which lies inside of them, moves them as far outwards as it needs and the edge allows.
    """
    usual = min(rules.flange / 2.0, SCREW_CORNER)
    if rules.gasket_pressed == 0.0:
        return usual
    beside = rules.flange - flange_radius(rules) - rules.gasket_width - TRAY_HOLE / 2.0
    return min(usual, max(beside, least_inset(rules)))


def _spaces(length: float, pitch: float) -> int:
    """Number of equal spaces of at most `pitch` [mm] along `length` [mm]; at least one.

    >>> _spaces(160.0, 80.0), _spaces(161.0, 80.0), _spaces(40.0, 80.0)
    (2, 3, 1)
    """
    return max(1, ceil(length / pitch - 1e-9))


def screw_count(size: Point, rules: BoxRules) -> int:
    """Number of lid screws of a rectangular box of outside `size` [mm] in plan."""
    if not takes_screws(rules):
        return 0
    past = rules.flange - screw_inset(rules)
    along_x, along_y = (_spaces(side + 2.0 * past, SCREW_PITCH) for side in size)
    return 2 * (along_x + along_y)


def screw_points(outline: Outline, rules: BoxRules) -> tuple[Point, ...]:
    """Plan positions [mm] of the lid screws round the top outline, the corners first.

    None where the flange is too narrow. Even pitch along each side, one screw shared at each corner. Round a
    stepped box a corner too near to another goes without, and so does what would stand too near across a gap.
    """
    if not takes_screws(rules):
        return ()
    line = grown(outline, rules.flange - screw_inset(rules))
    if len(outline) == 4:
        return _round_rectangle(line)
    kept: list[Point] = []
    for corner in sorted(line, key=lambda corner: corner in reflex_corners(line)):
        _keep(kept, corner, SCREWS_APART)
    corners = frozenset(kept)
    for run in _runs(line, corners):
        for point in _even(run):
            _keep(kept, point, SCREWS_APART)
    return tuple(kept)


def reflex_corners(outline: Outline) -> frozenset[Point]:
    """The corners at which a counter-clockwise outline turns inwards."""
    found = set()
    for before, here, after in zip(
        outline[-1:] + outline[:-1], outline, outline[1:] + outline[:1], strict=True
    ):
        along, then = (here[0] - before[0], here[1] - before[1]), (after[0] - here[0], after[1] - here[1])
        if along[0] * then[1] < along[1] * then[0]:
            found.add(here)
    return frozenset(found)


def _keep(kept: list[Point], point: Point, apart: float) -> None:
    """Adds a point that stands so far [mm] from all others."""
    if all(dist(point, other) >= apart for other in kept):
        kept.append(point)


def _runs(line: Outline, corners: frozenset[Point]) -> list[list[Point]]:
    """The line from one corner with a screw to the next; corners without one are passed on the way."""
    first = next(place for place, corner in enumerate(line) if corner in corners)
    runs: list[list[Point]] = []
    run = [line[first]]
    for corner in (*line[first + 1 :], *line[: first + 1]):
        run.append(corner)
        if corner in corners:
            runs.append(run)
            run = [corner]
    return runs


def _even(run: list[Point]) -> list[Point]:
    """Points evenly spread along the way from its first to its last corner, both left out."""
    sides = list(pairwise(run))
    length = sum(dist(*side) for side in sides)
    spaces = _spaces(length, SCREW_PITCH)
    found: list[Point] = []
    passed = 0.0
    for start, end in sides:
        side = dist(start, end)
        while len(found) < spaces - 1 and (at := length * (len(found) + 1) / spaces) <= passed + side:
            part = (at - passed) / side
            found.append((start[0] + part * (end[0] - start[0]), start[1] + part * (end[1] - start[1])))
        passed += side
    return found


def _round_rectangle(line: Outline) -> tuple[Point, ...]:
    """Screws round a rectangle: corners, sides along x, sides along y."""
    (low_x, low_y), (high_x, high_y) = min(line), max(line)
    xs = _spread(low_x, high_x, _spaces(high_x - low_x, SCREW_PITCH))
    ys = _spread(low_y, high_y, _spaces(high_y - low_y, SCREW_PITCH))
    corners = [(x, y) for x in (xs[0], xs[-1]) for y in (ys[0], ys[-1])]
    sides_along_x = [(x, y) for y in (ys[0], ys[-1]) for x in xs[1:-1]]
    sides_along_y = [(x, y) for x in (xs[0], xs[-1]) for y in ys[1:-1]]
    return tuple(corners + sides_along_x + sides_along_y)


def _spread(start: float, end: float, spaces: int) -> list[float]:
    """`spaces` + 1 evenly spread positions from `start` to `end` [mm]."""
    return [start + (end - start) * step / spaces for step in range(spaces + 1)]


def _stud_line(low: float, high: float) -> list[float]:
    """Stud positions [mm] along one side of the box."""
    length = high - low
    inset = min(STUD_INSET, length / 4.0)
    return [low + at for at in _spread(inset, length - inset, _spaces(length - 2.0 * inset, STUD_PITCH))]


def stud_count(size: Point) -> int:
    """Number of studs on a rectangular box of outside `size` [mm] in plan."""
    return len(_stud_line(0.0, size[0])) * len(_stud_line(0.0, size[1]))


def stud_points(outline: Outline) -> tuple[Point, ...]:
    """Plan positions [mm] of the studs between lid and cover plate, inside the lid screws.

    Rows over each rectangle that the top outline is made of; where there are several, none near another.
    """
    found: list[Point] = []
    apart = 0.0 if len(outline) == 4 else STUDS_APART
    for low, high in rectangles(outline):
        for point in ((x, y) for x in _stud_line(low[0], high[0]) for y in _stud_line(low[1], high[1])):
            _keep(found, point, apart)
    return tuple(found)
