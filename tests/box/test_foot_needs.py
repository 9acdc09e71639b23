"""Thicker and wider feet, doublers, stronger hold-downs: made where allowed and needed, and proved."""

from dataclasses import replace
from functools import cache
from math import hypot

import pytest

from boxfit.bay import BoxRules, Mount, Opening
from boxfit.box.fitting import Strip
from boxfit.box.fittings_json import fittings_as_data
from boxfit.box.outside.around import meets, own_blocks
from boxfit.box.retention.feet import feet_of_box
from boxfit.box.retention.whole import Retention, retention_of
from boxfit.box.strip_legs import strip_blocks
from boxfit.box.welds import welds_of
from boxfit.box.whole import BuiltBox, built_boxes
from boxfit.car import Car, PullFactors
from boxfit.files.layout_json import layout_as_data
from boxfit.judge.finding import Finding
from boxfit.judge.fittings import judge_fittings
from boxfit.retention.use import Use
from boxfit.standards.load_factors import RULE_SETS
from tests.box.samples import HERON, RULES, car_and_layout

CAR, LAYOUT = car_and_layout()
FRONT = LAYOUT.bays[0].boxes[0]
TWENTY = RULE_SETS["twenty-g"]
STRONGER = replace(RULES, foot_thickest=12.0, foot_width=120.0, doubler_thickest=10.0)
NAME = "front bay box 1"


def car_by(rules: BoxRules, beside: float, up: float = 20.0) -> Car:
    """Mounts so far beside the long walls of the front box, and a little above its floor."""
    front, rear = CAR.bays
    places = (
        (x, y)
        for x in (FRONT.low[0] + 110.0, FRONT.high[0] - 110.0)
        for y in (FRONT.low[1] - beside, FRONT.high[1] + beside)
    )
    mounts = tuple(
        Mount(f"mount {number}", (x, y, FRONT.low[2] + up), "up", 8.0, 2.0, True)
        for number, (x, y) in enumerate(places, start=1)
    )
    opened = replace(front, mounts=mounts, opening=Opening("up"), box=rules)
    return replace(CAR, bays=(opened, replace(rear, box=rules)))


@cache
def built(rules: BoxRules, beside: float = 60.0) -> tuple[BuiltBox, ...]:
    return built_boxes(car_by(rules, beside), HERON, LAYOUT)


def reckoned(found: tuple[BuiltBox, ...]) -> Retention:
    return retention_of(TWENTY, HERON, found)


def at_feet(found: tuple[BuiltBox, ...]) -> list[Use]:
    return [use for use in reckoned(found).uses if "foot" in use.item or "doubler" in use.check]


def strips(found: tuple[BuiltBox, ...], kind: str) -> list[Strip]:
    return [strip for one in found for strip in one.parts.fittings.strips if strip.kind == kind]


def judged(rules: BoxRules, beside: float = 60.0) -> list[Finding]:
    found = judge_fittings(
        fittings_as_data(built(rules, beside)), car_by(rules, beside), HERON, layout_as_data(LAYOUT)
    )
    return [one for one in found if "foot" in one.place or "doubler" in one.place]


def test_the_usual_feet_fail_and_those_allowed_bear_far_more() -> None:
    plain, stronger = at_feet(built(RULES)), at_feet(built(STRONGER))
    worst = max(use.utilisation for use in plain if use.check == "wall at the foot")
    assert worst > 2.0
    for check in ("wall at the foot", "weld of the foot", "wall beside the weld", "foot bent across"):
        assert all(use.passes for use in stronger if use.check == check), check
    assert {"wall at the doubler", "weld of the doubler"} <= {use.check for use in stronger}


def test_doublers_are_no_thicker_than_it_takes_or_is_allowed() -> None:
    plates = strips(built(STRONGER), "doubler")
    assert len(plates) == 4
    assert {plate.material for plate in plates} == {"aluminium-5754"}
    thin = built(replace(STRONGER, doubler_thickest=2.0))
    assert max(plate.thickness for plate in strips(thin, "doubler")) == 2.0
    assert max(plate.thickness for plate in plates) > 2.0
    assert max(use.utilisation for use in at_feet(thin) if use.check == "wall at the foot") > 1.0


