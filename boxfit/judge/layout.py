"""The judge of a finished layout: every rule, from the file alone."""

from collections.abc import Mapping

from boxfit.bay import Bay
from boxfit.car import Car
from boxfit.judge.alternatives import judge_alternatives
from boxfit.judge.balance import box_loads
from boxfit.judge.claim import (
    Claim,
    ClaimedAlternative,
    ClaimedBay,
    ClaimedBox,
    ClaimedPack,
    read_alternative,
    read_claim,
)
from boxfit.judge.contents import judge_contents
from boxfit.judge.finding import Finding
from boxfit.judge.insertion import judge_insertion
from boxfit.judge.limits import judge_limits, judge_target
from boxfit.judge.order import judge_order
from boxfit.judge.pack import judge_pack
from boxfit.judge.places import SetBox, judge_apart, judge_place, set_box
from boxfit.judge.shape import judge_shape, refuse_outlines
from boxfit.judge.weights import judge_weights
from boxfit.module import Module


def judge_layout(data: Mapping[str, object], car: Car, module: Module) -> tuple[Finding, ...]:
    """Everything a layout.json breaks of the hard rules; empty where it is clear.

    Knows the car, the module and the file, nothing of how the layout was found. Data that cannot be
    read gives findings too. Alternatives are judged as far as they go without the car they belong to.
    """
    claim = read_claim(data)
    if not isinstance(claim, Claim):
        return claim
    names = [
        Finding("name", key, f"{told!r} told, {name!r} judged")
        for key, told, name in (("car", claim.car, car.name), ("module", claim.module, module.name))
        if told != name
    ]
    return tuple(names) or (*_judge_pack(claim, car, module), *judge_alternatives(claim, module))


def judge_alternative(data: Mapping[str, object], car: Car, module: Module) -> tuple[Finding, ...]:
    """Everything one table of `alternatives` breaks of the hard rules; empty where it is clear.

    `car` is the one the alternative belongs to: without the keep-out it does without, with the shape of
    box it asks for, and so on.
    """
    told = read_alternative(data)
    return _judge_pack(told, car, module) if isinstance(told, ClaimedAlternative) else told


def _judge_pack(claim: ClaimedPack, car: Car, module: Module) -> tuple[Finding, ...]:
    """Every rule, but only what stands in the way of judging the rest where something does."""
    bays = {bay.name: bay for bay in car.bays}
    unclear = _judge_bays(claim, car) or [
        finding
        for told in claim.bays
        for place, box in _named(told)
        for finding in refuse_outlines(box, bays[told.name].box, place)
    ]
    if unclear:
        return tuple(unclear)
    findings: list[Finding] = []
    boxes: list[SetBox] = []
    for told in claim.bays:
        found = [set_box(place, bays[told.name], box) for place, box in _named(told)]
        boxes += found
        findings += _judge_bay(told, bays[told.name], found, module)
    findings += judge_apart(boxes)
    findings += judge_pack(claim, car, module)
    findings += judge_weights(claim, car, module, box_loads(claim, boxes))
    return (*findings, *judge_limits(claim, car), *judge_target(claim, car))


def _judge_bays(claim: ClaimedPack, car: Car) -> list[Finding]:
    """The bays are those of the car, every one at most once."""
    known = {bay.name for bay in car.bays}
    told_names = [bay.name for bay in claim.bays]
    findings = [
        Finding("name", "bays", f"the car has no bay {name!r}") for name in told_names if name not in known
    ]
    twice = sorted({name for name in told_names if told_names.count(name) > 1})
    return findings + [Finding("name", "bays", f"bay {name!r} comes twice") for name in twice]


def _named(told: ClaimedBay) -> list[tuple[str, ClaimedBox]]:
    """The boxes of a bay, each with what findings call it."""
    return [(f"{told.name}, box {number}", box) for number, box in enumerate(told.boxes, 1)]


def _judge_bay(told: ClaimedBay, bay: Bay, boxes: list[SetBox], module: Module) -> list[Finding]:
    """Every box of one bay by itself, and the order they go in."""
    findings = []
    if len(boxes) > bay.box.boxes:
        text = f"{len(boxes)} boxes, at most {bay.box.boxes}"
        findings.append(Finding("boxes", bay.name, text, float(len(boxes))))
    for claimed, box in zip(told.boxes, boxes, strict=True):
        findings += judge_shape(claimed, bay.box, box.place)
        findings += judge_place(box)
        findings += judge_insertion(box, bay.opening) if bay.opening is not None else []
        findings += judge_contents(claimed, bay.box, module, box.place)
    return findings + (judge_order(boxes, bay.opening) if bay.opening is not None else [])
