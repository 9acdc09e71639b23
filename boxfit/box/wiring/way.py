"""The shortest way for a cable among blocks, square to the car, with room for every bend. [mm]

Searched on a grid of the places that matter: where the cable's ends stop being straight, what keeps clear of
each block, and so far on that two bends fit between. From the shortest way found so far on to the next (A*);
each corner costs a little, so that of equal ways that with fewest is taken.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from heapq import heappop, heappush
from itertools import count
from math import inf
from typing import cast

import numpy as np
from numpy.typing import NDArray

from boxfit.bay import Block, Vector
from boxfit.standards.cable_entry import BEND

CORNER = 20.0
"""A corner counts like so much more cable."""
MERGED = 1.0
"""Places of the grid nearer than this to one another are one."""
BEYOND = 700.0
"""A cable goes no further than this past its ends along any axis."""
MOST_STATES = 60000
"""The search gives up after so many; a way then counts as not found."""
Way = tuple[int, int]
"""Axis, and up or down it."""
Node = tuple[int, int, int]
"""A place of the grid, by its number along each axis."""
State = tuple[Node, Way, bool]
"""A node of the grid, the way the cable comes from, and whether it has come round a corner yet."""


Places = NDArray[np.float64]
Dear = Callable[[Places, Places], Places]
"""What steps from places to others (n x 3 each) cost more than their length [mm]."""


@dataclass(frozen=True)
class End:
    """Where a cable begins or ends, the way it looks (None: any), how far it stays straight."""

    at: Vector
    looks: Way | None
    straight: float

    def lead(self, radius: float) -> Vector:
        """Where the first corner may be."""
        if self.looks is None:
            return self.at
        return _along(self.at, self.looks, self.straight + radius)


@dataclass
class Costs:
    """What a step of the grid costs besides its length; endless where it is barred.

    `steps[axis][one][other]` holds the steps along an axis at a place of the two other axes.
    """

    grid: tuple[list[float], list[float], list[float]]
    steps: list[list[list[list[float]]]] = field(default_factory=list)


def shortest_way(
    start: End,
    end: End,
    across: float,
    barred: Sequence[Block],
    dear: Sequence[Dear] = (),
    grid_of: Sequence[Block] | None = None,
) -> tuple[Vector, ...] | None:
    """The corners of the way from end to end, ends included; None where there is none.

    `barred` are blocks that the middle of the cable may not enter; the places of the grid are made for those
    of `grid_of`, for all where that is None. The straight stretch at either end is not held against them.
    """
    radius = (BEND + 0.5) * across
    first, last = start.lead(radius), end.lead(radius)
    grid = _grid((first, last), barred if grid_of is None else grid_of, 2.0 * radius)
    costs = _costs(grid, barred, dear)
    found = _search(start, end, (first, last), costs, radius)
    if found is None:
        return None
    return _straightened((start.at, *found, end.at))


def _along(at: Vector, way: Way, by: float) -> Vector:
    x, y, z = (here + (way[1] * by if axis == way[0] else 0.0) for axis, here in enumerate(at))
    return (x, y, z)


def _grid(ends: tuple[Vector, Vector], blocks: Sequence[Block], apart: float) -> tuple[list[float], ...]:
    """The places that matter along each axis; those of the ends stay exactly."""
    found = []
    for axis in range(3):
        held = [end[axis] for end in ends]
        others = [at + shift for at in held for shift in (-apart, apart)]
        others += [side for block in blocks for side in (block.low[axis], block.high[axis])]
        near, far = min(held) - BEYOND, max(held) + BEYOND
        for place in others:
            if near < place < far and all(abs(place - one) > MERGED for one in held):
                held.append(place)
        found.append(sorted(set(held)))
    return tuple(found)


def _costs(grid: tuple[list[float], ...], barred: Sequence[Block], dear: Sequence[Dear]) -> Costs:
    """Every step from a node to the next along each axis: what it costs more, endless through a block."""
    places = [np.array(along) for along in grid]
    costs = Costs((grid[0], grid[1], grid[2]))
    nodes = np.stack(np.meshgrid(*places, indexing="ij"), axis=-1)
    for axis in range(3):
        one = np.delete(nodes, -1, axis=axis)
        other = np.delete(nodes, 0, axis=axis)
        more = np.zeros(one.shape[:3])
        starts = [along[:-1] if k == axis else along for k, along in enumerate(places)]
        ends = [along[1:] if k == axis else along for k, along in enumerate(places)]
        for block in barred:
            through = [(ends[k] > block.low[k] + 1e-6) & (starts[k] < block.high[k] - 1e-6) for k in range(3)]
            more[np.ix_(*through)] = np.inf
        for each in dear:
            more += each(one.reshape(-1, 3), other.reshape(-1, 3)).reshape(more.shape)
        costs.steps.append(cast("list[list[list[float]]]", np.moveaxis(more, axis, -1).tolist()))
    return costs


def _search(
    start: End, end: End, leads: tuple[Vector, Vector], costs: Costs, radius: float
) -> list[Vector] | None:
    """Corners from the first place to turn to the last."""
    goal = _node(costs, leads[1])
    ways: Iterable[Way] = (
        [start.looks] if start.looks else [(axis, sign) for axis in range(3) for sign in (1, -1)]
    )
    queue: list[tuple[float, int, float, State]] = []
    numbers, best, came = count(), dict[State, float](), dict[State, State]()
    for way in ways:
        state: State = (_node(costs, leads[0]), way, False)
        best[state] = 0.0
        heappush(queue, (0.0, next(numbers), 0.0, state))
    while queue and len(best) < MOST_STATES:
        _, _, spent, state = heappop(queue)
        if spent > best[state]:
            continue
        if state[0] == goal and _arrives(state, end):
            return [_place(costs, node) for node in _back(state, came)]
        for on, more in _steps(state, costs, radius, end, goal):
            total = spent + more
            if total < best.get(on, inf) - 1e-9:
                best[on], came[on] = total, state
                heappush(queue, (total + _least(costs, on[0], goal), next(numbers), total, on))
    return None


def _arrives(state: State, end: End) -> bool:
    """Whether the cable may end the way it comes: at a gland straight in."""
    return end.looks is None or state[1] == (end.looks[0], -end.looks[1])


def _steps(state: State, costs: Costs, radius: float, end: End, goal: Node) -> Iterable[tuple[State, float]]:
    """Straight on from here, or round a corner here and then straight on, as far as two bends ask."""
    node, came, turned = state
    for axis in range(3):
        for sign in (1, -1):
            if axis == came[0] and sign != came[1]:
                continue
            bends = axis != came[0]
            if not bends and turned:
                continue  # runs are taken whole: what goes straight on was reached in one step
            if bends and node == goal and not _enters(end, (axis, sign)):
                continue
            least = 2.0 * radius if bends else 0.0
            yield from _run(node, (axis, sign), costs, (least, CORNER if bends else 0.0, radius), (end, goal))
    if node == goal and end.looks is not None and came[0] != end.looks[0]:
        yield (node, (end.looks[0], -end.looks[1]), True), CORNER


def _enters(end: End, way: Way) -> bool:
    return end.looks is None or way == (end.looks[0], -end.looks[1])


def _run(
    node: Node,
    way: Way,
    costs: Costs,
    asked: tuple[float, float, float],
    to: tuple[End, Node],
) -> Iterable[tuple[State, float]]:
    """Every node straight on that leaves room for the bends at both ends of the stretch."""
    axis, sign = way
    least, cost, radius = asked
    first, second = (node[k] for k in range(3) if k != axis)
    along, steps, here = costs.grid[axis], costs.steps[axis][first][second], node[axis]
    start = along[here]
    while 0 <= here + sign < len(along):
        more = steps[min(here, here + sign)]
        if more == inf:
            return
        cost += more
        here += sign
        length, reached = abs(along[here] - start), _moved(node, axis, here)
        ends_here = reached == to[1] and _enters(to[0], way)
        if length >= (min(least, radius) if ends_here and least else least) - 1e-6:
            yield (reached, way, True), cost + length


def _moved(node: Node, axis: int, at: int) -> Node:
    """A node with another place along one axis."""
    x, y, z = node
    return (at, y, z) if axis == 0 else (x, at, z) if axis == 1 else (x, y, at)


def _least(costs: Costs, node: Node, goal: Node) -> float:
    return sum(
        abs(along[one] - along[other]) for along, one, other in zip(costs.grid, node, goal, strict=True)
    )


def _node(costs: Costs, place: Vector) -> Node:
    x, y, z = (along.index(at) for along, at in zip(costs.grid, place, strict=True))
    return (x, y, z)


def _place(costs: Costs, node: Node) -> Vector:
    x, y, z = (along[at] for along, at in zip(costs.grid, node, strict=True))
    return (x, y, z)


def _back(state: State, came: dict[State, State]) -> list[Node]:
    """The nodes from the first to this one."""
    found = [state[0]]
    while state in came:
        state = came[state]
        found.append(state[0])
    return found[::-1]


def _straightened(points: Sequence[Vector]) -> tuple[Vector, ...]:
    """Without places passed straight through, or met twice."""
    found: list[Vector] = []
    for point in points:
        if found and max(abs(a - b) for a, b in zip(found[-1], point, strict=True)) < 1e-9:
            continue
        if len(found) > 1 and _on_a_line(found[-2], found[-1], point):
            found.pop()
        found.append(point)
    return tuple(found)


def _on_a_line(one: Vector, between: Vector, other: Vector) -> bool:
    moved = [
        {axis for axis in range(3) if abs(start[axis] - end[axis]) > 1e-9}
        for start, end in ((one, between), (between, other))
    ]
    return moved[0] == moved[1] and len(moved[0]) == 1
