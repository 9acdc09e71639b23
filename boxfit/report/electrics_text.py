"""The electrics in words for the summary, and as comma-separated text."""

import csv
import io
from collections.abc import Iterator, Sequence

from boxfit.box.wiring.figures import Electrics
from boxfit.box.wiring.route import Route
from boxfit.box.wiring.told import wiring_notes
from boxfit.box.wiring.wiring import LinkCable
from boxfit.electrics.pack import IMPULSE
from boxfit.report.columns import listed, named
from boxfit.standards.cable_entry import BEND
from boxfit.standards.insulation import BONDING_OHM

CAUTION = (
    "Electrics: a working aid. Fuse, contactors, disconnect and isolation monitor are chosen and placed by "
    "whoever is licensed for high voltage, to local codes; nothing here replaces measuring."
)
STRINGS_HEADS = ("string", "place", "module", "box", "V full, its minus to pack minus", "V full, its plus")


def electrics_lines(found: Electrics) -> list[str]:
    """The block of the summary."""
    notes = (*wiring_notes(found), CAUTION)
    return ["electrics", *_pack(found), *_cables(found), *listed(notes)]


def _pack(found: Electrics) -> Iterator[str]:
    volts, pack = found.volts, found.wiring.pack
    for number, string in enumerate(pack.strings, start=1):
        yield from named(f"string {number}", " - ".join(["minus", *map(str, string), "plus"]))
    proven = "proven least" if pack.proven else "not proven least"
    yield from named("links", f"{pack.link / 1000.0:.2f} m through all modules, square to the car, {proven}")
    if pack.steepest:
        one, other = pack.steepest
        yield from named(
            "neighbours",
            f"at most {found.touching:.1f} V between like terminals of touching modules (such as {one} and "
            f"{other}), {found.touching_live:.1f} V between any live parts of them",
        )
    yield from named(
        "string volts", f"{volts.empty:.1f} empty, {volts.nominal:.1f} nominal, {volts.full:.1f} full"
    )
    for window in found.windows:
        left = f"{window.left_below:.1f} V left below, {window.left_above:.1f} V above"
        yield from named(window.name, f"{window.low:g} to {window.high:g} V: {left}")
    yield from _amperes(found)
    split = found.split
    if split.after:
        sides = f"{split.before} modules, {split.volts_before:.1f} V, and {split.after}, "
        sides += f"{split.volts_after:.1f} V"
        yield from named(
            "disconnect", f"opens every string in its middle: {sides} stay live on either side, full"
        )
    yield from named(
        "contactors", f"in both poles at the pack's end: {volts.full:.1f} V full behind them, 0 V before"
    )
    yield from _insulation(found)
    yield from named("energy", ", ".join(f"{box.name} {box.energy:.3g} kWh" for box in found.boxes))


def _amperes(found: Electrics) -> Iterator[str]:
    given = found.amperes
    if given is None:
        yield from named("amperes", "not known: current is missing in the module's file")
        return
    words = f"the pack may give {given.continuous:.0f} A all the time, {given.peak:.0f} A peak"
    words += f" ({given.module_continuous:.0f} and {given.module_peak:.0f} A a string)"
    yield from named("amperes", words)
    for one in found.loads:
        each, when = one.drawn / found.pack.parallel, "all the time" if one.kind == "continuous" else "peak"
        yield from named(
            "drive draws",
            f"{one.drawn:.0f} A {when}, {each:.0f} A a string and module: "
            f"{one.share:.0%} of what it may give",
        )
    if not found.loads:
        yield from named("drive", "not told what it draws: current under [electrics] in car.toml")


def _insulation(found: Electrics) -> Iterator[str]:
    asked = found.insulation
    if asked is None:
        return
    yield from named(
        "isolation",
        f"{asked.isolation / 1000.0:.1f} kohm to reach on the meter, {asked.isolation_together / 1000.0:.1f} "
        f"with the alternating side joined (UNECE R100, 100 and 500 ohm/V); bonds under {BONDING_OHM:g} ohm",
    )
    yield from named(
        "creepage",
        f"{asked.creepage:g} mm basic, {asked.creepage_reinforced:g} reinforced, clearance "
        f"{asked.clearance:g} mm at {IMPULSE:g} V impulse (IEC 60664-1, pollution degree 3, group III; "
        "clearance from memory)",
    )


