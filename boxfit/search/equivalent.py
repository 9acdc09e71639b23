"""Equivalent plans: the smallest whole numbers with the same fitting rows as the real millimetres.

Two plans are equivalent when the same numbers of long and short sides fit in a row along either side of
the container; they then hold the same layouts (Dowsland 1984, from memory; Martins and Dell 2008 use it
throughout). Small numbers make the exact search short and its bounds sharp.
"""

from dataclasses import dataclass
from math import gcd

LARGEST = 64


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


def _corners(length: int, long: int, short: int) -> list[tuple[int, int]]:
    """For each number of long sides in a row, the most short sides beside them."""
    return [(i, (length - i * long) // short) for i in range(length // long + 1)]


def _reduced_length(corners: list[tuple[int, int]], long: int, short: int) -> int | None:
    """The shortest whole length in which exactly the same rows fit, None where there is none."""
    shortest = max(i * long + j * short for i, j in corners)
    too_long = [i * long + (j + 1) * short for i, j in corners] + [(corners[-1][0] + 1) * long]
    return shortest if shortest < min(too_long) else None


def equivalents(plan: Plan) -> list[Plan]:
    """Equivalent plans in small whole numbers, smallest first; the plan itself over its gcd is among them.

    >>> equivalents(Plan(50, 36, 11, 7))[0]
    Plan(width=22, depth=16, long=5, short=3)
    """
    across = _corners(plan.width, plan.long, plan.short)
    along = _corners(plan.depth, plan.long, plan.short)
    found = []
    for long in range(1, LARGEST):
        for short in range(1, long + 1):
            if gcd(long, short) > 1:
                continue
            width = _reduced_length(across, long, short)
            depth = _reduced_length(along, long, short)
            if width is not None and depth is not None:
                found.append(Plan(width, depth, long, short))
    divisor = gcd(plan.long, plan.short)
    long, short = plan.long // divisor, plan.short // divisor
    itself = Plan(
        max(i * long + j * short for i, j in across), max(i * long + j * short for i, j in along), long, short
    )
    return sorted({*found, itself}, key=lambda p: (p.width * p.depth, p.width, p.long, p.short))


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
