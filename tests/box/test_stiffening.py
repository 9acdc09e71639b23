"""Stiffening bars on whole boxes: as few as pass, clear of all else, the same in every list."""

from dataclasses import replace
from functools import cache
from itertools import combinations

import pytest

from boxfit.bay import BoxRules, Mount, Opening
from boxfit.box.fittings_json import fittings_as_data
from boxfit.box.outside.around import meets, own_blocks
from boxfit.box.retention.whole import retention_of
from boxfit.box.strip_legs import strip_blocks
from boxfit.box.welds import welds_of
from boxfit.box.whole import BuiltBox, built_boxes
from boxfit.car import Car
from boxfit.files.layout_json import layout_as_data
from boxfit.judge.fittings import judge_fittings
from boxfit.retention.use import Use
from boxfit.standards.load_factors import RULE_SETS
from tests.box.samples import HERON, RULES, car_and_layout

CAR, LAYOUT = car_and_layout()
FRONT = LAYOUT.bays[0].boxes[0]
TWENTY = RULE_SETS["twenty-g"]
DEEP = replace(RULES, stiffening_depth=25.0, stiffening_floor_depth=40.0)
MOUNTS = tuple(
    Mount(f"mount {number}", (x, y, FRONT.low[2] - 45.0), "up", 8.0, 2.0, True)
    for number, (x, y) in enumerate(
        (
            (x, y)
            for x in (FRONT.low[0] + 60.0, FRONT.high[0] - 60.0)
            for y in (FRONT.low[1] - 30.0, FRONT.high[1] + 30.0)
        ),
        start=1,
    )
)


def car_by(rules: BoxRules) -> Car:
    front, rear = CAR.bays
    return replace(
        CAR, bays=(replace(front, mounts=MOUNTS, opening=Opening("up"), box=rules), replace(rear, box=rules))
    )


@cache
def built(rules: BoxRules) -> tuple[BuiltBox, ...]:
    return built_boxes(car_by(rules), HERON, LAYOUT)


def bars(one: BuiltBox, along: str = "") -> list[object]:
    strips = [strip for strip in one.parts.fittings.strips if strip.kind == "stiffening bar"]
    return [strip for strip in strips if along in ("", strip.along)]


def panels(found: tuple[BuiltBox, ...]) -> dict[str, Use]:
    """Every check of a wall or floor of the front box, by item and check."""
    uses = retention_of(TWENTY, HERON, found).boxes[0].uses
    return {
        f"{use.item}, {use.check}": use
        for use in uses
        if ("wall" in use.item or "floor" in use.item) and "foot" not in use.item
    }


def test_walls_and_floor_that_failed_pass_with_bars() -> None:
    plain, barred = panels(built(RULES)), panels(built(DEEP))
    assert not plain["front bay box 1 left wall, bent by the modules behind it"].passes
    assert not plain["front bay box 1 floor, bent by the modules on it"].passes
    assert all(use.passes for name, use in barred.items() if "floor" in name)
    assert any("bent between its bars" in name for name in barred)
    # what stands on a wall may leave no room for enough bars; then it fails as told, less than before
    for name, use in barred.items():
        if "between its bars" in name and not use.passes:
            assert use.utilisation < plain[name.replace("between its bars ", "")].utilisation


def test_one_bar_less_would_not_do() -> None:
    front = built(DEEP)[0]
    for along in ("down", "left", "right"):
        own = bars(front, along)
        fewer = retention_without(front, own[len(own) // 2])
        assert any(not use.passes for use in fewer), along


def retention_without(one: BuiltBox, left_out: object) -> list[Use]:
    own = one.parts.fittings
    kept = tuple(strip for strip in own.strips if strip is not left_out)
    parts = replace(one.parts, fittings=replace(own, strips=kept))
    uses = retention_of(TWENTY, HERON, (replace(one, parts=parts),)).boxes[0].uses
    return [use for use in uses if "between its bars" in use.check or "stiffening bars" in use.item]


@pytest.mark.parametrize("process", ["folded", "welded"])
def test_bars_meet_nothing_and_stay_in_their_room(process: str) -> None:
    rules = replace(DEEP, process=process)  # type: ignore[arg-type]
    found = built(rules)
    blocks = [(bar, block) for one in found for bar in bars(one) for block in strip_blocks(bar)]  # type: ignore[arg-type]
    assert blocks
    others = [block for one in found for block in own_blocks(one.parts)]
    others += [
        block
        for one in found
        for strip in one.parts.fittings.strips
        if strip.kind != "stiffening bar"
        for block in strip_blocks(strip)
    ]
    others += [
        block for one in found for each in one.parts.fittings.bought for block in (each.body, each.keeps)
    ]
    assert not any(meets(block, other) for _, block in blocks for other in others)
    assert not any(meets(one, other) for (_, one), (_, other) in combinations(blocks, 2))
    car = car_by(rules)
    codes = [
        finding.code
        for finding in judge_fittings(fittings_as_data(found), car, HERON, layout_as_data(LAYOUT))
        if "stiffening bar" in finding.place and finding.place.startswith("front bay")
    ]
    assert codes == []


def test_without_the_keys_nothing_changes() -> None:
    zero = replace(RULES, stiffening_depth=0.0, stiffening_floor_depth=0.0)
    assert [one.parts for one in built(zero)] == [one.parts for one in built(RULES)]
    assert not any(bars(one) for one in built(RULES))


def test_bars_only_where_they_are_asked() -> None:
    floor = built(replace(RULES, stiffening_floor_depth=40.0))
    walls = built(replace(RULES, stiffening_depth=25.0, stiffening_floor_depth=0.0))
    assert bars(floor[0], "down")
    assert len(bars(floor[0])) == len(bars(floor[0], "down"))
    assert bars(walls[0], "left")
    assert not bars(walls[0], "down")


def test_none_on_a_printed_box_or_where_light_modules_press() -> None:
    printed = replace(DEEP, process="printed", material="petg")
    assert not any(bars(one) for one in built(printed))
    assert (printed.bars_beside, printed.bars_below) == (0.0, 0.0)
    light = built_boxes(car_by(DEEP), replace(HERON, mass=0.2), LAYOUT)
    assert not any(bars(one) for one in light)


def test_stitches_are_on_the_list_of_welds() -> None:
    front = built(DEEP)[0]
    rows = [weld for weld in welds_of(front.parts, DEEP) if weld.name == "bar stitch"]
    assert {weld.joins for weld in rows} == {"stiffening bar and floor", "stiffening bar and wall"}
    under = sum(weld.quantity for weld in rows if weld.joins.endswith("floor"))
    assert under % (2 * len(bars(front, "down"))) == 0
    assert all(weld.length <= 60.0 for weld in rows)


def test_where_bars_stand_is_told() -> None:
    note = next(note for note in built(DEEP)[0].parts.fittings.notes if "stiffening bars" in note)
    assert "mm from its rear end" in note
    assert "floor" in note
