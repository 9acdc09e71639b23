"""Whether a box that may be turned in a plane gets out of what stands round it: all its poses on a raster.

A pose is a place of the box's middle and an angle. For one angle, the places where a convex part of the box
meets a convex obstacle are the obstacle with the part, turned half round, moved over it. Between two angles
stands a further layer, for a part as large as both together, so that a way through the layers is a way for
every angle between. Parts are taken larger all round by `EDGE` of the raster's step and by what a corner's
arc reaches beyond its chord: then no corner of an obstacle slips through between two free places. What is
said to pass does pass; what is said to fail might pass with some millimetres' luck.
"""

from dataclasses import dataclass
from functools import cached_property
from math import cos, floor, hypot, radians

import numpy as np
import shapely
from numpy.typing import NDArray

from boxfit.space.shadow import Polygon

Numbers = NDArray[np.float64]

STEP = 5.0
"""Places stand this far apart [mm], or further where the window is more than `MOST_STEPS` of them long."""
MOST_STEPS = 240
TURN = 3.0
"""Angles looked at stand this far apart [degrees]."""
MOST_TURN = 90.0
"""A box is turned no further than on its end [degrees] either way."""
EDGE = 0.354
"""In steps: a right-angled corner grown by this is a step wide or more where it ended; 1 / sqrt(8)."""
SLACK = 1e-6


@dataclass(frozen=True)
class Part:
    """A part of the box at rest, `low` to `high` [mm] from its middle, and what this part must not meet."""

    low: tuple[float, float]
    high: tuple[float, float]
    obstacles: tuple[Polygon, ...]


@dataclass(frozen=True)
class Window:
    """Places of the middle [mm from rest] looked at: to `right` and `left`, down to `low`, up to `out`."""

    left: float
    right: float
    low: float
    out: float


