"""Each code of fittings: clear ones, spoiled as little as possible, yield that code alone and its figure.

The box of samples.py stands from (-400, -100, 250) to (-177, -19, 370): sheet 2.5, bends 8, so that holes
keep 13 from the inside of the other leg. Its modules stand 8 behind the walls, 17.5 apart between the tiers.
"""

from collections.abc import Callable
from copy import deepcopy
from dataclasses import replace
from typing import Any

import pytest

from boxfit.bay import Block, Keepout, Mount, Opening
from boxfit.car import Car, PointMass
from boxfit.judge.finding import CODES, Finding
from boxfit.judge.fittings import judge_fittings
from boxfit.module import FaceRoom
from tests.judge.samples import BAY, CAR, MODULE, layout

Data = dict[str, Any]
Corner = tuple[float, float, float]
MOUNT = Mount("floor", (-350.0, 20.0, 200.0), "up", 8.0, 1.0, True)
MOUNTED = replace(CAR, bays=(replace(BAY, mounts=(MOUNT,)), *CAR.bays[1:]))
BREATHER, DRAIN, GLAND, CONNECTOR, DISCONNECT, STUD = range(6)


def bought(
    kind: str, looks: str, at: Corner, body: tuple[Corner, Corner], keeps: tuple[Corner, Corner]
) -> Data:
    blocks = {
        key: {"low": list(low), "high": list(high)} for key, (low, high) in (("body", body), ("keeps", keeps))
    }
    return {"kind": kind, "name": kind, "looks": looks, "at": list(at), **blocks}


def cutout(
    what: str, looks: str, at: Corner, diameter: float, size: tuple[float, float] = (0.0, 0.0)
) -> Data:
    return {"what": what, "looks": looks, "at": list(at), "diameter": diameter, "size": list(size)}


def sample() -> Data:
    """One of everything."""
    vent, low, gland = (-177.0, -59.5, 330.0), (-377.0, -77.0, 250.0), (-288.0, -19.0, 304.25)
    slot, plug, bolt = (-288.0, -100.0, 304.25), (-400.0, -59.5, 304.25), (-196.0, -19.0, 365.5)
    drain = ((-385.0, -85.0, 242.0), (-369.0, -69.0, 250.0))
    stud = ((-200.0, -19.0, 325.0), (-192.0, 33.0, 365.5))
    parts = [
        bought(
            "breather",
            "front",
            vent,
            ((-177.0, -69.5, 320.0), (-165.0, -49.5, 340.0)),
            ((-177.0, -69.5, 320.0), (-155.0, -49.5, 340.0)),
        ),
        bought("drain", "down", low, drain, drain),
        bought(
            "cable gland",
            "left",
            gland,
            ((-300.0, -19.0, 292.0), (-276.0, 26.0, 316.0)),
            ((-300.0, -19.0, 292.0), (-276.0, 120.0, 316.0)),
        ),
        bought(
            "connector",
            "right",
            slot,
            ((-343.0, -170.0, 244.0), (-233.0, -100.0, 314.0)),
            ((-343.0, -170.0, 244.0), (-60.0, -100.0, 314.0)),
        ),
        bought(
            "service disconnect",
            "rear",
            plug,
            ((-450.0, -100.0, 280.0), (-400.0, -19.0, 340.0)),
            ((-510.0, -134.5, 310.0), (-450.0, 15.5, 697.0)),
        ),
        bought("earth stud", "left", bolt, stud, stud),
    ]
    holes = [
        cutout("breather", "front", vent, 20.0),
        cutout("drain", "down", low, 10.0),
        cutout("cable gland", "left", gland, 16.3),
        cutout("connector", "right", slot, 0.0, (80.0, 16.0)),
        cutout("service disconnect", "rear", plug, 0.0, (60.0, 16.0)),
    ]
    foot = {
        "kind": "foot",
        "name": "foot",
        "thickness": 4.0,
        "start": [-380.0, 35.0, 200.0],
        "along": "front",
        "width": 60.0,
        "legs": [{"way": "right", "length": 54.0}, {"way": "up", "length": 110.0}],
        "inwards": "up",
        "holes": [{"leg": 0, "along": 30.0, "across": 15.0, "diameter": 9.0}],
    }
    box = {"bay": "front bay", "number": 1, "name": "front bay box 1", "bought": parts, "cutouts": holes}
    return {"boxes": [box | {"strips": [foot]}]}


