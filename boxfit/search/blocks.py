"""Counting by blocks: straight cuts at every level, then one pinwheel of five blocks on top.

A quick lower bound with its placement. It can miss by one ((49, 28) with (8, 3) gives 56 of 57), which is
why `rectangle.fill` also searches exactly. Pinwheel of five blocks: Bischoff and Dowsland 1982 (from memory).
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from boxfit.search.raster import floor_to, sums

Footprint = tuple[int, int]
Placement = tuple[int, int, int]
"""Kind (index of the footprint), low x, low y."""

MOST_PINWHEELS = 4_000_000


@dataclass(frozen=True)
class BlockTable:
    """Counts for every rectangle up to `width` x `depth` [units] that some sum of sides can fill.

    `weights` say how many modules each footprint stands for; one where they are left out.
    """

    width: int
    depth: int
    footprints: tuple[Footprint, ...]
    weights: tuple[int, ...] = ()

    @cached_property
    def across(self) -> list[int]:
        """Widths [units] that count."""
        return sums((a for a, _ in self.footprints), self.width)

    @cached_property
    def along(self) -> list[int]:
        """Depths [units] that count."""
        return sums((b for _, b in self.footprints), self.depth)

    @cached_property
    def counts(self) -> NDArray[np.int64]:
        """counts[i, j]: modules in across[i] x along[j] by blocks of one kind and straight cuts."""
        across, along = np.array(self.across), np.array(self.along)
        table = np.zeros((len(across), len(along)), dtype=np.int64)
        for kind, (a, b) in enumerate(self.footprints):
            table = np.maximum(table, np.outer(across // a, along // b) * self._weight(kind))
        rest_along = [np.searchsorted(along, y - along, side="right") - 1 for y in along]
        for i, x in enumerate(across):
            rest = np.searchsorted(across, x - across[: i + 1], side="right") - 1
            halves = table[1:i] + table[rest[1:i]]
            table[i] = np.maximum(table[i], halves.max(axis=0, initial=0))
            row = table[i]
            for j in range(1, len(along)):
                split = row[1:j] + row[rest_along[j][1:j]]
                row[j] = max(row[j], int(split.max(initial=0)))
        return table

    def _weight(self, kind: int) -> int:
        return self.weights[kind] if self.weights else 1

    def count(self, width: int, depth: int) -> int:
        """Modules by straight cuts in width x depth [units], which must not exceed the table."""
        i, j = floor_to(self.across, width), floor_to(self.along, depth)
        return 0 if i < 0 or j < 0 else int(self.counts[i, j])

    def pinwheel(self, width: int, depth: int) -> tuple[int, tuple[int, int, int, int] | None]:
        """The best of one pinwheel of five blocks: its count and its cuts (x1, x2, y1, y2) [units]."""
        straight = self.count(width, depth)
        xs = np.array([x for x in self.across if x <= width])
        ys = np.array([y for y in self.along if y <= depth])
        if len(xs) ** 2 * len(ys) ** 2 // 4 > MOST_PINWHEELS:
            return straight, None
        lower, upper = np.triu_indices(len(ys), 1)
        best, cuts = straight, None
        for first, x1 in enumerate(xs[1:], start=1):
            for x2 in xs[first + 1 :]:
                total = self._five(width, depth, (int(x1), int(x2)), (ys[lower], ys[upper]))
                place = int(total.argmax()) if len(total) else -1
                if place >= 0 and total[place] > best:
                    best = int(total[place])
                    cuts = (int(x1), int(x2), int(ys[lower[place]]), int(ys[upper[place]]))
        return best, cuts

    def _five(
        self, width: int, depth: int, x: tuple[int, int], y: tuple[NDArray[np.int64], NDArray[np.int64]]
    ) -> NDArray[np.int64]:
        (x1, x2), (y1, y2) = x, y
        counts, along = self.counts, np.array(self.along)

        def looked_up(block_width: int, block_depth: NDArray[np.int64]) -> NDArray[np.int64]:
            row: NDArray[np.int64] = counts[floor_to(self.across, block_width)]
            return row[np.searchsorted(along, block_depth, side="right") - 1]

        return (
            looked_up(x1, y2)
            + looked_up(x2, depth - y2)
            + looked_up(width - x2, depth - y1)
            + looked_up(width - x1, y1)
            + looked_up(x2 - x1, y2 - y1)
        )

    def place(self, width: int, depth: int) -> list[Placement]:
        """A placement of footprints for `count(width, depth)` modules [units]."""
        i, j = floor_to(self.across, width), floor_to(self.along, depth)
        if i < 0 or j < 0 or self.counts[i, j] == 0:
            return []
        goal, x, y = int(self.counts[i, j]), self.across[i], self.along[j]
        for kind, (a, b) in enumerate(self.footprints):
            if (x // a) * (y // b) * self._weight(kind) == goal:
                return [(kind, a * m, b * n) for m in range(x // a) for n in range(y // b)]
        for cut in self.across[1:i]:
            if self.count(cut, y) + self.count(x - cut, y) == goal:
                return self.place(cut, y) + moved(self.place(x - cut, y), cut, 0)
        for cut in self.along[1:j]:
            if self.count(x, cut) + self.count(x, y - cut) == goal:
                return self.place(x, cut) + moved(self.place(x, y - cut), 0, cut)
        raise ArithmeticError("a block count without its placement")

    def place_pinwheel(self, width: int, depth: int, cuts: tuple[int, int, int, int]) -> list[Placement]:
        """The placement behind `pinwheel` [units]."""
        x1, x2, y1, y2 = cuts
        return (
            self.place(x1, y2)
            + moved(self.place(x2, depth - y2), 0, y2)
            + moved(self.place(width - x2, depth - y1), x2, y1)
            + moved(self.place(width - x1, y1), x1, 0)
            + moved(self.place(x2 - x1, y2 - y1), x1, y1)
        )


def moved(placements: list[Placement], x: int, y: int) -> list[Placement]:
    """The placements shifted by x, y [units]."""
    return [(kind, px + x, py + y) for kind, px, py in placements]
