"""A folded rectangular tray as one blank: floor in the middle, four walls round it, flanges at their ends."""

from dataclasses import dataclass
from math import tan

from boxfit.bay import BoxRules, Point
from boxfit.box.cutouts import cutouts_in_floor, cutouts_in_wall
from boxfit.box.parts import Tray
from boxfit.box.sides import sides_of
from boxfit.box_blank import Fold, Relief, fold_of, weld_back
from boxfit.sheet.flat import Bend, Contour, Corner, Flat, Hole, Mark, from_origin
from boxfit.sheet.openings import Openings, openings
from boxfit.sheet.sides import flange_holes
from boxfit.sheet.wall import Wall
from boxfit.standards.welding import weld_preparation
from boxfit.workshop import FoldShop


@dataclass(frozen=True)
class _Arm:
    """A wall in the blank with the floor's bend below it; places count along its side and up from there."""

    wall: Wall

    @property
    def fold(self) -> Fold:
        """The bend at the floor, the same as at the flange."""
        return self.wall.fold

    @property
    def relief(self) -> Relief:
        """What is cut out beside it at either corner of the floor."""
        return Relief(self.wall.fold, self.wall.back)

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
        length, low, foot = self.wall.side.length, self.fold.allowance, self.relief.foot
        there = [(-past, low + up) for up, past in self.wall.edge(0)]
        back = [(length + past, low + up) for up, past in reversed(self.wall.edge(1))]
        there[0], back[-1] = (there[0][0], foot), (back[-1][0], foot)
        points = [Corner(*self.place(*point)) for point in (*there, *back)]
        # clockwise round the floor's corner
        return (*points[:-1], Corner(points[-1].x, points[-1].y, -tan(self.relief.angle / 4.0)))

    def bends(self, height: float) -> tuple[Bend, ...]:
        """At the floor, up, and at the flange, down; `height` [mm] is that of the tray."""
        fold, side, wall = self.fold, self.wall.side, self.wall
        middle = fold.allowance / 2.0
        clear = fold.outer + self.relief.radius - middle
        floor = (self.place(clear, middle), self.place(side.length - clear, middle))
        figures = (90.0, fold.radius, fold.k, fold.allowance)
        found = [Bend(*floor, True, *figures, height - fold.thickness, fold.by_table)]
        if wall.flange:
            up = wall.bend_line
            line = [
                self.place(along, fold.allowance + up)
                for along in (-wall.past(0, up), side.length + wall.past(1, up))
            ]
            found.append(Bend(line[0], line[1], False, *figures, wall.flange, fold.by_table))
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

    def openings(self, tray: Tray) -> Openings:
        """The cutouts through this wall."""
        side, straight = self.wall.side, self.fold.allowance - tray.bands[0].bottom - self.fold.outer
        found = cutouts_in_wall(tray, tray.bands[0], side.start, side.end)
        at = [(one, (side.local((one.at[0], one.at[1]))[0], straight + one.at[2])) for one in found]
        return openings(at, lambda point: self.place(*point))


def cross_blank(tray: Tray, rules: BoxRules) -> Flat:
    """The tray as one blank, for trays whose floor is bent.

    Its outside once formed is that of floor, walls and flange. Raises ValueError where the floor is square.
    """
    if tray.floor_radius is None:
        raise ValueError(f"{tray.name} is not one blank: its floor is welded square")
    band, shop = tray.bands[0], rules.fold_shop
    fold, height = fold_of(tray.thickness, tray.floor_radius, shop), band.top - band.bottom
    straight = height - fold.outer - (fold.outer if tray.flange else 0.0)
    arms = [_Arm(Wall(side, straight, fold, tray.flange, weld_back(shop))) for side in sides_of(band.outline)]
    low, high = tray.outside.low, tray.outside.high
    holes = tuple(hole for arm in arms for hole in arm.holes(tray))
    in_floor = [(one, (one.at[0], one.at[1])) for one in cutouts_in_floor(tray)]
    cut = [openings(in_floor, lambda point: point), *(arm.openings(tray) for arm in arms)]
    outer = tuple(corner for arm in arms for corner in arm.contour())
    flat = Flat(
        name=tray.name,
        material=tray.material,
        thickness=tray.thickness,
        contours=(outer, *(contour for _, contours in cut for contour in contours)),
        formed=(high[0] - low[0] + 2 * tray.flange, high[1] - low[1] + 2 * tray.flange, height),
        holes=(*holes, *(hole for found, _ in cut for hole in found)),
        bends=tuple(bend for arm in arms for bend in arm.bends(height)),
        marks=(Mark(((low[0] + high[0]) / 2.0, (low[1] + high[1]) / 2.0), tray.name),),
        notes=(*_welds(arms[0], tray, shop), *drilled_later(tray, len(holes))),
    )
    return from_origin(flat)


def _welds(arm: _Arm, tray: Tray, shop: FoldShop) -> tuple[str, ...]:
    """What is closed with weld."""
    return (
        f"walls meet edge to edge inside, {shop.weld_gap:g} mm apart, flanges in a mitre; weld all corners",
        f"corner reliefs of radius {arm.relief.radius:.2f} mm at the floor are closed with weld",
        f"weld preparation: {weld_preparation(tray.material, tray.thickness)}",
    )


def drilled_later(tray: Tray, cut: int) -> tuple[str, ...]:
    """The holes that lie on a mitre's weld, drilled once that is ground flush."""
    later = len(tray.holes) - cut
    diameter = f"{tray.hole_diameter:g} mm"
    return (f"{later} holes of {diameter} on the mitres: drill once welded and flush",) if later else ()
