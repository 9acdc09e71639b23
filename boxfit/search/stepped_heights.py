"""Boxes stepped in height: the lower tiers stand inside a smaller outline than the upper ones."""

from collections.abc import Iterator
from functools import reduce

import shapely

from boxfit.box_shape import Rectangle, rectangles
from boxfit.search.floors import Rooms
from boxfit.search.stack import Stack
from boxfit.search.stepped_bound import plan_bound
from boxfit.search.stepped_choice import Choice, Laid, Side, choice
from boxfit.search.stepped_make import Found
from boxfit.search.stepped_plan import POINT, free_points
from boxfit.search.stepped_shape import MOST_CORNERS, clads, making
from boxfit.search.watch import Watch
from boxfit.space.plan import SLACK
from boxfit.surface import Outline, Point

MOST_ABOVE = 6
"""Outlines of the upper tiers below which the lower ones are tried."""
CORNERS_BELOW = 6
"""Corners of the lower tiers' outline at most."""
WIDER = 1.0
"""Upper tiers have more room than the lower ones from this much on [mm2]."""


def in_height(rooms: Rooms, stack: Stack, bottom: float, beaten: int, watch: Watch) -> list[Found]:
    """Boxes of the stack with one step in the floor that hold more than `beaten` modules."""
    bands = [free_points(rooms.band(stack, bottom, tier)) for tier in range(len(stack.kinds))]
    found: list[Found] = []
    for step in range(1, len(bands)):
        below, above = reduce(shapely.intersection, bands[:step]), reduce(shapely.intersection, bands[step:])
        if shapely.difference(above, below).area < WIDER or below.is_empty or watch.is_over:
            continue
        for pair in _pairs(stack, step, (below, above), beaten, watch):
            found.append(Found(stack, bottom, pair[0], pair[1]))
            beaten = max(beaten, found[-1].count - 1)
    return found


def _pairs(
    stack: Stack, step: int, regions: tuple[shapely.Geometry, shapely.Geometry], beaten: int, watch: Watch
) -> Iterator[tuple[tuple[Laid, Laid], tuple[Point, Point]]]:
    """Outlines of the upper tiers, likeliest first, with the fullest below that makes more than `beaten`."""
    tiers, needs = clads(stack), making(stack.rules)
    most_below = plan_bound(regions[0], tiers[:step])
    if plan_bound(regions[1], tiers[step:]) + most_below <= beaten:
        return
    upper = choice(regions[1], tiers[step:], needs, MOST_CORNERS)
    lower = choice(regions[0], tiers[:step], needs, CORNERS_BELOW)
    if upper is None or lower is None:
        return
    for rank, (side, place) in enumerate(_likeliest(upper, beaten - lower.bound)[:MOST_ABOVE]):
        exactly = rank == 0
        top = side.laid(place)
        if watch.is_over or top.count + (lower.bound if exactly else lower.most) <= beaten:
            return
        inside = shapely.intersection(regions[0], _points_in(top.shape.outline(), upper.origin))
        if top.count + plan_bound(inside, tiers[:step]) <= beaten:
            continue
        under = choice(inside, tiers[:step], needs, CORNERS_BELOW)
        if under is not None:
            laid = _fullest(under, max(beaten - top.count, 0), exactly)
            if laid is not None:
                yield (laid, top), (under.origin, upper.origin)


def _likeliest(outlines: Choice, more_than: int) -> list[tuple[Side, int]]:
    """Outlines with more than so many modules by blocks: the most first, then few corners, then large."""
    return sorted(
        outlines.best(max(more_than, 0)),
        key=lambda one: (
            -int(one[0].counts[one[1]]),
            int(one[0].found.corners[one[1]]),
            -int(one[0].areas[one[1]]),
            one[0].found.turned,
            one[1],
        ),
    )


def _fullest(under: Choice, more_than: int, exactly: bool) -> Laid | None:
    """The fullest outline below with more than so many modules, by blocks or else by one exact search."""
    for side, place in _likeliest(under, more_than):
        return side.laid(place)
    promising = (
        one for corners in range(4, CORNERS_BELOW + 1, 2) for one in under.promising(more_than, corners)
    )
    for side, place in promising if exactly else ():
        return side.settled(place, more_than)
    return None


def _points_in(outline: Outline, origin: Point) -> shapely.Geometry:
    """Where points inside an outline [mm from the origin] have their low corner."""
    return shapely.union_all(
        [
            shapely.box(
                origin[0] + low[0] - SLACK,
                origin[1] + low[1] - SLACK,
                origin[0] + high[0] + SLACK - POINT,
                origin[1] + high[1] + SLACK - POINT,
            )
            for low, high in lapped(outline)
        ]
    )


def lapped(outline: Outline) -> tuple[Rectangle, ...]:
    """Rectangles [mm] that make up what an outline encloses, cut along one axis and along the other.

    >>> lapped(((0, 0), (2, 0), (2, 1), (1, 1), (1, 3), (0, 3)))
    (((0, 0), (1, 3)), ((1, 0), (2, 1)), ((0, 0), (2, 1)), ((0, 1), (1, 3)))
    """
    slabs = rectangles(outline)
    exchanged = rectangles(tuple((y, x) for x, y in outline[::-1]))
    back = [((low[1], low[0]), (high[1], high[0])) for low, high in exchanged]
    return tuple(dict.fromkeys((*slabs, *back)))
