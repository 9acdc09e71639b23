"""How pieces of a printed part are keyed: dovetails hold level plates, walls lap by half their thickness.

Every upright cut runs straight up through the whole part, and a level cut laps the walls all round. So every
piece is lowered into its place from above. Figures here: common practice, no source, unless said.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise

from boxfit.bay import Block, Point, Vector
from boxfit.box.parts import Plate
from boxfit.box_shape import grown
from boxfit.surface import Outline
from boxfit.workshop import PrintShop

KEY_DEPTH = 8.0
"""How far [mm] a dovetail reaches into the next piece."""
KEY_NECK = 8.0
KEY_HEAD = 12.0
"""Width [mm] of a dovetail where it leaves its piece, and at its end."""
PAST = 0.1
"""How much farther [mm] than its air a lap reaches past what it laps."""
KEY_PITCH = 70.0
"""Dovetails along a joint stand about this far [mm] apart."""
LEAST_LAP = 4.0
"""Walls lap at least this far [mm] to each side of a cut, else one and a half times their thickness."""
AROUND = 2.0
"""Material left [mm] round a hole or a key."""
Span = tuple[float, float]
"""From where to where [mm]."""


@dataclass(frozen=True)
class Run:
    """Where a cut stands off its place: from `start` to `end` along it, by `shift` [mm] across it."""

    start: float
    end: float
    shift: float


@dataclass(frozen=True)
class UprightCut:
    """A cut across `axis`, 0 for x or 1 for y, at one place of it [mm]; `keys` are the middles of dovetails.

    They belong to the piece at the low side, as all air of the joint is taken off the other piece.
    """

    axis: int
    at: float
    runs: tuple[Run, ...]
    keys: tuple[float, ...]


@dataclass(frozen=True)
class LevelCut:
    """A cut across z: inside `inner`, half way through the walls, it lies `lap` [mm] deeper, else higher."""

    at: float
    lap: float
    inner: Outline


@dataclass(frozen=True)
class Division:
    """All cuts of a part, in the order of their places; `joint` [mm] of air stays between its pieces.

    `bed` [mm] is the printer's, turned as the pieces lie on it.
    """

    upright: tuple[UprightCut, ...]
    level: tuple[LevelCut, ...]
    joint: float
    bed: Vector

    @property
    def laps(self) -> bool:
        """Whether walls that are cut lap."""
        return any(cut.runs for cut in self.upright) or any(cut.lap for cut in self.level)


@dataclass(frozen=True)
class Ring:
    """A level plate that dovetails may hold: all within an outline but its hole, which may be none [mm]."""

    outline: Outline
    hole: Outline = ()


@dataclass(frozen=True)
class ToCut:
    """What of a part its cuts must know, in the car [mm].

    `walls` are the outside of upright walls of one `thickness`, with ribs and ledges up to `inwards` inside
    them; `stops` are the blocks round holes, studs and cutouts, `ribs` what had better stay whole. `levels`
    are heights that no level cut may touch.
    """

    low: Vector
    high: Vector
    plates: tuple[Ring, ...]
    walls: tuple[Plate, ...] = ()
    thickness: float = 0.0
    inwards: float = 0.0
    stops: tuple[Block, ...] = ()
    ribs: tuple[Block, ...] = ()
    levels: tuple[Span, ...] = ()

    @property
    def size(self) -> Vector:
        """Of the extent [mm]."""
        x, y, z = (high - low for low, high in zip(self.low, self.high, strict=True))
        return (x, y, z)


def lap_of(thickness: float, shop: PrintShop) -> float:
    """How far [mm] walls of a thickness [mm] lap to each side of a cut; 0 where half of one is too thin.

    >>> lap_of(4.0, PrintShop()), lap_of(2.5, PrintShop())
    (6.0, 0.0)
    """
    half = (thickness - shop.joint) / 2.0
    return max(LEAST_LAP, 1.5 * thickness) if half >= shop.least_wall - 1e-9 else 0.0


def sides(outline: Outline, axis: int) -> Iterator[tuple[Point, Point]]:
    """The sides of an outline that run along an axis, 0 or 1."""
    for one, other in pairwise((*outline, *outline[:1])):
        if one[1 - axis] == other[1 - axis]:
            yield one, other


def inwards(one: Point, other: Point, axis: int) -> float:
    """1 where the inside lies to the high side of a side that runs along an axis, else -1.

    Counter-clockwise, the inside lies to the left of the way.
    """
    return 1.0 if (other[axis] > one[axis]) == (axis == 0) else -1.0


def runs(part: ToCut, axis: int, at: float, lap: float, joint: float) -> tuple[Run, ...]:
    """The laps of an upright cut: a wall's outside half runs on past it, the inside half ends before it."""
    if not lap:
        return ()
    half, deep = (part.thickness - joint) / 2.0, part.thickness + part.inwards
    # past both faces by more than the air, so that no face of the part lies along the cut or its air
    past = joint + PAST
    strips: dict[Span, tuple[Run, Run]] = {}
    for wall in part.walls:
        for one, other in sides(wall.outline, axis):
            if min(one[axis], other[axis]) < at - lap and at + lap < max(one[axis], other[axis]):
                face, way = one[1 - axis], inwards(one, other, axis)
                outside, middle, inside = face - way * past, face + way * half, face + way * (deep + past)
                strip = (min(outside, inside), max(outside, inside))
                strips[strip] = (_run(outside, middle, lap), _run(middle, inside, -lap))
    found: list[Run] = []
    for (start, end), pair in sorted(strips.items()):
        alone = all(end <= low or high <= start or (low, high) == (start, end) for low, high in strips)
        found += pair if alone else ()
    return tuple(sorted(found, key=lambda run: run.start))


