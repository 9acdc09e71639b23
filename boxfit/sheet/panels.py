"""A tray welded up from panels: floor, walls with or without a folded flange, flange strips, step floors."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

import shapely

from boxfit.bay import BoxRules, Point
from boxfit.box.cutouts import cutouts_in_floor, cutouts_in_wall
from boxfit.box.parts import StepFloor, Tray
from boxfit.box.sides import Side, sides_of
from boxfit.box_blank import fold_of
from boxfit.sheet.cross import drilled_later
from boxfit.sheet.flat import Bend, Flat, Hole, Mark, from_origin, straight
from boxfit.sheet.openings import openings
from boxfit.sheet.outline import points_of
from boxfit.sheet.sides import flange_holes, mitre_gap
from boxfit.sheet.tabs import Tabs, notched, tabs_of
from boxfit.sheet.wall import Wall
from boxfit.standards.welding import weld_preparation
from boxfit.surface import Outline


@dataclass(frozen=True)
class _Panel:
    """A wall of one band, and the tabs it stands on."""

    name: str
    wall: Wall
    tabs: Tabs


def tray_panels(tray: Tray, rules: BoxRules) -> tuple[Flat, ...]:
    """Floor, step floors, walls of every band, and flange strips where the flange is not folded.

    Walls stand on the floor below them, square, their tabs in its edge, edge to edge at every corner, the
    shop's gap apart: outside corners are open.
    """
    floors = [_Floor(tray, None), *(_Floor(tray, step) for step in tray.step_floors)]
    bands = [_band(tray, place, floors[place], rules) for place in range(len(tray.bands))]
    walls = [_wall_flat(tray, place, panel) for place, panels in enumerate(bands) for panel in panels]
    strips = [*_strips(tray, rules)] if tray.bend_radius is None and tray.flange else []
    lying = [floor.flat(panels) for floor, panels in zip(floors, bands, strict=True)]
    told = replace(lying[0], notes=_notes(tray, rules, bands, [*walls, *strips]))
    return (told, *lying[1:], *walls, *strips)


def _notes(
    tray: Tray, rules: BoxRules, bands: list[tuple[_Panel, ...]], carried: list[Flat]
) -> tuple[str, ...]:
    """How the tray goes together."""
    gap = rules.fold_shop.weld_gap
    notes = [
        f"walls stand on the floors, edge to edge at the corners, {gap:g} mm apart, outside corners open; "
        "weld all round",
        f"weld preparation: {weld_preparation(tray.material, tray.thickness)}",
    ]
    if any(panel.tabs.middles for panels in bands for panel in panels):
        play = bands[0][0].tabs.play
        notes.append(f"tabs of the walls stand in the notches, {play:g} mm of play at both ends of each")
    if tray.bend_radius is not None:
        notes.append(
            f"folded at the flange only: square at the floor, without the bend of {tray.bend_radius:g} mm"
        )
    if missing := sum(len(band.outline) for band in tray.bands) - sum(map(len, bands)):
        notes.append(f"sides too short for a wall of their own, closed with weld: {missing}")
    in_walls = sum(bool(one.diameter) for one in tray.cutouts if one.looks != "down")
    return (*notes, *drilled_later(tray, sum(len(one.holes) for one in carried) - in_walls))


@dataclass(frozen=True)
class _Floor:
    """What the walls of a band stand on: the whole outline at the floor, or the sheet under a step.

    A step floor is open over the walls below.
    """

    tray: Tray
    step: StepFloor | None

    @property
    def name(self) -> str:
        """Numbered where several steps have one."""
        if self.step is None:
            return f"{self.tray.name} floor"
        number, many = self.tray.step_floors.index(self.step) + 1, len(self.tray.step_floors) > 1
        return f"{self.tray.name} step floor" + (f" {number}" if many else "")

    @property
    def outline(self) -> Outline:
        """The outside of the walls that stand on it."""
        return self.step.plate.outline if self.step else self.tray.bands[0].outline

    def as_cut(self) -> Flat:
        """The plate in plan, without notches."""
        tray, hole = self.tray, self.step.hole if self.step else None
        found = [(one, (one.at[0], one.at[1])) for one in cutouts_in_floor(tray, self.step)]
        holes, contours = openings(found, lambda point: point)
        inside = (straight(hole),) if hole else ()
        thick = tray.thickness
        return Flat(
            self.name,
            tray.material,
            thick,
            (straight(self.outline), *inside, *contours),
            (0, 0, thick),
            holes,
        )

    def solid(self) -> shapely.Geometry:
        """What of its plan is sheet."""
        flat = self.as_cut()
        outer, *others = (shapely.Polygon(points_of(contour)) for contour in flat.contours)
        others += [shapely.Point(hole.at).buffer(hole.diameter / 2.0) for hole in flat.holes]
        return outer.difference(shapely.union_all(others))

    def flat(self, panels: tuple[_Panel, ...]) -> Flat:
        """The plate with the notches for its walls."""
        plain, tabs = self.as_cut(), {panel.wall.side.start: panel.tabs for panel in panels}
        edge = straight(notched(self.outline, tabs))
        flat = replace(plain, contours=(edge, *plain.contours[1:]))
        return from_origin(replace(flat, formed=(*flat.size, self.tray.thickness)))


def _band(tray: Tray, place: int, floor: _Floor, rules: BoxRules) -> tuple[_Panel, ...]:
    """The walls round one outline; the top ones carry the flange where it is folded."""
    band, shop, solid = tray.bands[place], rules.fold_shop, floor.solid()
    folded = tray.bend_radius is not None and place == len(tray.bands) - 1
    flange = tray.flange if folded else 0.0
    fold = fold_of(tray.thickness, tray.bend_radius or 0.0, shop)
    up = band.top - band.bottom - tray.thickness - (fold.outer if flange else 0.0)
    tier = f" {place + 1}" if len(tray.bands) > 1 else ""
    found = []
    for side in sides_of(band.outline):
        wall = Wall(side, up, fold, flange, mitre_gap(side, flange, shop.weld_gap))
        if up > 0.0 and wall.narrowest > 0.0:
            tabs = tabs_of(wall, solid, rules.tolerances.cut)
            found.append(_Panel(f"{tray.name} wall{tier} {side.name}", wall, tabs))
    return tuple(found)


def _wall_flat(tray: Tray, place: int, panel: _Panel) -> Flat:
    """A wall seen from the inside, its lower edge below."""
    name, wall, side, length = panel.name, panel.wall, panel.wall.side, panel.wall.side.length
    band, tabs = tray.bands[place], panel.tabs
    right = [(length + past, up) for up, past in wall.edge(0)]
    left = [(-past, up) for up, past in wall.edge(1)]
    wide = max(right)[0] - min(left)[0]
    clear = tray.hole_diameter / 2.0 + wall.back
    drilled = flange_holes(side, wall.flange, tray.holes, clear) if wall.flange else ()
    height = wall.straight + (wall.fold.outer if wall.flange else 0.0) + (tabs.deep if tabs.middles else 0.0)
    found = [
        (one, (side.local((one.at[0], one.at[1]))[0], one.at[2] - band.bottom - tray.thickness))
        for one in cutouts_in_wall(tray, band, side.start, side.end)
    ]
    holes, contours = openings(found, lambda point: (length - point[0], point[1]))
    return from_origin(
        Flat(
            name=name,
            material=tray.material,
            thickness=tray.thickness,
            contours=(straight([*right, *reversed(left), *tabs.in_wall()]), *contours),
            formed=(wide, tray.thickness + wall.flange, height),
            holes=(
                *(Hole((length - s, wall.in_flange(out)), tray.hole_diameter) for s, out in drilled),
                *holes,
            ),
            bends=_fold_down(wall) if wall.flange else (),
            marks=(Mark((length / 2.0, wall.straight / 2.0), name),),
        )
    )


def _fold_down(wall: Wall) -> tuple[Bend, ...]:
    """The flange's bend, away from the eye."""
    up, fold = wall.bend_line, wall.fold
    ends: tuple[Point, Point] = ((-wall.past(1, up), up), (wall.side.length + wall.past(0, up), up))
    return (Bend(*ends, False, 90.0, fold.radius, fold.k, fold.allowance, wall.flange, fold.by_table),)


