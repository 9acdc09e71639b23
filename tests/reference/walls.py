"""Walls and keep-outs for the reference model: what holds a box back, as linear constraints.

A rectangle is this far from a convex piece exactly where, along some way, it lies wholly this far beyond it.
Ways are the piece's own sides and all with small whole components, so where two corners face each other a
tenth of a millimetre may be lost and nothing is gained; where no distance is asked nothing is lost either.
"""

from dataclasses import dataclass
from itertools import pairwise, product
from math import ceil, hypot

import shapely
from ortools.sat.python import cp_model
from shapely.geometry.polygon import orient

from boxfit.bay import Bay, Block, Keepout, Point

NOISE = 1e-6
STEEPEST = 3
"""Largest component of the ways that are tried at every piece."""


@dataclass(frozen=True)
class Cuboid:
    """Low and high x, y and z [mm] of a cuboid of the model; `real` where it is made at all."""

    x0: cp_model.LinearExpr
    x1: cp_model.LinearExpr
    y0: cp_model.LinearExpr
    y1: cp_model.LinearExpr
    z0: cp_model.LinearExpr
    z1: cp_model.LinearExpr
    real: cp_model.IntVar

    def rim(self, flange: int, thick: int) -> "Cuboid":
        """Its uppermost part, this thick and standing out on all four sides [mm]."""
        x0, x1, y0, y1 = self.x0 - flange, self.x1 + flange, self.y0 - flange, self.y1 + flange
        return Cuboid(x0, x1, y0, y1, self.z1 - thick, self.z1, self.real)

    def least_along(self, way: Point) -> cp_model.LinearExpr:
        """The least of x * way[0] + y * way[1] over the four corners."""
        x = self.x0 if way[0] > 0 else self.x1
        y = self.y0 if way[1] > 0 else self.y1
        return whole(way[0]) * x + whole(way[1]) * y


def whole(length: float) -> int:
    """A length [mm] as a whole number; raises ValueError where it is none."""
    if abs(length - round(length)) > NOISE:
        raise ValueError(f"{length} mm is not a whole number")
    return round(length)


def beyond(piece: tuple[Point, ...], way: Point, distance: float) -> int:
    """What `Cuboid.least_along` must reach to be `distance` [mm] beyond all of the piece."""
    end = max(way[0] * x + way[1] * y for x, y in piece)
    return ceil(end + distance * hypot(*way) - NOISE)


def sides(outline: tuple[Point, ...]) -> list[tuple[Point, Point]]:
    """The sides of an outline, in its order."""
    return list(pairwise((*outline, outline[0])))


def inward(side: tuple[Point, Point]) -> Point:
    """The way from a side into its counter-clockwise outline."""
    (x0, y0), (x1, y1) = side
    return (y0 - y1, x1 - x0)


def corners(polygon: shapely.Polygon) -> tuple[Point, ...]:
    """The corners of a polygon, counter-clockwise."""
    return tuple((x, y) for x, y in orient(polygon).exterior.coords[:-1])


def keep_inside(model: cp_model.CpModel, bay: Bay, solid: Cuboid) -> None:
    """The solid keeps its distance from every wall of the bay, from its floor and from its top."""
    model.add(solid.z0 >= ceil(bay.room.floor + bay.distance - NOISE)).only_enforce_if(solid.real)
    model.add(solid.z1 <= int(bay.room.top - bay.distance + NOISE)).only_enforce_if(solid.real)
    outline = shapely.Polygon(bay.room.outline)
    walls = set(sides(corners(outline)))
    for side in sides(corners(outline.convex_hull)):
        distance = bay.distance if side in walls else 0.0
        end = beyond(side, inward(side), distance)
        model.add(solid.least_along(inward(side)) >= end).only_enforce_if(solid.real)
    pockets = outline.convex_hull.difference(outline)
    for pocket in () if pockets.is_empty else shapely.get_parts(pockets):
        if pocket.convex_hull.area > pocket.area + NOISE:
            raise ValueError(f"{bay.name}: what the outline leaves out of its hull is not convex")
        choices = _beside(model, solid, corners(pocket), bay.distance)
        model.add_bool_or([*choices, ~solid.real])


def keep_off(model: cp_model.CpModel, keepout: Keepout, solid: Cuboid) -> None:
    """The solid lies beside, over or under the block, at its distance along one way at least."""
    block = keepout.solid
    if not isinstance(block, Block):
        raise ValueError(f"{keepout.name} is not a block")
    (x0, y0, low), (x1, y1, high) = block.low, block.high
    choices = _beside(model, solid, ((x0, y0), (x1, y0), (x1, y1), (x0, y1)), keepout.distance)
    over, under = model.new_bool_var(""), model.new_bool_var("")
    model.add(solid.z0 >= ceil(high + keepout.distance - NOISE)).only_enforce_if(over)
    model.add(solid.z1 <= int(low - keepout.distance + NOISE)).only_enforce_if(under)
    model.add_bool_or([*choices, over, under, ~solid.real])


def _beside(
    model: cp_model.CpModel, solid: Cuboid, piece: tuple[Point, ...], distance: float
) -> list[cp_model.IntVar]:
    """Choices: where one is made the plan is `distance` [mm] beyond the convex piece along a way."""
    steep = STEEPEST if distance else 1
    steps = range(-steep, steep + 1)
    ways = {(float(x), float(y)) for x, y in product(steps, steps) if (x, y) != (0, 0)}
    if not distance:
        ways = {way for way in ways if 0.0 in way}
    ways |= {(-x, -y) for x, y in map(inward, sides(piece))}
    choices = []
    for way in sorted(ways):
        chosen = model.new_bool_var("")
        model.add(solid.least_along(way) >= beyond(piece, way, distance)).only_enforce_if(chosen)
        choices.append(chosen)
    return choices
