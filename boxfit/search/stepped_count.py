"""How many modules stepped outlines hold, many at once: by blocks, and at most."""

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from boxfit.search.blocks import BlockTable, Footprint, Placement, moved
from boxfit.search.raster import sums
from boxfit.search.stepped_outline import Outlines
from boxfit.search.stepped_shape import Clad

Whole = NDArray[np.int64]
Block = tuple[Whole, Whole, Whole, Whole]
"""Rectangles [units]: low x, high x, low y, high y."""


@lru_cache(maxsize=64)
def block_table(width: int, depth: int, reserves: tuple[Footprint, ...]) -> BlockTable:
    """Counts up to width x depth [units], made once."""
    return BlockTable(width, depth, reserves)


def table_for(found: Outlines, clad: Clad) -> BlockTable:
    """Counts for all rectangles within the outlines."""
    width = int((found.cuts[:, 3] - found.cuts[:, 0]).max())
    depth = int(found.highs.max() - found.lows.min())
    return block_table(width, depth, clad.reserves)


def counts(found: Outlines, clad: Clad) -> Whole:
    """Modules by blocks in each outline, parted into rectangles in the better of two ways."""
    if not len(found):
        return np.zeros(0, dtype=np.int64)
    table = table_for(found, clad)
    return np.maximum(*(sum_of(table, way) for way in ways(found, clad)))


def sum_of(table: BlockTable, blocks: list[Block]) -> Whole:
    """Modules in all the blocks of one way of parting."""
    across, along = np.array(table.across), np.array(table.along)
    total = np.zeros(len(blocks[0][0]), dtype=np.int64)
    for rear, front, low, high in blocks:
        column = np.searchsorted(across, front - rear, side="right") - 1
        row = np.searchsorted(along, high - low, side="right") - 1
        held = table.counts[np.maximum(column, 0), np.maximum(row, 0)]
        total += np.where((column >= 0) & (row >= 0), held, 0)
    return total


def placements(found: Outlines, place: int, clad: Clad) -> list[Placement]:
    """The placement behind `counts` for one outline."""
    one = found.only(np.array([place]))
    table = table_for(one, clad)
    best = max(ways(one, clad), key=lambda way: int(sum_of(table, way)[0]))
    laid: list[Placement] = []
    for block in best:
        rear, front, low, high = (int(end[0]) for end in block)
        if front > rear and high > low:
            laid += moved(table.place(front - rear, high - low), rear, low)
    return sorted(laid)


def ways(found: Outlines, clad: Clad) -> tuple[list[Block], list[Block]]:
    """Each outline's inside parted into slabs, and into a core all along and what stands out beside it."""
    lows, highs = found.lows + clad.before[1], found.highs - clad.after[1]
    ends = _ends(found, clad, (found.lows, -found.highs))
    slabs = [(*ends[k], lows[:, k], highs[:, k]) for k in range(3)]
    bottom, top = lows.max(axis=1), highs.min(axis=1)
    core: Block = (found.cuts[:, 0] + clad.before[0], found.cuts[:, 3] - clad.after[0], bottom, top)
    lacking = bottom > top
    above, below = _ends(found, clad, (-found.highs,)), _ends(found, clad, (found.lows,))
    beside: list[Block] = [(*above[k], top, np.where(lacking, top, highs[:, k])) for k in range(3)]
    beside += [(*below[k], np.where(lacking, bottom, lows[:, k]), bottom) for k in range(3)]
    return slabs, [core, *beside]


def _ends(found: Outlines, clad: Clad, sides: tuple[Whole, ...]) -> list[tuple[Whole, Whole]]:
    """From where to where along x each slab takes modules; beside a narrower slab it keeps off the wall.

    What stands out on any of the given sides decides which of two neighbours is the narrower one.
    """
    first, last = found.cuts[:, 0] + clad.before[0], found.cuts[:, 3] - clad.after[0]
    rears, fronts = [first], []
    for k in (0, 1):
        cut = found.cuts[:, k + 1]
        one, other = np.zeros(len(cut), dtype=bool), np.zeros(len(cut), dtype=bool)
        for lows in sides:
            one |= lows[:, k] < lows[:, k + 1]
            other |= lows[:, k + 1] < lows[:, k]
        before, after = cut - clad.after[0], cut + clad.before[0]
        fronts.append(np.minimum(np.where(one, before, np.where(other, after, cut)), last))
        rears.append(np.maximum(np.where(other, after, np.where(one, before, cut)), first))
    fronts[0] = np.minimum(fronts[0], found.cuts[:, 2] - clad.after[0])
    rears[2] = np.maximum(rears[2], found.cuts[:, 1] + clad.before[0])
    return list(zip(rears, [*fronts, last], strict=True))


def bounds(found: Outlines, clad: Clad) -> Whole:
    """No more modules than this in each outline: what sums of sides across can use, over all its length."""
    if not len(found):
        return np.zeros(0, dtype=np.int64)
    walls = clad.before[1] + clad.after[1]
    depths = np.maximum(found.highs - found.lows - walls, 0)
    usable = np.array(sums((b for _, b in clad.reserves), int(depths.max(initial=0))))
    used = usable[np.searchsorted(usable, depths, side="right") - 1]
    ends = found.cuts.copy()
    ends[:, 0] += clad.before[0]
    ends[:, 3] -= clad.after[0]
    widths = np.maximum(np.diff(np.clip(ends, ends[:, :1], ends[:, 3:]), axis=1), 0)
    least = min(a * b for a, b in clad.reserves)
    return np.asarray((widths * used).sum(axis=1) // least)
