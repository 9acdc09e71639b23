"""Every outline of up to eight corners that free slabs between given cuts allow, many at once."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from boxfit.search.stepped_plan import Strips
from boxfit.search.stepped_shape import MOST_CORNERS, Making, Shape

Whole = NDArray[np.int64]
Flags = NDArray[np.bool_]
MOST_OUTLINES = 400_000
"""Outlines of three slabs looked at for one free plan."""
NEVER = np.iinfo(np.int64).max
"""Where a span that is not there begins."""


@dataclass(frozen=True)
class Outlines:
    """Three slabs each, one after the other along x [units]: (n, 4) cuts, (n, 3) lows and highs.

    Slabs that are not needed have no width and repeat the one before.
    """

    cuts: Whole
    lows: Whole
    highs: Whole
    turned: bool = False

    def __len__(self) -> int:
        return len(self.cuts)

    @cached_property
    def corners(self) -> Whole:
        """Corners of each."""
        changes = [ends[:, k] != ends[:, k + 1] for ends in (self.lows, self.highs) for k in (0, 1)]
        return np.asarray(4 + 2 * sum(change.astype(np.int64) for change in changes))

    def only(self, chosen: Flags | Whole) -> "Outlines":
        """Those chosen."""
        cuts, lows, highs = (ends.T[:, chosen].T for ends in (self.cuts, self.lows, self.highs))
        return Outlines(cuts, lows, highs, self.turned)

    def shape(self, place: int) -> Shape:
        """One of them."""
        rows = (self.cuts[place], self.lows[place], self.highs[place])
        cuts, lows, highs = (tuple(int(value) for value in row) for row in rows)
        return Shape(cuts, lows, highs, self.turned).merged


def outlines(strips: Strips, needs: Making, most_corners: int, turned: bool) -> Outlines:
    """Those that can be made, none that could simply be longer; equal ones may come twice."""
    slabs = strips.slabs(needs.neck)
    parts = [_one(slabs)]
    if most_corners > 4:
        parts += list(_two(slabs, len(strips.cuts)))
    if most_corners > 6:
        parts.append(_three(slabs))
    rows = np.concatenate(parts, axis=1)
    rows = rows[:, _is_full(rows, strips)]
    cuts = np.array(strips.cuts, dtype=np.int64)[rows[:4]]
    found = Outlines(cuts.T, rows[4:7].T, rows[7:].T, turned)
    return found.only(_can_be_made(found, needs) & (found.corners <= min(most_corners, MOST_CORNERS)))


def _one(slabs: Whole) -> Whole:
    """Rectangles: four cuts by number, three lows and three highs, one row each."""
    rear, front, low, high = slabs.T
    return np.stack([rear, front, front, front, low, low, low, high, high, high])


def _pairs(*groups: Whole) -> list[Whole]:
    """All ways to take one slab of each group."""
    places = np.indices([len(group) for group in groups])
    return [group[place.ravel()].T for group, place in zip(groups, places, strict=True)]


def _two(slabs: Whole, cuts: int) -> Iterator[Whole]:
    """Two slabs, each as far across as is free."""
    for cut in range(1, cuts - 1):
        one, other = _pairs(slabs[slabs[:, 1] == cut], slabs[slabs[:, 0] == cut])
        along = [one[0], one[1], other[1], other[1]]
        yield np.stack([*along, one[2], other[2], other[2], one[3], other[3], other[3]])


def _three(slabs: Whole) -> Whole:
    """Three slabs in the four ways that leave eight corners."""
    one, middle, other = _neighbours(slabs)
    along = [one[0], middle[0], middle[1], other[1]]
    lows, highs = (one[2], middle[2], other[2]), (one[3], middle[3], other[3])
    early, late = np.maximum(*lows[:2]), np.maximum(*lows[1:])
    soon, then = np.minimum(*highs[:2]), np.minimum(*highs[1:])
    low, high = np.maximum(early, lows[2]), np.minimum(soon, highs[2])
    ways = (
        (*lows, high, high, high),
        (low, low, low, *highs),
        (lows[0], late, late, soon, soon, highs[2]),
        (early, early, lows[2], highs[0], then, then),
    )
    return np.concatenate([np.stack([*along, *ends]) for ends in ways], axis=1)


def _neighbours(slabs: Whole) -> list[Whole]:
    """All ways to take a slab with one that ends where it begins and one that begins where it ends.

    Slabs come by their first cut. Those before, between and after, one row each for their four numbers:

    >>> slabs = np.array([(0, 1, 0, 9), (0, 2, 0, 5), (1, 2, 0, 7), (1, 3, 0, 4), (2, 3, 0, 6)])
    >>> [slab.T.tolist() for slab in _neighbours(slabs)]
    [[[0, 1, 0, 9]], [[1, 2, 0, 7]], [[2, 3, 0, 6]]]
    """
    rears, fronts = slabs[:, 0], slabs[:, 1]
    by_front = np.argsort(fronts, kind="stable")
    begins = np.searchsorted(fronts[by_front], rears, side="left")
    befores = np.searchsorted(fronts[by_front], rears, side="right") - begins
    follows = np.searchsorted(rears, fronts, side="left")
    afters = np.searchsorted(rears, fronts, side="right") - follows
    many = befores * afters
    many[4 * np.cumsum(many) > MOST_OUTLINES] = 0
    middle = np.repeat(np.arange(len(slabs)), many)
    number = np.arange(len(middle)) - np.repeat(np.cumsum(many) - many, many)
    before = by_front[begins[middle] + number // afters[middle]]
    after = follows[middle] + number % afters[middle]
    return [slabs[place].T for place in (before, middle, after)]


def _is_full(rows: Whole, strips: Strips) -> Flags:
    """Which cannot go on at either end as they are, nor move a step towards the narrower slab."""
    most = max(map(len, strips.free))
    free = np.full((2, len(strips.free) + 2, most), NEVER)
    for place, spans in enumerate(strips.free):
        for number, (low, high) in enumerate(spans):
            free[:, place + 1, number] = low, high

    def goes_on(strip: Whole, low: Whole, high: Whole) -> Flags:
        found = np.zeros(len(strip), dtype=bool)
        for number in range(most):
            lows, highs = free[:, :, number]
            found |= (lows[strip + 1] <= low) & (high <= highs[strip + 1])
        return found

    cuts, lows, highs = rows[:4], rows[4:7], rows[7:]
    full = ~goes_on(cuts[0] - 1, lows[0], highs[0]) & ~goes_on(cuts[3], lows[2], highs[2])
    for k in (0, 1):
        here, there = (lows[k], highs[k]), (lows[k + 1], highs[k + 1])
        wider = (here[0] <= there[0]) & (here[1] >= there[1])
        narrower = (here[0] >= there[0]) & (here[1] <= there[1])
        real = (cuts[k + 2] > cuts[k + 1]) & ~(wider & narrower)
        full &= ~(real & wider & goes_on(cuts[k + 1], *here))
        full &= ~(real & narrower & goes_on(cuts[k + 1] - 1, *there))
    return np.asarray(full)


def _can_be_made(found: Outlines, needs: Making) -> Flags:
    """Which have no side too short; see `Shape.can_be_made`, which is asked again at the end."""
    widths = [found.cuts[:, k + 1] - found.cuts[:, k] for k in range(3)]
    made = widths[0] >= needs.step
    for k in (0, 1):
        made &= (widths[k + 1] == 0) | (widths[k + 1] >= needs.step)
        ends = found.highs[:, k : k + 2], found.lows[:, k : k + 2]
        made &= np.minimum(*ends[0].T) - np.maximum(*ends[1].T) >= needs.neck
    for lows in (found.lows, -found.highs):
        a, b, c = lows.T
        for step in (np.abs(b - a), np.abs(c - b)):
            made &= (step == 0) | (step >= needs.step)
        made &= (a >= b) | (widths[0] >= needs.neck)
        made &= (c >= b) | (widths[2] >= needs.neck)
        made &= ~((b > a) & (b > c)) | (widths[1] >= needs.notch)
        made &= ~((b < a) & (b < c)) | (widths[1] >= needs.neck)
    return np.asarray(made)
