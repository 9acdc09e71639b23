"""The stepped outlines one free plan allows, each with a count by blocks and a bound."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely

from boxfit.bay import Point
from boxfit.search.blocks import Placement
from boxfit.search.stepped_count import Whole, bounds, counts, placements
from boxfit.search.stepped_fill import settle
from boxfit.search.stepped_outline import Outlines, outlines
from boxfit.search.stepped_plan import exchanged, origin_of, strips
from boxfit.search.stepped_shape import Clad, Making, Shape

A_FEW = 3
"""Outlines kept for each count and number of corners."""


@dataclass(frozen=True)
class Laid:
    """An outline and the modules of the tiers inside it, lowest first [units from the plan's origin]."""

    shape: Shape
    tiers: tuple[tuple[Placement, ...], ...]

    @property
    def count(self) -> int:
        """Modules in it."""
        return sum(map(len, self.tiers))


@dataclass(frozen=True, eq=False)
class Side:
    """Outlines cut along one axis, with what they hold at least and at most."""

    found: Outlines
    tiers: tuple[Clad, ...]

    @cached_property
    def counts(self) -> Whole:
        """Modules by blocks."""
        return np.asarray(np.sum([counts(self.found, clad) for clad in self.tiers], axis=0))

    @cached_property
    def bounds(self) -> Whole:
        """No more modules than this."""
        return np.asarray(np.sum([bounds(self.found, clad) for clad in self.tiers], axis=0))

    @cached_property
    def areas(self) -> Whole:
        """What each encloses [square units]."""
        depths = self.found.highs - self.found.lows
        return np.asarray((np.diff(self.found.cuts, axis=1) * depths).sum(axis=1))

    def laid(self, place: int) -> Laid:
        """One outline filled by blocks."""
        tiers = tuple(tuple(placements(self.found, place, clad)) for clad in self.tiers)
        return Laid(self.found.shape(place), tiers)

    def settled(self, place: int, beaten: int) -> Laid | None:
        """One outline filled by the exact search where that holds more than `beaten`."""
        one = self.found.only(np.array([place]))
        shape = one.shape(0)
        laid = {clad: tuple(placements(one, 0, clad)) for clad in self.tiers}
        most = {clad: int(bounds(one, clad)[0]) for clad in laid}
        for clad, known in laid.items():
            others = sum(most[other] for other in self.tiers) - most[clad] * self.tiers.count(clad)
            least = (beaten - others) // self.tiers.count(clad)
            laid[clad] = tuple(settle(shape, clad, max(len(known), least), most[clad])) or known
            most[clad] = len(laid[clad])
        found = Laid(shape, tuple(laid[clad] for clad in self.tiers))
        return found if found.count > beaten else None


@dataclass(frozen=True, eq=False)
class Choice:
    """All outlines of one free plan for the tiers they all enclose."""

    origin: Point
    sides: tuple[Side, ...]

    @cached_property
    def bound(self) -> int:
        """No outline looked at holds more than this."""
        return max((int(side.bounds.max(initial=0)) for side in self.sides), default=0)

    @cached_property
    def most(self) -> int:
        """The greatest count by blocks."""
        return max((int(side.counts.max(initial=0)) for side in self.sides), default=0)

    def best(self, more_than: int) -> Iterator[tuple[Side, int]]:
        """The largest few outlines for each count above `more_than` and each number of corners."""
        for side in self.sides:
            order = np.lexsort((-side.areas, side.found.corners, -side.counts))
            seen: dict[tuple[int, int], int] = {}
            for place in order[: np.count_nonzero(side.counts > more_than)]:
                key = (int(side.counts[place]), int(side.found.corners[place]))
                seen[key] = seen.get(key, 0) + 1
                if seen[key] <= A_FEW:
                    yield side, int(place)

    def promising(self, beaten: int, corners: int) -> Iterator[tuple[Side, int]]:
        """Outlines of so many corners that may hold more than `beaten`, the likeliest of each side first."""
        for rank in range(A_FEW):
            for side in self.sides:
                left = (side.bounds > beaten) & (side.found.corners == corners)
                places = np.flatnonzero(left)
                if rank < len(places):
                    gain = (-side.areas[places], -side.bounds[places], -side.counts[places])
                    yield side, int(places[np.lexsort(gain)[rank]])


def choice(
    region: shapely.Geometry, tiers: tuple[Clad, ...], needs: Making, most_corners: int
) -> Choice | None:
    """The outlines a region of free points [mm] allows; None where there is none."""
    if region.is_empty:
        return None
    origin = origin_of(region)
    plain = strips(region, origin, tiers)
    sides = [Side(outlines(plain, needs, most_corners, turned=False), tiers)]
    across = tuple(clad.turned for clad in tiers)
    other = strips(exchanged(region), (origin[1], origin[0]), across)
    sides.append(Side(outlines(other, needs, most_corners, turned=True), across))
    return Choice(origin, tuple(side for side in sides if len(side.found)))
