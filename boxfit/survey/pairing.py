"""Which corners of two outlines belong together."""

import numpy as np
from numpy.typing import NDArray

Points = NDArray[np.float64]
Pairs = list[tuple[int, int]]

STARTS = 16
"""How many partners of one corner are tried where the outlines have different numbers of corners."""


def best_turn(here: Points, there: Points) -> int:
    """How many corners further the second outline starts so that squared distances are least."""
    sums = [float(((here - np.roll(there, -turn, axis=0)) ** 2).sum()) for turn in range(len(there))]
    least = min(sums)
    return next(turn for turn, found in enumerate(sums) if found <= least * (1.0 + 1e-12))


def _centre(points: Points) -> Points:
    """The centre of area."""
    after = np.roll(points, -1, axis=0)
    twice = points[:, 0] * after[:, 1] - points[:, 1] * after[:, 0]
    found: Points = ((points + after) * twice[:, None]).sum(axis=0) / (3.0 * twice.sum())
    return found


def best_pairs(here: Points, there: Points) -> Pairs:
    """Which corners are joined: each pair moves one corner on in either outline, once round both.

    The sum of squared distances is least, with the centres of area laid over each other. Starts from the
    closest pair and tries the nearest partners of its first corner.
    """
    here, there = here - _centre(here), there - _centre(there)
    apart = ((here[:, None] - there[None]) ** 2).sum(axis=2)
    anchor = int(np.argmin(apart.min(axis=1)))
    starts = np.argsort(apart[anchor], kind="stable")[:STARTS]
    rows, columns = apart.shape

    def tried(start: int) -> tuple[float, Pairs]:
        costs = np.pad(np.roll(apart, (-anchor, -start), axis=(0, 1)), (0, 1), mode="wrap")
        total, way = _cheapest(costs)
        return total, [((i + anchor) % rows, (j + start) % columns) for i, j in way[:-1]]

    return min((tried(int(start)) for start in starts), key=lambda found: found[0])[1]


def _cheapest(costs: Points) -> tuple[float, Pairs]:
    """The way from the first to the last cell of a table with the least sum, by steps down or across."""
    rows, columns = costs.shape
    sums = np.full((rows + 1, columns + 1), np.inf)
    sums[1, 1] = costs[0, 0]
    for diagonal in range(1, rows + columns - 1):
        i = np.arange(max(0, diagonal - columns + 1), min(diagonal, rows - 1) + 1)
        j = diagonal - i
        sums[i + 1, j + 1] = costs[i, j] + np.minimum(sums[i, j + 1], sums[i + 1, j])
    i, j = rows - 1, columns - 1
    way = [(i, j)]
    while (i, j) != (0, 0):
        if sums[i, j + 1] <= sums[i + 1, j]:
            i -= 1
        else:
            j -= 1
        way.append((i, j))
    return float(sums[rows, columns]), way[::-1]
