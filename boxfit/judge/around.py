"""What every fitting of a box stays clear of: the bay's walls and what stays in it."""

from collections.abc import Iterator

from boxfit.bay import Bay, Prism
from boxfit.judge.distance import inside_distance
from boxfit.judge.inside import room_distance
from boxfit.judge.places import PLAN, SURVEYED, Obstacle, depth_inside, keepout_obstacle
from boxfit.judge.surface import surface_distance


def around_fittings(bay: Bay) -> Iterator[Obstacle]:
    """Walls and keep-outs, with the survey's tolerance; from what moves or is hot as far as a box."""
    room, needed = bay.room, bay.tolerance
    if isinstance(room, Prism):
        plan, floor, top = room.outline, room.floor, room.top
        yield Obstacle("walls", "", lambda block: inside_distance(block.across(PLAN), plan), needed)
        yield Obstacle("floor", "", lambda block: block.low[2] - floor, needed)
        yield Obstacle("top", "", lambda block: top - block.high[2], needed)
    else:
        reach = needed + room.surface.off
        measure = room_distance if room.reads == "room" else surface_distance
        yield Obstacle(SURVEYED, "", lambda block: measure(block, room.surface, reach), reach)
        if room.reads == "body":
            yield Obstacle("the end of the room", "", lambda block: depth_inside(block, room), needed)
    for keepout in bay.keepouts:
        yield keepout_obstacle(keepout, "", keepout.distance if keepout.reason else needed)
