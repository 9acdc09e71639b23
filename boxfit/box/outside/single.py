"""Breather, drain and service disconnect: one each, to a rule of its own."""

from dataclasses import dataclass

from boxfit.bay import Bay, Block, Vector
from boxfit.box.assembly_hand import HAND, SWING
from boxfit.box.fitting import Bought, Cutout
from boxfit.box.outside.place import (
    Lacking,
    Placed,
    Room,
    Site,
    Wanted,
    high_and_middle,
    low_and_middle,
    place,
)
from boxfit.box.outside.wall import Wall, hole_to_bend, spread
from boxfit.box.parts import BoxParts
from boxfit.box_shape import rectangles
from boxfit.car import Car

VENT_HOLE, VENT_ACROSS, VENT_OUT, VENT_BEHIND = 40.0, 60.0, 12.0, 4.0
"""A breather with burst disc: hole, body, how far it stands out and in [mm]: common practice, no source."""
SMALL_HOLE, SMALL_ACROSS, SMALL_OUT, SMALL_BEHIND = 12.3, 22.0, 14.0, 7.0
"""A screwed breather M12 x 1.5, the same of it [mm]: common practice, no source."""
DRAIN_HOLE, DRAIN_ACROSS, DRAIN_BELOW = 10.0, 16.0, 8.0
"""A drain sleeve with rubber flap: hole, body and how far it hangs below the floor [mm]: common practice."""
PLUG = (90.0, 40.0)
"""The opening of a service disconnect [mm], along and up: common practice, no source."""
PLUG_BODY = (110.0, 60.0, 50.0)
"""What its plug fills outside, along, up and out [mm]: common practice, no source."""
PLUG_BEHIND = 45.0
"""What its socket needs behind the wall [mm]: common practice, no source."""


@dataclass(frozen=True)
class Alone:
    """Something placed by itself, or the note that tells why it is left out."""

    placed: Placed | None
    note: str = ""


def cabin(car: Car) -> Vector:
    """Where people sit [mm]: the middle of those aboard when the target is judged, else of all carried.

    Without them, the middle of the wheelbase.
    """
    names = car.target.aboard if car.target else ()
    seats = [one.at for one in car.carried if one.name in names] or [one.at for one in car.carried]
    if not seats:
        return (-car.wheelbase / 2.0, 0.0, 0.0)
    x, y, z = (sum(at[k] for at in seats) / len(seats) for k in range(3))
    return (x, y, z)


def away_from_cabin(site: Site, middle: Vector, people: Vector) -> list[Wall]:
    """The walls that do not look towards the cabin: front or rear away from it first, then the sides.

    A cabin spans the car's width, so that what counts is ahead of it or behind it.
    """
    sign = 1 if middle[0] >= people[0] else -1
    away = [wall for wall in site.walls if wall.axis == 0 and wall.sign == sign]
    return away + [wall for wall in site.walls if wall.axis == 1]


def breather(site: Site, middle: Vector, people: Vector) -> Alone:
    """A breather with burst disc high on a wall away from the cabin, a small one where it has no room."""
    walls = away_from_cabin(site, middle, people)
    large = _vent(
        "breather with burst disc",
        f"breather with burst disc for a hole of {VENT_HOLE:g} mm, four screws M4, gasket;"
        " the area for burst gas is for the module's maker to tell",
        (VENT_HOLE, VENT_ACROSS, VENT_OUT, VENT_BEHIND),
    )
    small = _vent(
        "breather",
        "breather M12 x 1.5 with lock nut; no burst vent: ask the module's maker for the area and find"
        " room for it",
        (SMALL_HOLE, SMALL_ACROSS, SMALL_OUT, SMALL_BEHIND),
    )
    lacking: tuple[Lacking, ...] = ()
    for wanted in (large, small):
        found = place(site, wanted, walls, high_and_middle)
        if isinstance(found, Placed):
            return Alone(found)
        lacking = found
    nearest = min(lacking, key=lambda one: one.missing)
    return Alone(None, f"{site.name}: no breather: {nearest}; it must not face the cabin")


