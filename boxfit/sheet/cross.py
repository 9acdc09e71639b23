"""A folded rectangular tray as one blank: floor in the middle, four walls round it, flanges at their ends."""

from dataclasses import dataclass
from math import asin, pi, sqrt, tan

from boxfit.bay import Point
from boxfit.box.parts import Tray
from boxfit.sheet.flat import Bend, Contour, Corner, Flat, Hole, Mark, from_origin
from boxfit.sheet.shop import Fold, Shop, fold_of
from boxfit.sheet.sides import flange_holes, mitre_gap, sides_of
from boxfit.sheet.wall import Wall

AIR = 1.0
"""Flanges of neighbouring walls lie at least this far [mm] apart in the blank; a cut needs that (our own)."""


@dataclass(frozen=True)
class _Arm:
    """A wall in the blank with the floor's bend below it; places count along its side and up from there."""

    wall: Wall

    @property
    def fold(self) -> Fold:
        """The bend at the floor, the same as at the flange."""
        return self.wall.fold

    @property
    def relief(self) -> float:
        """Radius [mm] of the round relief about the point where the middles of two floor bends meet.

        It takes all of the corner that both bends would use, and reaches the edge of either wall.
        """
        middle = self.fold.allowance / 2.0
        return max(middle * sqrt(2.0), middle - self.edge + self.fold.thickness / 4.0)

    @property
    def edge(self) -> float:
        """How far [mm] the wall reaches past the corner of the floor's flat."""
        return self.fold.outer + self.wall.past(0, 0.0)

    @property
    def foot(self) -> float:
        """How far [mm] above the floor's flat the relief ends and the wall's edge begins."""
        middle = self.fold.allowance / 2.0
        return middle + sqrt(self.relief**2 - (self.edge - middle) ** 2)

    @property
    def bulge(self) -> float:
        """Of the relief's arc, clockwise from this wall's edge round the floor's corner to the next."""
        lies = asin((self.edge - self.fold.allowance / 2.0) / self.relief)
        return -tan((1.5 * pi + 2.0 * lies) / 4.0)

    def place(self, along: float, up: float) -> Point:
        """A point [mm] in the blank, by how far along the side and above the floor's flat it is."""
        side = self.wall.side
        out = up - self.fold.outer
        return (
            side.start[0] + along * side.along[0] + out * side.outwards[0],
            side.start[1] + along * side.along[1] + out * side.outwards[1],
        )

    def contour(self) -> Contour:
        """From the relief at its start round the wall to the relief at its end, and the arc there."""
        length, low = self.wall.side.length, self.fold.allowance
        there = [(-past, low + up) for up, past in self.wall.edge(0)]
        back = [(length + past, low + up) for up, past in reversed(self.wall.edge(1))]
        there[0], back[-1] = (there[0][0], self.foot), (back[-1][0], self.foot)
        points = [Corner(*self.place(*point)) for point in (*there, *back)]
        return (*points[:-1], Corner(points[-1].x, points[-1].y, self.bulge))

    def bends(self, height: float) -> tuple[Bend, ...]:
        """At the floor, up, and at the flange, down; `height` [mm] is that of the tray."""
        fold, side, wall = self.fold, self.wall.side, self.wall
        middle = fold.allowance / 2.0
        clear = fold.outer + self.relief - middle
        floor = (self.place(clear, middle), self.place(side.length - clear, middle))
        figures = (90.0, fold.radius, fold.k, fold.allowance)
        found = [Bend(*floor, True, *figures, height - fold.thickness)]
        if wall.flange:
            up = wall.bend_line
            line = [
                self.place(along, fold.allowance + up)
                for along in (-wall.past(0, up), side.length + wall.past(1, up))
            ]
            found.append(Bend(line[0], line[1], False, *figures, wall.flange))
        return tuple(found)

    def holes(self, tray: Tray) -> tuple[Hole, ...]:
        """Those that are wholly in this wall's flange."""
        clear = tray.hole_diameter / 2.0 + self.wall.back
        found = flange_holes(self.wall.side, tray.flange, tray.holes, clear)
        low = self.fold.allowance
        return tuple(
            Hole(self.place(along, low + self.wall.in_flange(out)), tray.hole_diameter)
            for along, out in found
        )


def cross_blank(tray: Tray, shop: Shop) -> Flat | None:
    """The tray as one blank; None where it is stepped, not folded, or does not go into one blank or sheet.

    Its outside once formed is that of floor, walls and flange.
    """
    if tray.bend_radius is None or len(tray.bands) > 1 or len(tray.bands[0].outline) != 4:
        return None
    band, fold = tray.bands[0], fold_of(tray.thickness, tray.bend_radius, shop)
    height = band.top - band.bottom
    straight = height - fold.outer - (fold.outer if tray.flange else 0.0)
    arms = [
        _Arm(Wall(side, straight, fold, tray.flange, mitre_gap(side, tray.flange, shop.gap)))
        for side in sides_of(band.outline)
    ]
    if not all(_goes_flat(arm) for arm in arms):
        return None
    size = tray.outside
    low, high = size.low, size.high
    holes = tuple(hole for arm in arms for hole in arm.holes(tray))
    flat = Flat(
        name=tray.name,
        material=tray.material,
        thickness=tray.thickness,
        contours=(tuple(corner for arm in arms for corner in arm.contour()),),
        formed=(high[0] - low[0] + 2 * tray.flange, high[1] - low[1] + 2 * tray.flange, height),
        holes=holes,
        bends=tuple(bend for arm in arms for bend in arm.bends(height)),
        marks=(Mark(((low[0] + high[0]) / 2.0, (low[1] + high[1]) / 2.0), tray.name),),
        notes=(*_welds(arms[0], shop), *drilled_later(tray, len(holes))),
    )
    return from_origin(flat) if shop.takes(flat.size) else None


def _goes_flat(arm: _Arm) -> bool:
    """Whether reliefs, walls and flanges of neighbours stay apart in the blank."""
    wall, fold = arm.wall, arm.fold
    above = fold.allowance + wall.straight
    floor = wall.side.length - 2.0 * fold.outer
    return (
        wall.straight >= 0.0
        and arm.foot < above
        and 2.0 * arm.relief + AIR < floor
        and wall.narrowest > 0.0
        and (not wall.flange or fold.outer + wall.flange + AIR <= above)
    )


def _welds(arm: _Arm, shop: Shop) -> tuple[str, ...]:
    """What is closed with weld."""
    return (
        f"walls meet edge to edge inside, {shop.gap:g} mm apart, flanges in a mitre; weld all corners",
        f"corner reliefs of radius {arm.relief:.2f} mm at the floor are closed with weld",
    )


def drilled_later(tray: Tray, cut: int) -> tuple[str, ...]:
    """The holes that lie on a mitre's weld, drilled once that is ground flush."""
    later = len(tray.holes) - cut
    diameter = f"{tray.hole_diameter:g} mm"
    return (f"{later} holes of {diameter} on the mitres: drill once welded and flush",) if later else ()
