"""Where stiffening bars stand, in words for whoever welds them on. [mm]"""

from boxfit.bay import Block
from boxfit.box.outside.wall import Span, walls_of
from boxfit.box.parts import BoxParts
from boxfit.box.retention.barred import bars_of, is_on
from boxfit.box.strip_legs import strip_blocks

LOW_END = ("rear", "right")
"""What the low end of a row along x and along y is called."""


def bar_places(parts: BoxParts) -> tuple[str, ...]:
    """Of each wall and the floor with bars: how many, and where their middles are from one end."""
    found = []
    floor = [bar for bar in bars_of(parts) if bar.along == "down"]
    if floor:
        axis = 0 if floor[0].inwards == "front" else 1
        band = parts.tray.bands[0]
        ends = (band.low[axis], band.high[axis])
        found.append(_row("floor", [strip_blocks(bar)[0] for bar in floor], axis, ends))
    for wall in walls_of(parts):
        bars = [strip_blocks(bar)[0] for bar in bars_of(parts) if is_on(bar, wall)]
        if bars:
            found.append(_row(f"{wall.looks} wall", bars, 1 - wall.axis, wall.corners))
    return tuple(found)


def _row(where: str, blocks: list[Block], axis: int, ends: Span) -> str:
    """One row of bars."""
    middles = sorted((block.low[axis] + block.high[axis]) / 2.0 - ends[0] for block in blocks)
    told = ", ".join(f"{middle:.1f}" for middle in middles)
    return f"{where} {len(blocks)}, middles {told} mm from its {LOW_END[axis]} end"
