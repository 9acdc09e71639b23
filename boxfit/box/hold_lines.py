"""Where modules may be pressed down, and along which lines one bar would press several of them."""

from collections.abc import Iterator
from dataclasses import dataclass

from boxfit.bay import Block, Vector
from boxfit.layout import PlacedModule, Tier
from boxfit.module import HELD_AT, Module

OPPOSITE = {
    "front": "back",
    "back": "front",
    "left": "right",
    "right": "left",
    "top": "bottom",
    "bottom": "top",
}
LEVEL = 0.01
"""Tops that differ by less [mm] are level."""
ACROSS_TWO = 15.0
"""Strips of two modules that stand at most so far [mm] apart are pressed by one bar."""
MOST_OF_A_SIDE = 0.35
"""A strip takes at most this share [-] of the side it lies on."""


@dataclass(frozen=True)
class Hold:
    """A strip on a module's upper face: a bar that runs along the other axis may press on it.

    `module` counts from 1 in the box; `face` is the module's own at whose edge it lies. Across the bar it
    runs from `low` to `high`, along it from `start` to `stop`, at the level `top` [mm]; `side` is 1 where it
    lies at the module's high edge across the bar, else -1. `room` [mm] is kept clear above the module.
    """

    module: int
    face: str
    across: int
    side: int
    low: float
    high: float
    start: float
    stop: float
    top: float
    room: float


def holds_of(tier: Tier, module: Module, first: int) -> tuple[Hold, ...]:
    """The strips of a tier whose modules count from `first`: two for each, at opposite edges."""
    return tuple(
        hold
        for number, placed in enumerate(tier.modules, start=first)
        for hold in _holds(placed, module, number)
    )


def held_across(placed: PlacedModule, module: Module) -> int:
    """The axis along which the two faces look at which a module is held.

    Where those asked for look up and down, that of the first other pair that does not.
    """
    pairs = (module.held_at, *HELD_AT, ("bottom", "top"))
    faces = placed.stance.faces
    return next(axis for pair in pairs for axis in (0, 1) if faces[axis] in pair)


def _holds(placed: PlacedModule, module: Module, number: int) -> Iterator[Hold]:
    """The two strips of one module."""
    across = held_across(placed, module)
    along = 1 - across
    (low, high), stance = (placed.low, placed.high), placed.stance
    wide = min(module.held_width, MOST_OF_A_SIDE * stance.size[across])
    ends = ((-1, low[across], low[across] + wide), (1, high[across] - wide, high[across]))
    for side, start, end in ends:
        face = stance.faces[across] if side > 0 else OPPOSITE[stance.faces[across]]
        yield Hold(
            number,
            face,
            across,
            side,
            start,
            end,
            low[along],
            high[along],
            high[2],
            stance.room_high[2],
        )


def kept_free(tier: Tier, module: Module) -> tuple[Block, ...]:
    """What no bar of a tier may enter [mm]: bodies, and the room they keep, but for the strips on top."""
    return tuple(block for placed in tier.modules for block in _kept(placed, module))


def _kept(placed: PlacedModule, module: Module) -> Iterator[Block]:
    """Body and rooms of one module."""
    low, high, stance = placed.low, placed.high, placed.stance
    yield Block(low, high)
    for axis in (0, 1):
        if stance.room_low[axis] > 0.0:
            yield Block(_with(low, axis, low[axis] - stance.room_low[axis]), _with(high, axis, low[axis]))
        if stance.room_high[axis] > 0.0:
            yield Block(_with(low, axis, high[axis]), _with(high, axis, high[axis] + stance.room_high[axis]))
    if stance.room_high[2] > 0.0:
        first, second = _holds(placed, module, 0)
        start, end = _with(low, 2, high[2]), _with(high, 2, high[2] + stance.room_high[2])
        yield Block(_with(start, first.across, first.high), _with(end, first.across, second.low))


def _with(point: Vector, axis: int, value: float) -> Vector:
    """A point with another coordinate along one axis."""
    x, y, z = (value if place == axis else old for place, old in enumerate(point))
    return (x, y, z)


@dataclass(frozen=True)
class Line:
    """Strips that one bar presses, all level; across it the bar covers `low` to `high` [mm]."""

    holds: tuple[Hold, ...]

    @property
    def low(self) -> float:
        """Where the outermost strip begins."""
        return min(hold.low for hold in self.holds)

    @property
    def high(self) -> float:
        """Where the outermost strip ends."""
        return max(hold.high for hold in self.holds)

    @property
    def sides(self) -> frozenset[int]:
        """At which edges of their modules the strips lie."""
        return frozenset(hold.side for hold in self.holds)


def lines_of(holds: tuple[Hold, ...]) -> tuple[Line, ...]:
    """Strips that line up, or face each other across a joint, as lines; along x first, lowest first."""
    found: list[list[Hold]] = []
    for hold in sorted(holds, key=lambda one: (-one.across, one.top, one.low, one.start)):
        if found and _joins(found[-1], hold):
            found[-1].append(hold)
        else:
            found.append([hold])
    return tuple(Line(tuple(line)) for line in found)


def _joins(line: list[Hold], hold: Hold) -> bool:
    """Whether a strip lies in the line: beside the others at one edge, or just across a joint."""
    first = line[0]
    if hold.across != first.across or abs(hold.top - first.top) > LEVEL or hold.room != first.room:
        return False
    alike = next((one for one in line if one.side == hold.side), None)
    if alike:
        return abs(hold.low - alike.low) < (alike.high - alike.low) / 2.0
    return hold.side < 0 and 0.0 <= hold.low - first.high <= ACROSS_TWO
