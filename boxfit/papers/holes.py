"""Holes drilled in the body, the vent's way out, and the drains. [mm]"""

from collections.abc import Iterator
from math import dist

from boxfit.bay import Bay, Mount
from boxfit.box.fitting import DIRECTIONS, Bought
from boxfit.box.outside.single import cabin
from boxfit.box.strip_legs import hole_middle
from boxfit.papers.case import Case, xyz
from boxfit.papers.flow import Block, Heading, Points, Section, Words
from boxfit.papers.grid import Grid
from boxfit.standards.holes import clearance_hole

CLOSE = 0.01


def holes(case: Case) -> Section:
    """The section of holes, vents and drains."""
    return Section("Holes in the body, vent and drain", tuple(_blocks(case)))


def _blocks(case: Case) -> Iterator[Block]:
    yield from _mounts(case)
    yield Heading("Cables through the body")
    yield from _passages(case)
    yield Heading("Vent route and drains")
    yield let_out_table(case)
    yield Points(
        (
            "lead every vent outdoors by a hose of its own, away from the cabin, from cables and from hot or "
            "sparking parts, its end turned down and clear of spray; the area for burst gas is for the "
            "module's maker to tell",
            "vents of two boxes are not joined: gas of one would enter the other",
            "drains end under the car, where water would meet the cabin by a hose",
        )
    )


def used_by(case: Case, mount: Mount) -> str:
    """The box whose foot stands on a mount; empty where none does."""
    for one in case.built:
        for strip in one.parts.fittings.strips:
            if (
                strip.kind == "foot"
                and strip.holes
                and dist(hole_middle(strip, strip.holes[0]), mount.at) < CLOSE
            ):
                return one.parts.name
    return ""


def _mounts(case: Case) -> Iterator[Block]:
    """Every place of the body that carries a box, and every one that was told and is not used."""
    listed = [(bay, mount) for bay in case.car.bays for mount in bay.mounts]
    if not listed:
        yield Words(
            "Missing: no place of the body is told that a box is bolted to, so that no hole can be listed. "
            "[[mount]] in the bay's file gives each: name, at, faces, bolt, body_thickness, drilled."
        )
        return
    rows = tuple(_hole(case, bay, mount) for bay, mount in listed)
    columns = ("bay", "name", "x", "y", "z", "looks", "hole", "sheet", "", "carries", "seen to, by")
    right = frozenset((2, 3, 4, 6, 7))
    yield Grid("Holes for the feet of the boxes in mm", columns, rows, right, least=6.5, blank={10: 24.0})
    new = sum(mount.drilled and bool(used_by(case, mount)) for _, mount in listed)
    yield Points(
        (
            f"{new} new hole{'' if new == 1 else 's'} in the body: ask whether the car's papers allow them; "
            "none near a seam, a spot weld, a pipe or a loom; look behind before drilling",
            "deburr, paint the bare edge, seal; holes by ISO 273, medium series",
        )
    )


def _hole(case: Case, bay: Bay, mount: Mount) -> tuple[str, ...]:
    box = used_by(case, mount)
    return (
        bay.name,
        mount.name,
        *xyz(mount.at),
        mount.faces,
        f"{clearance_hole(mount.bolt):g}",
        f"{mount.body_thickness:g}",
        "new" if mount.drilled else "there already",
        box or "nothing: leave it",
        "",
    )


def _passages(case: Case) -> Iterator[Block]:
    """Where link cables go through the walls of bays, and metal of scans that they meet."""
    wiring = case.electrics.wiring
    across = f"{wiring.cable.across:g}"
    rows = [
        (f"{one.through} of {one.bay}", *xyz(one.at), cable.conductor.what, across, "")
        for cable, _ in wiring.routed
        for one in cable.passages
    ]
    rows += [
        ("surveyed metal", *xyz(at), cable.conductor.what, across, "")
        for cable, _ in wiring.routed
        for at in cable.metal
    ]
    if not rows:
        yield Words(
            "No link cable goes through what was surveyed. Between the bays nothing was: list each hole that "
            "is drilled there, with its place, diameter, sheet and grommet."
        )
        return
    columns = ("through", "x", "y", "z", "cable", "across", "drilled or not needed, by")
    yield Grid(
        "Where link cables go through, in mm", columns, tuple(rows), frozenset((1, 2, 3, 5)), least=6.5
    )
    yield Points(
        (
            "where that is metal each needs a hole with a grommet for the cable, deburred and painted; an "
            "opening that is there already does as well",
        )
    )


def let_out_table(case: Case) -> Grid:
    """Breather and drain of every box, and where what they let out goes."""
    rows: list[tuple[str, ...]] = []
    for one in case.built:
        for kind in ("breather", "drain"):
            found = [each for each in one.parts.fittings.bought if each.kind == kind]
            for each in found:
                told = _vent(case, each) if kind == "breather" else "out of the floor of its box"
                rows.append((one.parts.name, each.name, *xyz(each.at), each.looks, told))
            if not found:
                lacking = "Missing: none found room; see the notes of the box"
                rows.append((one.parts.name, f"no {kind}", "", "", "", "", lacking))
    people = cabin(case.car)
    heading = f"The cabin is where people sit, about x {people[0]:.0f}, y {people[1]:.0f}"
    columns = ("box", "part", "x mm", "y mm", "z mm", "looks", "")
    return Grid(heading, columns, tuple(rows), frozenset((2, 3, 4)))


def _vent(case: Case, one: Bought) -> str:
    """Which way a breather looks, seen from where people sit."""
    people, way = cabin(case.car), DIRECTIONS[one.looks]
    towards = sum((there - here) * along for there, here, along in zip(people, one.at, way, strict=True))
    if way[0] == 0.0:
        return "looks across the car, not at the cabin"
    return "looks AT the cabin: turn it by a hose" if towards > 0.0 else "looks away from the cabin"
