"""Stepped boxes for one bay: outlines of up to eight corners, and boxes stepped in height, that hold more
modules than the best rectangular box.

First every outline that a bounded number of cuts allows is counted by blocks; then the likeliest of those
whose bound leaves something to find are filled exactly. Nothing is proven here: `stepped_bound` bounds.
"""

import sys
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby, product
from operator import itemgetter
from typing import TYPE_CHECKING

import shapely

from boxfit.bay import Prism
from boxfit.search.floors import floors, span
from boxfit.search.stack import Stack
from boxfit.search.stepped_bound import plan_bound, stepped_bound
from boxfit.search.stepped_box import SteppedBox
from boxfit.search.stepped_choice import Choice, Side, choice
from boxfit.search.stepped_heights import WIDER, in_height
from boxfit.search.stepped_make import Found, stands
from boxfit.search.stepped_plan import free_points
from boxfit.search.stepped_shape import MOST_CORNERS, clads, making
from boxfit.search.watch import Watch
from boxfit.surface import Outline

if TYPE_CHECKING:
    from boxfit.search.bay import BaySearch

__all__ = ["SteppedBox", "stepped_bound", "stepped_boxes"]

MOST_LEVELS, DENSE_LEVELS = 3, 2
"""Levels looked at for one stack, and where free plans are slow to draw."""
MOST_SETTLED = 4
"""Outlines filled by the exact search for one number of corners."""
MOST_STEPPED = 6
"""Stacks on a level tried with a step in the floor."""
HANDFUL, MOST_HANDED_ON = 4, 24
"""Boxes handed on for one count, and for one bay."""


@dataclass(frozen=True, eq=False)
class Spot:
    """A stack on a level [mm] and the outlines that are free there."""

    stack: Stack
    bottom: float
    choice: Choice

    def laid(self, side: Side, place: int) -> Found:
        """One outline filled by blocks."""
        return Found(self.stack, self.bottom, (side.laid(place),), (self.choice.origin,))


def stepped_boxes(search: "BaySearch", beaten: int, watch: Watch) -> tuple[SteppedBox, ...]:
    """Stepped boxes with more than `beaten` modules: for each such count some of the fewest corners.

    No more than two dozen in all, the fullest. Same bay, same boxes, unless time runs out.
    """
    bound = search.bound
    if bound <= beaten:
        return ()
    spots = _spots(search, beaten, watch)
    found = _by_blocks(spots, beaten)
    for corners in range(6, MOST_CORNERS + 1, 2):
        found += _settled(spots, corners, _most(found, corners, beaten), bound, watch)
    most = _most(found, MOST_CORNERS, beaten)
    for stack, bottom in _to_step(search, spots, most):
        if most < bound and not watch.is_over:
            found += in_height(search.rooms, stack, bottom, most, watch)
            most = _most(found, sys.maxsize, most)
    return _handed_on(search, found, beaten)


def _most(found: list[Found], corners: int, least: int) -> int:
    """The greatest count found with so many corners or fewer."""
    return max((one.count for one in found if one.corners <= corners), default=least)