def without_shelves() -> Data:
    """The layout with its tiers untold, so that nothing is known of a shelf between them."""
    data = layout()
    del data["bays"][0]["boxes"][0]["tiers"]
    return data


def spoiled(change: Callable[[Data], None], car: Car = MOUNTED) -> tuple[Finding, ...]:
    data = deepcopy(sample())
    change(data["boxes"][0])
    return judge_fittings(data, car, MODULE, without_shelves())


def in_car(car: Car) -> tuple[Finding, ...]:
    return judge_fittings(sample(), car, MODULE, without_shelves())


def with_post(low: Corner, high: Corner) -> Car:
    post = Keepout("post", Block(low, high), 13.0)
    bay = MOUNTED.bays[0]
    return replace(MOUNTED, bays=(replace(bay, keepouts=(*bay.keepouts, post)), *MOUNTED.bays[1:]))


def with_opening(opening: Opening) -> Car:
    return replace(MOUNTED, bays=(replace(MOUNTED.bays[0], opening=opening), *MOUNTED.bays[1:]))


def moved(number: int, axis: int, by: float, hole: bool = True) -> Callable[[Data], None]:
    """A bought part moved with its hole."""

    def move(box: Data) -> None:
        told = box["bought"][number]
        for corner in (told["at"], *told["body"].values(), *told["keeps"].values()):
            corner[axis] += by
        if hole:
            box["cutouts"][number]["at"][axis] += by

    return move


def lower_hand(box: Data) -> None:
    box["bought"][DISCONNECT]["keeps"]["high"][2] -= 7.0


def second_hole(box: Data) -> None:
    box["cutouts"].append(cutout("spare", "left", (-272.85, -19.0, 304.25), 10.0))


def hole_off_wall(box: Data) -> None:
    box["cutouts"][GLAND]["at"][1] += 1.0


def bolt_off(box: Data) -> None:
    box["strips"][0]["holes"][0]["along"] += 1.0


def foot_off(box: Data) -> None:
    box["strips"][0]["start"][1] += 1.0
    box["strips"][0]["holes"][0]["across"] += 1.0


def sunk_stud(box: Data) -> None:
    box["bought"][STUD]["body"]["low"][1] -= 1.0


def drain_told_high(box: Data) -> None:
    box["bought"][DRAIN]["at"][2] += 1.0


def another_box(box: Data) -> None:
    box["number"] = 2


def no_number(box: Data) -> None:
    del box["number"]


def stud_into_gland_room(box: Data) -> None:
    told = box["bought"][STUD]
    for block in (told["body"], told["keeps"]):
        block["low"][0], block["high"][0] = -280.0, -272.0
        block["low"][1], block["low"][2], block["high"][2] = 30.0, 290.0, 330.0
        block["high"][1] = 60.0


def with_bar(box: Data) -> None:
    """A hold-down 6 mm behind the left wall, its end 1.15 mm over the gland's hole."""
    bar = {"kind": "hold-down", "name": "hold-down 1", "thickness": 2.5, "start": [-302.0, -27.5, 320.0]}
    turns = {"along": "front", "width": 7.0, "inwards": "right", "legs": [{"way": "down", "length": 20.0}]}
    box["strips"].append(bar | turns)


def with_room(**room: float) -> tuple[Finding, ...]:
    """The sample where its modules keep other rooms."""
    module = replace(MODULE, room=FaceRoom(**room))
    return judge_fittings(sample(), MOUNTED, module, without_shelves())


def with_shelf(headroom: float) -> tuple[Finding, ...]:
    """The same with its shelf told, and a ledge as high as the headroom under it; the gland alone kept."""
    data, rules = sample(), replace(BAY.box, headroom=headroom)
    box = data["boxes"][0]
    box["bought"], box["cutouts"] = [box["bought"][GLAND]], [box["cutouts"][GLAND]]
    car = replace(MOUNTED, bays=(replace(MOUNTED.bays[0], box=rules), *MOUNTED.bays[1:]))
    return judge_fittings(data, car, MODULE, layout())


