"""Strings through all modules of a layout, and every link cable between boxes and to the inverter."""

from collections.abc import Sequence
from dataclasses import dataclass

from boxfit.bay import Block, Vector
from boxfit.box.built import BuiltBox
from boxfit.box.outside.cables import INVERTER, Cable, Link, links_of, main_cable
from boxfit.box.wiring.beside import beside
from boxfit.box.wiring.clash import Clash, Passage, along_walls, clashes, met_metal, passages, unsurveyed
from boxfit.box.wiring.conductors import Conductor, between_boxes, paired, to_inverter
from boxfit.box.wiring.entries import Entry, entries_to, placed_entries
from boxfit.box.wiring.obstacles import barred_blocks, box_obstacles, cable_blocks, hulls, walls_dear
from boxfit.box.wiring.route import Route
from boxfit.box.wiring.strings import PackStrings, pack_strings
from boxfit.box.wiring.way import End, shortest_way
from boxfit.car import Car
from boxfit.layout import Layout
from boxfit.module import Module
from boxfit.standards.cable_entry import BEND, cable_mass


@dataclass(frozen=True)
class LinkCable:
    """A cable between two boxes, or from a box to the inverter, with all that it meets on its way.

    `route` is None where no way keeps the bend radius. `entries` are those at its two ends, the second None
    at the inverter. `near_walls` [mm] of it run nearer to a bay's walls than allowed, `unsurveyed` [mm] in no
    bay; `metal` are places where it meets metal of a scan.
    """

    name: str
    conductor: Conductor
    start: str
    end: str
    entries: tuple[Entry, Entry | None]
    route: Route | None
    mass: float
    clashes: tuple[Clash, ...] = ()
    passages: tuple[Passage, ...] = ()
    metal: tuple[Vector, ...] = ()
    near_walls: float = 0.0
    unsurveyed: float = 0.0


@dataclass(frozen=True)
class Run:
    """All cables of one stretch of the chain, and how many the entries at each end take."""

    start: str
    end: str
    cables: tuple[LinkCable, ...]
    room_at: tuple[int, int | None]


@dataclass(frozen=True)
class Wiring:
    """Strings and cables. `boxes` are the names in the order of the layout, `chain` from the inverter on."""

    pack: PackStrings
    cable: Cable
    boxes: tuple[str, ...]
    chain: tuple[int, ...]
    runs: tuple[Run, ...]
    inverter: str | None

    @property
    def cables(self) -> tuple[LinkCable, ...]:
        """All link cables, from the inverter on."""
        return tuple(one for run in self.runs for one in run.cables)

    @property
    def routed(self) -> tuple[tuple[LinkCable, Route], ...]:
        """The cables whose way was found."""
        return tuple((one, one.route) for one in self.cables if one.route)


def wired(car: Car, module: Module, layout: Layout, built: Sequence[BuiltBox]) -> Wiring:
    """Strings, cables and their ways, for a layout of at least one box, all boxes built."""
    names = tuple(one.parts.name for one in built)
    links = links_of(car, [(one.parts.name, _middle(one)) for one in built])
    cable = main_cable(module, layout)
    chain = _chain(names, links)
    first = chain[0]
    inverter = next((one for one in car.fitted if INVERTER in one.name.lower()), None)
    to_first = entries_to(built[first].parts, built[first].box, links[first][0], cable, 2 * cable.to_a_pole)
    junction = _mean([one.end.at for one in to_first])
    pack = pack_strings(car, module, layout, junction)
    each = module.current.continuous if module.current else None
    layer = _Layer(car, built, cable)
    wanted: list[_Wanted] = []
    if inverter is not None:
        conductors = to_inverter(pack, each, cable)
        wanted.append(layer.wanted(first, links[first][0], conductors, None, inverter.at))
    for place, number in enumerate(chain[1:], start=1):
        before, beyond = chain[place - 1], frozenset(chain[place:])
        conductors = between_boxes(pack, beyond, each, cable)
        back = next(link for link in links[before] if link.to == names[number])
        wanted.append(layer.wanted(number, links[number][0], conductors, (before, back), links[number][0].at))
    return Wiring(pack, cable, names, chain, layer.laid_all(wanted), inverter.name if inverter else None)


def _middle(one: BuiltBox) -> Vector:
    return _mean([one.box.low, one.box.high])


def _mean(places: Sequence[Vector]) -> Vector:
    x, y, z = (sum(along) / len(places) for along in zip(*places, strict=True))
    return (x, y, z)


def _chain(names: Sequence[str], links: Sequence[Sequence[Link]]) -> tuple[int, ...]:
    """The boxes from the one nearest to the inverter on: each leads back to the one before it."""
    after = {own[0].to: number for number, own in enumerate(links)}
    found = [next(number for number, own in enumerate(links) if own[0].to not in names)]
    while names[found[-1]] in after:
        found.append(after[names[found[-1]]])
    return tuple(found)


@dataclass(frozen=True)
class _Cable:
    """A cable to be laid: from an entry to an entry, None at the inverter, and its end there."""

    conductor: Conductor
    start: Entry
    entry: Entry | None
    end: End


