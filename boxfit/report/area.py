"""Upright rectangles on paper."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from boxfit.bay import Point


@dataclass(frozen=True)
class Area:
    """An upright rectangle on paper [mm]."""

    left: float
    bottom: float
    right: float
    top: float

    @property
    def width(self) -> float:
        """From left to right [mm]."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """From bottom to top [mm]."""
        return self.top - self.bottom

    @property
    def centre(self) -> Point:
        """The middle [mm]."""
        return ((self.left + self.right) / 2, (self.bottom + self.top) / 2)

    @property
    def corners(self) -> tuple[Point, Point, Point, Point]:
        """The four corners [mm], counter-clockwise from the lower left."""
        return (
            (self.left, self.bottom),
            (self.right, self.bottom),
            (self.right, self.top),
            (self.left, self.top),
        )

    def inset(self, by: float) -> Area:
        """The rectangle `by` [mm] further in on every side; further out where negative."""
        return Area(self.left + by, self.bottom + by, self.right - by, self.top - by)

    def meets(self, other: Area) -> bool:
        """True where the two share more than an edge.

        >>> Area(0, 0, 2, 2).meets(Area(1, 1, 3, 3)), Area(0, 0, 2, 2).meets(Area(2, 0, 3, 2))
        (True, False)
        """
        apart_across = self.right <= other.left or other.right <= self.left
        return not (apart_across or self.top <= other.bottom or other.top <= self.bottom)

    def holds(self, other: Area) -> bool:
        """True where `other` lies wholly inside."""
        inside_across = self.left <= other.left and other.right <= self.right
        return inside_across and self.bottom <= other.bottom and other.top <= self.top


def area_of(points: Sequence[Point]) -> Area:
    """The rectangle round the points.

    >>> area_of([(1, 5), (3, 2)])
    Area(left=1, bottom=2, right=3, top=5)
    """
    across, upwards = zip(*points, strict=True)
    return Area(min(across), min(upwards), max(across), max(upwards))
