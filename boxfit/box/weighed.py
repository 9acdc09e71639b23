"""What boxes as made weigh, every part by its closed form, and their link cables; no solid needed. [kg, mm]

Screws and nuts are left out, as wherever parts as made are weighed.
"""

from collections.abc import Sequence
from itertools import chain
from math import dist, pi

from boxfit.bay import Bay, Vector
from boxfit.box.build import box_ribs
from boxfit.box.built import BuiltBox
from boxfit.box.cutouts import less_cutouts
from boxfit.box.notches import notched_liner_mass, notched_shelf_mass
from boxfit.box.parts import BoxParts, Liner, Part, Shelf
from boxfit.box.rib_clear import less_ribs
from boxfit.box.strip_mass import strip_mass
from boxfit.box.wiring.route import Route
from boxfit.box.wiring.wiring import Wiring
from boxfit.layout import PlacedBox
from boxfit.module import Module
from boxfit.search.option import middle_of
from boxfit.weight.balance import moments
from boxfit.weight.box_mass import PartMass, part_masses
from boxfit.weight.corners import Mass
from boxfit.weight.pack import Pack
from boxfit.weight.scales import Item

CABLES = "link cables"
"""The name of all of them together."""


def weighed_pack(module: Module, built: Sequence[BuiltBox], wiring: Wiring) -> Pack:
    """Every box with its modules, in the order given, then all link cables whose way was found."""
    boxes = [_together(one.parts.name, _box_loads(one, module)) for one in built]
    cables = [(cable.mass, route_middle(route)) for cable, route in wiring.routed]
    return Pack(tuple([*boxes, _together(CABLES, cables)] if cables else boxes), every_part=True)


def _box_loads(one: BuiltBox, module: Module) -> list[Mass]:
    """Every part, strip, bought part and module of a box."""
    box, fittings = one.box, one.parts.fittings
    loads: list[Mass] = []
    for _, part in weighed_parts(one.bay, box, one.parts):
        x, y, z = (corner + centre for corner, centre in zip(box.low, part.centre, strict=True))
        loads.append((part.mass, (x, y, z)))
    for strip in map(strip_mass, fittings.strips):
        loads.append((strip.mass, strip.centre))
    loads += [(bought.mass, middle_of(bought.body.low, bought.body.high)) for bought in fittings.bought]
    return loads + [(module.mass, middle_of(placed.low, placed.high)) for placed in box.modules]


def weighed_parts(bay: Bay, box: PlacedBox, parts: BoxParts) -> tuple[tuple[Part, PartMass], ...]:
    """Tray, lid, gasket, cover plate, shelves and liner with their masses, cutouts and notches taken out.

    Centres [mm] count from the low corner of the box.
    """
    levels = tuple(tier.stands_on - box.low[2] for tier in box.tiers)
    height, cover = box.high[2] - box.low[2], parts.cover_plate
    returned = cover is not None and cover.returned
    whole, *others = part_masses(box.outlines, height, levels, bay.box, cover is not None, returned)
    whole = less_ribs(whole, box_ribs(box, bay.box), parts.tray, box.low)
    masses = (less_cutouts(whole, parts.tray, box.low), *others)
    found = (parts.tray, parts.lid, parts.gasket, cover, *parts.shelves, parts.liner)
    there = [part for part in found if part is not None]
    return tuple((part, _notched(part, mass, box)) for part, mass in zip(there, masses, strict=True))


def _notched(part: Part, whole: PartMass, box: PlacedBox) -> PartMass:
    """The closed form less the notches that hold-downs ask for."""
    if isinstance(part, Shelf):
        return notched_shelf_mass(whole, part, box.low)
    if isinstance(part, Liner):
        return notched_liner_mass(whole, part, box.low)
    return whole


def route_middle(route: Route) -> Vector:
    """The middle [mm] of a line along a cable; a quarter round's lies R 2 sqrt(2) / pi from its centre.

    So far from the centre along each of its two straight ends: 2 R / pi (textbook).

    >>> route_middle(Route(((0.0, 0.0, 0.0), (1000.0, 0.0, 0.0)), 20.0))
    (500.0, 0.0, 0.0)
    """
    ends = [route.points[0], *chain(*((arc.start, arc.end) for arc in route.arcs)), route.points[-1]]
    pieces: list[Mass] = [
        (dist(one, other), middle_of(one, other)) for one, other in zip(ends[::2], ends[1::2], strict=True)
    ]
    for arc in route.arcs:
        x, y, z = (
            centre + 2.0 / pi * ((start - centre) + (end - centre))
            for centre, start, end in zip(arc.centre, arc.start, arc.end, strict=True)
        )
        pieces.append((pi / 2.0 * route.radius, (x, y, z)))
    return _together(CABLES, pieces).at


def _together(name: str, loads: Sequence[Mass]) -> Item:
    """Masses as one item."""
    whole = moments(loads)
    return Item(name, whole.mass, (whole.x / whole.mass, whole.y / whole.mass, whole.z / whole.mass))
