"""A cover plate with returned edges as one blank, seen from below: its plate and an edge on every side."""

from dataclasses import dataclass
from math import asin, pi, sqrt, tan

from boxfit.bay import Point
from boxfit.box.parts import CoverPlate
from boxfit.box.sides import Side, sides_of
from boxfit.box_blank import Fold, Relief, fold_of, weld_back
from boxfit.box_shape import area, rectangle, rectangles
from boxfit.sheet.flat import Bend, Corner, Flat, Hole, Mark, from_origin
from boxfit.surface import Outline
from boxfit.workshop import FoldShop

SLIT = 1.0
"""Width [mm] of the cut between two returned edges at a corner that turns inwards (our own)."""

CLEAR = 15.0
"""Words are marked so far [mm] from a row of holes at least."""


@dataclass(frozen=True)
class _Edge:
    """A returned edge in the blank; places count along its side and up from the flat of the plate.

    `straight` [mm] is what lies beyond the bend, `back` [mm] how far it keeps from a corner for the weld.
    """

    side: Side
    fold: Fold
    straight: float
    back: float

    @property
    def relief(self) -> Relief:
        """What is cut out at a convex corner."""
        return Relief(self.fold, self.back)

    @property
    def above(self) -> float:
        """How far up [mm] it reaches."""
        return self.fold.allowance + self.straight

    @property
    def middle(self) -> float:
        """How far up [mm] the bend line is."""
        return self.fold.allowance / 2.0

    @property
    def round_mitre(self) -> float:
        """Radius [mm] of the relief at a corner that turns inwards, round the point where both bends meet.

        It takes all that both bends would use.
        """
        return max(self.middle * sqrt(2.0), SLIT)

    @property
    def mitre(self) -> Point:
        """Where, at a corner that turns inwards, relief ends and mitre begins: in from it, and up [mm]."""
        along, half = sqrt(self.round_mitre**2 / 2.0 - SLIT**2 / 8.0), SLIT / sqrt(8.0)
        return (self.middle - self.fold.outer + half + along, self.middle - half + along)

    def ends(self, end: int) -> tuple[Point, Point]:
        """The edge at its end 0 or 1: where it begins and where it ends, in from the corner and up [mm]."""
        if self.side.turns[end] == 1:
            inwards = self.fold.thickness + self.back
            return (inwards, self.relief.foot), (inwards, self.above)
        inwards, up = self.mitre
        return (inwards, up), (inwards + self.above - up, self.above)

    def bend_ends(self, end: int) -> float:
        """How far in [mm] from its corner the bend line ends."""
        if self.side.turns[end] == 1:
            return self.fold.outer + self.relief.radius - self.middle
        return self.middle - self.fold.outer + self.round_mitre

    def place(self, inwards: float, up: float, end: int = 0) -> Point:
        """A point [mm] in the blank, by how far in from the corner at an end it is and how far up."""
        side, out = self.side, up - self.fold.outer
        along = side.length - inwards if end else inwards
        return (
            side.start[0] + along * side.along[0] + out * side.outwards[0],
            side.start[1] + along * side.along[1] + out * side.outwards[1],
        )

    def contour(self) -> list[Corner]:
        """From the relief at its start out and back to that at its end, and round it to the next edge."""
        first, second = (self.place(*point) for point in self.ends(0))
        last, before = (self.place(*point, end=1) for point in self.ends(1))
        corners = [Corner(*first), Corner(*second), Corner(*before)]
        if self.side.turns[1] == 1:
            return [*corners, Corner(*last, -tan(self.relief.angle / 4.0))]
        # two arcs, over the place of the relief that lies furthest in the plate
        deep, turned = self.round_mitre / sqrt(2.0), asin(SLIT / 2.0 / self.round_mitre)
        bulge = -tan((pi - turned) / 4.0)
        furthest = self.place(self.middle - self.fold.outer - deep, self.middle - deep, end=1)
        return [*corners, Corner(*last, bulge), Corner(*furthest, bulge)]

    def bend(self, height: float) -> Bend:
        """Folded towards the eye; `height` [mm] is the outside height."""
        fold = self.fold
        start, end = (self.place(self.bend_ends(one), self.middle, one) for one in (0, 1))
        leg = height - fold.thickness
        return Bend(start, end, True, 90.0, fold.radius, fold.k, fold.allowance, leg, fold.by_table)


def cover_blank(cover: CoverPlate, shop: FoldShop) -> Flat:
    """The blank of a cover plate with returned edges; its outside once formed is that of the plate.

    Raises ValueError where it has none or is not folded.
    """
    if not cover.returned or cover.bend_radius is None:
        raise ValueError(f"{cover.name} has no folded edges")
    fold, outline = fold_of(cover.thickness, cover.bend_radius, shop), seen_from_below(cover)
    straight = cover.height - fold.outer
    edges = [_Edge(side, fold, straight, weld_back(shop)) for side in sides_of(outline)]
    low, high = cover.plate.low, cover.plate.high
    return from_origin(
        Flat(
            name=cover.name,
            material=cover.material,
            thickness=cover.thickness,
            contours=(tuple(corner for edge in edges for corner in edge.contour()),),
            formed=(high[0] - low[0], high[1] - low[1], cover.height),
            holes=holes_from_below(cover),
            bends=tuple(edge.bend(cover.height) for edge in edges),
            marks=(Mark(_between_holes(outline, holes_from_below(cover)), cover.name),),
            notes=(*notes_of_cover(cover), *_welds(edges, shop)),
        )
    )


def seen_from_below(cover: CoverPlate) -> Outline:
    """The plate's outline mirrored in its own extent [mm]."""
    wide = cover.plate.low[0] + cover.plate.high[0]
    return tuple((wide - x, y) for x, y in reversed(cover.plate.outline))


def holes_from_below(cover: CoverPlate) -> tuple[Hole, ...]:
    """The holes for the studs, mirrored likewise."""
    wide = cover.plate.low[0] + cover.plate.high[0]
    return tuple(Hole((wide - x, y), cover.hole_diameter) for x, y in cover.holes)


def notes_of_cover(cover: CoverPlate) -> tuple[str, ...]:
    """What its maker must know."""
    return (
        f"seen from below, face down: {len(cover.holes)} holes for M6 studs and {cover.nut}s",
        "dress face: film on, no marks on the outside",
    )


def _between_holes(outline: Outline, holes: tuple[Hole, ...]) -> Point:
    """Near the middle of the largest rectangle of the outline, words there clear of the rows of holes."""
    (x, y), (a, b) = max(rectangles(outline), key=lambda one: area(rectangle(*one)))
    middle, rows = (y + b) / 2.0, [hole.at[1] for hole in holes]
    steps = (sign * step * CLEAR for step in range(6) for sign in (1, -1))
    up = next((up for up in steps if all(abs(middle + up - row) >= CLEAR for row in rows)), 0.0)
    return ((x + a) / 2.0, middle + up)


def _welds(edges: list[_Edge], shop: FoldShop) -> tuple[str, ...]:
    """How its corners are closed."""
    inwards = sum(edge.side.turns[1] == -1 for edge in edges)
    found = [
        f"corners: returned edges {shop.weld_gap:g} mm apart inside, reliefs of radius "
        f"{edges[0].relief.radius:.2f} mm; weld and grind flush"
    ]
    if inwards:
        found.append(
            f"corners that turn inwards, edges cut to a mitre, gap closed with a piece welded in: {inwards}"
        )
    return tuple(found)