AHEAD = replace(MOUNTED, carried=(PointMass("driver", 80.0, (500.0, 0.0, 500.0)), *MOUNTED.carried[1:]))

CASES: dict[str, tuple[str, Callable[[], tuple[Finding, ...]], float | None]] = {
    "post beside the breather": (
        "fitting-outside",
        lambda: in_car(with_post((-163.0, -69.0, 320.0), (-160.0, -50.0, 340.0))),
        2.0,
    ),
    "post in the breather's room": (
        "fitting-room",
        lambda: in_car(with_post((-156.0, -69.0, 320.0), (-150.0, -50.0, 340.0))),
        -1.0,
    ),
    "stud in the gland's room": ("fitting-room", lambda: spoiled(stud_into_gland_room), -4.0),
    "stud in the wall": ("fitting-meets", lambda: spoiled(sunk_stud), -1.0),
    "gland's nut at a module": ("fitting-behind", lambda: spoiled(moved(GLAND, 2, 2.0)), -1.4),
    "hold-down before the gland": ("fitting-behind", lambda: spoiled(with_bar), -1.15),
    "shelf before the gland": ("fitting-behind", lambda: with_shelf(0.0), -1.9),
    "ledge before the gland": ("fitting-behind", lambda: with_shelf(5.0), -5.0),
    "room kept at a side": ("fitting-behind", lambda: with_room(front=6.0, top=10.0), -2.0),
    "drain by the bend": ("fitting-in-bend", lambda: spoiled(moved(DRAIN, 0, -4.0)), -1.5),
    "breather by the rim": ("fitting-in-bend", lambda: spoiled(moved(BREATHER, 2, 14.0)), -1.5),
    "hole beside its wall": ("cutout-astray", lambda: spoiled(hole_off_wall), None),
    "two holes": ("cutouts-near", lambda: spoiled(second_hole), 2.0),
    "bolt beside the mount": ("foot-off-mount", lambda: spoiled(bolt_off), 1.0),
    "foot off the wall": ("foot-off-box", lambda: spoiled(foot_off), 1.0),
    "people ahead": ("breather-to-cabin", lambda: in_car(AHEAD), 788.5),
    "drain above the floor": ("drain-high", lambda: spoiled(drain_told_high), 1.0),
    "hand ends below the opening": ("disconnect-reach", lambda: spoiled(lower_hand), 7.0),
    "opening on the other side": ("disconnect-reach", lambda: in_car(with_opening(Opening("front"))), None),
    "no such box": ("name", lambda: spoiled(another_box), None),
    "unreadable": ("malformed", lambda: spoiled(no_number), None),
}
FITTING_CODES = {code for code, _, _ in CASES.values()} - {"name", "malformed"}


def test_sample_is_clear() -> None:
    assert judge_fittings(sample(), MOUNTED, MODULE, without_shelves()) == ()


@pytest.mark.parametrize("name", CASES)
def test_spoiled_fittings_yield_their_code_alone(name: str) -> None:
    code, findings, figure = CASES[name]
    found = findings()
    assert {finding.code for finding in found} == {code}
    if figure is None:
        assert found[0].figure is None
    else:
        assert found[0].figure == pytest.approx(figure, abs=2e-3)


def test_cables_may_use_the_room_above_a_module_and_screws_may_not() -> None:
    """Modules 7 mm wider, to 1 mm behind the wall: a screw's head of 3 mm reaches 2 mm into their room."""
    data, laid, module = sample(), without_shelves(), replace(MODULE, width=67.0)
    for one in laid["bays"][0]["boxes"][0]["modules"]:
        one["high"][1] = one["low"][1] + 67.0
    assert judge_fittings(data, MOUNTED, module, laid) == ()
    data["boxes"][0]["cutouts"].append(cutout("screw of foot", "left", (-340.0, -19.0, 300.0), 6.6))
    (found,) = judge_fittings(data, MOUNTED, module, laid)
    assert (found.code, found.place) == ("fitting-behind", "front bay box 1, screw of foot")
    assert found.figure == pytest.approx(-2.0)


def test_every_code_of_fittings_is_in_the_table() -> None:
    assert set(CODES) >= FITTING_CODES


def test_a_layout_that_cannot_be_read_is_told() -> None:
    assert judge_fittings(sample(), MOUNTED, MODULE, {})[0].code == "malformed"
