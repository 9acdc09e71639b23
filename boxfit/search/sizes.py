"""Plan sizes worth looking at: the greatest that are free, and the smallest that hold a number of modules."""

from boxfit.search.floors import Room
from boxfit.search.stack import PlanSize, Stack


def greatest(stack: Stack, room: Room, extent: PlanSize, spare: float = 0.0) -> list[PlanSize]:
    """The greatest plan sizes worth telling apart, `spare` [mm] larger than what is free."""
    found: list[PlanSize] = []
    for width in reversed(stack.widths(extent.width + spare)):
        depth = room.depth(width - spare) + spare
        if depth > spare and (not found or depth > found[-1].depth):
            found.append(PlanSize(width, depth))
    return found


def smallest(stack: Stack, room: Room, extent: PlanSize, count: int) -> list[PlanSize]:
    """Free plan sizes that hold `count` by straight cuts and cannot be narrower or shallower."""
    found: list[PlanSize] = []
    depths = stack.depths(extent.depth)
    place = len(depths) - 1
    for width in stack.widths(extent.width):
        if place < 0 or stack.quick_count(PlanSize(width, depths[place]), extent) < count:
            continue
        while place > 0 and stack.quick_count(PlanSize(width, depths[place - 1]), extent) >= count:
            place -= 1
        if (not found or depths[place] < found[-1].depth) and depths[place] <= room.depth(width) + 1e-6:
            found.append(PlanSize(width, depths[place]))
    return found
