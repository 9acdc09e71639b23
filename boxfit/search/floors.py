"""The levels a box may stand on: the lowest, and those from which it clears something that stays."""

from dataclasses import replace
from itertools import pairwise
from math import ceil, hypot

import shapely

from boxfit.bay import Bay, Block, Cylinder, Shell, Solid, Surface
from boxfit.search.stack import Stack
from boxfit.space.covered import kept_from
from boxfit.space.flat import flat_levels
from boxfit.space.free import BoxLevels, outline_room, plan_room, rim_room
from boxfit.space.plan import PlanRoom

BETWEEN = 8
"""Parts into which the height is divided where something leans through the bay."""
LONGEST_LIFT = 12.0
"""In a room of any shape no lift is longer [mm]."""


def lowest(bay: Bay) -> float:
    """The lowest underside [mm] of any box: its stiffening bars stand below it."""
    return bay.room.floor + bay.distance + bay.box.bars_below


def height_for_boxes(bay: Bay) -> float:
    """The greatest height [mm] of any box."""
    return bay.room.top - bay.distance - lowest(bay)


def _reach(solid: Solid) -> tuple[float, float]:
    """The lowest and highest level [mm] of what stays in a bay."""
    if isinstance(solid, Surface):
        return solid.low[2] - solid.off, solid.high[2] + solid.off
    if isinstance(solid, Block):
        return solid.low[2], solid.high[2]
    ends = (solid.start[2], solid.end[2])
    leaning = hypot(solid.end[0] - solid.start[0], solid.end[1] - solid.start[1])
    rise = solid.diameter / 2 * leaning / hypot(leaning, ends[1] - ends[0])
    return min(ends) - rise, max(ends) + rise


def span(bay: Bay, stack: Stack) -> tuple[float, float]:
    """The lowest and the highest underside [mm] of the stack; both the lowest where the level is all one."""
    low = lowest(bay)
    if isinstance(bay.room, Shell) or _spans(bay):
        return low, max(low, bay.room.top - bay.distance - stack.height)
    return low, low


def floors(bay: Bay, stack: Stack) -> tuple[float, ...]:
    """Undersides [mm] worth trying, lowest first; one where nothing in the bay depends on the level.

    Besides those at which walls or flange just clear something there are a few evenly between, where
    something leans. The lowest of all is not among them where the floor may be rough.
    """
    low, high = span(bay, stack)
    flange = stack.box_levels(0.0).flange_bottom
    wanted = {low, high}
    if isinstance(bay.room, Shell):
        above = _beside_flats(bay, bay.room, stack)
        low = min((level for level in above if level >= low), default=low)
        wanted = above or {low, high}
    below = bay.box.bars_below
    for bottom, top, distance in _spans(bay):
        wanted |= {top + distance + below, top + distance - flange, bottom - distance - stack.height}
        wanted |= {top + below, top - flange, bottom - stack.height}
    if isinstance(bay.room, Shell) or any(_leans(keepout.solid) for keepout in bay.keepouts):
        wanted |= {low + k * (high - low) / BETWEEN for k in range(1, BETWEEN)}
    return tuple(sorted(level for level in wanted if low <= level <= high)) or (low,)


def lifts(bay: Bay, stack: Stack) -> list[tuple[float, float]]:
    """The height [mm] between the lowest and the highest level in parts, to bound what may stand in each.

    Parted at the levels worth trying; in a room of any shape evenly, so that the flange plays a part in each.
    """
    low, high = span(bay, stack)
    if not isinstance(bay.room, Shell):
        return list(pairwise(sorted({low, high, *floors(bay, stack)})))
    parts = max(1, ceil((high - low) / LONGEST_LIFT))
    ends = [low + k * (high - low) / parts for k in range(parts)]
    return list(pairwise([*ends, high]))


def _beside_flats(bay: Bay, shell: Shell, stack: Stack) -> set[float]:
    """Undersides [mm] at which box or flange just clears a flat part of the surface, from above or below."""
    distance, flange = kept_from(shell.surface, bay.distance), stack.box_levels(0.0).flange_bottom
    found: set[float] = set()
    for bottom, top in flat_levels(shell.surface):
        found |= {top + distance + bay.box.bars_below, top + distance - flange}
        found.add(bottom - distance - stack.height)
    low, high = span(bay, stack)
    return {level for level in found if low <= level <= high}


