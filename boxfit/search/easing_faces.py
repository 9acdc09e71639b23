"""The faces of a bay moved outwards, each by itself, and its opening widened."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import partial
from itertools import pairwise

import numpy as np
import shapely

from boxfit.bay import Bay, Block, Cylinder, Keepout, Point, Prism, Shell, Solid, Surface, Vector
from boxfit.surface import Outline

MOST_SIDES = 8
"""Outlines of more sides than this are moved by walls: sides in a row that look the same way."""
LOOKS: dict[str, Point] = {
    "front": (1.0, 0.0), "rear": (-1.0, 0.0), "left": (0.0, 1.0), "right": (0.0, -1.0)
}  # fmt: skip
SLICES = ("longer", "wider", "higher")
VIEWED = {"up": (0, 1), "down": (0, 1), "front": (1, 2), "rear": (1, 2), "left": (0, 2), "right": (0, 2)}
"""The axes an opening's outline is drawn in."""


@dataclass(frozen=True)
class Face:
    """A face by its name in the trade's words, and the bay with it moved outwards by so much [mm]."""

    name: str
    change: Callable[[Bay, float], Bay]


def faces(bay: Bay) -> list[Face]:
    """Floor, top and walls; of a room of any shape only its length, width and height, by a slice put in."""
    if isinstance(bay.room, Shell):
        return [
            Face(f"room made {word} by a slice", partial(_with_slice, axis))
            for axis, word in enumerate(SLICES)
        ]
    runs = _runs(bay.room.outline)
    looks = [look for look, _ in runs]
    named = [
        (f"{look} wall" if looks.count(look) == 1 else f"{look} wall, {_where(look, chain)}", look, chain)
        for look, chain in runs
    ]
    walls = [Face(name, partial(_with_wall, look, chain)) for name, look, chain in named]
    return [Face("floor", _with_floor), Face("top", _with_top), *walls]


def _with_floor(bay: Bay, by: float) -> Bay:
    return replace(bay, room=Prism(bay.room.outline, bay.room.floor - by, bay.room.top))


def _with_top(bay: Bay, by: float) -> Bay:
    return replace(bay, room=Prism(bay.room.outline, bay.room.floor, bay.room.top + by))


def _look(start: Point, end: Point) -> str:
    """The way a side looks outwards, its outline being counter-clockwise.

    >>> _look((0, 0), (0, 5)), _look((0, 5), (-9, 6))
    ('front', 'left')
    """
    out = (end[1] - start[1], start[0] - end[0])
    return max(LOOKS, key=lambda way: out[0] * LOOKS[way][0] + out[1] * LOOKS[way][1])


def _runs(outline: Outline) -> list[tuple[str, Outline]]:
    """The way every side looks and its ends; in an outline of very many, those of every wall in a row."""
    ends = [*outline, outline[0]]
    sides: list[tuple[str, Outline]] = [(_look(a, b), (a, b)) for a, b in pairwise(ends)]
    if len(sides) <= MOST_SIDES:
        return sides
    while sides[0][0] == sides[-1][0]:
        sides = sides[1:] + sides[:1]
    runs: list[tuple[str, Outline]] = []
    for look, side in sides:
        if runs and runs[-1][0] == look:
            runs[-1] = (look, (*runs[-1][1], side[1]))
        else:
            runs.append((look, side))
    return runs


def _where(look: str, chain: Outline) -> str:
    """From where to where a wall reaches, to tell it from others that look the same way.

    >>> _where("left", ((60, 520), (-220, 520)))
    'x -220 to 60'
    """
    axis = 0 if look in ("left", "right") else 1
    values = [point[axis] for point in chain]
    return f"{'xy'[axis]} {min(values):g} to {max(values):g}"