def _cables(found: Electrics) -> Iterator[str]:
    """Section and sums of the link cables."""
    cable, routes = found.wiring.cable, found.wiring.routed
    several = f"{cable.to_a_pole} x " if cable.to_a_pole > 1 else ""
    rated = found.conductor.rating
    rating = f"{cable.to_a_pole * rated:.0f} A a pole in free air" if rated else "by its maker"
    length = sum(route.length for _, route in routes)
    mass = sum(one.mass for one, _ in routes)
    yield from named(
        "link cables",
        f"{several}{cable.section:g} mm2 to a pole, orange, {cable.across:g} mm across, inside bend "
        f"{BEND * cable.across:.0f} mm, rated {rating}: {len(routes)} of {length / 1000.0:.1f} m, "
        f"{mass:.1f} kg",
    )
    warm = [found.sums(one, route) for one, route in routes]
    heat = [one.heat_warm for one in warm if one.heat_warm is not None]
    drop = [one.drop_warm for one in warm if one.drop_warm is not None]
    if heat:
        yield from named(
            "", f"at 70 C {sum(heat):.0f} W of heat in all, {max(drop):.2f} V drop in the worst (IEC 60228)"
        )


def strings_csv(found: Electrics) -> str:
    """A row for each place of each string."""
    rows: list[tuple[str, ...]] = [STRINGS_HEADS]
    full = found.module.voltage.full
    for number, string in enumerate(found.wiring.pack.strings, start=1):
        for place, module in enumerate(string, start=1):
            box = found.boxes[found.wiring.pack.box_of(module)].name
            volts = (f"{(place - 1) * full:.1f}", f"{place * full:.1f}")
            rows.append((str(number), str(place), str(module), box, *volts))
    return _csv(rows)


CABLE_HEADS = (
    "cable",
    "section mm2",
    "length mm",
    "mass kg",
    "A all the time",
    "ohm at 20 C",
    "ohm at 70 C",
    "V drop at 20 C",
    "V drop at 70 C",
    "W at 20 C",
    "W at 70 C",
    "clashes",
)


def electrics_csv(found: Electrics) -> str:
    """A row for each figure of the pack, an empty line, then a row for each link cable."""
    rows: list[tuple[str, ...]] = [("figure", "value", "unit"), *_figures(found), (), CABLE_HEADS]
    rows += [_row(found, one, route) for one, route in found.wiring.routed]
    return _csv(rows)


def _figures(found: Electrics) -> Iterator[tuple[str, str, str]]:
    volts, pack = found.volts, found.wiring.pack
    yield "modules in series", str(found.pack.series), ""
    yield "strings in parallel", str(found.pack.parallel), ""
    for name, value in (("empty", volts.empty), ("nominal", volts.nominal), ("full", volts.full)):
        yield f"string, {name}", f"{value:.1f}", "V"
    for window in found.windows:
        yield f"{window.name}, left below", f"{window.left_below:.1f}", "V"
        yield f"{window.name}, left above", f"{window.left_above:.1f}", "V"
    if found.amperes:
        yield "pack, all the time", f"{found.amperes.continuous:.0f}", "A"
        yield "pack, peak", f"{found.amperes.peak:.0f}", "A"
    for load in found.loads:
        yield f"drive, {load.kind}", f"{load.drawn:.0f}", "A"
        yield f"a string, {load.kind}", f"{load.drawn / found.pack.parallel:.1f}", "A"
    yield "links through all modules", f"{pack.link:.0f}", "mm"
    yield "touching modules, like terminals", f"{found.touching:.1f}", "V"
    yield "touching modules, any live parts", f"{found.touching_live:.1f}", "V"
    yield "disconnect open, one side", f"{found.split.volts_before:.1f}", "V"
    yield "disconnect open, other side", f"{found.split.volts_after:.1f}", "V"
    if found.insulation:
        asked = found.insulation
        yield "isolation to reach", f"{asked.isolation:.0f}", "ohm"
        yield "isolation to reach, alternating side joined", f"{asked.isolation_together:.0f}", "ohm"
        yield "creepage, basic", f"{asked.creepage:g}", "mm"
        yield "creepage, reinforced", f"{asked.creepage_reinforced:g}", "mm"
        yield "clearance", f"{asked.clearance:g}", "mm"
    for box in found.boxes:
        yield f"energy in {box.name}", f"{box.energy:.3g}", "kWh"


def _row(found: Electrics, cable: LinkCable, route: Route) -> tuple[str, ...]:
    sums, carried = found.sums(cable, route), found.carried(cable)

    def told(value: float | None, places: int) -> str:
        return "" if value is None else f"{value:.{places}f}"

    return (
        cable.name,
        f"{found.wiring.cable.section:g}",
        f"{route.length:.0f}",
        f"{cable.mass:.2f}",
        told(carried, 1),
        f"{sums.cold:.6f}",
        f"{sums.warm:.6f}",
        told(sums.drop_cold, 3),
        told(sums.drop_warm, 3),
        told(sums.heat_cold, 1),
        told(sums.heat_warm, 1),
        "; ".join(clash.what for clash in cable.clashes),
    )


def _csv(rows: Sequence[tuple[str, ...]]) -> str:
    text = io.StringIO()
    csv.writer(text, lineterminator="\n").writerows(rows)
    return text.getvalue()