@dataclass(frozen=True)
class Turning:
    """A box at rest, turned by nothing, that is to come up to the level `window.out` by moving and turning.

    `keep` [mm] is the distance it keeps from every obstacle on the way.
    """

    parts: tuple[Part, ...]
    window: Window
    keep: float

    def least_angle(self) -> float | None:
        """The least angle [degrees] either way the box must be turned to; None where no turning helps.

        Above 0 the right end, towards the plane's first axis, is the one further out.
        """
        most = round(MOST_TURN / TURN)
        if not self._passes(-most, most):
            return None
        angle = 0
        beaten = most + 1
        for sign in (1, -1):
            few, many = 0, beaten - 1
            if not self._passes(*sorted((0, sign * many))):
                continue
            while few < many:
                middle = (few + many) // 2
                few, many = (few, middle) if self._passes(*sorted((0, sign * middle))) else (middle + 1, many)
            beaten, angle = many, sign * many
            if beaten == 0:
                break
        return (angle if beaten <= most else most) * TURN

    @property
    def step(self) -> float:
        """How far apart the places stand [mm]."""
        longest = max(self.window.left + self.window.right, self.window.low + self.window.out)
        return max(STEP, longest / MOST_STEPS)

    @property
    def passes(self) -> bool:
        """Whether the box comes out by turning up to `MOST_TURN` either way."""
        most = round(MOST_TURN / TURN)
        return self._passes(-most, most)

    def _passes(self, least: int, most: int) -> bool:
        """Whether the box comes out turned between two angles, in steps of `TURN`."""
        from scipy.ndimage import label

        middle = len(self.free) // 2
        layers = self.free[middle + 2 * least : middle + 2 * most + 1]
        regions, _ = label(layers)
        start = regions[-2 * least, self._rows[0], self._columns[0]]
        return bool(start and (regions[:, -1, :] == start).any())

    @property
    def _columns(self) -> tuple[int, int]:
        """The column in which the box rests, and how many there are."""
        before = floor(self.window.left / self.step)
        return before, before + floor(self.window.right / self.step) + 1

    @property
    def _rows(self) -> tuple[int, int]:
        """The row in which the box rests, and how many there are."""
        before = floor(self.window.low / self.step)
        return before, before + floor(self.window.out / self.step) + 2

    @cached_property
    def free(self) -> NDArray[np.bool_]:
        """Where the box meets nothing: layers of angles and between angles, rows outwards, columns across."""
        steps = round(MOST_TURN / TURN)
        free = np.ones((4 * steps + 1, self._rows[1], self._columns[1]), dtype=bool)
        for part in self.parts:
            if not part.obstacles:
                continue
            obstacles = _padded(part.obstacles)
            for layer in range(len(free)):
                angles = ((layer // 2 - steps) * TURN, ((layer + 1) // 2 - steps) * TURN)
                self._block(free[layer], obstacles, self._turned(part, angles))
        return free

    def _turned(self, part: Part, angles: tuple[float, float]) -> Numbers:
        """The corners [mm] of a part, grown by what it keeps, at both angles [degrees]."""
        (u, v), (a, b) = part.low, part.high
        reach = max(hypot(x, y) for x in (u, a) for y in (v, b))
        grown = self.keep + EDGE * self.step + reach * (1.0 - cos(radians(TURN / 2.0))) - SLACK
        corners = np.array([(x, y) for x in (u - grown, a + grown) for y in (v - grown, b + grown)])
        turns = np.radians(sorted(set(angles)))
        right, up = np.cos(turns), np.sin(turns)
        turned = np.stack(
            [
                corners[:, 0] * right[:, None] - corners[:, 1] * up[:, None],
                corners[:, 0] * up[:, None] + corners[:, 1] * right[:, None],
            ],
            axis=-1,
        )
        return turned.reshape(-1, 2)

    def _block(self, free: NDArray[np.bool_], obstacles: Numbers, corners: Numbers) -> None:
        """Takes out of one layer the places where the part with these corners meets an obstacle."""
        sums = (obstacles[:, :, None, :] - corners).reshape(len(obstacles), -1, 2)
        count = sums.shape[1]
        lines = shapely.linestrings(sums.reshape(-1, 2), indices=np.repeat(np.arange(len(sums)), count))
        hulls = shapely.convex_hull(lines)
        ring, owner = shapely.get_coordinates(hulls, return_index=True)
        here = np.array([self._columns[0], self._rows[0]])
        at = ring / self.step + here
        same = owner[1:] == owner[:-1]
        start, end, owner = at[:-1][same], at[1:][same], owner[:-1][same]
        sections = _sections(start, end, owner, free.shape[0])
        _take_out(free, *sections)


def _padded(polygons: tuple[Polygon, ...]) -> Numbers:
    """All polygons with as many corners as the richest has, the last repeated."""
    most = max(map(len, polygons))
    return np.array(
        [(*polygon, *((polygon[-1],) * (most - len(polygon)))) for polygon in polygons], dtype=float
    )


def _sections(start: Numbers, end: Numbers, owner: NDArray[np.int64], rows: int) -> tuple[Numbers, Numbers]:
    """From where to where each convex polygon, given by its edges, reaches in each row."""
    levels = np.arange(rows)
    rise = end[:, 1] - start[:, 1]
    level = np.where(np.abs(rise) > 1e-12, rise, 1.0)
    at = (
        start[:, 0, None] + (levels - start[:, 1, None]) / level[:, None] * (end[:, 0] - start[:, 0])[:, None]
    )
    low, high = np.minimum(start[:, 1], end[:, 1]), np.maximum(start[:, 1], end[:, 1])
    met = (levels >= low[:, None]) & (levels <= high[:, None]) & (np.abs(rise) > 1e-12)[:, None]
    firsts = np.flatnonzero(np.diff(owner, prepend=-1))
    return (
        np.minimum.reduceat(np.where(met, at, np.inf), firsts, axis=0),
        np.maximum.reduceat(np.where(met, at, -np.inf), firsts, axis=0),
    )


def _take_out(free: NDArray[np.bool_], low: Numbers, high: Numbers) -> None:
    """Takes the places strictly between `low` and `high` out of each row."""
    columns = free.shape[1]
    reached = high > low
    first = np.clip(np.ceil(np.where(reached, low, 0.0) + SLACK), 0, columns).astype(np.int64)
    last = np.clip(np.floor(np.where(reached, high, -1.0) - SLACK) + 1, 0, columns).astype(np.int64)
    polygons, rows = np.nonzero(reached & (last > first))
    changes = np.zeros((free.shape[0], columns + 1), dtype=np.int16)
    np.add.at(changes, (rows, first[polygons, rows]), 1)
    np.add.at(changes, (rows, last[polygons, rows]), -1)
    free &= changes.cumsum(axis=1)[:, :columns] == 0