def _strips(tray: Tray, rules: BoxRules) -> Iterator[Flat]:
    """The flange of a welded tray, one strip a side, seen from above, its ends mitred."""
    for side in sides_of(tray.bands[-1].outline):
        back = mitre_gap(side, tray.flange, rules.fold_shop.weld_gap)
        corners = _strip(side, tray.flange, back)
        if corners[1][0] - corners[0][0] <= 0.0 or corners[2][0] - corners[3][0] <= 0.0:
            continue
        holes = flange_holes(side, tray.flange, tray.holes, tray.hole_diameter / 2.0 + back)
        xs = [x for x, _ in corners]
        yield from_origin(
            Flat(
                name=f"{tray.name} flange {side.name}",
                material=tray.material,
                thickness=tray.thickness,
                contours=(straight(corners),),
                formed=(max(xs) - min(xs), tray.flange, tray.thickness),
                holes=tuple(Hole((along, -out), tray.hole_diameter) for along, out in holes),
                marks=(Mark((side.length / 2.0, -tray.flange / 2.0), f"flange {side.name}"),),
            )
        )


def _strip(side: Side, flange: float, back: float) -> tuple[Point, Point, Point, Point]:
    """The corners of a flange strip, its outer edge first."""
    (one, other), length = side.turns, side.length
    return (
        (back - one * flange, -flange),
        (length + other * flange - back, -flange),
        (length - back, 0.0),
        (back, 0.0),
    )
