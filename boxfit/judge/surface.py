"""The exact distance from a block to a surface of very many triangles."""

from dataclasses import dataclass
from math import inf
from weakref import WeakKeyDictionary

import numpy as np
from numpy.typing import NDArray

from boxfit.bay import Shell, Surface
from boxfit.judge.distance import Cuboid
from boxfit.judge.triangle import Array, point_distances, triangle_distances

ROUNDING = 1e-9
"""A distance [mm] below this is what rounding leaves of 0: the two meet."""
BATCH = 8192
"""Triangles measured at once: enough to be quick, few enough to stay small in memory."""


@dataclass(frozen=True)
class Spans:
    """From where to where [mm] each triangle reaches along x, y and z: two arrays (3, m)."""

    low: Array
    high: Array


_spans: WeakKeyDictionary[Surface, Spans] = WeakKeyDictionary()
_closed: WeakKeyDictionary[Shell, Surface] = WeakKeyDictionary()


def spans(surface: Surface) -> Spans:
    """The reach of every triangle of the surface, worked out once."""
    if surface not in _spans:
        one, two, three = surface.triangles.T
        axes = surface.points.T
        low = np.array([np.minimum(np.minimum(axis[one], axis[two]), axis[three]) for axis in axes])
        high = np.array([np.maximum(np.maximum(axis[one], axis[two]), axis[three]) for axis in axes])
        _spans[surface] = Spans(low, high)
    return _spans[surface]


def closed_part(shell: Shell) -> Surface:
    """The surface of a shell less the triangles its opening takes."""
    if not shell.opens.any():
        return shell.surface
    if shell not in _closed:
        surface = shell.surface
        _closed[shell] = Surface(surface.points, surface.triangles[~shell.opens], surface.off)
    return _closed[shell]


def surface_distance(block: Cuboid, surface: Surface, reach: float) -> float:
    """The shortest distance [mm] to the triangles, 0 where they meet; endless where none is in `reach`.

    >>> points = np.array([[4.0, -9.0, -9.0], [4.0, 9.0, -9.0], [4.0, 0.0, 9.0]])
    >>> wall = Surface(points, np.array([[0, 1, 2]]))
    >>> surface_distance(Cuboid((0, 0, 0), (1, 1, 1)), wall, 3.0)
    3.0
    >>> surface_distance(Cuboid((0, 0, 0), (1, 1, 1)), wall, 2.0)
    inf
    """
    near, gaps = _within_reach(block, spans(surface), reach)
    nearest = inf
    while near.size > 0:
        # those likely to be nearest come first; then a triangle is no nearer than the block round it
        order = np.argpartition(gaps, BATCH) if near.size > BATCH else np.arange(near.size)
        now, later = order[:BATCH], order[BATCH:]
        nearest = min(nearest, _least(block, surface.points[surface.triangles[near[now]]], gaps[now]))
        later = later[gaps[later] < nearest]
        near, gaps = near[later], gaps[later]
    return 0.0 if nearest < ROUNDING else nearest


def _least(block: Cuboid, corners: Array, gaps: Array) -> float:
    """The shortest distance [mm] to some triangles: of most, a corner already says all."""
    to_corners = float(point_distances(block, corners).min())
    within = triangle_distances(block, corners[gaps < to_corners])
    return min(to_corners, float(within.min(initial=inf)))


def _within_reach(block: Cuboid, all_spans: Spans, reach: float) -> tuple[NDArray[np.intp], Array]:
    """The triangles within reach by the blocks round them, and the gaps [mm] to those blocks."""
    low, high = all_spans.low, all_spans.high
    is_near = np.ones(low.shape[1], dtype=np.bool_)
    for k in range(3):
        is_near &= low[k] <= block.high[k] + reach
        is_near &= high[k] >= block.low[k] - reach
    near = np.flatnonzero(is_near)
    squares = np.zeros(len(near))
    for k in range(3):
        squares += (
            np.maximum(np.maximum(low[k][near] - block.high[k], block.low[k] - high[k][near]), 0.0) ** 2
        )
    gaps: Array = np.sqrt(squares)
    return near[gaps <= reach], gaps[gaps <= reach]
