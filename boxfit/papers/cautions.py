"""Cautions, everything that was taken for granted, and where each borrowed figure comes from."""

from collections.abc import Iterator

from boxfit.papers.case import Case, missing
from boxfit.papers.flow import Block, Heading, Points, Section, Words
from boxfit.papers.grid import Grid
from boxfit.papers.sources import sources
from boxfit.report.cautions import cautions as told_cautions
from boxfit.standards.materials import GASKET, LINER


def cautions(case: Case) -> Section:
    """The section of cautions and assumptions."""
    blocks: list[Block] = [Points(told_cautions(case.car, case.module, case.layout))]
    if open_still := missing(case):
        blocks += [Heading("What is missing, and the key that gives it"), Points(open_still)]
    blocks += [Heading("What was taken for granted"), Points(tuple(assumptions(case)))]
    blocks += [Heading("What was not looked at"), Points(NOT_LOOKED_AT)]
    return Section("Cautions and assumptions", tuple(blocks))


NOT_LOOKED_AT = (
    "the body beyond the sheet under each fixing: its corrosion, its repairs, its stiffness, its fatigue",
    "fatigue, resonance and wear of boxes, feet, bolts and welds over the years",
    "fire inside a box, burst pressure, the gas of a cell and the area of its vent",
    "heat in service, but for what is told with the electrics: a closed box cools badly",
    "inverter, charger, motor, their mounts, their electromagnetic fields, brakes, steering and tyres",
    "the module inside: its cells, its own fixings, its monitoring and its software",
    "water: wading, spray, and what a gasket does after years",
    "the people: escape, recovery, the fire service's way to the pack",
)


def assumptions(case: Case) -> Iterator[str]:
    """What the sums rest on, one sentence each."""
    yield (
        "a box is rigid and its fixings are equally stiff, along their axes and across them; a real body "
        "gives way unevenly, so that one fixing may take more than is told"
    )
    yield "body sheet of unknown steel is taken as DC01: yield 140 MPa from memory, Rm 270 MPa read"
    yield (
        "what carries a box is the sheet at the mount with its spreading plate; that the body behind it "
        "carries on is for the engineer"
    )
    yield (
        "friction, and what presses on the body beside a fixing, are left out; modules press evenly on the "
        "wall or lid before them"
    )
    yield "panels are supported along all edges, linear theory; where sag leaves it, it is on the safe side"
    strips = " and ".join(case.module.held_at)
    yield (
        f"{case.module.name} may be pressed on strips of {case.module.held_width:g} mm at its {strips} "
        "upper edges: ask its maker"
    )
    face = case.module.terminals or "the face with most room, or the top"
    yield f"terminals are taken in the middle of {face}: links are as long as that makes them"
    yield "a module is as heavy as its file tells, its mass even throughout; its figures are its maker's"
    for bay in case.car.bays:
        rules = bay.box
        yield (
            f"{bay.name}: survey out by {bay.tolerance:g} mm at most; clearance {rules.clearance:g}, liner "
            f"{rules.liner:g}, gap {rules.gap:g}, headroom {rules.headroom:g} mm"
        )
    yield "what was not surveyed is taken not to be there: pipes, looms, brackets are then not kept clear"
    yield "the stripped car was weighed with nothing in it that goes out again, on level scales"
    yield "people and luggage are where the file tells and as heavy; springs and tyres are left out"
    yield "strings in parallel share current alike; cables lie in free air"
    yield "screws, nuts, washers, weld metal, paint and sealant are not in any mass"


def sources_section(case: Case) -> Section:
    """Every figure's source and status."""
    used = _materials(case)
    rows = tuple((one.what, one.source, one.status) for one in sources(used, case.retention.rules))
    blocks: list[Block] = [
        Words(
            "Read: the figure was read in what is named. From memory: nobody looked it up for this; look "
            "it up before relying on it. Common practice: no source at all; a workshop's habit."
        ),
        Grid("", ("figure", "source", "status"), rows),
    ]
    return Section("Sources of every borrowed figure", tuple(blocks))


def _materials(case: Case) -> tuple[str, ...]:
    """Every material of the boxes, body sheet included."""
    found = {"steel-dc01": None}
    for one in case.built:
        parts = one.parts
        named = [parts.tray.material, parts.lid.material, *(shelf.material for shelf in parts.shelves)]
        named += [strip.material for strip in parts.fittings.strips]
        named += [parts.cover_plate.material] if parts.cover_plate else []
        named += [LINER.name] if parts.liner else []
        named += [GASKET.name] if parts.gasket else []
        found |= dict.fromkeys(named)
    return tuple(sorted(found))
