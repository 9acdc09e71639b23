"""The judge of an electrics.json: strings, lengths, volts and cables worked out anew from the files alone."""

from collections.abc import Iterator, Mapping
from itertools import combinations, pairwise
from math import dist, pi

from boxfit.car import Car
from boxfit.judge.claim import Claim, ClaimedModule, read_claim
from boxfit.judge.electrics_claim import ToldCable, ToldElectrics, read_electrics
from boxfit.judge.finding import SLACK, Finding
from boxfit.module import Module

NEAR = 5.0
"""Modules no further apart than this [mm], or than their spacing, touch: common practice, no source."""
VOLT = 0.001
"""Volts [V] may be out by this: rounding."""
BEND_IN_DIAMETERS = 6.0
"""Inside of a cable's bend: common practice, no source."""
LENGTH = 0.01
"""Lengths told may be out by this [mm]: rounding of many places."""


def judge_electrics(
    data: Mapping[str, object], car: Car, module: Module, layout: Mapping[str, object]
) -> tuple[Finding, ...]:
    """Everything an electrics.json breaks, beside the layout.json it belongs to; empty where it is right."""
    claim, told = read_claim(layout), read_electrics(data)
    if not isinstance(claim, Claim):
        return claim
    if isinstance(told, tuple):
        return told
    bodies = [body for bay in claim.bays for box in bay.boxes for body in box.modules]
    bays = [bay.name for bay in claim.bays for box in bay.boxes for _ in box.modules]
    strings = [one.modules for one in told.strings]
    if found := tuple(_whole(strings, claim, len(bodies), told)):
        return found
    return (
        *_in_one_bay(strings, bays, car),
        *_linked(told, strings, bodies),
        *_touching(told, strings, bodies, module),
        *_windows(told, car, module),
        *(finding for cable in told.cables for finding in _cable(cable, told)),
    )


def _whole(
    strings: list[tuple[int, ...]], claim: Claim, count: int, told: ToldElectrics
) -> Iterator[Finding]:
    """Every module once, in whole strings, as many as the layout has."""
    named = sorted(number for string in strings for number in string)
    if named != list(range(1, count + 1)) or [one.number for one in told.modules] != list(
        range(1, count + 1)
    ):
        yield Finding("string-modules", "strings", "not every module once in one string", float(len(named)))
    elif {len(string) for string in strings} != {claim.series} or len(strings) != claim.parallel:
        text = f"not {claim.parallel} strings of {claim.series} modules each"
        yield Finding("string-modules", "strings", text, float(len(strings)))


def _in_one_bay(strings: list[tuple[int, ...]], bays: list[str], car: Car) -> Iterator[Finding]:
    """Where the car asks for it no string runs on in another bay."""
    for number, string in enumerate(strings, start=1):
        over = {bays[module - 1] for module in string}
        if car.string_in_one_bay and len(over) > 1:
            yield Finding("string-modules", f"string {number}", "runs through several bays", float(len(over)))


def _linked(
    told: ToldElectrics, strings: list[tuple[int, ...]], bodies: list[ClaimedModule]
) -> Iterator[Finding]:
    """Terminals lie on their modules, and the link told is that between them and the junction."""
    for one, body in zip(told.modules, bodies, strict=True):
        off = max(
            max(low - at, at - high) for at, low, high in zip(one.terminals, body.low, body.high, strict=True)
        )
        if abs(off) > SLACK:
            text = "terminals are not on the module's surface"
            yield Finding("terminals", f"module {one.number}", text, abs(off))
    total = 0.0
    for string in strings:
        way = (told.junction, *(told.modules[number - 1].terminals for number in string), told.junction)
        total += sum(abs(a - b) for one, other in pairwise(way) for a, b in zip(one, other, strict=True))
    if abs(total - told.link) > LENGTH:
        yield Finding("link-length", "link", f"{told.link:.3f} mm told, {total:.3f} mm along it", told.link)


def _touching(
    told: ToldElectrics, strings: list[tuple[int, ...]], bodies: list[ClaimedModule], module: Module
) -> Iterator[Finding]:
    """The highest voltage between touching modules, from their places in their strings."""
    place = {number: step for string in strings for step, number in enumerate(string)}
    near, steps = max(NEAR, module.spacing) + 1e-9, list[int]()
    for one, other in combinations(range(len(bodies)), 2):
        first, second = bodies[one], bodies[other]
        gaps = (max(first.low[k] - second.high[k], second.low[k] - first.high[k]) for k in range(3))
        if max(gaps) <= near:
            steps.append(abs(place[one + 1] - place[other + 1]))
    full = module.voltage.full
    volts, live = (max(steps) * full, (max(steps) + 1) * full) if steps else (0.0, 0.0)
    if abs(volts - told.touching.volts) > VOLT or abs(live - told.touching.volts_live_parts) > VOLT:
        text = f"{volts:.1f} and {live:.1f} V between touching modules, told otherwise"
        yield Finding("touching-volts", "touching", text, told.touching.volts)


def _windows(told: ToldElectrics, car: Car, module: Module) -> Iterator[Finding]:
    """The string's volts are its modules', and every window holds them from empty to full."""
    empty, full = told.series * module.voltage.empty, told.series * module.voltage.full
    if abs(empty - told.volts.empty) > VOLT or abs(full - told.volts.full) > VOLT:
        text = f"a string has {empty:.1f} V empty and {full:.1f} V full, told otherwise"
        yield Finding("string-volts", "volts", text, told.volts.full)
    for window in car.windows:
        for volts in (empty, full):
            if not window.low - VOLT <= volts <= window.high + VOLT:
                text = f"{volts:.1f} V, {window.name} takes {window.low:g} to {window.high:g} V"
                yield Finding("string-window", "volts", text, volts)


def _cable(cable: ToldCable, told: ToldElectrics) -> Iterator[Finding]:
    """A cable runs square to the car, has room for its bends, and is as long as told."""
    if cable.length is None:
        return
    inside = told.cable.inside_bend
    if inside < BEND_IN_DIAMETERS * told.cable.across - SLACK:
        yield Finding("cable-bend", cable.name, f"bent to {inside:.1f} mm inside", inside)
    radius, last = inside + told.cable.across / 2.0, len(cable.points) - 2
    length = 0.0
    for place, (one, other) in enumerate(pairwise(cable.points)):
        moved = sum(abs(a - b) > SLACK for a, b in zip(one, other, strict=True))
        stretch = dist(one, other)
        bends = (place > 0) + (place < last)
        if moved != 1 or stretch < radius * bends - SLACK:
            text = f"stretch {place + 1} is not square to the car or has no room for its bends"
            yield Finding("cable-bend", cable.name, text, stretch)
        length += stretch - radius * bends + (radius * pi / 2.0 if place > 0 else 0.0)
    if abs(length - cable.length) > LENGTH:
        yield Finding("cable-length", cable.name, f"{length:.3f} mm along its places", cable.length)
