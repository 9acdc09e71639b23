"""A tray welded up from panels: floor, walls with or without a folded flange, flange strips, step floors."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import chain

from boxfit.bay import Point
from boxfit.box.parts import Tray
from boxfit.sheet.cross import drilled_later
from boxfit.sheet.flat import Bend, Contour, Flat, Hole, Mark, from_origin, straight
from boxfit.sheet.shop import Fold, Shop, fold_of
from boxfit.sheet.sides import Side, flange_holes, mitre_gap, sides_of
from boxfit.sheet.wall import Wall


def tray_panels(tray: Tray, shop: Shop) -> tuple[Flat, ...]:
    """Floor, step floors, walls of every band, and flange strips where the flange is not folded.

    Walls stand on the floor below them, square, edge to edge at every corner, the shop's gap apart.
    """
    walls = [*chain.from_iterable(_band(tray, place, shop) for place in range(len(tray.bands)))]
    strips = [*_strips(tray, shop)] if tray.bend_radius is None and tray.flange else []
    floors = [_floor(tray, shop, [*walls, *strips]), *_step_floors(tray)]
    return (*floors, *walls, *strips)


def _floor(tray: Tray, shop: Shop, carried: list[Flat]) -> Flat:
    """The whole outline at the floor; its notes tell how the tray goes together."""
    outline = tray.bands[0].outline
    notes = [f"walls stand on the floors, edge to edge at the corners, {shop.gap:g} mm apart; weld all round"]
    if tray.bend_radius is not None:
        notes.append(
            f"folded at the flange only: square at the floor, without the bend of {tray.bend_radius:g} mm"
        )
    missing = sum(len(band.outline) for band in tray.bands) - sum(" wall " in one.name for one in carried)
    if missing:
        notes.append(f"sides too short for a wall of their own, closed with weld: {missing}")
    notes += drilled_later(tray, sum(len(one.holes) for one in carried))
    return _plain(tray, f"{tray.name} floor", (straight(outline),), tuple(notes))


def _step_floors(tray: Tray) -> Iterator[Flat]:
    """The sheets under the steps, open over the walls below."""
    for number, step in enumerate(tray.step_floors, start=1):
        contours = (straight(step.plate.outline), straight(step.hole))
        name = f"{tray.name} step floor" + (f" {number}" if len(tray.step_floors) > 1 else "")
        yield _plain(tray, name, contours, ())


def _plain(tray: Tray, name: str, contours: tuple[Contour, ...], notes: tuple[str, ...]) -> Flat:
    """A plate without folds."""
    flat = Flat(name, tray.material, tray.thickness, contours, (0.0, 0.0, tray.thickness), notes=notes)
    return from_origin(replace(flat, formed=(*flat.size, tray.thickness)))


def _band(tray: Tray, place: int, shop: Shop) -> Iterator[Flat]:
    """The walls round one outline; the top ones carry the flange where it is folded."""
    band = tray.bands[place]
    folded = tray.bend_radius is not None and place == len(tray.bands) - 1
    flange = tray.flange if folded else 0.0
    fold = fold_of(tray.thickness, tray.bend_radius or 0.0, shop)
    up = band.top - band.bottom - tray.thickness - (fold.outer if flange else 0.0)
    tier = f" {place + 1}" if len(tray.bands) > 1 else ""
    for side in sides_of(band.outline):
        wall = Wall(side, up, fold, flange, mitre_gap(side, flange, shop.gap))
        if up > 0.0 and wall.narrowest > 0.0:
            yield _panel(tray, f"{tray.name} wall{tier} {side.name}", wall)


def _panel(tray: Tray, name: str, wall: Wall) -> Flat:
    """A wall seen from the inside, its lower edge below."""
    side, length = wall.side, wall.side.length
    right = [(length + past, up) for up, past in wall.edge(0)]
    left = [(-past, up) for up, past in wall.edge(1)]
    wide = max(right)[0] - min(left)[0]
    clear = tray.hole_diameter / 2.0 + wall.back
    holes = flange_holes(side, wall.flange, tray.holes, clear) if wall.flange else ()
    height = wall.straight + (wall.fold.outer if wall.flange else 0.0)
    return from_origin(
        Flat(
            name=name,
            material=tray.material,
            thickness=tray.thickness,
            contours=(straight([*right, *reversed(left)]),),
            formed=(wide, tray.thickness + wall.flange, height),
            holes=tuple(Hole((length - s, wall.in_flange(out)), tray.hole_diameter) for s, out in holes),
            bends=_fold_down(wall, wall.fold) if wall.flange else (),
            marks=(Mark((length / 2.0, wall.straight / 2.0), name),),
        )
    )


def _fold_down(wall: Wall, fold: Fold) -> tuple[Bend, ...]:
    """The flange's bend, away from the eye."""
    up = wall.bend_line
    ends: tuple[Point, Point] = ((-wall.past(1, up), up), (wall.side.length + wall.past(0, up), up))
    return (Bend(*ends, False, 90.0, fold.radius, fold.k, fold.allowance, wall.flange),)


def _strips(tray: Tray, shop: Shop) -> Iterator[Flat]:
    """The flange of a welded tray, one strip a side, seen from above, its ends mitred."""
    for side in sides_of(tray.bands[-1].outline):
        back = mitre_gap(side, tray.flange, shop.gap)
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