def _with_wall(look: str, chain: Outline, bay: Bay, by: float) -> Bay:
    """The wall set back as it is the way it looks, what lies between added to the room."""
    dx, dy = (by * part for part in LOOKS[look])
    swept = [
        shapely.Polygon([a, b, (b[0] + dx, b[1] + dy), (a[0] + dx, a[1] + dy)]) for a, b in pairwise(chain)
    ]
    room = shapely.union_all([shapely.Polygon(bay.room.outline), *swept])
    return replace(bay, room=Prism(_outline(room), bay.room.floor, bay.room.top))


def _outline(region: shapely.Geometry) -> Outline:
    """The outside of a region, counter-clockwise, not closed, points within straight sides left out."""
    ring = shapely.orient_polygons(shapely.Polygon(shapely.simplify(region, 0.0).exterior))
    return tuple((float(x), float(y)) for x, y in ring.exterior.coords[:-1])


def widened_opening(bay: Bay, by: float) -> Bay:
    """Every side of the opening's outline moved outwards [mm]."""
    if bay.opening is None or bay.opening.outline is None:
        return bay
    wider = shapely.Polygon(bay.opening.outline).buffer(by, join_style="mitre", mitre_limit=10.0)
    return replace(bay, opening=replace(bay.opening, outline=_outline(wider)))


def _with_slice(axis: int, bay: Bay, by: float) -> Bay:
    """The room parted at its middle and half of `by` [mm] put in either way, with all that stays in it.

    What reaches across the middle is stretched there, surfaces from corner to corner of their triangles.
    """
    shell = bay.room
    if isinstance(shell, Prism):
        return bay
    apart = _Apart(axis, (shell.low[axis] + shell.high[axis]) / 2, by / 2)
    room = replace(
        shell,
        surface=apart.surface(shell.surface),
        low=apart.point(shell.low),
        high=apart.point(shell.high),
        volume=shell.volume * (1.0 + by / (shell.high[axis] - shell.low[axis])),
        plan=tuple(apart.outline(one, (0, 1)) for one in shell.plan),
        side=tuple(apart.outline(one, (0, 2)) for one in shell.side),
        rear=tuple(apart.outline(one, (1, 2)) for one in shell.rear),
    )
    keepouts = tuple(apart.keepout(keepout) for keepout in bay.keepouts)
    opening = bay.opening
    if opening is not None and opening.outline is not None:
        opening = replace(opening, outline=apart.outline(opening.outline, VIEWED[opening.way]))
    return replace(bay, room=room, keepouts=keepouts, opening=opening)


@dataclass(frozen=True)
class _Apart:
    """What lies below the middle [mm] of an axis is moved down by `half` [mm], the rest up."""

    axis: int
    middle: float
    half: float

    def value(self, value: float) -> float:
        """One coordinate [mm] along the axis, moved."""
        return value + (self.half if value >= self.middle else -self.half)

    def point(self, at: Vector) -> Vector:
        """A point, moved."""
        x, y, z = (self.value(value) if k == self.axis else value for k, value in enumerate(at))
        return (x, y, z)

    def outline(self, outline: Outline, axes: tuple[int, int]) -> Outline:
        """An outline drawn in two of the axes, moved."""
        if self.axis not in axes:
            return outline
        along = axes.index(self.axis)
        return tuple((self.value(a), b) if along == 0 else (a, self.value(b)) for a, b in outline)

    def surface(self, surface: Surface) -> Surface:
        """A surface, moved."""
        points = surface.points.copy()
        column = points[:, self.axis]
        points[:, self.axis] = column + np.where(column >= self.middle, self.half, -self.half)
        return replace(surface, points=points)

    def keepout(self, keepout: Keepout) -> Keepout:
        """What stays, moved."""
        solid: Solid = keepout.solid
        if isinstance(solid, Surface):
            solid = self.surface(solid)
        elif isinstance(solid, Block):
            solid = Block(self.point(solid.low), self.point(solid.high))
        else:
            solid = Cylinder(self.point(solid.start), self.point(solid.end), solid.diameter)
        return replace(keepout, solid=solid)
