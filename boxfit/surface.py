"""Surfaces of triangles: what a scan, a set of sections or a solid from another program comes down to."""

from dataclasses import dataclass
from functools import cached_property
from typing import Literal

import numpy as np
from numpy.typing import NDArray

Vector = tuple[float, float, float]
Point = tuple[float, float]
Outline = tuple[Point, ...]
Reading = Literal["room", "body"]

LEAST_PART = 0.01
"""Parts of a room that show as less than this share of its largest have no outline of their own."""


@dataclass(frozen=True, eq=False)
class Surface:
    """Triangles between points [mm], shapes (m, 3) and (n, 3).

    The true surface lies no further than `off` [mm] from the triangles; whoever keeps a distance adds it.
    Around a closed solid the triangles run counter-clockwise seen from outside. Compared by identity.
    """

    points: NDArray[np.float64]
    triangles: NDArray[np.int64]
    off: float = 0.0

    @cached_property
    def corners(self) -> NDArray[np.float64]:
        """The corners [mm] of every triangle, shape (m, 3, 3)."""
        found: NDArray[np.float64] = self.points[self.triangles]
        return found

    @property
    def low(self) -> Vector:
        """The lowest corner [mm] of the block round all points."""
        x, y, z = (float(value) for value in self.points.min(axis=0))
        return (x, y, z)

    @property
    def high(self) -> Vector:
        """The highest corner [mm] of the block round all points."""
        x, y, z = (float(value) for value in self.points.max(axis=0))
        return (x, y, z)


@dataclass(frozen=True, eq=False)
class Shell:
    """Room of any shape, within a surface.

    Read as "room", the surface is closed and bounds the room. Read as "body", it is metal: the room is what
    can be reached from the opening, and ends at the block from `low` to `high` [mm] besides.

    `opens` says of each triangle whether the opening takes it: a box may pass it on its way in, though not
    come nearer to it at rest; all false for a body. `volume` [mm3] is that of the room. `plan` (x, y),
    `side` (x, z) and `rear` (y, z) are the outlines [mm] of what the room shows in each view, the largest
    first, counter-clockwise, holes left out; `told` is what was done to the survey on its way in.
    """

    surface: Surface
    reads: Reading
    low: Vector
    high: Vector
    opens: NDArray[np.bool_]
    volume: float
    plan: tuple[Outline, ...]
    side: tuple[Outline, ...]
    rear: tuple[Outline, ...]
    told: tuple[str, ...] = ()

    @property
    def outline(self) -> Outline:
        """The largest outline in plan [mm]."""
        return self.plan[0]

    @property
    def floor(self) -> float:
        """The lowest level [mm]."""
        return self.low[2]

    @property
    def top(self) -> float:
        """The highest level [mm]."""
        return self.high[2]
