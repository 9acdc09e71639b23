"""A bay file into the bay believed: the distances settled, the workshop's rules filled in."""

from dataclasses import replace

from boxfit.bay import Bay, BoxRules, Keepout
from boxfit.files.said import SaidBox
from boxfit.files.said_bay import SaidBay
from boxfit.files.solid import reason_believed
from boxfit.files.surveyed import Surveyed, opening_believed
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


def bay_believed(said: SaidBay, found: Surveyed, car_box: SaidBox | None) -> Bay:
    """The bay as the rest of the program takes it. [mm]"""
    box = box_rules(car_box, said.box)
    tolerance = said.survey.tolerance
    return Bay(
        name=said.name,
        room=found.room,
        tolerance=tolerance,
        distance=tolerance + box.clearance,
        box=box,
        keepouts=tuple(
            Keepout(
                name=keepout.name,
                solid=solid,
                distance=tolerance + max(box.clearance, keepout.clearance),
                negotiable=keepout.negotiable,
                reason=reason_believed(keepout),
            )
            for keepout, solid in zip(said.keepout, found.solids, strict=True)
        ),
        opening=opening_believed(said.opening),
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
