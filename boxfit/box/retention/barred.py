"""Walls and floors of a box with the stiffening bars that are on them, as figures. Lengths [mm]."""

from itertools import pairwise
from typing import Final

from boxfit.bay import Block
from boxfit.box.fitting import Strip
from boxfit.box.outside.wall import Span, Wall
from boxfit.box.parts import BoxParts, Tray
from boxfit.box.strip_legs import strip_blocks
from boxfit.retention.panel import Panel
from boxfit.retention.stiffened import Stiffened

KIND: Final = "stiffening bar"
ON_WALLS, UNDER_FLOOR = "box.stiffening_depth", "box.stiffening_floor_depth"
"""The keys that make bars deeper."""
CLOSE = 0.01


def corner_of(tray: Tray) -> float:
    """From the outside of a floor or wall to where the flat of the sheet beside it begins."""
    return tray.thickness + (tray.floor_radius or 0.0)


def barred_wall(parts: BoxParts, wall: Wall, panel: Panel) -> Stiffened | None:
    """A wall with the bars that stand on it; None where there are none."""
    found = [strip for strip in bars_of(parts) if is_on(strip, wall)]
    blocks = [strip_blocks(strip)[0] for strip in found]
    if not blocks:
        return None
    past = max(corner_of(parts.tray), *(wall.levels[1] - block.high[2] for block in blocks))
    span = wall.levels[1] - wall.levels[0]
    return stiffened(panel, (found[0], blocks), (1 - wall.axis, wall.corners), span, past, ON_WALLS)


def barred_floor(parts: BoxParts, panel: Panel) -> Stiffened | None:
    """The floor with the bars under it; None where there are none."""
    found = [strip for strip in bars_of(parts) if strip.along == "down"]
    blocks = [strip_blocks(strip)[0] for strip in found]
    if not blocks:
        return None
    floor = parts.tray.bands[0]
    axis = long_axis(panel.size)
    ends = (floor.low[axis], floor.high[axis])
    past, span = corner_of(parts.tray), panel.size[1 - axis]
    return stiffened(panel, (found[0], blocks), (axis, ends), span, past, UNDER_FLOOR)


def long_axis(size: tuple[float, float]) -> int:
    """Along which of x and y a floor of this size is longer: bars lie across it, one behind the other.

    >>> long_axis((300.0, 200.0)), long_axis((200.0, 300.0))
    (0, 1)
    """
    return 0 if size[0] >= size[1] else 1


def stiffened(
    panel: Panel, bars: tuple[Strip, list[Block]], along: tuple[int, Span], span: float, past: float, key: str
) -> Stiffened:
    """A panel with bars, given one of them and the blocks of all; `along` is axis and ends of the row."""
    one, blocks = bars
    axis, (low, high) = along
    middles = sorted((block.low[axis] + block.high[axis]) / 2.0 for block in blocks)
    bays = tuple(after - before for before, after in pairwise((low, *middles, high)))
    length = min(leg for _, leg in one.legs)
    return Stiffened(panel, span, bays, one.width, one.thickness, length, past, key)


def bars_of(parts: BoxParts) -> list[Strip]:
    """The stiffening bars of a box."""
    return [strip for strip in parts.fittings.strips if strip.kind == KIND]


def is_on(strip: Strip, wall: Wall) -> bool:
    """Whether a bar stands on just this wall."""
    if strip.along != wall.looks:
        return False
    block = strip_blocks(strip)[0]
    across = 1 - wall.axis
    foot = block.low[wall.axis] if wall.sign > 0 else block.high[wall.axis]
    middle = [(low + high) / 2.0 for low, high in zip(block.low, block.high, strict=True)]
    beside = wall.corners[0] < middle[across] < wall.corners[1]
    return abs(foot - wall.plane) < CLOSE and beside and wall.levels[0] < middle[2] < wall.levels[1]
