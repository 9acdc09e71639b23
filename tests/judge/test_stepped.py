"""Stepped boxes and several boxes: clear ones, each spoiled as little as possible, its code and figure."""

from collections.abc import Callable
from copy import deepcopy
from dataclasses import replace

import pytest

from boxfit.bay import Block, Keepout, Opening, Prism, Vector
from boxfit.car import Car, Window
from boxfit.judge.finding import CODES
from boxfit.judge.layout import judge_layout
from boxfit.module import FaceRoom, Module
from boxfit.workshop import FoldShop
from tests.judge.samples import MODULE, Data
from tests.judge.stepped import (
    BELOW,
    L_CAR,
    L_PLAN,
    POST_CAR,
    STEPPED,
    TUNNEL,
    TUNNEL_CAR,
    TWO_BOXES_CAR,
    Outline,
    X,
    Y,
    Z,
    grown_l,
    l_layout,
    moved,
    two_boxes,
    two_tiers,
)

Case = tuple[Data, Car, Module]
CLEAR: dict[str, Case] = {
    "L in an L-shaped bay": (l_layout(), L_CAR, MODULE),
    "post in the notch": (l_layout(), POST_CAR, MODULE),
    "step over a tunnel": (two_tiers(), TUNNEL_CAR, MODULE),
    "one box between another's arms": (two_boxes(), TWO_BOXES_CAR, MODULE),
}


def spoiled(name: str, change: Callable[[Data], None]) -> Case:
    """A clear layout with its first box changed."""
    data, car, module = deepcopy(CLEAR[name])
    change(data["bays"][0]["boxes"][0])
    return data, car, module


def with_outline(outline: Outline) -> Case:
    """The L with another outline told."""

    def change(told_box: Data) -> None:
        told_box["tiers"][0]["outline"] = [*map(list, outline)]

    return spoiled("L in an L-shaped bay", change)


def shifted(name: str, number: int, axis: int, by: float) -> Case:
    """A clear layout with one module of its first box moved."""

    def change(told_box: Data) -> None:
        for corner in ("low", "high"):
            told_box["modules"][number][corner][axis] += by

    return spoiled(name, change)


def in_bay(name: str, **changes: object) -> Case:
    """A clear layout in a bay that is other in something."""
    data, car, module = CLEAR[name]
    return data, replace(car, bays=(replace(car.bays[0], **changes),)), module  # type: ignore[arg-type]


def in_room(by: float, top: float = Z + 75.5) -> Case:
    return in_bay("L in an L-shaped bay", room=Prism(grown_l(by), Z - 13.0, top))


def with_post(name: str, low: Vector, high: Vector) -> Case:
    x, y, z = (one + at for one, at in zip(low, (X, Y, Z), strict=True))
    a, b, c = (one + at for one, at in zip(high, (X, Y, Z), strict=True))
    return in_bay(name, keepouts=(Keepout("post", Block((x, y, z), (a, b, c)), 13.0),))


def ruled(name: str, **changes: object) -> Case:
    return in_bay(name, box=replace(STEPPED, **changes))  # type: ignore[arg-type]


def beaded(name: str, bead: float) -> Case:
    """Welded, as all stepped boxes are: modules 5 from a liner of 3, those above a step 4."""
    return ruled(name, fold_shop=FoldShop(weld_bead=bead))


def told_corners(told_box: Data) -> None:
    told_box["corners"] = 4


def told_outside(told_box: Data) -> None:
    told_box["outside"]["high"][0] += 1.0


def told_one_outline(told_box: Data) -> None:
    del told_box["tiers"][0]["outline"]


def told_past_the_step(told_box: Data) -> None:
    told_box["tiers"][0]["outline"] = [[x, y - 2.0 if y == Y - 10.5 else y] for x, y in BELOW]


def told_level(told_box: Data) -> None:
    told_box["tiers"][1]["stands_on"] = Z + 2.5


def told_height(told_box: Data) -> None:
    told_box["tiers"][1]["height"] = 51.0


def lower_step(told_box: Data) -> None:
    told_box["tiers"][1]["stands_on"] -= 1.0
    for module in told_box["modules"][1:]:
        module["low"][2] -= 1.0
        module["high"][2] -= 1.0
    told_box["outside"]["high"][2] -= 1.0


def without_tunnel(change: Callable[[Data], None]) -> Case:
    return spoiled(TUNNELLED, change)[0], *in_bay(TUNNELLED, keepouts=())[1:]


def parted() -> Case:
    """The two boxes in bays of their own: strings of 4, of which 7 and 1 modules are no whole number."""
    data, car, module = deepcopy(CLEAR["one box between another's arms"])
    around, within = data["bays"][0]["boxes"]
    data["bays"] = [{"name": "front bay", "boxes": [around]}, {"name": "rear bay", "boxes": [within]}]
    bays = (car.bays[0], replace(car.bays[0], name="rear bay"))
    return data, replace(car, bays=bays, string_in_one_bay=True), module


