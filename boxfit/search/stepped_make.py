"""From modules laid inside outlines to a stepped box, its walls pulled in to them."""

from dataclasses import dataclass, replace
from operator import itemgetter

import shapely

from boxfit.box_shape import Rectangle, rectangles
from boxfit.search.floors import Rooms
from boxfit.search.raster import UNITS_PER_MILLIMETRE
from boxfit.search.stack import Stack
from boxfit.search.stepped_box import Body, SteppedBox
from boxfit.search.stepped_choice import Laid
from boxfit.search.stepped_shape import Clad, Claim, clads, claim, making, trimmed
from boxfit.search.tier import PlanModel
from boxfit.surface import Outline, Point


@dataclass(frozen=True)
class Found:
    """Modules laid in outlines, lowest first, and where each one's units begin [mm]."""

    stack: Stack
    bottom: float
    laid: tuple[Laid, ...]
    offsets: tuple[Point, ...]

    @property
    def count(self) -> int:
        """Modules in it."""
        return sum(one.count for one in self.laid)

    @property
    def corners(self) -> int:
        """Corners of all its outlines."""
        return sum(one.shape.corners for one in self.laid)

    def box(self, count: int, from_rear: bool = False) -> SteppedBox:
        """The box round so many of the modules; what is too much is taken out in front, or from the rear."""
        return boxed(self.stack, self.bottom, reduced(self.laid, count, from_rear), self.offsets)


def boxed(stack: Stack, bottom: float, laid: tuple[Laid, ...], offsets: tuple[Point, ...]) -> SteppedBox:
    """The box round what is laid, lowest outline first; `offsets` [mm] are where each one's units begin."""
    outlines: list[Outline] = []
    bodies: list[tuple[Body, ...]] = []
    inner: tuple[Rectangle, ...] = ()
    for one, offset in zip(laid, offsets, strict=True):
        first = len(bodies)
        tiers = clads(stack)[first : first + len(one.tiers)]
        outline = _outline(one, tiers, stack, _claims_of(inner, offset, one.shape.turned))
        outlines += [_moved(outline, offset)] * len(one.tiers)
        inner = rectangles(outlines[-1])
        for model, tier in zip(stack.models[first:], one.tiers, strict=False):
            bodies.append(_bodies(model, tier, one.shape.turned, offset))
    low = (min(x for x, _ in outlines[-1]), min(y for _, y in outlines[-1]))
    away = (-low[0], -low[1])
    return SteppedBox(
        stack,
        bottom,
        tuple(_moved(outline, away) for outline in outlines),
        tuple(
            tuple(sorted((kind, _tidy(x - low[0]), _tidy(y - low[1])) for kind, x, y in tier))
            for tier in bodies
        ),
    )


def _outline(one: Laid, tiers: tuple[Clad, ...], stack: Stack, inner: list[Claim]) -> Outline:
    """The outline pulled in to its modules and to what stands out below it."""
    own = [
        claim(clad.turned if one.shape.turned else clad, placement)
        for clad, tier in zip(tiers, one.tiers, strict=True)
        for placement in tier
    ]
    return trimmed(one.shape, own + inner, making(stack.rules)).outline()


def _claims_of(inner: tuple[Rectangle, ...], offset: Point, turned: bool) -> list[Claim]:
    """The outline of the tier below as claims [units] in the one above."""
    found = []
    for rectangle in inner:
        low, high = (
            tuple(
                round((end - start) * UNITS_PER_MILLIMETRE) for end, start in zip(corner, offset, strict=True)
            )
            for corner in rectangle
        )
        found.append(
            ((low[1], low[0]), (high[1], high[0])) if turned else ((low[0], low[1]), (high[0], high[1]))
        )
    return found


def _bodies(
    model: PlanModel, placements: tuple[tuple[int, int, int], ...], turned: bool, offset: Point
) -> tuple[Body, ...]:
    found = []
    for kind, one, other in placements:
        x, y = (other, one) if turned else (one, other)
        lead = model.lead[kind]
        found.append(
            (
                kind,
                x / UNITS_PER_MILLIMETRE + lead[0] + offset[0],
                y / UNITS_PER_MILLIMETRE + lead[1] + offset[1],
            )
        )
    return tuple(found)


def _moved(outline: Outline, by: Point) -> Outline:
    return tuple((_tidy(x + by[0]), _tidy(y + by[1])) for x, y in outline)


def _tidy(length: float) -> float:
    """A length [mm] without the noise of adding."""
    return round(length, 6)


def reduced(laid: tuple[Laid, ...], count: int, from_rear: bool) -> tuple[Laid, ...]:
    """What exceeds `count` modules taken out again, of the top tiers and there from one end."""
    extra = sum(one.count for one in laid) - count
    left = []
    for one in reversed(laid):
        along = (2, 1) if one.shape.turned else (1, 2)
        tiers = []
        for tier in reversed(one.tiers):
            kept = max(len(tier) - extra, 1)
            extra -= len(tier) - kept
            ordered = sorted(tier, key=itemgetter(*along))
            tiers.append(tuple(sorted(ordered[len(tier) - kept :] if from_rear else ordered[:kept])))
        left.append(replace(one, tiers=tuple(reversed(tiers))))
    return tuple(reversed(left))


def stands(box: SteppedBox, rooms: Rooms) -> bool:
    """True where the box is whole and has somewhere to be."""
    if not all(box.bodies) or not box.fills_its_height:
        return False
    return any(
        isinstance(part, shapely.Polygon) and part.area > 0 for part in shapely.get_parts(box.places(rooms))
    )