def _standing(search: "BaySearch", beaten: int) -> list[tuple[Stack, float]]:
    """Stacks that may hold more than `beaten`, likeliest first, and the levels worth a look."""
    likely = [stack for stack in search.stacks if stack.bound(search.extent) > beaten]
    found = []
    for stack in sorted(likely, key=lambda stack: stack.bound(search.extent), reverse=True):
        levels = list(floors(search.bay, stack))
        most = DENSE_LEVELS if search.is_dense else MOST_LEVELS
        kept = [levels[k * len(levels) // most] for k in range(most)] if len(levels) > most else levels
        if search.best and search.best.stack == stack:
            kept = [search.best.bottom, *(level for level in kept if level != search.best.bottom)]
        found += [(stack, bottom) for bottom in kept]
    return found


def _to_step(search: "BaySearch", spots: list[Spot], beaten: int) -> list[tuple[Stack, float]]:
    """Stacks and levels to step in height, those that hold most with one outline first."""
    fullest: dict[Stack, int] = {}
    for spot in spots:
        fullest[spot.stack] = max(fullest.get(spot.stack, 0), spot.choice.most)
    tall = [one for one in _standing(search, beaten) if len(one[0].kinds) > 1]
    return sorted(tall, key=lambda one: -fullest.get(one[0], 0))[:MOST_STEPPED]


def _spots(search: "BaySearch", beaten: int, watch: Watch) -> list[Spot]:
    """Every stack and level whose outlines may hold more than is found before it."""
    found: list[Spot] = []
    most = beaten
    for stack, levels in groupby(_standing(search, beaten), key=itemgetter(0)):
        if watch.is_over or stack.bound(search.extent) <= most:
            break
        for spot in _spots_of(search, stack, [bottom for _, bottom in levels], most, watch):
            found.append(spot)
            most = max(most, spot.choice.most)
    return sorted(found, key=lambda spot: -spot.choice.bound)


def _spots_of(
    search: "BaySearch", stack: Stack, levels: list[float], most: int, watch: Watch
) -> Iterator[Spot]:
    """Those of one stack; levels that leave free nothing that another does not are left out."""
    tiers = clads(stack)
    anywhere = _on_any_level(search, stack)
    if anywhere is not None and plan_bound(anywhere, tiers) <= most:
        return
    drawn: list[shapely.Geometry] = []
    for bottom in levels:
        if watch.is_over:
            return
        region = free_points(search.rooms.at(stack, bottom))
        if any(shapely.difference(region, other).area < WIDER for other in drawn):
            continue
        drawn.append(region)
        if plan_bound(region, tiers) <= most:
            continue
        outlines = choice(region, tiers, making(stack.rules), MOST_CORNERS)
        if outlines is not None and outlines.bound > most:
            yield Spot(stack, bottom, outlines)
            most = max(most, outlines.most)


def _on_any_level(search: "BaySearch", stack: Stack) -> shapely.Geometry | None:
    """Free points [mm] of all levels the stack may stand on, and more; None where slow to draw."""
    if search.loose_rooms is None:
        return None
    low, high = span(search.bay, stack)
    if isinstance(search.bay.room, Prism):
        return free_points(search.loose_rooms.at(stack, low, high - low))
    outline = search.loose_rooms.of_outline(stack, low, high - low)
    return None if outline is None else free_points(outline)


def _by_blocks(spots: list[Spot], beaten: int) -> list[Found]:
    """A handful of outlines filled by blocks for each count above `beaten`, as few corners as can be."""
    ranked = []
    for number, spot in enumerate(spots):
        for side, place in spot.choice.best(beaten):
            rank = (-int(side.counts[place]), int(side.found.corners[place]), -int(side.areas[place]))
            ranked.append((*rank, number, side.found.turned, place, side))
    ranked.sort(key=lambda one: one[:6])
    found: list[Found] = []
    taken: dict[tuple[int, int], int] = {}
    for count, corners, _, number, _, place, side in ranked:
        cleaner = any(fewer < corners for _, fewer in taken)
        many = taken.get((count, corners), 0)
        if many < HANDFUL and not cleaner:
            taken[count, corners] = many + 1
            found.append(spots[number].laid(side, place))
    return found


def _settled(spots: list[Spot], corners: int, beaten: int, bound: int, watch: Watch) -> list[Found]:
    """Outlines of so many corners that hold more than `beaten` when filled exactly."""
    found: list[Found] = []
    tried: set[tuple[Stack, Outline]] = set()
    for spot in spots:
        for side, place in spot.choice.promising(beaten, corners):
            if len(tried) == MOST_SETTLED or beaten >= bound or watch.is_over:
                return found
            outline = (spot.stack, side.found.shape(place).outline())
            if side.bounds[place] <= beaten or outline in tried:
                continue
            tried.add(outline)
            laid = side.settled(place, beaten)
            if laid is not None:
                found.append(Found(spot.stack, spot.bottom, (laid,), (spot.choice.origin,)))
                beaten = laid.count
    return found


def _handed_on(search: "BaySearch", found: list[Found], beaten: int) -> tuple[SteppedBox, ...]:
    """Boxes that have somewhere to be, for each count those with the fewest corners, the fullest first."""
    boxes: list[SteppedBox] = []
    most = max((one.count for one in found), default=0)
    handful = min(HANDFUL, max(1, MOST_HANDED_ON // max(1, most - beaten)))
    for count in range(most, max(beaten, most - MOST_HANDED_ON), -1):
        able = [one for one in found if one.count >= count]
        able.sort(key=lambda one: (one.corners, one.count))
        kept: list[SteppedBox] = []
        for one, from_rear in product(able, (False, True)):
            if len(kept) == handful or (kept and one.corners > able[0].corners):
                break
            box = one.box(count, from_rear)
            if box not in kept and stands(box, search.rooms):
                kept.append(box)
        boxes += kept
    return tuple(boxes)
