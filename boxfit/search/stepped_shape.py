"""An outline of up to three slabs side by side, in whole units, and the modules' claims inside it.

Any outline of up to eight corners can be cut into such slabs along one of the two axes; `turned` ones are
cut across the car.
"""

from dataclasses import dataclass, replace
from itertools import pairwise

from boxfit.bay import BoxRules
from boxfit.box_details import least_side, ledge
from boxfit.search.blocks import Footprint, Placement
from boxfit.search.raster import UNITS_PER_MILLIMETRE, units
from boxfit.search.stack import Stack
from boxfit.surface import Outline

LEAST_SIDE = 10.0
"""No side of a stepped box is shorter [mm], its bends and flanges apart (common practice, no source)."""
MOST_CORNERS = 8
"""Corners of one outline at most."""

Claim = tuple[tuple[int, int], tuple[int, int]]
"""Low and high corner [units] of what must lie inside."""


@dataclass(frozen=True)
class Clad:
    """What one tier lays in plan [units]: reserves, and walls, liner and gap `before` and `after` them."""

    reserves: tuple[Footprint, ...]
    before: tuple[int, int]
    after: tuple[int, int]

    @property
    def turned(self) -> "Clad":
        """The same with the axes exchanged."""
        return Clad(
            tuple((b, a) for a, b in self.reserves),
            (self.before[1], self.before[0]),
            (self.after[1], self.after[0]),
        )


def clads(stack: Stack) -> tuple[Clad, ...]:
    """What each tier of a stack lays in plan, lowest first."""
    wall = stack.rules.thickness + stack.rules.liner
    return tuple(
        Clad(
            model.reserves,
            (units(wall + model.start[0]), units(wall + model.start[1])),
            (
                units(wall + model.loss[0] - model.start[0]),
                units(wall + model.loss[1] - model.start[1]),
            ),
        )
        for model in stack.models
    )


@dataclass(frozen=True)
class Making:
    """What the workshop needs [units]: the least side anywhere, across a `neck` and between two flanges."""

    step: int
    neck: int
    notch: int


def making(rules: BoxRules) -> Making:
    """The least sides of a stepped box built by the rules."""
    side = max(LEAST_SIDE, least_side(rules))
    bar = ledge(rules)
    inwards = rules.thickness + max(rules.liner + rules.bend_radius, bar.width if bar else 0.0)
    return Making(units(side), units(2 * inwards + side), units(2 * rules.reach + side))


@dataclass(frozen=True)
class Shape:
    """Slabs between neighbouring `cuts`, each from `lows` to `highs` across [units]."""

    cuts: tuple[int, ...]
    lows: tuple[int, ...]
    highs: tuple[int, ...]
    turned: bool = False

    @property
    def corners(self) -> int:
        """Corners of the outline."""
        changes = sum(a != b for ends in (self.lows, self.highs) for a, b in pairwise(ends))
        return 4 + 2 * changes

    @property
    def area(self) -> int:
        """What the outline encloses [square units]."""
        widths = (front - rear for rear, front in pairwise(self.cuts))
        return sum(w * (high - low) for w, low, high in zip(widths, self.lows, self.highs, strict=True))

    def holds(self, low: tuple[int, int], high: tuple[int, int]) -> bool:
        """True where a rectangle [units] lies inside."""
        if low[0] < self.cuts[0] or high[0] > self.cuts[-1]:
            return False
        slabs = zip(pairwise(self.cuts), self.lows, self.highs, strict=True)
        return all(
            bottom <= low[1] and high[1] <= top
            for (rear, front), bottom, top in slabs
            if rear < high[0] and low[0] < front
        )

    @property
    def merged(self) -> "Shape":
        """The same without empty slabs, and equal neighbours as one."""
        cuts, lows, highs = [self.cuts[0]], list[int](), list[int]()
        for (rear, front), low, high in zip(pairwise(self.cuts), self.lows, self.highs, strict=True):
            if front == rear:
                continue
            if lows and (low, high) == (lows[-1], highs[-1]):
                cuts[-1] = front
                continue
            cuts.append(front)
            lows.append(low)
            highs.append(high)
        return replace(self, cuts=tuple(cuts), lows=tuple(lows), highs=tuple(highs))

    def can_be_made(self, needs: Making) -> bool:
        """True where no side is too short to bend and weld."""
        if min(front - rear for rear, front in pairwise(self.cuts)) < needs.step:
            return False
        for lows, highs in (
            (self.lows, self.highs),
            (tuple(-h for h in self.highs), tuple(-low for low in self.lows)),
        ):
            if not _side_can_be_made(self.cuts, lows, needs):
                return False
            if any(min(highs[k : k + 2]) - max(lows[k : k + 2]) < needs.neck for k in range(len(lows))):
                return False
        return True

    def outline(self) -> Outline:
        """Corners [mm], counter-clockwise from the rearmost, of two the one on the right."""
        points: list[tuple[int, int]] = []
        for (rear, front), low in zip(pairwise(self.cuts), self.lows, strict=True):
            points += [(rear, low), (front, low)]
        for (rear, front), high in zip(list(pairwise(self.cuts))[::-1], self.highs[::-1], strict=True):
            points += [(front, high), (rear, high)]
        if self.turned:
            points = [(y, x) for x, y in points[::-1]]
        return _plain([(x / UNITS_PER_MILLIMETRE, y / UNITS_PER_MILLIMETRE) for x, y in points])


