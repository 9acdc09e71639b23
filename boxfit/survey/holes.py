"""Holes in a surface: loops of open edges, how large they are, where they look, and patches for them."""

from collections import defaultdict
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from boxfit.surface import Surface
from boxfit.survey.edges import Edges, Flags, Numbers

Points = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Hole:
    """A loop of open edges: its points in the order the triangles beside it run, and one such triangle."""

    numbers: Numbers
    points: Points
    beside: int

    @cached_property
    def size(self) -> float:
        """The largest extent [mm]."""
        return float((self.points.max(axis=0) - self.points.min(axis=0)).max())

    @cached_property
    def centre(self) -> Points:
        """The mean of its points [mm]."""
        found: Points = self.points.mean(axis=0)
        return found

    @cached_property
    def facing(self) -> Points:
        """The area it spans [mm2], square to the plane it lies in best; from there the loop runs clockwise.

        Where the triangles have their outside out, this points outwards.
        """
        arms = self.points - self.centre
        found: Points = -np.cross(arms, np.roll(arms, -1, axis=0)).sum(axis=0) / 2
        return found

    @cached_property
    def width(self) -> float:
        """The second of its extents [mm], along itself, across, and out of its plane."""
        arms = self.points - self.centre
        _, axes = np.linalg.eigh(arms.T @ arms)
        return float(np.ptp(arms @ axes[:, 1]))


def holes_in(surface: Surface, edges: Edges, turn: Flags) -> list[Hole]:
    """All loops of open edges; `turn` says which triangles are to be taken the other way round.

    Where open edges make no loop, a chain of three points and more counts as one, from its end to its start.
    """
    sides = edges.open_sides
    beside = sides // 3
    start, end = edges.start(sides), edges.end(sides)
    start, end = np.where(turn[beside], end, start), np.where(turn[beside], start, end)
    ways: dict[int, list[tuple[int, int]]] = defaultdict(list)
    for here, there, triangle in zip(start.tolist(), end.tolist(), beside.tolist(), strict=True):
        ways[here].append((there, triangle))
    found: list[Hole] = []
    for first in start.tolist():
        while ways[first]:
            for loop, triangle in _walk(first, ways):
                numbers = np.array(loop, dtype=np.int64)
                found.append(Hole(numbers, surface.points[numbers], triangle))
    return found


def _walk(first: int, ways: dict[int, list[tuple[int, int]]]) -> list[tuple[list[int], int]]:
    """Goes on from a point until it ends; whenever it comes back to a point, the loop since is cut off."""
    found: list[tuple[list[int], int]] = []
    path, places, beside = [first], {first: 0}, -1
    while ways.get(path[-1]):
        there, beside = ways[path[-1]].pop()
        if there not in places:
            places[there] = len(path)
            path.append(there)
            continue
        loop = path[places[there] :]
        found.append((loop, beside))
        for left in loop[1:]:
            del places[left]
        del path[places[there] + 1 :]
    if len(path) > 2:
        found.append((path, beside))
    return found


def fan(hole: Hole, new: int) -> tuple[Points, Numbers]:
    """The hole closed by triangles about its middle, which becomes point `new`."""
    around = hole.numbers
    if len(around) <= 3:
        return np.zeros((0, 3)), around[None, ::-1]
    middle = np.full(len(around), new, dtype=np.int64)
    return hole.centre[None], np.column_stack([np.roll(around, -1), around, middle])


def flat_patch(hole: Hole, new: int) -> tuple[Points, Numbers]:
    """The hole closed by triangles between its own points, as flat as they lie; a fan where that fails."""
    from shapely import Polygon, constrained_delaunay_triangles, get_coordinates

    across, up = _plane(hole.facing)
    flat = np.column_stack([hole.points @ across, hole.points @ up])
    outline = Polygon(flat)
    if not outline.is_valid or outline.area <= 0:
        return fan(hole, new)
    places = {(x, y): number for (x, y), number in zip(flat.tolist(), hole.numbers.tolist(), strict=True)}
    corners = get_coordinates(constrained_delaunay_triangles(outline)).reshape(-1, 4, 2)[:, :3]
    first, second = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    clockwise = first[:, 0] * second[:, 1] < first[:, 1] * second[:, 0]
    corners[clockwise] = corners[clockwise][:, ::-1]
    numbers = [places.get((x, y), -1) for x, y in corners.reshape(-1, 2).tolist()]
    triangles = np.array(numbers, dtype=np.int64).reshape(-1, 3)
    return fan(hole, new) if (triangles < 0).any() else (np.zeros((0, 3)), triangles)


def _plane(facing: Points) -> tuple[Points, Points]:
    """Two directions square to `facing` and to each other; seen from there they turn counter-clockwise."""
    normal = facing / np.linalg.norm(facing)
    across = np.cross(np.eye(3)[int(np.argmin(np.abs(normal)))], normal)
    across /= np.linalg.norm(across)
    return across, np.cross(normal, across)
