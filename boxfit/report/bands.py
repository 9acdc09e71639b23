"""A box as upright pieces, each of one outline from level to level: one where plain, more where it steps.

Outlines start at their lowest rearmost corner here and are free of noise, so that equal ones are the same.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from boxfit.bay import Block, BoxRules
from boxfit.box_shape import Rectangle, grown, rectangle, rectangles
from boxfit.layout import PlacedBox
from boxfit.surface import Outline

if TYPE_CHECKING:
    from shapely import Polygon

FINE = 6
"""Decimals of a place [mm] that are kept."""


@dataclass(frozen=True)
class Band:
    """The prism over `outline` [mm] between two levels [mm], round the tiers counted from 1."""

    outline: Outline
    bottom: float
    top: float
    tiers: tuple[int, ...] = (1,)

    @property
    def blocks(self) -> tuple[Block, ...]:
        """Blocks side by side that make it up."""
        return tuple(Block((*low, self.bottom), (*high, self.top)) for low, high in rectangles(self.outline))


def bands(box: PlacedBox, rules: BoxRules) -> tuple[Band, ...]:
    """The outside of the box, lowest first; tiers with the same walls are one piece.

    A step in the floor lies a sheet's thickness below what its tier stands on.
    """
    low, top = box.low[2], box.high[2]
    if not box.is_stepped:
        tiers = tuple(range(1, len(box.tiers) + 1))
        return (Band(rectangle(box.low[:2], box.high[:2]), low, top, tiers or (1,)),)
    starts = [low, *(tier.stands_on - rules.thickness for tier in box.tiers[1:]), top]
    found: list[Band] = []
    for number, (outline, (bottom, end)) in enumerate(
        zip(map(settled, box.outlines), pairwise(starts), strict=True), start=1
    ):
        if found and found[-1].outline == outline:
            found[-1] = Band(outline, found[-1].bottom, end, (*found[-1].tiers, number))
        else:
            found.append(Band(outline, bottom, end, (number,)))
    return tuple(found)


def slab(box: PlacedBox, rules: BoxRules) -> Band:
    """Flange and lid: they stand out by the flange all round the topmost walls."""
    top = bands(box, rules)[-1]
    bottom = top.top - rules.rim_below_top - rules.thickness
    return Band(settled(grown(top.outline, rules.flange)), bottom, top.top, top.tiers)


def settled(outline: Outline) -> Outline:
    """The same outline from its lowest rearmost corner on.

    >>> settled(((2.0, 1.0), (0.0, 1.0), (0.0, 0.0), (2.0, 0.0)))
    ((0.0, 0.0), (2.0, 0.0), (2.0, 1.0), (0.0, 1.0))
    """
    corners = tuple((round(x, FINE) + 0.0, round(y, FINE) + 0.0) for x, y in outline)
    start = corners.index(min(corners))
    return corners[start:] + corners[:start]


def beyond(outer: Outline, others: Sequence[Outline]) -> tuple[tuple[Rectangle, ...], ...]:
    """What one outline encloses and no other does, piece by piece, each as rectangles [mm] side by side.

    >>> beyond(rectangle((0, 0), (4, 1)), [rectangle((1, 0), (2, 1))])
    ((((0.0, 0.0), (1.0, 1.0)),), (((2.0, 0.0), (4.0, 1.0)),))
    """
    from shapely import Polygon, union_all

    rest = Polygon(outer).difference(union_all([Polygon(other) for other in others]))
    pieces = [piece for piece in getattr(rest, "geoms", [rest]) if piece.area > 0.0]
    return tuple(tuple(_side_by_side(piece)) for piece in sorted(pieces, key=lambda one: one.bounds))


def _side_by_side(piece: Polygon) -> list[Rectangle]:
    """Rectangles that make up a piece, which may go round a hole."""
    from shapely import box

    rings = [piece.exterior, *piece.interiors]
    xs, ys = (sorted({one[axis] for ring in rings for one in ring.coords}) for axis in (0, 1))
    found: list[Rectangle] = []
    for rear, front in pairwise(xs):
        strip = piece.intersection(box(rear, ys[0], front, ys[-1]))
        column = sorted(part.bounds for part in getattr(strip, "geoms", [strip]) if part.area > 0.0)
        for _, right, _, left in column:
            behind = [one for one in found if one[1] == (rear, left) and one[0][1] == right]
            for one in behind:
                found.remove(one)
            found.append(((behind[0][0][0] if behind else rear, right), (front, left)))
    return found
