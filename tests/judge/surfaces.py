"""Blocks and rooms built by hand from triangles."""

import numpy as np
from numpy.typing import NDArray

from boxfit.bay import Block, Prism, Shell, Surface, Way
from boxfit.judge.insertion import DIRECTIONS, closed_sides
from boxfit.surface import Outline, Reading

Quads = list[tuple[int, int, int, int]]
FACES: Quads = [(1, 3, 2, 0), (6, 7, 5, 4), (4, 5, 1, 0), (3, 7, 6, 2), (2, 6, 4, 0), (5, 7, 3, 1)]
"""The faces of a block from outside; its corner 4 i + 2 j + k is high along x where i is 1, and so on."""


def block_surface(block: Block, off: float = 0.0, inward: bool = False) -> Surface:
    """A block as twelve triangles."""
    ends = np.array([block.low, block.high])
    points = np.array([[ends[i, 0], ends[j, 1], ends[k, 2]] for i in (0, 1) for j in (0, 1) for k in (0, 1)])
    triangles = np.array([(a, b, c) for a, b, c, _ in FACES] + [(a, c, d) for a, _, c, d in FACES])
    return Surface(points, triangles[:, ::-1] if inward else triangles, off)


def together(*surfaces: Surface) -> Surface:
    """Several surfaces as one."""
    starts = np.cumsum([0, *(len(surface.points) for surface in surfaces[:-1])])
    return Surface(
        np.concatenate([surface.points for surface in surfaces]),
        np.concatenate([surface.triangles + start for surface, start in zip(surfaces, starts, strict=True)]),
        max(surface.off for surface in surfaces),
    )


def prism_shell(room: Prism, way: Way | None = None, off: float = 0.0) -> Shell:
    """A prism of convex outline as triangles; the opening takes what it takes of the prism."""
    count = len(room.outline)
    points = np.array([(*point, level) for level in (room.floor, room.top) for point in room.outline])
    cap = [(0, k, k + 1) for k in range(1, count - 1)]
    floor = [(a, c, b) for a, b, c in cap]
    top = [(a + count, b + count, c + count) for a, b, c in cap]
    walls = [(k, (k + 1) % count) for k in range(count)]
    low_halves = [(a, b, b + count) for a, b in walls]
    high_halves = [(a, b + count, a + count) for a, b in walls]
    side = [False] * count
    if way not in (None, "up", "down"):
        closed = closed_sides(room.outline, *DIRECTIONS[way])
        side = [(room.outline[a], room.outline[b]) not in closed for a, b in walls]
    opens = [way == "down"] * len(floor) + [way == "up"] * len(top) + side + side
    surface = Surface(points, np.array(floor + top + low_halves + high_halves), off)
    return as_shell(surface, "room", np.array(opens), (room.outline,))


def as_shell(
    surface: Surface,
    reads: Reading,
    opens: NDArray[np.bool_] | None = None,
    plan: tuple[Outline, ...] = ((),),
) -> Shell:
    """A shell of which the judge knows what it may know: no volume and no views."""
    taken = np.zeros(len(surface.triangles), dtype=np.bool_) if opens is None else opens
    return Shell(surface, reads, surface.low, surface.high, taken, 0.0, plan, (), ())
