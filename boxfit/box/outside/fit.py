"""Everything outside of every box of a layout, each thing by its rule, none in another's place."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from boxfit.bay import Block, Vector
from boxfit.box.fitting import Bought, Fastener, Fittings, Strip
from boxfit.box.outside.cables import (
    SIGNAL_GLAND,
    Cable,
    Link,
    cable_entries,
    links_of,
    main_cable,
    through,
)
from boxfit.box.outside.feet import Foot, OutOfReach, feet_of, foot_fasteners, foot_notes, head_behind
from boxfit.box.outside.foot_shapes import Chosen
from boxfit.box.outside.housing import HOUSED, made_housing
from boxfit.box.outside.lifting import lifting_lugs
from boxfit.box.outside.place import Lacking, Placed, Site
from boxfit.box.outside.single import breather, cabin, disconnect, drain
from boxfit.box.outside.standing import Standing, site_of
from boxfit.box.parts import BoxParts
from boxfit.box.strip_legs import strip_blocks
from boxfit.car import Car
from boxfit.layout import Layout
from boxfit.module import Module
from boxfit.weight.box_mass import box_mass


@dataclass(frozen=True)
class Outside:
    """What is fixed outside of a box, what of it reaches in [mm], and the cable entries without room."""

    fittings: Fittings
    behind: tuple[Block, ...]
    lacking: tuple[str, ...]


@dataclass
class _Fitted:
    """What has been found for one box so far."""

    site: Site
    fittings: Fittings
    lacking: tuple[str, ...] = ()

    def add(self, placed: Sequence[Placed], notes: Sequence[str] = ()) -> None:
        """Takes things that were placed."""
        self.site = self.site.after(*placed)
        self.fittings = replace(
            self.fittings,
            bought=self.fittings.bought + tuple(one.bought for one in placed),
            cutouts=self.fittings.cutouts + tuple(one.cutout for one in placed),
            notes=self.fittings.notes + tuple(notes),
        )


ChosenFeet = Mapping[tuple[str, str], Chosen]
"""By bay and mount what feet were found to need; the usual where nothing is told."""
NONE_CHOSEN: ChosenFeet = {}


def outside_fittings(
    car: Car,
    module: Module,
    layout: Layout,
    standing: Sequence[Standing],
    chosen: ChosenFeet = NONE_CHOSEN,
) -> tuple[Outside, ...]:
    """What is fixed outside of each box, in the order of the boxes; strips in their parts are left room.

    What has no room anywhere is left out, and a note tells what is missing. Feet that cannot reach their
    mount are left out here: `mounts_out_of_reach` tells of them.
    """
    if not standing:
        return ()
    fitted = [_Fitted(site_of(one, standing), Fittings()) for one in standing]
    _add_feet(fitted, standing, chosen)
    links = links_of(car, [(one.parts.name, one.middle) for one in standing])
    cable, people = main_cable(module, layout), cabin(car)
    _add_disconnect(fitted, standing)
    for one, box, own in zip(fitted, standing, links, strict=True):
        _add_lugs_and_cables(one, box, module, (own, cable))
        _add_rest(one, box, people)
    fitted[0].add([], [cable.note])
    return tuple(Outside(one.fittings, one.site.holes, one.lacking) for one in fitted)


def _add_feet(fitted: Sequence[_Fitted], standing: Sequence[Standing], chosen: ChosenFeet) -> None:
    for bay in dict.fromkeys(one.bay.name for one in standing):
        numbers = [number for number, one in enumerate(standing) if one.bay.name == bay]
        own = {mount: one for (where, mount), one in chosen.items() if where == bay}
        found = feet_of(standing[numbers[0]].bay, [fitted[number].site for number in numbers], own)
        feet = [foot for foot in found if isinstance(foot, Foot)]
        idle = [
            f"{one.mount.name} is left unused: {one.reason}" for one in found if isinstance(one, OutOfReach)
        ]
        for place, number in enumerate(numbers):
            _take_feet(fitted[number], standing[number], [foot for foot in feet if foot.box == place])
        first = fitted[numbers[0]]
        first.fittings = replace(first.fittings, notes=(*first.fittings.notes, *idle))


def _take_feet(one: _Fitted, box: Standing, feet: Sequence[Foot]) -> None:
    """Strips, screws and notes of the feet of a box."""
    own = one.fittings
    blocks = _blocks([strip for foot in feet for strip in foot.strips])
    thick = box.parts.tray.thickness
    heads = [head_behind(screw, thick) for foot in feet for screw in foot.cutouts]
    one.site = replace(one.site, taken=one.site.taken + blocks).pierced(heads)
    notes = foot_notes(box.parts.name, feet)
    if not box.bay.mounts:
        words = (
            f"no [[mount]] given for {box.bay.name}: feet are not drawn; give the places it may be bolted to"
        )
        notes = (f"{box.parts.name}: {words}",)
    elif not feet:
        notes = (f"{box.parts.name}: no mount of {box.bay.name} is its own: nothing bolts it to the body",)
    one.fittings = replace(
        own,
        strips=own.strips + tuple(strip for foot in feet for strip in foot.strips),
        cutouts=own.cutouts + tuple(cutout for foot in feet for cutout in foot.cutouts),
        fasteners=own.fasteners + foot_fasteners(feet),
        notes=own.notes + notes,
    )


def _add_lugs_and_cables(
    one: _Fitted, box: Standing, module: Module, cables: tuple[Sequence[Link], Cable]
) -> None:
    """Lugs first, as they have to enclose the balance point, unless a cable then finds no room."""
    filled = _filled(box, module)
    lugs, notes = lifting_lugs(one.site, box.parts, box.bay.box, filled)
    beside = replace(one.site, taken=one.site.taken + _blocks(lugs))
    entries = cable_entries(beside, box.middle, *cables)
    if lugs and entries.lacking:
        alone = cable_entries(one.site, box.middle, *cables)
        if len(alone.lacking) < len(entries.lacking):
            entries, lugs = alone, ()
    one.add(entries.placed, (*entries.notes, *entries.lacking))
    one.lacking = entries.lacking
    _make_housings(one, box, cables)
    if not lugs:
        lugs, notes = lifting_lugs(one.site, box.parts, box.bay.box, filled)
    one.site = replace(one.site, taken=one.site.taken + _blocks(lugs))
    own = one.fittings
    one.fittings = replace(own, strips=own.strips + lugs, notes=own.notes + notes)


def _make_housings(one: _Fitted, box: Standing, cables: tuple[Sequence[Link], Cable]) -> None:
    """The housings of a box as made parts; the monitoring leaves by the first where it has no gland."""
    own, (links, cable) = one.fittings, cables
    signal = not any(each.name == SIGNAL_GLAND for each in own.bought)
    bought: list[Bought] = []
    for each in own.bought:
        link = next((link for link in links if each.name.endswith(f"to {link.to}")), None)
        if link is None or each.kind not in HOUSED:
            bought.append(each)
            continue
        number = sum(before.kind in HOUSED for before in bought) + 1
        name = f"{one.site.name} cable housing {number}"
        made = made_housing(name, box.bay.box, each, through(cable, link), signal and number == 1)
        bought.append(made.bought)
        own = replace(own, strips=own.strips + made.strips, fasteners=own.fasteners + made.fasteners)
    one.fittings = replace(own, bought=tuple(bought))


def _blocks(strips: Sequence[Strip]) -> tuple[Block, ...]:
    return tuple(block for strip in strips for block in strip_blocks(strip))


def _filled(one: Standing, module: Module) -> tuple[float, Vector]:
    """Mass of the box with its modules [kg] and where it balances [mm]."""
    box = one.box
    levels = tuple(tier.stands_on - box.low[2] for tier in box.tiers)
    empty = box_mass(box.outlines, box.high[2] - box.low[2], levels, one.bay.box)
    mass = empty.mass + len(box.modules) * module.mass
    sums = [
        empty.mass * (box.low[k] + empty.centre[k])
        + sum(module.mass * (each.low[k] + each.high[k]) / 2.0 for each in box.modules)
        for k in range(3)
    ]
    x, y, z = (total / mass for total in sums)
    return mass, (x, y, z)


def _add_disconnect(fitted: Sequence[_Fitted], standing: Sequence[Standing]) -> None:
    """On the box with most modules, which parts the string nearest its middle, else on the next that can."""
    order = sorted(range(len(standing)), key=lambda number: (-len(standing[number].box.modules), number))
    lacking: list[tuple[str, str]] = []
    for number in order:
        one, box = fitted[number], standing[number]
        found = disconnect(one.site, box.bay, box.parts.tray.flange)
        if isinstance(found, Placed):
            words = "; ".join(f"{name} has no room for it: {nearest}" for name, nearest in lacking)
            one.add([found], [f"{one.site.name}: carries the service disconnect; {words}"] if words else [])
            return
        lacking.append((one.site.name, _nearest(found)))
    told = [f"{name}: does not take the service disconnect: {nearest}" for name, nearest in lacking]
    note = "put it in the cable between the boxes, within reach"
    fitted[order[0]].add([], [*told, f"no box takes the service disconnect: {note}"])


def _nearest(lacking: Sequence[Lacking]) -> str:
    return str(min(lacking, key=lambda one: one.missing)) if lacking else "no wall looks to the opening"


def _add_rest(one: _Fitted, box: Standing, people: Vector) -> None:
    """Breather and drain of a box."""
    for alone in (breather(one.site, box.middle, people), drain(one.site, box.parts)):
        one.add([alone.placed] if alone.placed else [], [alone.note] if alone.note else [])
    screws = [Fastener("screw with lock nut", "M4 x 12", 4, "breather")] if _burst(one.fittings) else []
    own = one.fittings
    one.fittings = replace(own, fasteners=own.fasteners + tuple(screws))


def _burst(fittings: Fittings) -> bool:
    return any(one.name == "breather with burst disc" for one in fittings.bought)


def with_fittings(parts: BoxParts, found: Fittings) -> BoxParts:
    """The parts with more fixed to them; cutouts go through the tray."""
    own = parts.fittings
    whole = Fittings(
        own.strips + found.strips,
        own.bought + found.bought,
        own.cutouts + found.cutouts,
        own.fasteners + found.fasteners,
        own.notes + found.notes,
    )
    tray = replace(parts.tray, cutouts=parts.tray.cutouts + found.cutouts)
    return replace(parts, tray=tray, fittings=whole)


LEAST_FEET = 2
"""A box held by fewer feet than this is not held: common practice, no source."""


def mounts_out_of_reach(
    car: Car, layout: Layout, parts: Sequence[BoxParts]
) -> tuple[tuple[str, str, str, str], ...]:
    """Bay, key, rule and remedy of each mount that no foot reaches, where the others do not hold a box.

    `parts` are those of the boxes, in the layout's order. A bay without mounts has nothing to tell.
    """
    bays = {bay.name: bay for bay in car.bays}
    placed = [(bays[filled.name], box) for filled in layout.bays for box in filled.boxes]
    standing = [Standing(bay, box, own) for (bay, box), own in zip(placed, parts, strict=True)]
    told: list[tuple[str, str, str, str]] = []
    for bay in car.bays:
        own = [one for one in standing if one.bay is bay]
        sites = [site_of(one, standing) for one in own]
        found = feet_of(bay, sites) if sites else ()
        feet = [one.box for one in found if isinstance(one, Foot)]
        if min((feet.count(number) for number in range(len(sites))), default=LEAST_FEET) >= LEAST_FEET:
            continue
        held = [(one, feet.count(number)) for number, one in enumerate(own)]
        places = "; ".join(_stands(one) for one, count in held if count < LEAST_FEET)
        for number, lost in enumerate(found, start=1):
            if isinstance(lost, OutOfReach):
                rule, remedy = f"{lost.mount.name}: {lost.reason}", f"{lost.remedy}; {places}"
                told.append((bay.name, f"mount[{number}]", rule, remedy))
    return tuple(told)


def _stands(one: Standing) -> str:
    """Where the walls of a box that too few feet hold are."""
    low, high = one.box.low, one.box.high
    spans = (f"{axis} {low[k]:.0f} to {high[k]:.0f}" for k, axis in enumerate("xyz"))
    return f"{one.parts.name}, held by fewer than {LEAST_FEET} feet, stands at {', '.join(spans)}"