def _run(one: float, other: float, shift: float) -> Run:
    """A run between two places in either order."""
    return Run(min(one, other), max(one, other), shift)


def keys(part: ToCut, axis: int, at: float, crossed: tuple[float, ...], lap: float) -> tuple[float, ...]:
    """The middles [mm] of the dovetails along an upright cut, clear of holes and of the cuts it `crossed`."""
    wide = KEY_HEAD / 2.0 + AROUND + 1.0
    reach = max(KEY_DEPTH, lap) + AROUND
    across = (at - AROUND, at + KEY_DEPTH + AROUND)
    shut = [(cut - reach - wide, cut + reach + wide) for cut in crossed]
    for stop in part.stops:
        if stop.low[axis] < across[1] + AROUND and across[0] - AROUND < stop.high[axis]:
            shut.append((stop.low[1 - axis] - wide, stop.high[1 - axis] + wide))
    found: list[float] = []
    for ring in part.plates:
        for start, end in _free(ring, axis, across):
            for low, high in without([(start + wide, end - wide)], shut):
                count = max(1, round((high - low + 2.0 * wide) / KEY_PITCH))
                found += [low + (high - low) * (number + 0.5) / count for number in range(count)]
    return tuple(sorted(found))


def _free(ring: Ring, axis: int, across: Span) -> list[Span]:
    """Where [mm] along a cut a plate is whole all the way across the cut and its keys."""
    corners = {corner[axis] for corner in (*ring.outline, *ring.hole)}
    lines = {*across, *(edge + side for edge in corners for side in (-1e-3, 1e-3))}
    free: list[Span] | None = None
    for line in sorted(line for line in lines if across[0] <= line <= across[1]):
        solid = without(spans_at(ring.outline, axis, line), spans_at(ring.hole, axis, line))
        gone = without([(-1e9, 1e9)], solid)
        free = solid if free is None else without(free, gone)
    return free or []


def spans_at(outline: Outline, axis: int, line: float) -> list[Span]:
    """From where to where [mm] an outline encloses the line across an axis, 0 or 1, at a place of it.

    >>> spans_at(((0, 0), (2, 0), (2, 1), (1, 1), (1, 3), (0, 3)), 0, 0.5)
    [(0, 3)]
    """
    crossed = sorted(
        one[1 - axis]
        for one, other in sides(outline, axis)
        if min(one[axis], other[axis]) < line < max(one[axis], other[axis])
    )
    return list(zip(crossed[::2], crossed[1::2], strict=True))


def without(spans: list[Span], shut: Iterable[Span]) -> list[Span]:
    """What is left of spans.

    >>> without([(0.0, 10.0)], [(2.0, 3.0), (9.0, 12.0)])
    [(0.0, 2.0), (3.0, 9.0)]
    """
    left = list(spans)
    for low, high in shut:
        cut = [pair for start, end in left for pair in ((start, min(end, low)), (max(start, high), end))]
        left = [(start, end) for start, end in cut if end > start]
    return left


def level_cut(part: ToCut, at: float, lap: float, joint: float) -> LevelCut:
    """A level cut lapped through the walls it meets; flat where there are none."""
    met = [wall for wall in part.walls if wall.bottom < at - lap and at + lap < wall.top]
    if not lap or not met:
        return LevelCut(at, 0.0, ())
    return LevelCut(at, lap, grown(met[0].outline, -(part.thickness - joint) / 2.0))
