"""Where walls and flanges along the sides of an outline end, and which holes are in which flange."""

from math import sqrt

from boxfit.bay import Point
from boxfit.box.sides import Side


def mitre_gap(side: Side, flange: float, gap: float) -> float:
    """How far [mm] along the side an edge stands back from its corner for a gap [mm] between two edges.

    Both edges stand back alike. Less where two mitres nearly meet at the flange's edge.
    """
    tip = side.length + sum(side.turns) * flange
    return max(0.0, min(gap / sqrt(2.0), tip / 4.0))


def from_mitre(side: Side, point: Point) -> float:
    """How far [mm] a point over the flange is from the nearer mitre, negative past it."""
    along, out = side.local(point)
    ends = zip((along, side.length - along), side.turns, strict=True)
    return min(inwards + turn * out for inwards, turn in ends) / sqrt(2.0)


def flange_holes(
    side: Side, flange: float, holes: tuple[Point, ...], clear: float
) -> tuple[tuple[float, float], ...]:
    """Holes in the flange of a side, further than `clear` [mm] from its mitres, as (along, outwards) [mm]."""
    return tuple(
        side.local(hole)
        for hole in holes
        if 0.0 < side.local(hole)[1] < flange and from_mitre(side, hole) > clear
    )
