"""The levels a box may stand on: the lowest, and those from which it clears something that stays."""

from math import hypot

import shapely

from boxfit.bay import Bay, Block, Keepout
from boxfit.search.stack import Stack
from boxfit.space.free import BoxLevels, plan_room
from boxfit.space.plan import PlanRoom

BETWEEN = 8
"""Parts into which the height is divided where a bar leans through the bay."""


def lowest(bay: Bay) -> float:
    """The lowest underside [mm] of any box."""
    return bay.room.floor + bay.distance


def height_for_boxes(bay: Bay) -> float:
    """The greatest height [mm] of any box."""
    return bay.room.top - bay.distance - lowest(bay)


def _reach(keepout: Keepout) -> tuple[float, float]:
    """The lowest and highest level [mm] of a keep-out."""
    solid = keepout.solid
    if isinstance(solid, Block):
        return solid.low[2], solid.high[2]
    ends = (solid.start[2], solid.end[2])
    leaning = hypot(solid.end[0] - solid.start[0], solid.end[1] - solid.start[1])
    rise = solid.diameter / 2 * leaning / hypot(leaning, ends[1] - ends[0])
    return min(ends) - rise, max(ends) + rise


def floors(bay: Bay, stack: Stack) -> tuple[float, ...]:
    """Undersides [mm] worth trying, lowest first; one where nothing in the bay depends on the level.

    Besides those at which walls or flange just clear something there are a few evenly between, where
    something leans.
    """
    low = lowest(bay)
    high = max(low, bay.room.top - bay.distance - stack.height)
    flange = stack.box_levels(0.0).flange_bottom
    wanted = {low}
    for bottom, top, distance in _spans(bay):
        wanted |= {top + distance, top + distance - flange, bottom - distance - stack.height}
        wanted |= {top, top - flange, bottom - stack.height, high}
    if any(_leans(keepout) for keepout in bay.keepouts):
        wanted |= {low + k * (high - low) / BETWEEN for k in range(1, BETWEEN)}
    return tuple(sorted(level for level in wanted if low <= level <= high))


def _spans(bay: Bay) -> list[tuple[float, float, float]]:
    """Bottom, top and distance to keep [mm] of what a box's level matters to, at rest and going in."""
    spans = [(*_reach(keepout), keepout.distance) for keepout in bay.keepouts]
    if bay.opening is not None and bay.opening.way not in ("up", "down"):
        spans += [(*_reach(keepout), bay.tolerance) for keepout in bay.keepouts]
        spans += [(z, z, bay.tolerance) for _, z in bay.opening.outline or ()]
    return spans


def _leans(keepout: Keepout) -> bool:
    solid = keepout.solid
    return (
        not isinstance(solid, Block) and solid.start[2] != solid.end[2] and solid.start[:2] != solid.end[:2]
    )


class Rooms:
    """Free plans of one bay by level, each worked out once."""

    def __init__(self, bay: Bay) -> None:
        self.bay = bay
        self._known: dict[PlanRoom, Room] = {}
        self._by_levels: dict[BoxLevels, Room] = {}

    def at(self, stack: Stack, bottom: float, lift: float = 0.0) -> "Room":
        """The free plan of a stack on `bottom` [mm]; with a lift, what is free at some level within it."""
        levels = stack.box_levels(bottom, lift)
        if levels not in self._by_levels:
            room = plan_room(self.bay, levels)
            self._by_levels[levels] = self._known.setdefault(room, Room(room))
        return self._by_levels[levels]


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
