"""Where the cables leave a box: glands, or where no gland has room behind the wall, a housing over a slot."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import count
from math import ceil, dist

from boxfit.bay import Vector
from boxfit.box.fitting import BoughtKind
from boxfit.box.outside.housing import HOUSED, SLOT_HEIGHT, Main, housings_wanted
from boxfit.box.outside.place import Lacking, Placed, Room, Site, Wanted, near, place
from boxfit.box.outside.wall import Span, Wall, spread
from boxfit.car import Car
from boxfit.layout import Layout
from boxfit.module import Module
from boxfit.standards.cable_entry import BEND, CABLE_ACROSS, SIGNAL_CABLE, STRIPPED_END, Gland, gland_for
from boxfit.standards.conductors import CONDUCTORS, conductor_for

USUAL_SECTION = 50.0
"""Section [mm2] where the module file tells no current: common practice, no source."""
GLAND_LENGTH = 45.0
"""What a gland itself stands out [mm]: common practice, no source."""
INVERTER = "inverter"
SIGNAL_GLAND = "gland of the monitoring"


@dataclass(frozen=True)
class Cable:
    """The main cable: section [mm2], outside diameter [mm], how many side by side to a pole, and a note."""

    section: float
    across: float
    to_a_pole: int
    note: str


@dataclass(frozen=True)
class Link:
    """Where main cables of a box lead: what to, and where that is [mm]."""

    to: str
    at: Vector


def main_cable(module: Module, layout: Layout) -> Cable:
    """The cable for the pack's continuous current: published ratings, diameters common practice."""
    if module.current is None:
        note = (
            f"the module file tells no current: main cable taken as {USUAL_SECTION:g} mm2 (common practice)"
        )
        return Cable(USUAL_SECTION, CABLE_ACROSS[USUAL_SECTION], 1, note)
    amperes = module.current.continuous * layout.parallel
    most = max(one.rating for one in CONDUCTORS if one.rating is not None)
    to_a_pole = ceil(amperes / most - 1e-9)
    conductor = conductor_for(amperes / to_a_pole)
    if conductor is None:
        raise ValueError(f"no cable of the table carries {amperes / to_a_pole:g} A")
    several = f"{to_a_pole} x " if to_a_pole > 1 else ""
    note = (
        f"main cable {several}{conductor.section:g} mm2 for {amperes:g} A: welding cable at 100 % duty in"
        " free air, one maker's table; bundled or covered it carries less: the cable's maker decides"
    )
    return Cable(conductor.section, CABLE_ACROSS[conductor.section], to_a_pole, note)


def links_of(car: Car, middles: Sequence[tuple[str, Vector]]) -> tuple[tuple[Link, ...], ...]:
    """What each box is cabled to: a chain from the inverter, always on to the nearest box left.

    Without an inverter among what is fitted the chain starts at the foremost box, whose cables to the
    inverter then lead the same way.
    """
    found = [thing for thing in car.fitted if INVERTER in thing.name.lower()]
    left = list(range(len(middles)))
    start = found[0].at if found else (max(at[0] for _, at in middles) + 1000.0, 0.0, middles[0][1][2])
    before = Link(found[0].name if found else INVERTER, start)
    links: dict[int, list[Link]] = {number: [] for number in left}
    last = None
    while left:
        here = before.at
        number = min(left, key=lambda one: (round(dist(here, middles[one][1]), 6), one))
        left.remove(number)
        links[number].append(before)
        before = Link(*middles[number])
        if last is not None:
            links[last].append(before)
        last = number
    return tuple(tuple(links[number]) for number in range(len(middles)))


@dataclass(frozen=True)
class Entries:
    """Cable entries of a box; what to know of them, and what of them has no room anywhere."""

    placed: tuple[Placed, ...]
    notes: tuple[str, ...]
    lacking: tuple[str, ...]


def cable_entries(site: Site, middle: Vector, links: Sequence[Link], cable: Cable) -> Entries:
    """Two main cables (or twice as many as go to a pole) for each link, and one of the monitoring."""
    placed: list[Placed] = []
    notes: list[str] = []
    lacking: list[str] = []
    numbers = count(1)
    for link in links:
        wanted = [_main(cable, link, next(numbers)) for _ in range(2 * cable.to_a_pole)]
        found = _all_or_none(site, wanted, _towards(site, middle, link), link)
        if not isinstance(found, list):
            housing = _housed(site, cable, link, _towards(site, middle, link))
            if not isinstance(housing, Placed):
                lacking.append(_told(site, f"main cables to {link.to}", found, housing))
                continue
            found = [housing]
        placed += found
        site = site.after(*found)
    signal, link = _signal(), links[0]
    found_signal = _all_or_none(site, [signal], _towards(site, middle, link), link)
    if isinstance(found_signal, list):
        placed += found_signal
    elif any(one.bought.kind in HOUSED for one in placed):
        notes.append(
            f"{site.name}: the cable of the monitoring leaves through the cable housing: gland "
            f"M{gland_for(SIGNAL_CABLE).thread:g} there"
        )
    else:
        lacking.append(_told(site, "cable of the monitoring", found_signal, ()))
    return Entries(tuple(placed), tuple(notes), tuple(lacking))


