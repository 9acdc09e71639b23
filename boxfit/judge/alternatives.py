"""The other layouts a layout.json tells of, as far as each can be judged by itself."""

from boxfit.judge.claim import Claim, ClaimedAlternative
from boxfit.judge.finding import Finding
from boxfit.judge.pack import ENERGY_SLACK
from boxfit.module import Module


def judge_alternatives(claim: Claim, module: Module) -> list[Finding]:
    """Count, strings and energy of every alternative agree with its own bays.

    An alternative may belong to a changed car, against which it is judged in full elsewhere.
    """
    return [
        finding
        for number, one in enumerate(claim.alternatives, 1)
        for finding in _judge_one(one, module, f"alternative {number}, {one.what}")
    ]


def _judge_one(one: ClaimedAlternative, module: Module, place: str) -> list[Finding]:
    """One alternative by itself."""
    findings = []
    if not one.placed == one.count == one.series * one.parallel or one.placed == 0:
        text = f"{one.placed} modules placed, {one.count} told, {one.series} in series x {one.parallel}"
        findings.append(Finding("alternative", place, text, float(one.placed)))
    energy = one.placed * module.energy
    if abs(one.energy - energy) > ENERGY_SLACK:
        text = f"{one.energy:g} kWh told, {energy:g} kWh found"
        findings.append(Finding("alternative", place, text, float(one.placed)))
    return findings
