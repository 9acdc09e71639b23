"""The judge of a finished layout: every rule, from the file alone."""

from collections.abc import Mapping

from boxfit.bay import Bay
from boxfit.car import Car
from boxfit.judge.balance import box_loads
from boxfit.judge.claim import Claim, ClaimedBay, read_claim
from boxfit.judge.contents import judge_contents
from boxfit.judge.finding import Finding
from boxfit.judge.insertion import judge_insertion
from boxfit.judge.limits import judge_limits, judge_target
from boxfit.judge.pack import judge_pack
from boxfit.judge.places import SetBox, judge_apart, judge_place, set_box
from boxfit.judge.weights import judge_weights
from boxfit.module import Module


def judge_layout(data: Mapping[str, object], car: Car, module: Module) -> tuple[Finding, ...]:
    """Everything a layout.json breaks of the hard rules; empty where it is clear.

    Knows the car, the module and the file, nothing of how the layout was found. Data that cannot be
    read gives findings too.
    """
    claim = read_claim(data)
    if not isinstance(claim, Claim):
        return claim
    names = _judge_names(claim, car, module)
    if names:
        return tuple(names)
    bays = {bay.name: bay for bay in car.bays}
    findings: list[Finding] = []
    boxes: list[SetBox] = []
    for told in claim.bays:
        found = _set_boxes(told, bays[told.name])
        boxes += found
        findings += _judge_bay(told, bays[told.name], found, module)
    findings += judge_apart(boxes)
    findings += judge_pack(claim, car, module)
    findings += judge_weights(claim, car, module, box_loads(claim, boxes))
    return (*findings, *judge_limits(claim, car), *judge_target(claim, car))


def _judge_names(claim: Claim, car: Car, module: Module) -> list[Finding]:
    """Car, module and bays are those judged, every bay at most once."""
    findings = [
        Finding("name", key, f"{told!r} told, {name!r} judged")
        for key, told, name in (("car", claim.car, car.name), ("module", claim.module, module.name))
        if told != name
    ]
    known = {bay.name for bay in car.bays}
    told_names = [bay.name for bay in claim.bays]
    findings += [
        Finding("name", "bays", f"the car has no bay {name!r}") for name in told_names if name not in known
    ]
    twice = sorted({name for name in told_names if told_names.count(name) > 1})
    return findings + [Finding("name", "bays", f"bay {name!r} comes twice") for name in twice]


def _set_boxes(told: ClaimedBay, bay: Bay) -> list[SetBox]:
    """The boxes of a bay in their places."""
    return [set_box(f"{bay.name}, box {number}", bay, box) for number, box in enumerate(told.boxes, 1)]


def _judge_bay(told: ClaimedBay, bay: Bay, boxes: list[SetBox], module: Module) -> list[Finding]:
    """Every box of one bay by itself."""
    findings = []
    if len(boxes) > bay.box.boxes:
        text = f"{len(boxes)} boxes, at most {bay.box.boxes}"
        findings.append(Finding("boxes", bay.name, text, float(len(boxes))))
    for claimed, box in zip(told.boxes, boxes, strict=True):
        if claimed.corners != 4:
            text = f"{claimed.corners} corners told, only four-cornered boxes can be judged"
            findings.append(Finding("shape", box.place, text, float(claimed.corners)))
        findings += judge_place(box)
        findings += judge_insertion(box, bay.opening) if bay.opening is not None else []
        findings += judge_contents(claimed, bay.box, module, box.place)
    return findings