def _vent(name: str, about: str, sizes: tuple[float, float, float, float]) -> Wanted:
    hole, across, out, behind = sizes
    wide = spread(0.0, across)
    body = Room(wide, wide, (0.0, out))
    keeps = Room(wide, wide, (0.0, out + 10.0), "10 mm before it stay free")
    inside = hole if behind < SMALL_BEHIND else across
    mass = 0.06 if hole > SMALL_HOLE else 0.02
    return Wanted("breather", name, about, mass, (hole, hole), True, (inside, inside, behind), body, (keeps,))


def drain(site: Site, parts: BoxParts) -> Alone:
    """A drain with flap in a corner of the lowest floor, the rear corners first."""
    tray, outline = parts.tray, parts.tray.bands[0].outline
    inset = tray.thickness + hole_to_bend(tray) + DRAIN_HOLE / 2.0
    half, floor = DRAIN_ACROSS / 2.0, tray.bands[0].bottom
    corners = [
        (x + inset * (1 if x == low[0] else -1), y + inset * (1 if y == low[1] else -1))
        for low, high in rectangles(outline)
        for x in (low[0], high[0])
        for y in (low[1], high[1])
        if high[0] - low[0] > 2.0 * inset and high[1] - low[1] > 2.0 * inset
    ]
    for x, y in sorted(corners):
        body = Block((x - half, y - half, floor - DRAIN_BELOW), (x + half, y + half, floor))
        if site.around.free(body, site.taken):
            at = (x, y, floor)
            about = (
                f"drain sleeve with rubber flap, hole {DRAIN_HOLE:g} mm, flush inside; the floor's liner"
                " is cut out over it, so that water runs under the liner to it"
            )
            bought = Bought("drain", "drain", "down", at, body, body, about, 0.02)
            above = (floor + tray.thickness, floor + tray.thickness + 2.0)
            behind = Block((x - half, y - half, above[0]), (x + half, y + half, above[1]))
            return Alone(Placed(bought, Cutout("drain", "down", at, DRAIN_HOLE), behind))
    return Alone(
        None, f"{site.name}: no drain: nowhere are {DRAIN_BELOW:g} mm free below a corner of its floor"
    )


def disconnect(site: Site, bay: Bay, flange: float) -> Placed | tuple[Lacking, ...]:
    """The service disconnect as near to the opening as a wall takes it, with a hand's room [mm].

    Where the opening is above or below, the hand comes along the wall, past a flange so wide [mm].
    """
    width, height, out = PLUG_BODY
    way = bay.opening.way if bay.opening else None
    wide = spread(0.0, max(width, SWING))
    if way in ("up", "down"):
        beyond = max(out, flange)
        sign, end = (-1.0, bay.room.top) if way == "up" else (1.0, bay.room.floor)
        word = "a hand reaches it from " + ("above" if way == "up" else "below")
        level = spread(0.0, height)
        keeps = Room(wide, level, (beyond, beyond + HAND), word, end + sign * bay.tolerance)
        walls, rank = site.walls, high_and_middle if way == "up" else low_and_middle
    else:
        keeps = Room(wide, spread(0.0, height), (0.0, out + SWING), "a hand reaches it straight")
        walls = tuple(wall for wall in site.walls if way is None or wall.looks == way)
        rank = high_and_middle
    wanted = Wanted(
        kind="service disconnect",
        name="service disconnect",
        about=(
            f"service disconnect with cover, opening {PLUG[0]:g} x {PLUG[1]:g} mm, interlock, lockable;"
            " opens the string: high voltage, for trained people only, by local rules"
        ),
        mass=0.6,
        hole=PLUG,
        is_round=False,
        behind=(*PLUG, PLUG_BEHIND),
        body=Room(spread(0.0, width), spread(0.0, height), (0.0, out)),
        keeps=(keeps,),
    )
    return place(site, wanted, walls, rank)
