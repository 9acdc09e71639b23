"""What of the wiring the maker should know: entries missing, ways not clear, walls to go through, limits."""

from collections.abc import Iterator

from boxfit.bay import Vector
from boxfit.box.wiring.clash import Clash
from boxfit.box.wiring.figures import Electrics
from boxfit.box.wiring.wiring import LinkCable, Run
from boxfit.electrics.load import overdrawn
from boxfit.standards.cable_entry import CABLE_ACROSS

SHOWN_WALLS = 30.0
"""Less than this [mm] near a wall is not told."""


def wiring_notes(found: Electrics) -> tuple[str, ...]:
    """Everything, what is wrong first."""
    return (
        *overdrawn(found.loads, f"{found.module.stem}.toml", found.pack.parallel),
        *_not_split(found),
        *(note for run in found.wiring.runs for note in _entries(run)),
        *(note for cable in found.wiring.cables for note in _way(cable)),
        *_holes(found),
        *_unknown(found),
    )


def _not_split(found: Electrics) -> Iterator[str]:
    """Strings with no disconnect where their middle is."""
    pack, split = found.wiring.pack, found.split
    lacking: dict[str, list[str]] = {}
    for number, string in enumerate(pack.strings, start=1):
        ends = string[split.before - 1 : split.before + 1]
        boxes = sorted({pack.box_of(module) for module in ends})
        if split.after and not any(found.boxes[box].has_disconnect for box in boxes):
            where = " or ".join(found.boxes[box].name for box in boxes)
            between = " and ".join(str(module) for module in ends)
            lacking.setdefault(where, []).append(f"string {number} between modules {between}")
    for where, strings in lacking.items():
        most = max(split.volts_before, split.volts_after)
        yield (
            f"no service disconnect in {where} to open {', '.join(strings)}: opened anywhere else, or not at "
            f"all, more than {most:.1f} V stay on one side"
        )


def _entries(run: Run) -> Iterator[str]:
    """Ends of a stretch with fewer entries than cables, or none."""
    wanted = len(run.cables)
    crossing = sum(one.conductor.between is not None for one in run.cables)
    why = f", {crossing} of them because strings run on in another box" if crossing else ""
    remedy = "; electrics.string_in_one_bay = true would keep strings together" if crossing else ""
    for box, to, room in ((run.start, run.end, run.room_at[0]), (run.end, run.start, run.room_at[1])):
        if room is not None and room < wanted:
            yield (
                f"{box}: {wanted} main cables to {to} are needed{why}, entries for {room} have a place: the "
                f"others are drawn from the middle of the wall{remedy}"
            )


def _way(cable: LinkCable) -> Iterator[str]:
    if cable.route is None:
        yield f"{cable.name}: no way found that keeps the bend radius: lay it in the car and measure it"
    for clash in cable.clashes:
        yield f"{cable.name}: {_clash(clash)}"
    if cable.near_walls > SHOWN_WALLS:
        length = f"{cable.near_walls:.0f} mm of it"
        yield f"{cable.name}: {length} run along a bay's wall nearer than the tolerance"


def _clash(clash: Clash) -> str:
    words = f"{clash.distance:.0f} mm from" if clash.distance >= 0.0 else f"{-clash.distance:.0f} mm into"
    return f"{words} {clash.what} at {place(clash.at)}, {clash.needed:.0f} mm wanted: lead it round by hand"


def place(at: Vector) -> str:
    """A place in the car in whole millimetres.

    >>> place((-0.2, 12.6, 300.0))
    '0, 13, 300'
    """
    return ", ".join(f"{round(value) + 0:d}" for value in at)


def _holes(found: Electrics) -> Iterator[str]:
    """Walls of bays that cables go through, all cables together, and metal of scans that they meet."""
    across = CABLE_ACROSS[found.wiring.cable.section]
    places: dict[str, list[str]] = {}
    for cable, _ in found.wiring.routed:
        for one in cable.passages:
            places.setdefault(f"{one.through} of {one.bay}", []).append(place(one.at))
        for met in cable.metal:
            places.setdefault("surveyed metal", []).append(place(met))
    for where, at in places.items():
        hole = (
            "bonnet or lid closes there: lead them another way"
            if where.startswith("top of")
            else f"where that is metal each needs a hole with a grommet for {across:g} mm, deburred; it goes "
            "on the list of holes drilled"
        )
        yield f"link cables go through the {where} at {'; '.join(at)}: {hole}"


def _unknown(found: Electrics) -> Iterator[str]:
    """What was not surveyed or not told."""
    routes = found.wiring.routed
    beyond = sum(cable.unsurveyed for cable, _ in routes)
    whole = sum(route.length for _, route in routes)
    if beyond > 0.0:
        yield (
            f"link cables: {beyond / 1000.0:.1f} m of {whole / 1000.0:.1f} m lie between the bays, where "
            "nothing was surveyed: lay a rope first, order cable by it; away from heat, sharp edges and "
            "what moves"
        )
    if found.wiring.inverter is None:
        yield (
            'no [[fitted]] with "inverter" in its name: cables to the inverter are not drawn, strings are '
            "taken to begin and end at the foremost box"
        )
    if not found.wiring.pack.proven:
        yield "order of the strings: not proven to have the least link, as more modules than can be tried"
    if found.insulation is None:
        yield f"{found.volts.full:.0f} V full: creepage is tabled up to 1000 V only; ask who signs"