def _side_can_be_made(cuts: tuple[int, ...], lows: tuple[int, ...], needs: Making) -> bool:
    """Steps along one side deep enough, what stands out wide enough to bend, notches for two flanges."""
    if any(0 < abs(a - b) < needs.step for a, b in pairwise(lows)):
        return False
    runs: list[tuple[int, int]] = []
    for (rear, front), low in zip(pairwise(cuts), lows, strict=True):
        width = front - rear
        if runs and runs[-1][0] == low:
            width += runs.pop()[1]
        runs.append((low, width))
    for place, (low, width) in enumerate(runs):
        beside = [runs[k][0] for k in (place - 1, place + 1) if 0 <= k < len(runs)]
        if len(beside) == 2 and low > max(beside) and width < needs.notch:
            return False
        if all(low < other for other in beside) and width < needs.neck:
            return False
    return True


def _plain(points: list[tuple[float, float]]) -> Outline:
    """The corners that are left when points twice there and points on a side are left out."""
    kept = list(dict.fromkeys(points))
    neighbours = zip(kept[-1:] + kept[:-1], kept, kept[1:] + kept[:1], strict=True)
    corners = [
        here
        for before, here, after in neighbours
        if not any(before[axis] == here[axis] == after[axis] for axis in (0, 1))
    ]
    first = corners.index(min(corners))
    return tuple(corners[first:] + corners[:first])


def claim(clad: Clad, placement: Placement) -> Claim:
    """Low and high corner [units] of a module's reserve with its own walls all round."""
    kind, x, y = placement
    width, depth = clad.reserves[kind]
    return (
        (x - clad.before[0], y - clad.before[1]),
        (x + width + clad.after[0], y + depth + clad.after[1]),
    )


def trimmed(shape: Shape, claims: list[Claim], needs: Making) -> Shape:
    """The outline with its walls pulled in to the claims, as long as it can be made; never more corners."""
    found = shape
    for _ in range(3):
        pulled = _pulled_across(_pulled_along(found, claims), claims).merged
        if pulled == found or not pulled.can_be_made(needs):
            break
        found = pulled
    return found


def _pulled_along(shape: Shape, claims: list[Claim]) -> Shape:
    """Cuts moved towards the claims."""
    cuts = list(shape.cuts)
    cuts[0] = min(low[0] for low, _ in claims)
    cuts[-1] = max(high[0] for _, high in claims)
    for place in range(1, len(cuts) - 1):
        before = (shape.lows[place - 1], shape.highs[place - 1])
        after = (shape.lows[place], shape.highs[place])
        wider_before = before[0] < after[0] or before[1] > after[1]
        if wider_before:
            ends = [
                high[0]
                for low, high in claims
                if not after[0] <= low[1] <= high[1] <= after[1] and low[0] < cuts[place]
            ]
            cuts[place] = max([cuts[place - 1], *ends])
        else:
            starts = [
                low[0]
                for low, high in claims
                if not before[0] <= low[1] <= high[1] <= before[1] and high[0] > cuts[place]
            ]
            cuts[place] = min([cuts[place + 1], *starts])
    return replace(shape, cuts=tuple(cuts)) if cuts == sorted(cuts) else shape


def _pulled_across(shape: Shape, claims: list[Claim]) -> Shape:
    """Lows and highs moved towards the claims, those at one height together."""

    def touching(ends: tuple[int, ...], end: int) -> list[Claim]:
        slabs = [k for k, other in enumerate(ends) if other == end]
        return [
            one
            for one in claims
            if any(one[0][0] < shape.cuts[k + 1] and shape.cuts[k] < one[1][0] for k in slabs)
        ]

    lows = tuple(min((one[0][1] for one in touching(shape.lows, low)), default=low) for low in shape.lows)
    highs = tuple(
        max((one[1][1] for one in touching(shape.highs, high)), default=high) for high in shape.highs
    )
    return replace(shape, lows=lows, highs=highs)