def _spans(bay: Bay) -> list[tuple[float, float, float]]:
    """Bottom, top and distance to keep [mm] of what a box's level matters to, at rest and going in."""
    spans = [(*_reach(keepout.solid), keepout.distance) for keepout in bay.keepouts]
    if bay.opening is not None and bay.opening.way not in ("up", "down"):
        spans += [(*_reach(keepout.solid), bay.tolerance) for keepout in bay.keepouts]
        spans += [(z, z, bay.tolerance) for _, z in bay.opening.outline or ()]
    return spans


def _leans(solid: Solid) -> bool:
    if isinstance(solid, Cylinder):
        return solid.start[2] != solid.end[2] and solid.start[:2] != solid.end[:2]
    return isinstance(solid, Surface)


class Rooms:
    """Free plans of one bay by level, each worked out once."""

    def __init__(self, bay: Bay) -> None:
        self.bay = bay
        self._known: dict[PlanRoom, Room] = {}
        self._by_levels: dict[BoxLevels, Room] = {}
        self._of_rims: dict[BoxLevels, Room] = {}
        self._of_bands: dict[BoxLevels, Room] = {}
        self._of_outlines: dict[BoxLevels, Room | None] = {}

    def at(self, stack: Stack, bottom: float, lift: float = 0.0) -> "Room":
        """The free plan of a stack on `bottom` [mm]; with a lift, what is free at some level within it."""
        levels = stack.box_levels(bottom, lift)
        if levels not in self._by_levels:
            room = plan_room(self.bay, levels)
            self._by_levels[levels] = self._known.setdefault(room, Room(room))
        return self._by_levels[levels]

    def band(self, stack: Stack, bottom: float, tier: int) -> "Room":
        """The free plan round one tier of a box stepped in height; only the top one has the flange."""
        sheet = stack.rules.thickness
        feet = [bottom, *(bottom + level - sheet for level in stack.levels[1:])]
        if tier < len(feet) - 1:
            return self.of_walls(feet[tier], feet[tier + 1])
        levels = stack.box_levels(bottom)
        top = BoxLevels(feet[tier], levels.flange_bottom, levels.top)
        if top not in self._by_levels:
            self._by_levels[top] = Room(plan_room(self.bay, top))
        return self._by_levels[top]

    def of_walls(self, low: float, high: float) -> "Room":
        """The free plan of walls between two levels [mm] with no flange round them."""
        # A flange no wider and no shorter than the walls asks nothing more, and is drawn together with them.
        levels = BoxLevels(low, low, high)
        if levels not in self._of_bands:
            bare = replace(self.bay, box=replace(self.bay.box, flange=0.0))
            self._of_bands[levels] = Room(plan_room(bare, levels))
        return self._of_bands[levels]

    def of_rim(self, stack: Stack, bottom: float, lift: float) -> "Room | None":
        """Where only the flange is held against a room of any shape, quick to draw; None in other rooms."""
        shell = self.bay.room
        if not isinstance(shell, Shell):
            return None
        levels = stack.box_levels(bottom, lift)
        if levels not in self._of_rims:
            self._of_rims[levels] = Room(rim_room(self.bay, shell, levels))
        return self._of_rims[levels]

    def of_outline(self, stack: Stack, bottom: float, lift: float) -> "Room | None":
        """Where only the outline of a closed surface is held against the box; None in other rooms."""
        shell = self.bay.room
        if not isinstance(shell, Shell):
            return None
        levels = stack.box_levels(bottom, lift)
        if levels not in self._of_outlines:
            plan = outline_room(self.bay, shell, levels)
            self._of_outlines[levels] = None if plan is None else self._known.setdefault(plan, Room(plan))
        return self._of_outlines[levels]


class Room:
    """A free plan that remembers how deep each width goes."""

    def __init__(self, plan: PlanRoom) -> None:
        self.plan = plan
        self._depths: dict[float, float] = {}
        self._places: dict[tuple[float, float], shapely.Geometry] = {}

    def places(self, width: float, depth: float) -> shapely.Geometry:
        """Where the low corner [mm] of a box of this size may be."""
        if (width, depth) not in self._places:
            self._places[width, depth] = self.plan.places(width, depth)
        return self._places[width, depth]

    def depth(self, width: float) -> float:
        """The greatest free depth [mm] of this width [mm]."""
        if width not in self._depths:
            self._depths[width] = self.plan.deepest(width)
        return self._depths[width]
