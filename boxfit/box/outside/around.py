"""Whether a block outside of a box is free: of the bay's walls, what stays in it, boxes and fittings."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from math import dist

import numpy as np
import shapely
from numpy.typing import NDArray

from boxfit.bay import Bay, Block, Cylinder, Keepout, Prism, Shell, Surface, Vector
from boxfit.box.parts import BoxParts
from boxfit.box_shape import grown, rectangles
from boxfit.space.distance import block_distance, cylinder_distance
from boxfit.space.inside import is_solid
from boxfit.space.triangle import squares, triangle_gaps
from boxfit.surface import Outline

REACH = 500.0
"""Triangles further than this [mm] from a box do not matter to its fittings."""
NUT_BELOW = 7.0
"""How far [mm] a set M5 rivet-nut reaches below the flange: from memory."""
NUT_ACROSS = 10.0
"""How wide [mm] it is there: from memory."""
TOUCH = 1e-6
PLACES = 801
"""Places along a bar from which a block is measured first: a bar 2 m long may seem 1.3 mm nearer."""


def meets(one: Block, other: Block) -> bool:
    """Whether two blocks share more than a face.

    >>> meets(Block((0, 0, 0), (1, 1, 1)), Block((1, 0, 0), (2, 1, 1)))
    False
    """
    (x, y, z), (a, b, c) = one.low, one.high
    (p, q, r), (u, v, w) = other.low, other.high
    return (
        x < u - TOUCH
        and p < a - TOUCH
        and y < v - TOUCH
        and q < b - TOUCH
        and z < w - TOUCH
        and r < c - TOUCH
    )


def own_blocks(parts: BoxParts) -> tuple[Block, ...]:
    """The box itself as blocks [mm]: walls band by band, flange with lid and cover plate, rivet-nuts."""
    tray, found = parts.tray, []
    for band in tray.bands:
        found += _standing(band.outline, band.bottom, band.top)
    under = tray.bands[-1].top - (tray.thickness if tray.flange > 0.0 else 0.0)
    found += _standing(grown(tray.bands[-1].outline, tray.flange), under, parts.lid.plate.top)
    cover = parts.cover_plate
    if cover is not None:
        found += _standing(cover.plate.outline, cover.plate.top - cover.height, cover.plate.top)
    half = NUT_ACROSS / 2.0
    for x, y in tray.holes:
        found.append(Block((x - half, y - half, under - NUT_BELOW), (x + half, y + half, under)))
    return tuple(found)


def _standing(outline: Outline, low: float, high: float) -> list[Block]:
    return [Block((x, y, low), (a, b, high)) for (x, y), (a, b) in rectangles(outline)]


@dataclass(frozen=True)
class Around:
    """What is round one box: its bay, all boxes of the car as blocks, and what is fixed to it so far."""

    bay: Bay
    box: Block
    boxes: tuple[Block, ...]

    def free(self, block: Block, taken: Sequence[Block] = ()) -> bool:
        """Whether a block meets no box and nothing taken, and keeps the survey's tolerance from the bay."""
        if any(meets(block, other) for other in (*self.boxes, *taken)):
            return False
        return self.clear_of_bay(block, self.bay.tolerance)

    def clear_of_bay(self, block: Block, distance: float) -> bool:
        """Whether a block keeps a distance [mm] from the room's surface and from keep-outs.

        From what moves or is hot it keeps as much as a box. What was asked before is not measured again.
        """
        asked = (block, distance)
        if asked not in self._asked:
            self._asked[asked] = self._in_room(block, distance) and self.clear_of_keepouts(block, distance)
        return self._asked[asked]

    @cached_property
    def _asked(self) -> dict[tuple[Block, float], bool]:
        """What was asked of the bay, and the answers."""
        return {}

    def clear_of_keepouts(self, block: Block, distance: float) -> bool:
        """Whether a block keeps a distance [mm] from every keep-out, more from what moves or is hot."""
        return all(_clear(block, one, one.distance if one.reason else distance) for one in self.bay.keepouts)

    def clear_on_way_in(self, block: Block) -> bool:
        """Whether a block that goes in with the box passes opening and bay, the tolerance kept.

        It goes as far as the box does: until that is wholly past the bay. True where no opening is told.
        """
        opening = self.bay.opening
        if opening is None:
            return True
        axis, sign = _WAYS[opening.way]
        low, high = list(block.low), list(block.high)
        end = _room_end(self.bay.room, axis, sign)
        if sign > 0:
            high[axis] += max(end - self.box.low[axis], 0.0)
        else:
            low[axis] -= max(self.box.high[axis] - end, 0.0)
        swept, tolerance = Block(_vector(low), _vector(high)), self.bay.tolerance
        if opening.outline is not None:
            flat = [k for k in range(3) if k != axis]
            hole = shapely.Polygon(opening.outline).buffer(-tolerance, join_style="mitre")
            seen = shapely.box(*(block.low[k] for k in flat), *(block.high[k] for k in flat))
            if not hole.covers(seen):
                return False
        return self.clear_of_keepouts(swept, tolerance) and self._passes(swept, axis)

    def _passes(self, swept: Block, axis: int) -> bool:
        """Whether the way in is clear of the room's own walls, those the opening takes left out."""
        room = self.bay.room
        if isinstance(room, Shell):
            return self._closed.clear(swept, self.bay.tolerance + room.surface.off)
        return axis < 2 or self._plan(self.bay.tolerance).covers(_seen(swept))

    def _in_room(self, block: Block, distance: float) -> bool:
        room = self.bay.room
        if isinstance(room, Prism):
            above, below = block.low[2] - room.floor, room.top - block.high[2]
            return min(above, below) >= distance - TOUCH and bool(self._plan(distance).covers(_seen(block)))
        if room.reads == "body":
            ends = zip(room.low, block.low, block.high, room.high, strict=True)
            if any(a + distance > low + TOUCH or high + distance > b + TOUCH for a, low, high, b in ends):
                return False
        return self._metal.clear(block, distance + room.surface.off)

    def _plan(self, distance: float) -> shapely.Geometry:
        assert isinstance(self.bay.room, Prism)  # callers have asked
        return _drawn_in(self.bay.room.outline, distance - TOUCH)

    @cached_property
    def _metal(self) -> "_Triangles":
        """The triangles of the room that lie near the box."""
        assert isinstance(self.bay.room, Shell)  # callers have asked
        return _triangles(self.bay.room.surface).near(self.box)

    @cached_property
    def _closed(self) -> "_Triangles":
        """The same without those that the opening takes."""
        assert isinstance(self.bay.room, Shell)  # callers have asked
        room = self.bay.room
        whole = _triangles(room.surface)
        return whole.only(~room.opens).near(self.box)


