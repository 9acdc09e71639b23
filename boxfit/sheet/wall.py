"""A wall laid flat, from its lower edge up over the flange's bend to the flange's edge."""

from dataclasses import dataclass
from itertools import pairwise
from math import pi

from boxfit.bay import Point
from boxfit.box.sides import Side
from boxfit.box_blank import Fold


@dataclass(frozen=True)
class Wall:
    """One wall along a side: `straight` [mm] up from its lower edge, then the flange where there is one.

    `flange` [mm] stands outwards from the wall's outside, 0 without one. `back` [mm] is how far edges stand
    back from mitres for the weld.
    """

    side: Side
    straight: float
    fold: Fold
    flange: float
    back: float

    @property
    def height(self) -> float:
        """All of it laid flat [mm]."""
        if not self.flange:
            return self.straight
        return self.straight + self.fold.allowance + self.flange - self.fold.radius

    @property
    def bend_line(self) -> float:
        """How far up [mm] the middle of the flange's bend is."""
        return self.straight + self.fold.allowance / 2.0

    def in_flange(self, outwards: float) -> float:
        """How far up [mm] lies what is so far [mm] outwards of the wall's outside."""
        return self.straight + self.fold.allowance + outwards - self.fold.radius

    def edge(self, end: int) -> tuple[Point, ...]:
        """The wall's edge at its end 0 or 1: how far up, and how far past the outline's corner [mm].

        Inside edges meet at a convex corner, outside edges at a reflex one; flanges meet in a mitre. Within
        the bend a straight line keeps clear of the mitre, which is curved there.
        """
        fold, back, turn = self.fold, self.back, self.side.turns[end]
        foot = (-fold.thickness if turn == 1 else 0.0) - back
        if not self.flange:
            return ((0.0, foot), (self.straight, foot))
        # convex: the tangent to the mitre's curve where the bend ends meets the wall's edge one radian before
        free = (pi / 2.0 - 1.0) * fold.neutral if turn == 1 else 0.0
        bent = self.straight + fold.allowance
        return (
            (0.0, foot),
            (self.straight + free, foot),
            (bent, turn * fold.radius - back),
            (self.height, turn * self.flange - back),
        )

    def past(self, end: int, up: float) -> float:
        """How far [mm] the wall reaches past the outline's corner, so far [mm] up."""
        edge = self.edge(end)
        for (low, one), (high, other) in pairwise(edge):
            if up <= high:
                return one + (other - one) * (up - low) / (high - low)
        return edge[-1][1]

    @property
    def narrowest(self) -> float:
        """The least width [mm] anywhere; nothing is left of it where that is not above 0."""
        levels = sorted({up for end in (0, 1) for up, _ in self.edge(end)})
        return min(self.side.length + self.past(0, up) + self.past(1, up) for up in levels)
