"""A bay file into the bay believed: the distances settled, the workshop's rules filled in."""

from dataclasses import replace

from boxfit.bay import Bay, BoxRules, Keepout, Mount
from boxfit.files.kinds import BOLTS
from boxfit.files.places import vector
from boxfit.files.said_bay import SaidBay, SaidMount
from boxfit.files.said_box import SaidBox
from boxfit.files.said_car import SaidCar
from boxfit.files.shops import with_shops
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


def bay_believed(said: SaidBay, found: Surveyed, car: SaidCar) -> Bay:
    """The bay as the rest of the program takes it. [mm]"""
    box = with_shops(box_rules(car.box, said.box), car)
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
        mounts=tuple(_mount(mount) for mount in said.mount),
    )


def _mount(said: SaidMount) -> Mount:
    return Mount(
        name=said.name,
        at=vector(said.at),
        faces=said.faces,
        bolt=BOLTS[said.bolt],
        body_thickness=said.body_thickness,
        drilled=said.drilled,
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