def alternative(**changes: object) -> Case:
    """The L, with itself as an alternative that tells something wrong."""
    data, car, module = deepcopy(CLEAR["L in an L-shaped bay"])
    keys = ("count", "series", "parallel", "energy", "bound", "proven", "target_met", "bays", "weights")
    own = {"what": "same again", "difference": "none", **{key: data[key] for key in keys}}
    return data | {"alternatives": [own | changes]}, car, module


def no_strings() -> Case:
    """The L of no strings, and so of no windows, in a car that keeps each in one bay."""
    data, car, module = CLEAR["L in an L-shaped bay"]
    return data | {"series": 0}, replace(car, windows=(), string_in_one_bay=True), module


def nothing_else() -> Case:
    return alternative(bays=[], count=0, series=0, parallel=0, energy=0.0)


def roomy(left: float) -> Module:
    return replace(MODULE, room=FaceRoom(top=10.0, left=left))


L, TUNNELLED, POSTED, TWO = "L in an L-shaped bay", "step over a tunnel", "post in the notch", list(CLEAR)[3]
SLANTED = (*L_PLAN[:2], (212.5, 70.0), *L_PLAN[3:])
STRAIGHT_ON = (L_PLAN[0], (100.0, -10.5), *L_PLAN[1:])
TOUCHING = (*L_PLAN[:3], (-10.5, 70.5), (-10.5, 132.5), (-30.0, 132.5), (-30.0, -10.5))
CROSSED = ((0.0, 0.0), (90.0, 0.0), (90.0, 60.0), (30.0, 60.0), (30.0, -30.0), (0.0, -30.0))
COMB = (
    (0.0, 0.0), (500.0, 0.0), (500.0, 90.0), (400.0, 90.0), (400.0, 50.0), (300.0, 50.0), (300.0, 90.0),
    (200.0, 90.0), (200.0, 50.0), (0.0, 50.0),
)  # fmt: skip
SPUR = (*L_PLAN[:4], (110.5, 137.5), (105.5, 137.5), (105.5, 132.5), (-10.5, 132.5))
FACING = replace(MODULE, room=FaceRoom(top=10.0, front=2.0, back=2.0))
CASES: dict[str, tuple[str, Callable[[], Case], float]] = {
    "a side not square": ("outline", lambda: with_outline(moved(SLANTED)), 6.0),
    "a corner that is none": ("outline", lambda: with_outline(moved(STRAIGHT_ON)), 7.0),
    "clockwise": ("outline", lambda: with_outline(moved(L_PLAN)[::-1]), 6.0),
    "a side that touches another": ("outline", lambda: with_outline(moved(TOUCHING)), 7.0),
    "two parts that cross over": ("outline", lambda: with_outline(moved(CROSSED)), 6.0),
    "ten corners": ("outline", lambda: with_outline(moved(COMB)), 10.0),
    "three corners": ("outline", lambda: with_outline(moved(L_PLAN[:3])), 3.0),
    "nothing between two walls": ("outline", lambda: with_outline(moved(SPUR)), 5.0),
    "two flanges in one notch": ("outline", lambda: ruled(TWO, flange=144.0), 287.0),
    "outline of one tier only": ("outline", lambda: spoiled(TUNNELLED, told_one_outline), 0.0),
    "wider below": ("outline-nesting", lambda: spoiled(TUNNELLED, told_past_the_step), 2.0),
    "outside 1 further ahead": ("outside", lambda: spoiled(L, told_outside), 1.0),
    "tier told under the one below": ("tiers", lambda: spoiled(TUNNELLED, told_level), Z),
    "tier told too high": ("tiers", lambda: spoiled(TUNNELLED, told_height), Z + 63.0),
    "four corners told": ("shape", lambda: spoiled(L, told_corners), 4.0),
    "only rectangles allowed": ("shape", lambda: ruled(L, shape="rectangular"), 6.0),
    "only one box allowed": ("boxes", lambda: ruled(TWO, boxes=1), 2.0),
    "only one tier allowed": ("tiers", lambda: ruled(TUNNELLED, tiers=1), 2.0),
    "walls 34 away": ("flange", lambda: in_room(34.0), 12.0),
    "top 12 above the lid": ("bay-clearance", lambda: in_room(35.0, Z + 74.5), 12.0),
    "post 1 nearer to one arm": (
        "keepout-clearance",
        lambda: with_post(POSTED, (122.5, 83.5, -50.0), (140.0, 100.0, 45.0)),
        12.0,
    ),
    "post up to the flange of the notch": (
        "flange",
        lambda: with_post(POSTED, (123.5, 83.5, -50.0), (140.0, 100.0, 46.0)),
        12.0,
    ),
    "tunnel 1 higher": (
        "keepout-clearance",
        lambda: with_post(TUNNELLED, (123.5, -60.0, -13.0), (300.0, 90.0, 48.5)),
        12.0,
    ),
    "tunnel 1 further back": (
        "keepout-clearance",
        lambda: with_post(TUNNELLED, (122.5, -60.0, -13.0), (300.0, 90.0, 47.5)),
        12.0,
    ),
    # hand: the flange reaches y = -32.5, the post 30
    "post above the arm": (
        "insertion",
        lambda: with_post(POSTED, (150.0, 20.0, 200.0), (160.0, 30.0, 220.0)),
        -62.5,
    ),
    "hole 2 round the flange": ("opening", lambda: in_bay(L, opening=Opening("up", grown_l(24.0))), 2.0),
    "beside the arm 3.5 to the liner": ("module-in-box", lambda: shifted(L, 2, 1, 1.5), 3.5),
    "beside the arm on the bead": ("bead-fouled", lambda: beaded(L, 10.0), 5.0),
    "above the step on the bead": ("bead-fouled", lambda: beaded(TUNNELLED, 8.0), 4.0),
    "above the step 3.5 to the liner": ("module-in-box", lambda: shifted(TUNNELLED, 2, 0, 0.5), 3.5),
    "below, where only the tier above is": ("module-in-box", lambda: shifted(TUNNELLED, 0, 0, 100.0), 0.0),
    "room against the walls": ("module-in-box", lambda: (*CLEAR[TUNNELLED][:2], roomy(6.0)), 5.0),
    "3 above the step": ("floor", lambda: shifted(TUNNELLED, 2, 2, 3.0), 3.0),
    "step 1 lower": ("headroom", lambda: without_tunnel(lower_step), 4.0),
    "boxes 9 apart": ("box-clearance", lambda: nearer(1.0), 9.0),
    "neither goes in past the other": ("insertion-order", lambda: in_bay(TWO, opening=Opening("front")), 2.0),
    "strings in two bays": ("string-parted", parted, 7.0),
    "rooms not shared": ("module-room", lambda: (*CLEAR[L][:2], FACING), 2.0),
    "no strings at all": ("count", no_strings, 3.0),
    "alternative told one too many": ("alternative", lambda: alternative(count=4, bound=4), 3.0),
    "alternative of other strings": ("alternative", lambda: alternative(series=2), 3.0),
    "alternative told one too few": ("alternative", lambda: alternative(count=2, series=2), 3.0),
    "alternative of other energy": ("alternative", lambda: alternative(energy=4.4), 3.0),
    "alternative of nothing": ("alternative", nothing_else, 0.0),
}


