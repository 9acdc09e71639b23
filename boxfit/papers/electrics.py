"""Electrics: volts, amperes, insulation, what parts the pack, link cables and the order of the strings."""

from collections.abc import Iterator

from boxfit.box.wiring.figures import TABLE_ENDS
from boxfit.box.wiring.told import wiring_notes
from boxfit.box.wiring.wiring import LinkCable
from boxfit.electrics.pack import IMPULSE
from boxfit.papers.case import Case
from boxfit.papers.flow import Block, Heading, Points, Section, Words
from boxfit.papers.grid import Grid
from boxfit.report.heat_text import heat_words
from boxfit.standards.cable_entry import BEND
from boxfit.standards.conductors import WARM
from boxfit.standards.insulation import BONDING_OHM, CLASS_B_ABOVE


def electrics(case: Case) -> Section:
    """The section of electrics."""
    return Section("Electrics", tuple(_blocks(case)))


def _blocks(case: Case) -> Iterator[Block]:
    yield pack_table(case)
    yield windows_table(case)
    yield Heading("Current")
    yield from _current(case)
    yield Heading("Insulation")
    yield from _insulation(case)
    yield Heading("What parts the pack")
    yield Points(tuple(_parting(case)))
    yield Heading("Strings and link cables")
    yield strings_table(case)
    yield Points(tuple(_string_notes(case)))
    yield cables_table(case)
    yield Points(tuple(_cable_notes(case)))
    yield boxes_table(case)
    yield Heading("Swelling and heat")
    yield Points(heat_words(case.built, case.module))


def pack_table(case: Case) -> Grid:
    """Strings, energy and volts."""
    layout, module, string = case.layout, case.module, case.electrics.volts
    rows = (
        ("modules", f"{layout.count} of {module.name}"),
        ("strings", f"{layout.series} in series, {layout.parallel} in parallel"),
        ("energy, capacity", f"{layout.energy:.1f} kWh, {layout.parallel * module.capacity:g} Ah"),
        ("volts empty, nominal, full", f"{string.empty:.1f}, {string.nominal:.1f}, {string.full:.1f} V"),
    )
    return Grid("The pack", ("", ""), rows)


def windows_table(case: Case) -> Block:
    """The string in every voltage window."""
    uses = case.electrics.windows
    if not uses:
        return Words(
            "Missing: the voltages that inverter and charger take; inverter_voltage and charger_voltage "
            "under [electrics] in car.toml give them."
        )
    rows = tuple(
        (
            one.name,
            f"{one.low:g} to {one.high:g}",
            f"{one.left_below:+.1f}",
            f"{one.left_above:+.1f}",
            "inside" if min(one.left_below, one.left_above) >= 0.0 else "OUTSIDE",
        )
        for one in uses
    )
    columns = ("takes", "V", "left when empty V", "left when full V", "")
    return Grid("What the string is connected to", columns, rows, frozenset((2, 3)))


def _current(case: Case) -> Iterator[Block]:
    """Amperes against what module and cable bear."""
    found = case.electrics.amperes
    if found is None:
        yield Words(
            "Missing: the module's amperes; current = { continuous = .., peak = .. } in "
            f"{case.module.stem}.toml gives them. Fuse and cable cannot be judged without."
        )
        return
    rows = (
        (
            "all the time",
            f"{found.continuous:g}",
            f"{found.module_continuous:g}",
            f"{found.module_continuous:g}",
        ),
        ("for a moment", f"{found.peak:g}", f"{found.module_peak:g}", f"{found.module_peak:g}"),
    )
    columns = ("current", "pack A", "each string A", "a module bears A")
    yield Grid("Most that the pack may be asked for", columns, rows, frozenset((1, 2, 3)))
    yield _drive(case)
    yield Points(
        (
            "set inverter and charger so that they never ask for more; strings in parallel share alike "
            "only where modules are alike in age, charge and temperature",
        )
    )


def _drive(case: Case) -> Block:
    """What the drive draws against what the pack may give."""
    if not case.electrics.loads:
        return Words(
            "Missing: what the drive draws; current = { continuous = .., peak = .. } under [electrics] in "
            "car.toml gives it. Until then nothing shows that the pack is enough for it."
        )
    rows = tuple(
        (
            one.kind,
            f"{one.drawn:g}",
            f"{one.given:g}",
            f"{100.0 * one.share:.0f} %",
            "within" if one.drawn <= one.given + 1e-9 else "TOO MUCH",
        )
        for one in case.electrics.loads
    )
    columns = ("current", "drive draws A", "pack may give A", "used", "")
    return Grid("What the drive draws", columns, rows, frozenset((1, 2, 3)))


def _insulation(case: Case) -> Iterator[Block]:
    """What to reach on the meter, and distances."""
    highest, asked = case.highest_volts, case.electrics.insulation
    if asked is None:
        yield Words(
            f"The string is {highest:.1f} V full: the table of creepage held here ends at {TABLE_ENDS:g} "
            "V, so that no distance is told. An engineer settles it."
        )
        return
    kind = "B: it can kill" if asked.class_b else f"A: up to {CLASS_B_ABOVE:g} V"
    rows = (
        ("voltage class at the highest voltage", f"{highest:.1f} V, class {kind}"),
        ("isolation to reach, direct current alone", f"{asked.isolation / 1000.0:.1f} kilohm or more"),
        (
            "isolation to reach, joined to the alternating side",
            f"{asked.isolation_together / 1000.0:.1f} kilohm or more",
        ),
        ("creepage, basic; reinforced", f"{asked.creepage:g} mm; {asked.creepage_reinforced:g} mm or more"),
        ("clearance in air", f"{asked.clearance:g} mm or more"),
        ("bond of every box and lid to the body", f"below {BONDING_OHM:g} ohm at 0.2 A or more"),
        ("measured isolation, kilohm; by; date", ""),
        ("measured bonds, ohm; by; date", ""),
    )
    yield Grid(
        "To be reached; measured values are written in by hand", ("", ""), rows, least=6.5, blank={1: 80.0}
    )
    yield Points(
        (
            "isolation UNECE R100 5.1.3; creepage IEC 60664-1 table F.4, pollution degree 3, material "
            f"group III; clearance table F.2 for an impulse of {IMPULSE:g} V (from memory): whoever signs "
            "decides",
            "measure with everything connected, each pole against the body, at the pack's own voltage or "
            "above, by people trained for it",
        )
    )


