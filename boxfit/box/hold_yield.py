"""Where hold-downs give way: bars along walls end short over a module beside what comes in through a wall."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from boxfit.bay import Bay, Block
from boxfit.box.hold_down_bars import BESIDE_WALL
from boxfit.box.hold_down_place import Place, meets, place_of, placed
from boxfit.box.hold_down_section import PRESSED, TALLEST, section_of
from boxfit.box.hold_lines import Hold, holds_of
from boxfit.layout import PlacedBox
from boxfit.module import Module

LEAST_HELD = 0.801
"""A bar lies over at least this share [-] of a strip's length: our own choice, just above the judge's."""
PAST = 5.0
"""How far [mm] a bar that no wall runs along may reach past its strips, across them: its section's."""


@dataclass(frozen=True)
class Yielding:
    """Where a bar goes over a module's edge [mm]: along `axis` it may end `spare` short, at one end only."""

    block: Block
    axis: int
    spare: float

    @property
    def kept(self) -> Block:
        """What it needs in any case."""
        return _cut(self.block, self.axis, self.block.low[self.axis], self.block.high[self.axis], self.spare)

    def beside(self, taken: Sequence[Block]) -> "Yielding":
        """The same once other things stand there; what it gave way to one of them it gives no more."""
        met = [block for block in taken if meets(self.block, block)]
        if not met:
            return self
        low, high = _longest(self.block, self.axis, met)
        return Yielding(_cut(self.block, self.axis, low, high, 0.0), self.axis, 0.0)


def shortened(hold: Hold, taken: Sequence[Block], past: float) -> Hold:
    """A strip without the end over which something stands; the whole strip where too little were left.

    A bar reaches `past` [mm] the strip towards its wall.
    """
    block, along = _over(hold, past), 1 - hold.across
    met = [other for other in taken if meets(block, other)]
    low, high = _longest(block, along, met)
    enough = high - low >= LEAST_HELD * (hold.stop - hold.start) - 1e-6
    return replace(hold, start=low, stop=high) if met and enough else hold


def yielding_of(bay: Bay, box: PlacedBox, module: Module) -> tuple[Yielding, ...]:
    """Where bars go in a box, and how far they give way; a bar from wall to wall does not."""
    section, rules, found, first = section_of(bay.box), bay.box, [], 1
    if section is None:
        return ()
    reach = rules.liner + rules.gap
    for number, tier in enumerate(box.tiers):
        place = place_of(box, rules, number, ())
        for hold in holds_of(tier, module, first):
            if _beside_wall(hold, place, reach):
                spare = (1.0 - LEAST_HELD) * (hold.stop - hold.start)
                found.append(Yielding(_over(hold, reach - section.block), 1 - hold.across, spare))
            else:
                wide = replace(hold, low=hold.low - PAST, high=hold.high + PAST)
                whole = replace(wide, start=hold.start - reach, stop=hold.stop + reach)
                found.append(Yielding(_over(whole, 0.0), 1 - hold.across, 0.0))
        first += len(tier.modules)
    return tuple(found)


def _beside_wall(hold: Hold, place: Place, reach: float) -> bool:
    """Whether a wall runs along a strip, near enough for a bar on it."""
    edge = hold.low if hold.side < 0 else hold.high
    wall = place.wall(hold.across, hold.side, edge, (hold.start, hold.stop))
    return wall is not None and abs(edge - wall) <= reach + BESIDE_WALL + 1e-6


def _over(hold: Hold, past: float) -> Block:
    """What a bar over a strip may fill, up to its greatest height."""
    low, high = hold.low - (past if hold.side < 0 else 0.0), hold.high + (past if hold.side > 0 else 0.0)
    corners = (low, hold.start, hold.top), (high, hold.stop, hold.top + PRESSED + TALLEST)
    return Block(placed(hold.across, corners[0]), placed(hold.across, corners[1]))


def _longest(block: Block, axis: int, met: Sequence[Block]) -> tuple[float, float]:
    """From where to where the longest piece runs that is left along an axis."""
    return max(_pieces(block, axis, met), key=lambda piece: (piece[1] - piece[0], piece))


def _pieces(block: Block, axis: int, met: Sequence[Block]) -> Iterator[tuple[float, float]]:
    start, end = block.low[axis], block.high[axis]
    for low, high in sorted((other.low[axis], other.high[axis]) for other in met):
        yield start, max(min(low, end), start)
        start = max(start, min(high, end))
    yield start, end


def _cut(block: Block, axis: int, low: float, high: float, by: float) -> Block:
    """The block with other ends along an axis, both moved in [mm]."""
    (x, y, z), (a, b, c) = block.low, block.high
    if axis == 0:
        return Block((low + by, y, z), (high - by, b, c))
    return Block((x, low + by, z), (a, high - by, c))
