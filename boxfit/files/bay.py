"""A bay file into the bay believed: room, keep-outs and the distances settled."""

from dataclasses import replace

from boxfit.bay import Bay, Block, BoxRules, Cylinder, Keepout, Opening, Point, Prism, Vector
from boxfit.files.outline import counter_clockwise
from boxfit.files.said import SaidBox
from boxfit.files.said_bay import (
    SaidBay,
    SaidBlockKeepout,
    SaidBlockSurvey,
    SaidCylinderKeepout,
    SaidOpening,
    SaidPrismSurvey,
)
from boxfit.standards.common_practice import USUAL_BOX

NOTHING_ASKED = BoxRules(
    material="aluminium-5754",
    process="folded",
    shape="rectangular",
    thickness=0.0,
    bend_radius=0.0,
    flange=0.0,
    lid_thickness=0.0,
    clearance=0.0,
    liner=0.0,
    gap=0.0,
    headroom=0.0,
    tiers=99,
    boxes=1,
    asked=False,
)
"""Where neither car nor bay has a [box]: no allowance is kept, and nothing can be built."""


def bay_believed(said: SaidBay, car_box: SaidBox | None) -> Bay:
    """The bay as the rest of the program takes it. [mm]"""
    box = box_rules(car_box, said.box)
    tolerance = said.survey.tolerance
    return Bay(
        name=said.name,
        room=_room(said.survey),
        tolerance=tolerance,
        distance=tolerance + box.clearance,
        box=box,
        keepouts=tuple(
            Keepout(
                name=keepout.name,
                solid=_solid(keepout),
                distance=tolerance + max(box.clearance, keepout.clearance),
                negotiable=keepout.negotiable,
            )
            for keepout in said.keepout
        ),
        opening=_opening(said.opening) if said.opening else None,
    )


def box_rules(car_box: SaidBox | None, bay_box: SaidBox | None) -> BoxRules:
    """The bay's own keys before the car's, and common practice for what neither says."""
    if car_box is None and bay_box is None:
        return NOTHING_ASKED
    rules = USUAL_BOX
    for table in (car_box, bay_box):
        if table is not None:
            rules = replace(rules, **table.model_dump(exclude_none=True))
    return rules


def vector(said: list[float]) -> Vector:
    """Three numbers of a file as a place [mm]."""
    x, y, z = said
    return (x, y, z)


def _points(said: list[list[float]]) -> tuple[Point, ...]:
    return counter_clockwise([(x, y) for x, y in said])


def _room(survey: SaidBlockSurvey | SaidPrismSurvey) -> Prism:
    if isinstance(survey, SaidPrismSurvey):
        return Prism(_points(survey.outline), survey.floor, survey.top)
    (left, right, floor), (front, port, top) = survey.low, survey.high
    return Prism(((left, right), (front, right), (front, port), (left, port)), floor, top)


def _solid(keepout: SaidBlockKeepout | SaidCylinderKeepout) -> Block | Cylinder:
    if isinstance(keepout, SaidBlockKeepout):
        return Block(vector(keepout.low), vector(keepout.high))
    return Cylinder(vector(keepout.start), vector(keepout.end), keepout.diameter)


def _opening(said: SaidOpening) -> Opening:
    return Opening(said.way, _points(said.outline) if said.outline else None)
