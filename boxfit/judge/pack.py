"""The pack as told: count, strings, windows, energy, bound."""

from boxfit.car import Car
from boxfit.judge.claim import ClaimedPack
from boxfit.judge.finding import Finding
from boxfit.module import Module

ENERGY_SLACK = 0.001
"""How much an energy told may be off [kWh]: it may have been rounded."""
VOLT_SLACK = 1e-6
"""What adding up volts in binary may cost [V]."""


def judge_pack(claim: ClaimedPack, car: Car, module: Module) -> list[Finding]:
    """Everything that is asked of the pack as a whole."""
    return [
        *_judge_count(claim, car),
        *_judge_strings(claim, car),
        *_judge_windows(claim, car, module),
        *_judge_energy(claim, module),
        *_judge_bound(claim),
    ]


def _judge_count(claim: ClaimedPack, car: Car) -> list[Finding]:
    """Modules placed = count = series x parallel, at least one; one string where no window is asked."""
    placed = claim.placed
    told = f"{placed} modules placed, {claim.count} told, {claim.series} in series x {claim.parallel}"
    agreed = placed == claim.count == claim.series * claim.parallel and placed > 0
    if agreed and (car.windows or claim.parallel == 1):
        return []
    return [Finding("count", "pack", told, float(placed))]


def _judge_strings(claim: ClaimedPack, car: Car) -> list[Finding]:
    """Every string is whole in one bay where the car asks for it."""
    if not car.string_in_one_bay or claim.series == 0:
        return []
    return [
        Finding("string-parted", bay.name, text, float(bay.placed))
        for bay in claim.bays
        for text in [f"{bay.placed} modules, no whole number of strings of {claim.series}"]
        if bay.placed % claim.series != 0
    ]


def _judge_windows(claim: ClaimedPack, car: Car, module: Module) -> list[Finding]:
    """The string, empty and full, lies inside every window."""
    empty, full = claim.series * module.voltage.empty, claim.series * module.voltage.full
    findings = []
    for window in car.windows:
        for state, volts in (("empty", empty), ("full", full)):
            if not window.low - VOLT_SLACK <= volts <= window.high + VOLT_SLACK:
                text = f"{volts:g} V {state}, window {window.low:g} to {window.high:g} V"
                findings.append(Finding("string-window", window.name, text, volts))
    return findings


def _judge_energy(claim: ClaimedPack, module: Module) -> list[Finding]:
    """Energy is count x module energy."""
    energy = claim.count * module.energy
    if abs(claim.energy - energy) <= ENERGY_SLACK:
        return []
    return [Finding("energy", "pack", f"{claim.energy:g} kWh told, {energy:g} kWh found", claim.energy)]


def _judge_bound(claim: ClaimedPack) -> list[Finding]:
    """The bound is no less than the count, and equal to it where the count is called proven."""
    if claim.bound == claim.count or (claim.bound > claim.count and not claim.proven):
        return []
    told = "proven" if claim.proven else "not proven"
    return [Finding("bound", "pack", f"count {claim.count}, bound {claim.bound}, {told}", float(claim.bound))]