def _parting(case: Case) -> Iterator[str]:
    """Fuse, contactors and service disconnect."""
    layout = case.layout
    split = case.electrics.split
    yield (
        "fuse and contactors: a fuse in each string and a contactor in each pole, outside of the modules "
        "and before any cable leaves the boxes for the inverter (common practice, no source); a fuse's "
        f"breaking capacity is above the short-circuit current at {case.highest_volts:.1f} V, which the "
        "module's maker tells"
    )
    if layout.series > 1:
        yield (
            f"service disconnect in the middle of a string: {split.before} modules, "
            f"{split.volts_before:.1f} V on one side, {split.after} modules, {split.volts_after:.1f} V on "
            f"the other; {_each_side(max(split.volts_before, split.volts_after))}"
        )
    places = [
        f"{one.parts.name}, {each.looks} wall at {', '.join(f'{along:.0f}' for along in each.at)}"
        for one in case.built
        for each in one.parts.fittings.bought
        if each.kind == "service disconnect"
    ]
    yield (
        f"service disconnect: {'; '.join(places)}"
        if places
        else "service disconnect: no box takes one; put it into the cable between the boxes, within reach"
    )
    yield "no switch makes a module dead: its own terminals stay live, whatever is opened"


def _each_side(most: float) -> str:
    if most > CLASS_B_ABOVE:
        return f"still above {CLASS_B_ABOVE:g} V: opened, it does not make the parts safe to touch"
    return f"neither above {CLASS_B_ABOVE:g} V"


def strings_table(case: Case) -> Grid:
    """Every string from minus to plus, with the boxes it runs through."""
    wiring = case.electrics.wiring
    rows = []
    for number, string in enumerate(wiring.pack.strings, start=1):
        through = [wiring.boxes[wiring.pack.box_of(module)] for module in string]
        order = " - ".join(("minus", *map(str, string), "plus"))
        rows.append((str(number), order, ", then ".join(dict.fromkeys(through))))
    heading = "Strings, modules numbered bay by bay, box by box, lowest tier first"
    return Grid(heading, ("string", "modules", "boxes"), tuple(rows))


def _string_notes(case: Case) -> Iterator[str]:
    pack, found = case.electrics.wiring.pack, case.electrics
    better = "no order has less" if pack.proven else "the least found, not proven"
    yield f"links laid square to the car: {pack.link / 1000.0:.2f} m in all, {better}"
    if pack.steepest:
        one, other = pack.steepest
        yield (
            f"between touching modules (such as {one} and {other}) there are at most {found.touching:.1f} V "
            f"from like terminal to like terminal, {found.touching_live:.1f} V between any live parts"
        )


def cables_table(case: Case) -> Block:
    """Link cables between boxes and to the inverter."""
    cables = case.electrics.wiring.cables
    if not cables:
        return Words(
            "No cable leaves a box: there is one box, and nothing named inverter stands under [[fitted]] in "
            "car.toml."
        )
    rows = tuple(_cable(case, one) for one in cables)
    columns = ("from", "to", "carries", "A", "mm2", "mm", "V drop", "W", "kg")
    heading = f"Link cables: current all the time, length, drop and heat at {WARM:g} C, mass"
    return Grid(heading, columns, rows, frozenset((3, 4, 5, 6, 7, 8)))


def _cable(case: Case, one: LinkCable) -> tuple[str, ...]:
    """A cable; what hangs on its way is open where none was found."""
    found, route = case.electrics, one.route
    amps = found.carried(one)
    told = "?" if amps is None else f"{amps:.0f}"
    ends = (one.start, one.end, one.conductor.what, told, f"{found.conductor.section:g}")
    if route is None:
        return (*ends, "?", "?", "?", "?")
    sums = found.sums(one, route)
    drop = "?" if sums.drop_warm is None else f"{sums.drop_warm:.3f}"
    heat = "?" if sums.heat_warm is None else f"{sums.heat_warm:.1f}"
    return (*ends, f"{route.length:.0f}", drop, heat, f"{one.mass:.2f}")


def _cable_notes(case: Case) -> Iterator[str]:
    """What the cable is, and what stands in its way."""
    cable = case.electrics.wiring.cable
    if case.electrics.wiring.cables:
        yield (
            f"cable {cable.section:g} mm2, {cable.across:g} mm across, bend inside "
            f"{BEND * cable.across:.0f} mm, shielded, orange outside of the boxes; the cable's own maker "
            "decides on its rating and its bend"
        )
    yield from filter(None, (cable.note,))
    yield from wiring_notes(case.electrics)


def boxes_table(case: Case) -> Grid:
    """Energy in each box."""
    rows = tuple((one.name, str(one.modules), f"{one.energy:.1f}") for one in case.electrics.boxes)
    return Grid("Energy in each box", ("box", "modules", "kWh"), rows, frozenset((1, 2)))