@lru_cache(maxsize=64)
def around(bay: Bay, box: Block, boxes: tuple[Block, ...]) -> Around:
    """What is round a box; the same one for the same box, which remembers what it was asked."""
    return Around(bay, box, boxes)


@dataclass(frozen=True, eq=False)
class _Triangles:
    """Triangles and the blocks round them [mm]."""

    corners: NDArray[np.float64]
    low: NDArray[np.float64]
    high: NDArray[np.float64]

    def only(self, chosen: NDArray[np.bool_]) -> "_Triangles":
        return _Triangles(self.corners[chosen], self.low[chosen], self.high[chosen])

    def near(self, block: Block) -> "_Triangles":
        """Those within REACH of a block, by the blocks round them."""
        return self.only(self._beside(block, REACH))

    def clear(self, block: Block, distance: float) -> bool:
        """Whether every triangle is so far [mm] from a block, none in it; only those near are measured."""
        distance = max(distance, 2.0 * TOUCH)
        seen = shapely.box(
            *(end - distance for end in block.low[:2]), *(end + distance for end in block.high[:2])
        )
        below = np.sort(self._plan.query(seen))
        rises = (self.low[below, 2] < block.high[2] + distance) & (
            self.high[below, 2] > block.low[2] - distance
        )
        near = self.corners[below[rises]]
        if not len(near):
            return True
        off = np.maximum(np.maximum(np.array(block.low) - near, near - np.array(block.high)), 0.0)
        if float((off**2).sum(axis=2).min()) < max(distance - TOUCH, 0.0) ** 2:
            return False  # a corner of a triangle says it already
        at, to = triangle_gaps(block, near)
        return float(np.sqrt(squares(at - to)).min()) >= distance - TOUCH

    @cached_property
    def _plan(self) -> shapely.STRtree:
        """The rectangles round all triangles in plan, to be found by place."""
        return shapely.STRtree(shapely.box(*self.low[:, :2].T, *self.high[:, :2].T))

    def _beside(self, block: Block, distance: float) -> NDArray[np.bool_]:
        beside = (self.low < np.array(block.high) + distance) & (self.high > np.array(block.low) - distance)
        return np.asarray(beside.all(axis=1))


