"""A part of a surface: what of it a box passes on its way in."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from boxfit.surface import Surface


@dataclass(frozen=True, eq=False)
class Part:
    """Those triangles of a surface that are `chosen`, one flag for each. Compared by identity."""

    surface: Surface
    chosen: NDArray[np.bool_]

    @cached_property
    def points(self) -> NDArray[np.bool_]:
        """Which points of the surface are corners of a chosen triangle."""
        found = np.zeros(len(self.surface.points), dtype=np.bool_)
        found[self.surface.triangles[self.chosen].ravel()] = True
        return found

    @cached_property
    def alone(self) -> Surface:
        """The chosen triangles as a surface of their own.

        >>> points = np.array([[0.0, 0, 0], [9, 0, 0], [0, 9, 0], [9, 9, 0]])
        >>> both = Surface(points, np.array([[0, 1, 2], [1, 3, 2]]))
        >>> Part(both, np.array([False, True])).alone.triangles.tolist()
        [[0, 2, 1]]
        """
        number = np.cumsum(self.points) - 1
        return Surface(
            self.surface.points[self.points],
            number[self.surface.triangles[self.chosen]],
            self.surface.off,
        )
