"""How many footprints fit a rectangle, where they stand, and the most that could."""

from dataclasses import dataclass
from functools import lru_cache

from boxfit.search.blocks import BlockTable, Footprint, Placement
from boxfit.search.equivalent import Plan, equivalents, upper_bound
from boxfit.search.grid import lay_on_grid
from boxfit.search.skyline import Answer, lay

FIRST_NODES, LAST_NODES = 200_000, 400_000
GRID_EFFORT = 3.0
LITTLE_WASTE = 24
"""Up to so many cells to waste, the skyline search is the quicker one."""
MOST_WASTE = 60
"""With more cells to waste than this the skyline search is hopeless."""


@dataclass(frozen=True)
class Filling:
    """Placements of `count` modules, and the `bound` no placement can exceed."""

    count: int
    bound: int
    placements: tuple[Placement, ...]


def turned_pair(footprints: tuple[Footprint, ...]) -> tuple[int, int] | None:
    """(long, short) when the footprints are one rectangle in both turns, else None.

    >>> turned_pair(((8, 3), (3, 8))), turned_pair(((8, 3), (8, 4)))
    ((8, 3), None)
    """
    if len(footprints) == 1 and footprints[0][0] == footprints[0][1]:
        return footprints[0]
    if len(footprints) == 2 and footprints[0] == footprints[1][::-1]:
        return (max(footprints[0]), min(footprints[0]))
    return None


@lru_cache(maxsize=100_000)
def bound(width: int, depth: int, footprints: tuple[Footprint, ...]) -> int:
    """The most of the footprints that width x depth [units] could hold, cheaply and never too low.

    >>> bound(49, 28, ((8, 3), (3, 8))), bound(49, 28, ((8, 3),)), bound(10, 10, ((8, 3), (5, 5)))
    (57, 54, 4)
    """
    if width <= 0 or depth <= 0 or not footprints:
        return 0
    if len(footprints) == 1:
        return (width // footprints[0][0]) * (depth // footprints[0][1])
    pair = turned_pair(footprints)
    shortest = min(min(footprint) for footprint in footprints)
    if pair is None:
        table = BlockTable(width, depth, footprints)
        usable = table.across[-1] * table.along[-1]
        return usable // min(a * b for a, b in footprints)
    if min(width, depth) < shortest or max(width, depth) < pair[0]:
        return 0
    if min(width, depth) < pair[0]:
        return (min(width, depth) // pair[1]) * (max(width, depth) // pair[0])
    return upper_bound(Plan(width, depth, *pair))


@lru_cache(maxsize=100_000)
def quick_fill(width: int, depth: int, footprints: tuple[Footprint, ...]) -> Filling:
    """Footprints laid by blocks in width x depth [units]; quick, and at times one or two short.

    >>> quick_fill(49, 28, ((8, 3), (3, 8))).count
    56
    """
    most = bound(width, depth, footprints)
    if most == 0:
        return Filling(0, 0, ())
    table = BlockTable(width, depth, footprints)
    count = table.count(width, depth)
    if count < most:
        better, cuts = table.pinwheel(width, depth)
        if cuts is not None:
            return Filling(better, most, tuple(sorted(table.place_pinwheel(width, depth, cuts))))
    return Filling(count, most, tuple(sorted(table.place(width, depth))))


@lru_cache(maxsize=20_000)
def fill(width: int, depth: int, footprints: tuple[Footprint, ...]) -> Filling:
    """As many footprints as width x depth [units] holds, exactly where the searches can settle it.

    >>> fill(49, 28, ((8, 3), (3, 8))).count, fill(32, 22, ((5, 4), (4, 5))).bound
    (57, 34)
    """
    quick = quick_fill(width, depth, footprints)
    most = quick.bound
    while quick.count < most:
        answer, found = _settle(width, depth, footprints, most)
        if answer is Answer.YES:
            return Filling(most, most, tuple(sorted(found)))
        if answer is Answer.UNKNOWN:
            break
        most -= 1
    return Filling(quick.count, most, quick.placements)


def _settle(
    width: int, depth: int, footprints: tuple[Footprint, ...], count: int
) -> tuple[Answer, list[Placement]]:
    """Ask the exact searches in turn, the likely quick one first."""
    pair = turned_pair(footprints)
    if pair is None:
        return lay_on_grid(width, depth, footprints, count, GRID_EFFORT)
    small = equivalents(Plan(width, depth, *pair))[0]
    waste = small.width * small.depth - count * small.long * small.short
    if waste > MOST_WASTE:
        return lay_on_grid(width, depth, footprints, count, GRID_EFFORT)
    answer, found = Answer.UNKNOWN, list[Placement]()
    for search in (_by_grid, _by_skyline) if waste > LITTLE_WASTE else (_by_skyline, _by_grid):
        if answer is Answer.UNKNOWN:
            answer, found = search(small, count)
    if answer is Answer.UNKNOWN:
        answer, found = lay(small, count, LAST_NODES)
    return answer, _stretched(found, small, pair, footprints)


def _by_skyline(small: Plan, count: int) -> tuple[Answer, list[Placement]]:
    return lay(small, count, FIRST_NODES)


def _by_grid(small: Plan, count: int) -> tuple[Answer, list[Placement]]:
    turns = ((small.long, small.short), (small.short, small.long))
    return lay_on_grid(small.width, small.depth, turns, count, GRID_EFFORT)


def _stretched(
    placements: list[Placement], small: Plan, pair: tuple[int, int], footprints: tuple[Footprint, ...]
) -> list[Placement]:
    """The layout of the small plan in real units: each module pushed down and left against its neighbours."""
    small_sizes = ((small.long, small.short), (small.short, small.long))
    sizes = (pair, pair[::-1])

    def pushed(axis: int) -> dict[Placement, int]:
        at: dict[Placement, int] = {}
        for place in sorted(placements, key=lambda p: p[1 + axis]):
            behind = [other for other in at if _behind(other, place, axis, small_sizes)]
            at[place] = max((at[other] + sizes[other[0]][axis] for other in behind), default=0)
        return at

    across, along = pushed(0), pushed(1)
    return [(footprints.index(sizes[p[0]]), across[p], along[p]) for p in placements]


def _behind(one: Placement, other: Placement, axis: int, sizes: tuple[Footprint, ...]) -> bool:
    """True where `one` ends before `other` begins along the axis and they share part of the other axis."""
    across = 1 - axis
    return (
        one[1 + axis] + sizes[one[0]][axis] <= other[1 + axis]
        and one[1 + across] < other[1 + across] + sizes[other[0]][across]
        and other[1 + across] < one[1 + across] + sizes[one[0]][across]
    )
