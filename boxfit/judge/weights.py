"""The weights a layout tells, against the car rebuilt from its readings."""

from collections.abc import Iterator
from functools import partial
from operator import itemgetter

from boxfit.car import Car
from boxfit.judge.balance import BoxLoad, Known, boxes_sum, left_part, without_boxes
from boxfit.judge.box_mass import Bracket
from boxfit.judge.claim import ClaimedPack, ClaimedWeights
from boxfit.judge.finding import Finding
from boxfit.module import Module

KILOGRAM_SLACK = 0.01
SHARE_SLACK = 0.0001
PLACE_SLACK = 0.1
"""How much a mass [kg], a share [-] or a place [mm] told may be off: it may have been rounded."""

Figure = tuple[str, float | None, Bracket | None, float]
"""A figure told: its name, its value, where it must lie, how much it may miss."""


def judge_weights(claim: ClaimedPack, car: Car, module: Module, boxes: tuple[BoxLoad, ...]) -> list[Finding]:
    """Masses, axle loads, shares and centre of mass as told follow from the readings."""
    told = claim.weights
    modules = module.mass * claim.placed
    findings = _judge_figure(("modules", told.modules, Bracket(modules, modules), KILOGRAM_SLACK))
    least, most = sum(box.mass.low for box in boxes), sum(box.mass.high for box in boxes)
    if not least - KILOGRAM_SLACK <= told.boxes <= most + KILOGRAM_SLACK:
        text = f"{told.boxes:.2f} kg told for all boxes, they weigh {least:.1f} to {most:.1f} kg"
        return [*findings, Finding("box-mass", "weights", text, told.boxes)]
    if car.weighed is not None:
        known = without_boxes(claim, car, car.weighed, module)
        for figure in (*_loads(told, known, boxes, car), *_centre(told, known, boxes), *_agreement(told)):
            findings += _judge_figure(figure)
    return findings


def _loads(told: ClaimedWeights, known: Known, boxes: tuple[BoxLoad, ...], car: Car) -> Iterator[Figure]:
    """Gross mass, axle loads and shares."""
    gross = known.mass + told.boxes
    along = boxes_sum(boxes, told.boxes, itemgetter(0))
    rear = Bracket(-(known.along + along.high) / car.wheelbase, -(known.along + along.low) / car.wheelbase)
    left = boxes_sum(boxes, told.boxes, partial(left_part, car))
    left_share = Bracket((known.left + left.low) / gross, (known.left + left.high) / gross)
    yield "gross", told.gross, Bracket(gross, gross), KILOGRAM_SLACK
    yield "rear_axle", told.rear_axle, rear, KILOGRAM_SLACK
    yield "front_axle", told.front_axle, Bracket(gross - rear.high, gross - rear.low), KILOGRAM_SLACK
    yield "front_share", told.front_share, Bracket(1 - rear.high / gross, 1 - rear.low / gross), SHARE_SLACK
    yield "left_share", told.left_share, left_share, SHARE_SLACK


def _centre(told: ClaimedWeights, known: Known, boxes: tuple[BoxLoad, ...]) -> Iterator[Figure]:
    """The centre of mass along x, y and z."""
    gross = known.mass + told.boxes
    centre = told.centre_of_mass or (None, None, None)
    for axis, moment in enumerate((known.along, known.sideways, known.upwards)):
        added = boxes_sum(boxes, told.boxes, itemgetter(axis))
        found = (
            None if moment is None else Bracket((moment + added.low) / gross, (moment + added.high) / gross)
        )
        yield f"centre_of_mass {'xyz'[axis]}", centre[axis], found, PLACE_SLACK


def _agreement(told: ClaimedWeights) -> Iterator[Figure]:
    """Axle loads, gross mass and front share agree with each other."""
    front, rear, gross = told.front_axle, told.rear_axle, told.gross
    if front is None or rear is None or gross is None or gross <= 0.0:
        return
    yield "gross of both axles", front + rear, Bracket(gross, gross), 2 * KILOGRAM_SLACK
    yield "front_share", told.front_share, Bracket(front / gross, front / gross), SHARE_SLACK


def _judge_figure(figure: Figure) -> list[Finding]:
    """The value lies in its bracket; both are missing, or neither is."""
    name, value, bracket, slack = figure
    if value is None and bracket is None:
        return []
    if value is None or bracket is None:
        text = "not told" if value is None else "told, but cannot be known from the readings"
        return [Finding("weights", name, text, value)]
    if bracket.low - slack <= value <= bracket.high + slack:
        return []
    return [Finding("weights", name, f"{value:g} told, {bracket.low:.4f} to {bracket.high:.4f} found", value)]