@dataclass(frozen=True)
class _Wanted:
    """The cables to be laid of one stretch of the chain."""

    start: str
    end: str
    cables: tuple[_Cable, ...]
    room_at: tuple[int, int | None]


class _Layer:
    """Lays cables one after the other, each clear of those before it where that can be."""

    def __init__(self, car: Car, built: Sequence[BuiltBox], cable: Cable) -> None:
        self.car, self.built, self.cable = car, built, cable
        self.obstacles = box_obstacles(built)
        self.large = hulls(built, car.bays, cable.across)
        self.dear = tuple(walls_dear(bay, cable.across) for bay in car.bays)
        self.laid: list[tuple[str, Route]] = []

    def wanted(
        self,
        number: int,
        link: Link,
        conductors: Sequence[Conductor],
        back: tuple[int, Link] | None,
        free_end: Vector,
    ) -> _Wanted:
        """The cables from a box to the one before it in the chain, or to the inverter."""
        count, one = len(conductors), self.built[number]
        starts = entries_to(one.parts, one.box, link, self.cable, count)
        room: tuple[int, int | None] = (placed_entries(one.parts, link, self.cable), None)
        if back is None:
            ends = [End(at, None, 0.0) for at in _side_by_side(free_end, count, self.cable.across)]
            entries: list[Entry | None] = [None] * count
        else:
            other = self.built[back[0]]
            there = entries_to(other.parts, other.box, back[1], self.cable, count)
            ends, entries = [each.end for each in there], list(there)
            room = (room[0], placed_entries(other.parts, back[1], self.cable))
        pairs = paired([each.end.at for each in starts], [end.at for end in ends]) if count else []
        cables = tuple(
            _Cable(conductor, start, entries[to], ends[to])
            for conductor, start, to in zip(conductors, starts, pairs, strict=True)
        )
        return _Wanted(one.parts.name, link.to, cables, room)

    def laid_all(self, wanted: Sequence[_Wanted]) -> tuple[Run, ...]:
        """All cables, each clear of the straight ends of those still to come."""
        left = [cable for one in wanted for cable in one.cables]
        runs = []
        for one in wanted:
            cables: list[LinkCable] = []
            for place, cable in enumerate(one.cables, start=1):
                left.remove(cable)
                name = f"cable {one.start} to {one.end} {place}, {cable.conductor.what}"
                run = [each.route for each in cables if each.route]
                cables.append(self._laid(name, (one.start, one.end), cable, run, left))
            runs.append(Run(one.start, one.end, tuple(cables), one.room_at))
        return tuple(runs)

    def _laid(
        self,
        name: str,
        boxes: tuple[str, str],
        cable: _Cable,
        run: Sequence[Route],
        left: Sequence[_Cable],
    ) -> LinkCable:
        """One cable with its way and what it meets there."""
        entries = (cable.start, cable.entry)
        own = [each.own for each in entries if each is not None and each.own is not None]
        route = self._way(cable, own, run, self._straight_ends(left))
        if route is None:
            return LinkCable(name, cable.conductor, *boxes, entries, None, 0.0)
        obstacles = [one for one in self.obstacles if one.solid not in own]
        bays = self.car.bays
        met = clashes(route, obstacles, bays, self.laid)
        self.laid.append((name, route))
        return LinkCable(
            name,
            cable.conductor,
            *boxes,
            entries,
            route,
            cable_mass(self.cable.section, self.cable.across) * route.length / 1000.0,
            met,
            passages(route, bays),
            tuple(at for bay in bays for at in met_metal(route, bay)),
            sum(along_walls(route, bay) for bay in bays),
            unsurveyed(route, bays),
        )

    def _straight_ends(self, cables: Sequence[_Cable]) -> list[Block]:
        """What the straight ends of cables keep free, to where they may turn at the soonest."""
        across = self.cable.across
        found: list[Block] = []
        for cable in cables:
            for end in (cable.start.end, cable.end):
                lead = end.lead((BEND + 0.5) * across)
                found += cable_blocks(Route((end.at, lead), across), across) if lead != end.at else []
        return found

    def _way(
        self, cable: _Cable, own: Sequence[Block], run: Sequence[Route], ends: Sequence[Block]
    ) -> Route | None:
        """Beside a cable of the same run; else the shortest way clear of all, of all but cables, of nothing.

        What it is then not clear of is told.
        """
        start, end, across = cable.start.end, cable.end, self.cable.across
        fixed = barred_blocks(self.obstacles, self.car.bays, own, across)
        laid = [*ends, *(block for _, route in self.laid for block in cable_blocks(route, across))]
        for route in run:
            found = beside(route, start, end, fixed, laid, len(run))
            if found is not None:
                return found
        for barred in ([*fixed, *laid], fixed, []):
            points = shortest_way(start, end, across, barred, self.dear, [*self.large, *ends])
            if points is not None:
                return Route(points, across)
        return None


def _side_by_side(at: Vector, count: int, across: float) -> list[Vector]:
    """Places for ends beside one another across the car, two diameters apart."""
    return [(at[0], at[1] + 2.0 * across * (place - (count - 1) / 2.0), at[2]) for place in range(count)]
