"""Equivalent plans: the smallest whole numbers with the same fitting rows as the real millimetres.

Two plans are equivalent when the same numbers of long and short sides fit in a row along either side of
the container; they then hold the same layouts (Dowsland 1984, from memory; Martins and Dell 2008 use it
throughout). Small numbers make the exact search short and its bounds sharp.
"""

from dataclasses import dataclass
from math import gcd

import numpy as np
from numpy.typing import NDArray

LARGEST = 64
Whole = NDArray[np.int64]


@dataclass(frozen=True)
class Plan:
    """A container width x depth for rectangles long x short, both turns allowed, whole numbers."""

    width: int
    depth: int
    long: int
    short: int

    @property
    def area_bound(self) -> int:
        """No more rectangles than the area holds."""
        return self.width * self.depth // (self.long * self.short)


def _rows(length: int, long: int, short: int) -> tuple[Whole, Whole]:
    """For each number of long sides in a row, and that number, the most short sides beside them."""
    longs = np.arange(length // long + 1)
    return longs, (length - longs * long) // short


def _reduced_length(rows: tuple[Whole, Whole], long: Whole, short: Whole) -> Whole:
    """The shortest whole length in which exactly the same rows fit, for each pair of sides; 0 for none."""
    longs, shorts = rows
    fitting = (np.outer(long, longs) + np.outer(short, shorts)).max(axis=1)
    too_long = np.minimum(
        (np.outer(long, longs) + np.outer(short, shorts + 1)).min(axis=1), long * (longs[-1] + 1)
    )
    return np.where(fitting < too_long, fitting, 0)


def _small_sides() -> tuple[Whole, Whole]:
    """Every pair of small sides, long at least short, without a common divisor."""
    pairs = [(a, b) for a in range(1, LARGEST) for b in range(1, a + 1) if gcd(a, b) == 1]
    long, short = np.array(pairs).T
    return long, short


SMALL_LONG, SMALL_SHORT = _small_sides()


def equivalents(plan: Plan) -> list[Plan]:
    """Equivalent plans in small whole numbers, smallest first; the plan itself over its gcd is among them.

    >>> equivalents(Plan(50, 36, 11, 7))[0]
    Plan(width=22, depth=16, long=5, short=3)
    """
    across = _rows(plan.width, plan.long, plan.short)
    along = _rows(plan.depth, plan.long, plan.short)
    divisor = gcd(plan.long, plan.short)
    long = np.append(SMALL_LONG, plan.long // divisor)
    short = np.append(SMALL_SHORT, plan.short // divisor)
    width, depth = _reduced_length(across, long, short), _reduced_length(along, long, short)
    same = (width > 0) & (depth > 0)
    sizes = np.stack([width, depth, long, short])[:, same].T.tolist()
    found = {Plan(*size) for size in sizes}
    return sorted(found, key=lambda p: (p.width * p.depth, p.width, p.long, p.short))


def barnes_bound(plan: Plan) -> int:
    """Upper bound from the waste that bars of 1 x long and 1 x short must leave (Barnes 1979, from memory).

    >>> barnes_bound(Plan(32, 22, 5, 4)), barnes_bound(Plan(153, 100, 24, 7))
    (35, 90)
    """

    def bar_waste(side: int) -> int:
        r, s = plan.width % side, plan.depth % side
        return min(r * s, (side - r) * (side - s))

    area = plan.width * plan.depth
    cell = plan.long * plan.short
    waste = max(bar_waste(plan.long), bar_waste(plan.short))
    least = waste + (area - waste) % cell
    return (area - least) // cell


def upper_bound(plan: Plan) -> int:
    """The least of area and Barnes bounds over all equivalent plans.

    >>> upper_bound(Plan(32, 22, 5, 4)), upper_bound(Plan(49, 28, 8, 3))
    (35, 57)
    """
    return min(min(small.area_bound, barnes_bound(small)) for small in equivalents(plan))
