"""Sums of module sides: the only coordinates a packing pushed into one corner can have.

Whole numbers throughout: lengths are counted in thousandths of a millimetre.
"""

from bisect import bisect_right
from collections.abc import Iterable

UNITS_PER_MILLIMETRE = 1000


def units(length: float) -> int:
    """Module side [mm] as whole units, rounded up so that nothing is ever made smaller.

    >>> units(355.0), units(2.5), units(0.0004)
    (355000, 2500, 1)
    """
    scaled = length * UNITS_PER_MILLIMETRE
    nearest = round(scaled)
    return nearest if abs(scaled - nearest) < 1e-3 else int(scaled) + 1


def units_within(length: float) -> int:
    """Room [mm] as whole units, rounded down but for the noise of floating point.

    >>> units_within(356.9999999), units_within(-1.0)
    (357000, -1000)
    """
    scaled = length * UNITS_PER_MILLIMETRE
    nearest = round(scaled)
    return nearest if abs(scaled - nearest) < 2e-2 else int(scaled // 1)


def sums(sides: Iterable[int], most: int) -> list[int]:
    """All sums of the sides, each used any number of times, from 0 up to `most`, ascending.

    >>> sums([8, 3], 12)
    [0, 3, 6, 8, 9, 11, 12]
    """
    distinct = sorted({side for side in sides if 0 < side <= most})
    found = {0}
    for side in distinct:
        frontier = sorted(found)
        while frontier:
            frontier = [total for start in frontier if (total := start + side) <= most and total not in found]
            found.update(frontier)
    return sorted(found)


def floor_to(ascending: list[int], value: int) -> int:
    """Index of the largest entry not above `value`; -1 when there is none.

    >>> floor_to([0, 3, 6, 8], 7)
    2
    """
    return bisect_right(ascending, value) - 1