def nearer(by: float) -> Case:
    """The box between the arms nearer to the spine, so that lid edges are 10 less `by` apart."""
    data, car, module = deepcopy(CLEAR[TWO])
    told_box = data["bays"][0]["boxes"][1]
    for table in (told_box["outside"], *told_box["modules"]):
        for corner in ("low", "high"):
            table[corner][1] -= by
    return data, car, module


@pytest.mark.parametrize("name", CLEAR)
def test_samples_are_clear(name: str) -> None:
    assert judge_layout(*CLEAR[name]) == ()


@pytest.mark.parametrize("name", CASES)
def test_spoiled_layout_yields_its_code_alone(name: str) -> None:
    code, case, figure = CASES[name]
    findings = judge_layout(*case())
    assert {finding.code for finding in findings} == {code}
    assert code in CODES
    assert findings[0].figure == pytest.approx(figure, abs=2e-4)


@pytest.mark.parametrize(
    "case",
    [
        pytest.param(ruled(TWO, flange=22.0), id="two flanges in a wide notch"),
        pytest.param(shifted(L, 2, 1, 0.0005), id="half a micrometre off"),
        pytest.param(beaded(L, 8.0), id="bead just reached"),
        pytest.param(shifted(L, 2, 1, 0.5), id="no bend at the floor of a stepped box"),
        pytest.param((*CLEAR[L][:2], replace(FACING, room_shared=True)), id="rooms shared face to face"),
        pytest.param((*CLEAR[TUNNELLED][:2], roomy(5.0)), id="room just as far as the walls"),
        pytest.param(alternative(), id="the same as an alternative"),
        pytest.param(
            (parted()[0], replace(parted()[1], string_in_one_bay=False), MODULE), id="strings apart"
        ),
    ],
)
def test_just_enough_is_clear(case: Case) -> None:
    assert judge_layout(*case) == ()


def test_a_plain_box_over_the_whole_extent_does_not_fit_where_the_l_does() -> None:
    def filled(told_box: Data) -> None:
        del told_box["tiers"]
        told_box["corners"] = 4

    codes = {finding.code for finding in judge_layout(*spoiled(L, filled))}
    assert codes == {"bay-clearance", "opening"}


def test_a_whole_string_in_each_bay_is_clear() -> None:
    data, car, module = parted()
    narrow = replace(car, windows=(Window("inverter", 10.0, 14.0),))
    assert judge_layout(data | {"series": 1, "parallel": 8}, narrow, module) == ()


def test_the_tunnel_leaves_no_room_for_a_plain_box() -> None:
    def straight_down(told_box: Data) -> None:
        for tier in told_box["tiers"]:
            del tier["outline"]
        told_box["corners"] = 4

    findings = judge_layout(*spoiled(TUNNELLED, straight_down))
    assert {finding.code for finding in findings} == {"keepout-clearance", "insertion"}
    assert TUNNEL.name in findings[0].text
