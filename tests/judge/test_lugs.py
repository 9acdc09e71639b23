"""The judge of lugs: those that are made are clear, each spoiled a little yields its own code and figure."""

from collections.abc import Callable
from copy import deepcopy
from dataclasses import replace
from math import hypot
from typing import Any

import pytest

from boxfit.bay import Bay, Block, Keepout, Opening
from boxfit.box.fittings_json import fittings_as_data
from boxfit.box.whole import built_boxes
from boxfit.car import Car
from boxfit.files.layout_json import layout_as_data
from boxfit.judge.finding import Finding
from boxfit.judge.fittings import judge_fittings
from tests.box.samples import HERON, car_and_layout

Data = dict[str, Any]
CAR, LAYOUT = car_and_layout()
OPEN = replace(CAR, bays=tuple(replace(bay, opening=Opening("up")) for bay in CAR.bays))
FITTINGS = fittings_as_data(built_boxes(OPEN, HERON, LAYOUT))
LAID = layout_as_data(LAYOUT)


def lugs_of(data: Data) -> list[Data]:
    return [strip for strip in data["boxes"][0]["strips"] if strip["kind"] == "lifting lug"]


def judged(change: Callable[[list[Data]], None], car: Car = OPEN) -> list[Finding]:
    data: Data = deepcopy(FITTINGS)
    change(lugs_of(data))
    return [one for one in judge_fittings(data, car, HERON, LAID) if "lug" in one.place or "lug" in one.code]


def as_made(_: list[Data]) -> None:
    """Nothing changed."""


def out(lug: Data) -> tuple[int, float]:
    """The axis and sign a lug points along."""
    way = lug["legs"][0]["way"]
    return (0 if way in ("front", "rear") else 1, 1.0 if way in ("front", "left") else -1.0)


def off_wall(lugs: list[Data]) -> None:
    axis, sign = out(lugs[0])
    lugs[0]["start"][axis] += 1.5 * sign


def in_wall(lugs: list[Data]) -> None:
    axis, sign = out(lugs[0])
    lugs[0]["start"][axis] -= 1.5 * sign


def hole_up(lugs: list[Data]) -> None:
    """From 20 under its upper edge to 15: 8 of metal are left."""
    lugs[0]["holes"][0]["along"] = 15.0


def hole_out(lugs: list[Data]) -> None:
    """4 nearer to the outer edge, from 9 of metal to 5."""
    lugs[0]["holes"][0]["across"] += 4.0


def rounder(lugs: list[Data]) -> None:
    """Corners so round that they come to the hole: R19 with the hole 16 and 17 from the edges."""
    lugs[0]["rounded"] = 19.0
    lugs[0]["holes"][0]["along"] = 17.0


def under_flange(lugs: list[Data]) -> None:
    """The flange is 22 wide."""
    lugs[0]["holes"][0]["across"] = 22.0 + 7.0


def two_holes(lugs: list[Data]) -> None:
    lugs[0]["holes"].append(dict(lugs[0]["holes"][0]))


def all_to_one_end(lugs: list[Data]) -> None:
    """Both pairs drawn together at one end of their walls, the modules' middle beyond them."""
    along = 1 - out(lugs[0])[0]
    ends = [lug["start"][along] for lug in lugs]
    for lug in lugs:
        lug["start"][along] = max(ends) - 60.0 * (lug["start"][along] < max(ends) - 1e-3)


def beside(lug: Data, far: float) -> Block:
    """A post so far beside the tip of a lug, lower than its upper edge."""
    axis, sign = out(lug)
    tip = lug["start"][axis] + sign * (lug["legs"][0]["length"] + far)
    at = [lug["start"][0], lug["start"][1], lug["start"][2] - 20.0]
    low, high = [value - 5.0 for value in at], [value + 5.0 for value in at]
    low[axis], high[axis] = sorted((tip, tip + sign * 10.0))
    return Block((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def with_post(far: float, over: float = 0.0) -> Car:
    bay: Bay = OPEN.bays[0]
    block = beside(lugs_of(FITTINGS)[0], far)
    x, y, z = block.low
    a, b, c = block.high
    post = Keepout("post", Block((x, y, z + over), (a, b, c + over)), bay.tolerance + 10.0)
    return replace(OPEN, bays=(replace(bay, keepouts=(post,)), *OPEN.bays[1:]))


CASES: dict[str, tuple[Callable[[list[Data]], None], str, float | None]] = {
    "off its wall": (off_wall, "lug-off-box", 1.5),
    "in its wall": (in_wall, "fitting-meets", -1.5),
    "hole near the upper edge": (hole_up, "lug-hole", 8.0),
    "hole near the outer edge": (hole_out, "lug-hole", 5.0),
    "pin under the flange": (under_flange, "lug-hole", 7.0),
    "two holes": (two_holes, "lug-hole", 2.0),
    "a lug short": (lambda lugs: lugs[0].update(kind="spreading plate"), "lug-balance", 0.0),
}


def test_lugs_as_made_are_clear() -> None:
    assert len(lugs_of(FITTINGS)) == 4
    assert judged(as_made) == []


@pytest.mark.parametrize("name", CASES)
def test_spoiled_lugs_yield_their_code(name: str) -> None:
    change, code, figure = CASES[name]
    found = judged(change)
    assert code in {one.code for one in found}
    assert any(one.code == code and one.figure == pytest.approx(figure, abs=2e-3) for one in found)


def test_corners_may_not_come_to_the_hole() -> None:
    (found,) = judged(rounder)
    assert found.code == "lug-hole"
    assert found.figure == pytest.approx(19.0 - hypot(3.0, 2.0) - 7.0, abs=2e-3)


def test_lugs_at_one_end_do_not_hold_the_box_level() -> None:
    found = [one for one in judged(all_to_one_end) if one.code == "lug-balance"]
    assert found
    assert found[0].figure is not None
    assert found[0].figure > 50.0


def test_a_post_beside_a_lug_is_told_with_its_distance() -> None:
    tolerance = OPEN.bays[0].tolerance
    assert judged(as_made, with_post(tolerance + 0.5)) == []
    found = [one for one in judged(as_made, with_post(tolerance - 1.0)) if one.code == "fitting-outside"]
    assert [one.figure for one in found] == [pytest.approx(tolerance - 1.0, abs=2e-3)]


def test_what_stands_over_a_lug_is_told_on_the_way_in() -> None:
    """The box goes up and out, a post 100 mm over the lug's tip is in its way but in nothing else's."""
    found = judged(as_made, with_post(-5.0, 100.0))
    assert {one.code for one in found} == {"insertion"}
