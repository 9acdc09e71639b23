"""Walls and keep-outs for the reference model: what holds a box's plan back, as linear constraints.

A rectangle is this far from a convex piece exactly where, along some way, it lies wholly this far beyond it.
Ways are the piece's own sides and all with small whole components, so where two corners face each other a
tenth of a millimetre may be lost and nothing is gained.
"""

from dataclasses import dataclass
from itertools import pairwise, product
from math import ceil, hypot

import shapely
from ortools.sat.python import cp_model
from shapely.geometry.polygon import orient

from boxfit.bay import Bay, Block, Point

NOISE = 1e-6
STEEPEST = 3
"""Largest component of the ways that are tried at every piece."""


@dataclass(frozen=True)
class Plan:
    """Low and high x, low and high y [mm] of a rectangle of the model."""

    x0: cp_model.LinearExpr
    x1: cp_model.LinearExpr
    y0: cp_model.LinearExpr
    y1: cp_model.LinearExpr

    def grown(self, by: int) -> "Plan":
        """The rectangle with `by` [mm] more on every side."""
        return Plan(self.x0 - by, self.x1 + by, self.y0 - by, self.y1 + by)

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
    """What `Plan.least_along` must reach to be `distance` [mm] beyond all of the piece."""
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


def keep_plan(model: cp_model.CpModel, bay: Bay, plan: Plan) -> None:
    """The plan keeps its distance from every wall of the bay and from every keep-out."""
    outline = shapely.Polygon(bay.room.outline)
    walls = set(sides(corners(outline)))
    for side in sides(corners(outline.convex_hull)):
        distance = bay.distance if side in walls else 0.0
        model.add(plan.least_along(inward(side)) >= beyond(side, inward(side), distance))
    pockets = outline.convex_hull.difference(outline)
    for pocket in () if pockets.is_empty else shapely.get_parts(pockets):
        if pocket.convex_hull.area > pocket.area + NOISE:
            raise ValueError(f"{bay.name}: what the outline leaves out of its hull is not convex")
        _keep_apart(model, plan, corners(pocket), bay.distance)
    for keepout in bay.keepouts:
        solid = keepout.solid
        if not isinstance(solid, Block) or solid.low[2] > bay.room.floor or solid.high[2] < bay.room.top:
            raise ValueError(f"{keepout.name} is not a block from floor to top")
        (x0, y0, _), (x1, y1, _) = solid.low, solid.high
        _keep_apart(model, plan, ((x0, y0), (x1, y0), (x1, y1), (x0, y1)), keepout.distance)


def _keep_apart(model: cp_model.CpModel, plan: Plan, piece: tuple[Point, ...], distance: float) -> None:
    """Along one way at least the plan is `distance` [mm] beyond the convex piece."""
    steps = range(-STEEPEST, STEEPEST + 1)
    ways = {(float(x), float(y)) for x, y in product(steps, steps) if (x, y) != (0, 0)}
    ways |= {(-x, -y) for x, y in map(inward, sides(piece))}
    choices = []
    for way in sorted(ways):
        chosen = model.new_bool_var("")
        model.add(plan.least_along(way) >= beyond(piece, way, distance)).only_enforce_if(chosen)
        choices.append(chosen)
    model.add_bool_or(choices)