def _told(site: Site, what: str, gland: Sequence[Lacking], housing: Sequence[Lacking]) -> str:
    """What is missing at the wall where least is, and what would make room."""
    words = [f"{site.name}: no room for the {what}: gland: {_nearest(gland)}"]
    if housing:
        words.append(f"cable housing over a slot: {_nearest(housing)}")
    rules = site.around.bay.box
    more = headroom_for_slot(site)
    if more > 0.0:
        room = ceil(rules.headroom + more)
        words.append(f"box.headroom = {room:g} would let a slot in above what stands inside")
    return "; ".join(words)


def headroom_for_slot(site: Site) -> float:
    """How much more headroom [mm] a slot for bars needs above everything inside; 0 or less where it has it.

    Whatever is as high as a hold-down rises with the headroom no further than it must.
    """
    highest = max(block.high[2] for block in (*site.inside, *(one.kept for one in site.yielding)))
    rim = max(wall.up[1] for wall in site.walls)
    return highest + SLOT_HEIGHT - rim


def _nearest(lacking: Sequence[Lacking]) -> str:
    return str(min(lacking, key=lambda one: one.missing))


def _towards(site: Site, middle: Vector, link: Link) -> list[Wall]:
    """The walls, the one that looks most towards the other end first."""

    def away(wall: Wall) -> float:
        return -(link.at[wall.axis] - middle[wall.axis]) * wall.sign

    return sorted(site.walls, key=away)


def _all_or_none(
    site: Site, wanted: Sequence[Wanted], walls: Sequence[Wall], link: Link
) -> list[Placed] | tuple[Lacking, ...]:
    """All things one after the other, or what stopped the first that has no place."""
    placed: list[Placed] = []
    for one in wanted:
        found = place(site, one, walls, near((link.at[0], link.at[1])))
        if not isinstance(found, Placed):
            return found
        placed.append(found)
        site = site.after(found)
    return placed


def _main(cable: Cable, link: Link, number: int) -> Wanted:
    gland = gland_for(cable.across)
    orange = f"orange cable {cable.section:g} mm2, {cable.across:g} mm across"
    about = f"cable gland M{gland.thread:g} x 1.5, metal, clamps the shield, for {orange}"
    return _gland(f"gland {number}, main cable to {link.to}", about, gland, cable.across)


def _signal() -> Wanted:
    gland = gland_for(SIGNAL_CABLE)
    about = f"cable gland M{gland.thread:g} x 1.5 for the cable of the monitoring, {SIGNAL_CABLE:g} mm across"
    return _gland(SIGNAL_GLAND, about, gland, SIGNAL_CABLE)


def _gland(name: str, about: str, gland: Gland, across: float) -> Wanted:
    """A gland with the stretch that stays straight and the bend after it, which may turn four ways."""
    wide = spread(0.0, gland.across)
    out: Span = (0.0, STRIPPED_END + (BEND + 1.0) * across)
    side = (BEND + 1.0) * across
    far, back = (wide[0], side), (-side, wide[1])
    keeps = (
        Room(wide, back, out, "its cable turns down"),
        Room(wide, far, out, "its cable turns up"),
        Room(far, wide, out, "its cable turns forwards or to the left"),
        Room(back, wide, out, "its cable turns rearwards or to the right"),
    )
    body = Room(wide, wide, (0.0, GLAND_LENGTH))
    behind = (gland.across, gland.across, gland.inside)
    kind: BoughtKind = "cable gland"
    return Wanted(kind, name, about, gland.mass, (gland.hole, gland.hole), True, behind, body, keeps)


def through(cable: Cable, link: Link) -> Main:
    """What a housing of a link leads out: two poles, each of as many cables as it asks for."""
    return Main(2 * cable.to_a_pole, cable.section, cable.across, link.to)


def _housed(site: Site, cable: Cable, link: Link, walls: Sequence[Wall]) -> Placed | tuple[Lacking, ...]:
    """A housing on the first wall that takes one, as near to the other end as any way out of it lets."""
    lacking: list[Lacking] = []
    rank = near((link.at[0], link.at[1]))
    for wall in walls:
        found: list[tuple[float, int, Placed]] = []
        for wanted in housings_wanted(through(cable, link), site.around.bay.box):
            one = place(site, wanted, [wall], rank)
            if isinstance(one, Placed):
                at = one.bought.at
                found.append((round(rank(wall, (at[1 - wall.axis], at[2])), 6), len(found), one))
            else:
                lacking += one
        if found:
            return min(found, key=lambda each: each[:2])[2]
    return tuple(lacking)
