"""Exact search: can n rectangles long x short be laid into a small whole-number container?

The lowest notch of the skyline is filled from its left end with either turn, or one unit cell of it is given
up; a notch too narrow for either turn is given up whole. The waste that rows and columns of the remaining
space must leave cuts the search; a skyline reached before, or its mirror image, with no more waste is not
searched again. It answers yes with a placement, no, or gives up after `most_nodes`.
"""

from dataclasses import dataclass, field
from enum import Enum
from itertools import pairwise

from boxfit.search.blocks import Placement
from boxfit.search.equivalent import Plan
from boxfit.search.raster import floor_to, sums

Skyline = tuple[tuple[int, int], ...]
"""Width and height of each step, left to right."""


class Answer(Enum):
    """What a search established."""

    YES = "yes"
    NO = "no"
    UNKNOWN = "unknown"


class _GivenUpError(Exception):
    pass


@dataclass
class _Search:
    plan: Plan
    budget: int
    most_nodes: int
    nodes: int = 0
    seen: dict[Skyline, int] = field(default_factory=dict)
    row_waste: list[int] = field(default_factory=list)
    column_waste: list[int] = field(default_factory=list)

    def __post_init__(self) -> None:
        sides = (self.plan.long, self.plan.short)
        self.row_waste = _unfilled(sides, self.plan.width)
        self.column_waste = _unfilled(sides, self.plan.depth)

    def must_waste(self, skyline: Skyline) -> int:
        """Cells of the free space above the skyline that no layout can fill."""
        depth = self.plan.depth
        column_waste, row_waste = self.column_waste, self.row_waste
        columns = sum([width * column_waste[depth - height] for width, height in skyline])
        if columns > self.budget:
            return columns
        levels = sorted({height for _, height in skyline})
        levels.append(depth)
        rows = 0
        for level, above in pairwise(levels):
            run = unfilled = 0
            for width, height in skyline:
                if height <= level:
                    run += width
                else:
                    unfilled += row_waste[run]
                    run = 0
            rows += (unfilled + row_waste[run]) * (above - level)
        return max(columns, rows)

    def fill(self, skyline: Skyline, waste: int) -> list[Placement] | None:
        """Placements that complete the skyline within the budget of waste, None where there are none."""
        self.nodes += 1
        if self.nodes > self.most_nodes:
            raise _GivenUpError
        either_way = min(skyline, skyline[::-1])  # what completes one, mirrored, completes the other
        if self.seen.get(either_way, self.budget + 1) <= waste:
            return None
        self.seen[either_way] = waste
        heights = [height for _, height in skyline]
        height = min(heights)
        notch = heights.index(height)
        if height == self.plan.depth:
            return []
        if waste + self.must_waste(skyline) > self.budget:
            return None
        width = skyline[notch][0]
        for kind, (a, b) in enumerate(((self.plan.long, self.plan.short), (self.plan.short, self.plan.long))):
            if a <= width and height + b <= self.plan.depth:
                rest = self.fill(_raised(skyline, notch, a, b), waste)
                if rest is not None:
                    return [(kind, sum(step for step, _ in skyline[:notch]), height), *rest]
        across, up = (
            (1, 1) if width >= self.plan.short else (width, self._lower_side(heights, notch) - height)
        )
        if waste + across * up <= self.budget:
            return self.fill(_raised(skyline, notch, across, up), waste + across * up)
        return None

    def _lower_side(self, heights: list[int], notch: int) -> int:
        """Height of the lower of the two steps beside a notch, of the container's top where it has none."""
        return min([*heights[max(notch - 1, 0) : notch], *heights[notch + 1 : notch + 2], self.plan.depth])


def _unfilled(sides: tuple[int, int], most: int) -> list[int]:
    """For each length 0..most, what no row of sides can fill of it."""
    filled = sums(sides, most)
    return [length - filled[floor_to(filled, length)] for length in range(most + 1)]


def _raised(skyline: Skyline, notch: int, by_width: int, by_height: int) -> Skyline:
    """The skyline with the left `by_width` of a notch raised, equal neighbours joined.

    >>> _raised(((2, 5), (3, 1), (4, 4)), 1, 3, 3), _raised(((2, 5), (3, 1)), 1, 1, 4)
    (((2, 5), (7, 4)), ((3, 5), (2, 1)))
    """
    width, height = skyline[notch]
    before, after = skyline[:notch], skyline[notch + 1 :]
    top = height + by_height
    if before and before[-1][1] == top:
        step = (before[-1][0] + by_width, top)
        before = before[:-1]
    else:
        step = (by_width, top)
    if width > by_width:
        return (*before, step, (width - by_width, height), *after)
    if after and after[0][1] == top:
        return (*before, (step[0] + after[0][0], top), *after[1:])
    return (*before, step, *after)


def lay(plan: Plan, count: int, most_nodes: int) -> tuple[Answer, list[Placement]]:
    """Whether `count` rectangles fit the plan, with their placement (kind 0: long side across) if so.

    >>> lay(Plan(32, 22, 5, 4), 35, 500_000)[0], len(lay(Plan(32, 22, 5, 4), 34, 500_000)[1])
    (<Answer.NO: 'no'>, 34)
    """
    budget = plan.width * plan.depth - count * plan.long * plan.short
    if budget < 0:
        return Answer.NO, []
    if plan.width > plan.depth:  # a narrow skyline has fewer states
        answer, turned = lay(Plan(plan.depth, plan.width, plan.long, plan.short), count, most_nodes)
        return answer, [(1 - kind, y, x) for kind, x, y in turned]
    search = _Search(plan, budget, most_nodes)
    try:
        found = search.fill(((plan.width, 0),), 0)
    except (_GivenUpError, RecursionError):
        return Answer.UNKNOWN, []
    return (Answer.NO, []) if found is None else (Answer.YES, found[:count])