def test_a_foot_stands_on_its_doubler_and_all_is_judged_clear() -> None:
    found = built(STRONGER)
    plates = [block for plate in strips(found, "doubler") for block in strip_blocks(plate)]
    feet = [block for foot in strips(found, "foot") for block in strip_blocks(foot)]
    boxes = [block for one in found for block in own_blocks(one.parts)]
    assert not any(meets(plate, other) for plate in plates for other in (*feet, *boxes))
    assert judged(STRONGER) == []


def test_a_doubler_moved_off_its_wall_is_found() -> None:
    data = fittings_as_data(built(STRONGER))
    plate = next(one for one in data["boxes"][0]["strips"] if one["kind"] == "doubler")  # type: ignore[index]
    plate["start"][1] += -2.0 if plate["inwards"] == "right" else 2.0
    found = judge_fittings(data, car_by(STRONGER, 60.0), HERON, layout_as_data(LAYOUT))
    assert {"doubler-off-wall", "fitting-meets"} <= {one.code for one in found}


def test_wall_and_doubler_bend_each_by_itself() -> None:
    """Two sheets that slide on each other bear what their squares together do."""
    for foot in feet_of_box(built(STRONGER)[0]):
        plate = foot.wall.doubler
        assert plate is not None
        assert foot.wall.bending == pytest.approx(hypot(2.5, plate.thickness))
        assert foot.wall.under_weld == plate.thickness
        assert plate.width > foot.width
        assert plate.length >= foot.wall.length


def test_where_a_mount_leaves_no_room_it_is_told_and_the_foot_stays() -> None:
    """Beside a wall by just what the usual foot takes: a doubler would push it off its mount."""
    found = built(STRONGER, 29.0)
    assert len(strips(found, "foot")) == len(strips(built(RULES, 29.0), "foot")) == 4
    assert not strips(found, "doubler")
    notes = found[0].parts.fittings.notes
    assert any("foot for mount 1" in note and "found no room" in note for note in notes)
    assert judged(STRONGER, 29.0) == []


def test_the_seam_round_a_doubler_is_on_the_list_of_welds() -> None:
    front = built(STRONGER)[0]
    rows = [weld for weld in welds_of(front.parts, STRONGER) if weld.name == "doubler seam"]
    plates = strips((front,), "doubler")
    assert sum(weld.whole for weld in rows) == pytest.approx(
        sum(2.0 * (plate.width + plate.legs[0][1]) for plate in plates), rel=1e-3
    )


def test_feet_are_as_wide_as_asked_where_there_is_room() -> None:
    assert {foot.width for foot in strips(built(STRONGER), "foot")} == {120.0}
    too_wide = built(replace(RULES, foot_width=300.0))
    assert {foot.width for foot in strips(too_wide, "foot")} == {60.0}


def test_nothing_changes_while_nothing_is_allowed() -> None:
    zero = replace(RULES, foot_thickest=0.0, doubler_thickest=0.0, foot_width=60.0, hold_down_thickness=0.0)
    assert [one.parts for one in built(zero)] == [one.parts for one in built(RULES)]


def test_feet_that_pass_as_they_are_need_nothing() -> None:
    gentle = replace(car_by(STRONGER, 60.0), retention=PullFactors("", 1.0, 1.0, 1.0, 1.0, 1.0))
    found = built_boxes(gentle, HERON, LAYOUT)
    assert not strips(found, "doubler")
    assert {foot.thickness for foot in strips(found, "foot")} == {6.0}


def test_hold_downs_of_another_sheet() -> None:
    rules = replace(RULES, hold_down_material="stainless-1.4301", hold_down_thickness=3.0)
    bars = strips(built(rules), "hold-down")
    assert {(bar.material, bar.thickness) for bar in bars} == {("stainless-1.4301", 3.0)}
    bent = {use.item: use for use in reckoned(built(RULES)).uses if use.check == "bar bent"}
    for use in reckoned(built(rules)).uses:
        if use.check == "bar bent" and use.item in bent:
            assert use.utilisation < bent[use.item].utilisation


def test_bars_from_wall_to_wall_may_be_thicker_than_angles() -> None:
    rules = replace(RULES, hold_down_thickness=2.0, hold_down_bar_thickness=4.0)
    for bar in strips(built(rules), "hold-down"):
        assert bar.thickness == (2.0 if bar.holes else 4.0)
