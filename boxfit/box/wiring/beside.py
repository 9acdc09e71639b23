"""A cable beside one that is laid: the same turns, each stretch moved as far as the cables are thick. [mm]"""

from collections.abc import Iterator, Sequence
from itertools import islice, pairwise, product

import numpy as np
from numpy.typing import NDArray

from boxfit.bay import Block, Vector
from boxfit.box.wiring.route import Route
from boxfit.box.wiring.way import End

GAP = 2.0
"""Between two cables side by side."""
MOST_TRIES = 4000
Numbers = NDArray[np.float64]


def beside(
    laid: Route, start: End, end: End, barred: Sequence[Block], cables: Sequence[Block], beside_it: int
) -> Route | None:
    """The shortest way with the turns of `laid`, clear of all; None where no moved one is.

    `barred` and `cables` are where its middle may not be, the straight ends held against `cables` alone.
    Stretches are moved by up to `beside_it` cables' thickness either way.
    """
    axes = _axes(laid.points)
    if not _turns_alike(axes, start, end):
        return None
    around, others, best = _ends(barred), _ends(cables), None
    for points in islice(_moved(laid, axes, start.at, end.at, beside_it), MOST_TRIES):
        route = Route(points, laid.across)
        shorter = best is None or route.length < best.length - 1e-6
        if (
            shorter
            and _has_room(route, start, end)
            and not _met(points[1:-1], around)
            and not _met(points, others)
        ):
            best = route
    return best


def _axes(points: Sequence[Vector]) -> list[int]:
    """Along which axis each stretch runs."""
    return [max(range(3), key=lambda axis: abs(other[axis] - one[axis])) for one, other in pairwise(points)]


def _turns_alike(axes: Sequence[int], start: End, end: End) -> bool:
    """Whether the ends look along the same axes, and every way across is gone somewhere."""
    first = start.looks is None or start.looks[0] == axes[0]
    last = end.looks is None or end.looks[0] == axes[-1]
    return (
        first and last and all(axis in axes or abs(start.at[axis] - end.at[axis]) < 1e-6 for axis in range(3))
    )


def _moved(
    laid: Route, axes: Sequence[int], start: Vector, end: Vector, most: int
) -> Iterator[tuple[Vector, ...]]:
    """The places of every way with stretches moved, those moved least first."""
    last = {axis: place for place, axis in enumerate(axes)}
    free = [place for place, axis in enumerate(axes) if last[axis] != place]
    shifts = sorted(range(-most, most + 1), key=lambda shift: (abs(shift), shift))
    for moves in product(shifts, repeat=len(free)):
        by = dict(zip(free, moves, strict=True))
        here, points = list(start), [start]
        for place, axis in enumerate(axes):
            at = laid.points[place + 1][axis] + by.get(place, 0) * (laid.across + GAP)
            here[axis] = at if place in by else end[axis]
            points.append((here[0], here[1], here[2]))
        yield tuple(points)


def _has_room(route: Route, start: End, end: End) -> bool:
    """Whether every bend has room, and the cable leaves its ends the way they look, straight far enough."""
    if route.slack < -1e-6:
        return False
    for one, (here, there) in ((start, route.points[:2]), (end, route.points[:-3:-1])):
        if one.looks is not None:
            axis, sign = one.looks
            if (there[axis] - here[axis]) * sign < one.straight + route.radius - 1e-6:
                return False
    return True


def _ends(blocks: Sequence[Block]) -> tuple[Numbers, Numbers]:
    low = np.array([block.low for block in blocks]).reshape(-1, 3) + 1e-6
    return low, np.array([block.high for block in blocks]).reshape(-1, 3) - 1e-6


def _met(points: Sequence[Vector], blocks: tuple[Numbers, Numbers]) -> bool:
    """Whether any stretch between the points goes through a block."""
    places = np.array(points)
    one, other = np.minimum(places[:-1], places[1:]), np.maximum(places[:-1], places[1:])
    inside = (other[:, None, :] > blocks[0]) & (one[:, None, :] < blocks[1])
    return bool(inside.all(axis=2).any())
