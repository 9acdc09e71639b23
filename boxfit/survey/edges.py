"""The edges of a surface and the triangles that meet there."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Numbers = NDArray[np.int64]
Flags = NDArray[np.bool_]


@dataclass(frozen=True, eq=False)
class Edges:
    """Sides of triangles, sorted so that those of one edge stand together.

    Side 3 t + k runs from corner k of triangle t to the next. `first` says where in `sides` each edge begins,
    `counts` how many triangles meet there.
    """

    triangles: Numbers
    sides: Numbers
    first: Numbers
    counts: Numbers

    @property
    def open_sides(self) -> Numbers:
        """The sides that no other triangle shares."""
        return np.sort(self.sides[self.first[self.counts == 1]])

    @property
    def crowded_sides(self) -> Numbers:
        """The sides that more than two triangles share."""
        found: Numbers = self.sides[np.repeat(self.counts > 2, self.counts)]
        return found

    @property
    def pairs(self) -> tuple[Numbers, Numbers]:
        """The two sides of every edge that two triangles share."""
        first = self.first[self.counts == 2]
        return self.sides[first], self.sides[first + 1]

    def start(self, sides: Numbers) -> Numbers:
        """The points at which sides begin."""
        found: Numbers = self.triangles.ravel()[sides]
        return found

    def end(self, sides: Numbers) -> Numbers:
        """The points at which sides end."""
        found: Numbers = self.triangles.ravel()[np.where(sides % 3 == 2, sides - 2, sides + 1)]
        return found


def edges_of(triangles: Numbers) -> Edges:
    """The edges of triangles with three different corners."""
    start = triangles.ravel()
    end = triangles[:, [1, 2, 0]].ravel()
    key = np.minimum(start, end) * (int(triangles.max(initial=0)) + 1) + np.maximum(start, end)
    sides = np.argsort(key)
    ordered = key[sides]
    new = np.ones(len(key), dtype=np.bool_)
    new[1:] = ordered[1:] != ordered[:-1]
    first = np.flatnonzero(new)
    return Edges(triangles, sides, first, np.diff(first, append=len(key)))