@lru_cache(maxsize=16)
def _triangles(surface: Surface) -> _Triangles:
    corners = surface.corners
    return _Triangles(corners, corners.min(axis=1), corners.max(axis=1))


_WAYS = {"front": (0, 1), "rear": (0, -1), "left": (1, 1), "right": (1, -1), "up": (2, 1), "down": (2, -1)}


@lru_cache(maxsize=64)
def _drawn_in(outline: Outline, distance: float) -> shapely.Geometry:
    found = shapely.Polygon(outline).buffer(-distance, join_style="mitre")
    shapely.prepare(found)
    return found


def _seen(block: Block) -> shapely.Geometry:
    return shapely.box(block.low[0], block.low[1], block.high[0], block.high[1])


def _vector(values: list[float]) -> Vector:
    x, y, z = values
    return (x, y, z)


def _room_end(room: Prism | Shell, axis: int, sign: int) -> float:
    """Where the room ends [mm] along an axis."""
    if isinstance(room, Shell):
        return (room.high if sign > 0 else room.low)[axis]
    levels = [room.floor, room.top] if axis == 2 else [point[axis] for point in room.outline]
    return max(levels) if sign > 0 else min(levels)


def _clear(block: Block, keepout: Keepout, distance: float) -> bool:
    """Whether a block keeps a distance [mm] from a keep-out."""
    solid = keepout.solid
    if isinstance(solid, Block):
        return block_distance(block, solid) >= distance - TOUCH and not meets(block, solid)
    if isinstance(solid, Cylinder):
        return _clear_of_bar(block, solid, distance)
    middle = _vector([(a + b) / 2.0 for a, b in zip(block.low, block.high, strict=True)])
    return _triangles(solid).clear(block, distance + solid.off) and not _within(solid, middle)


def _within(surface: Surface, place: Vector) -> bool:
    inside = all(a <= here <= b for a, here, b in zip(surface.low, place, surface.high, strict=True))
    return inside and is_solid(surface, place)


def _clear_of_bar(block: Block, bar: Cylinder, distance: float) -> bool:
    """Asks the cheap questions first: the block round the bar, then the bar with round ends.

    Where no distance is asked the two must still not meet.
    """
    distance = max(distance, 2.0 * TOUCH)
    radius, length = bar.diameter / 2.0, dist(bar.start, bar.end)
    ways = [(b - a) / length for a, b in zip(bar.start, bar.end, strict=True)]
    reach = [radius * max(0.0, 1.0 - way * way) ** 0.5 for way in ways]
    ends = list(zip(bar.start, bar.end, reach, strict=True))
    around = Block(
        _vector([min(a, b) - out for a, b, out in ends]), _vector([max(a, b) + out for a, b, out in ends])
    )
    if block_distance(block, around) >= distance:
        return True
    places = np.linspace(np.array(bar.start), np.array(bar.end), PLACES)
    off = np.maximum(np.maximum(np.array(block.low) - places, places - np.array(block.high)), 0.0)
    away = np.sqrt((off**2).sum(axis=1))
    nearest = int(away.argmin())
    if float(away[nearest]) - radius - length / (2.0 * PLACES - 2.0) >= distance:
        return True
    if 0 < nearest < PLACES - 1:
        return False  # beside the bar, not past its end: as near as with round ends
    return cylinder_distance(block, bar) >= distance - TOUCH
