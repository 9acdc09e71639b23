"""Hold-downs by rule: every module is pressed at two edges, or what is missing is told with what would do."""

import re
from dataclasses import replace

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from boxfit.bay import BoxRules
from boxfit.box.build import box_parts
from boxfit.box.fitting import Fittings
from boxfit.box.fittings_json import fittings_as_data
from boxfit.box.held import with_hold_downs
from boxfit.box.hold_down import hold_downs
from boxfit.box.strip_legs import strip_blocks
from boxfit.box.whole import BuiltBox
from boxfit.files.layout_json import layout_as_data
from boxfit.judge.finding import Finding
from boxfit.judge.hold_downs import judge_hold_downs
from boxfit.layout import BayLayout, PlacedBox, PlacedModule, Tier
from boxfit.module import FaceRoom, Module, stances
from tests.box.samples import HERON, LOW, RULES, bay_with, box_around, car_and_layout, plan_by, stepped_box

Grid = tuple[int, int]


def grid_box(
    module: Module, rules: BoxRules, tiers: tuple[frozenset[Grid], ...], lengthways: str
) -> PlacedBox:
    """A box of modules on a grid of up to three by three places, those given filled in each tier."""
    stance = next(one for one in stances(module) if one.length_along == lengthways)
    wall = rules.thickness + rules.liner + rules.gap
    pitch = tuple(side + module.spacing for side in stance.size[:2])
    count = tuple(max(place[axis] for tier in tiers for place in tier) + 1 for axis in (0, 1))
    plan = tuple(2 * wall + number * step - module.spacing for number, step in zip(count, pitch, strict=True))
    heights = (stance.size[2] + stance.room_high[2],) * len(tiers)
    empty = box_around(LOW, (plan[0], plan[1]), heights, rules)
    filled = tuple(
        replace(
            tier,
            modules=tuple(
                PlacedModule(
                    stance, (LOW[0] + wall + x * pitch[0], LOW[1] + wall + y * pitch[1], tier.stands_on)
                )
                for x, y in sorted(places)
            ),
        )
        for tier, places in zip(empty.tiers, tiers, strict=True)
    )
    return PlacedBox(empty.low, empty.high, filled)


def judged(box: PlacedBox, rules: BoxRules, module: Module) -> tuple[tuple[Finding, ...], Fittings]:
    """What the judge says of a box with its hold-downs, and these."""
    car, layout = car_and_layout()
    bay = bay_with(rules, top=2000.0)
    parts = with_hold_downs(box_parts(bay, 1, box), bay, box, module)
    data = fittings_as_data([BuiltBox(bay, 1, box, parts)])
    told = layout_as_data(replace(layout, bays=(BayLayout(bay.name, (box,)),)))
    return judge_hold_downs(data, replace(car, bays=(bay,)), module, told), parts.fittings


FULL = frozenset((x, y) for x in range(3) for y in range(2))


def test_two_rows_take_two_angles_along_walls_and_a_channel_between() -> None:
    """The channel is as wide as both strips and the joint: 12 + 2 + 12 mm."""
    box = grid_box(HERON, RULES, (FULL,), "y")
    findings, held = judged(box, RULES, HERON)
    assert (findings, held.notes) == ((), ())
    bars = [strip for strip in held.strips if strip.kind == "hold-down"]
    assert [[round(length) for _, length in bar.legs] for bar in bars] == [[25, 13], [25, 26, 25], [25, 13]]
    screws = sum(one.count for one in held.fasteners if one.thread.startswith("M6"))
    assert screws == sum(strip.bar for strip in held.strips) == 10
    assert sum(one.count for one in held.fasteners if "rubber" in one.what) == 12


def test_a_printed_box_has_an_insert_in_every_block() -> None:
    rules = replace(RULES, process="printed", material="petg", thickness=4.0)
    held = judged(grid_box(HERON, rules, (FULL,), "y"), rules, HERON)[1]
    blocks = sum(strip.bar for strip in held.strips)
    assert [one.count for one in held.fasteners if one.what.startswith("threaded insert")] == [blocks]
    assert blocks > 0
    folded = judged(grid_box(HERON, RULES, (FULL,), "y"), RULES, HERON)[1]
    assert not [one for one in folded.fasteners if one.what.startswith("threaded insert")]


def test_bars_stand_just_above_the_pads() -> None:
    """2 mm of pressed rubber over modules 108 mm high."""
    box = grid_box(HERON, RULES, (FULL,), "x")
    _, held = judged(box, RULES, HERON)
    bottoms = {
        min(block.low[2] for block in strip_blocks(strip))
        for strip in held.strips
        if strip.kind == "hold-down"
    }
    assert sorted(bottoms) == pytest.approx([box.tiers[0].stands_on + 108.0 + 2.0])


def test_held_left_and_right_turns_the_bars() -> None:
    """Along the other two edges of each module."""
    box = grid_box(HERON, RULES, (FULL,), "y")
    asked = replace(HERON, held_at=("left", "right"))
    findings, held = judged(box, RULES, asked)
    assert (findings, held.notes) == ((), ())
    assert {strip.along for strip in held.strips if strip.kind == "hold-down"} == {"left"}


@st.composite
def grids(draw: st.DrawFn) -> tuple[Module, BoxRules, tuple[frozenset[Grid], ...], str]:
    """Some places of a grid in one or two tiers, of modules and rules of many kinds."""
    places = st.frozensets(st.tuples(st.integers(0, 2), st.integers(0, 2)), min_size=1)
    rules = replace(
        RULES,
        process=draw(st.sampled_from(["folded", "welded", "printed"])),
        thickness=draw(st.sampled_from([1.5, 2.5, 4.0])),
        liner=draw(st.sampled_from([0.0, 3.0, 5.0])),
        gap=draw(st.sampled_from([0.0, 1.0, 4.0, 9.0])),
        headroom=draw(st.sampled_from([0.0, 5.0, 12.0, 30.0])),
        gasket_width=10.0,
        gasket_thickness=draw(st.sampled_from([0.0, 3.0])),
    )
    module = replace(
        HERON,
        length=draw(st.sampled_from([80.0, 180.0, 355.0])),
        width=draw(st.sampled_from([40.0, 151.0])),
        spacing=draw(st.sampled_from([0.0, 2.0, 20.0])),
        room=FaceRoom(top=draw(st.sampled_from([0.0, 18.0, 30.0])), front=draw(st.sampled_from([0.0, 8.0]))),
        held_at=draw(st.sampled_from([("front", "back"), ("right", "left")])),
        held_width=draw(st.sampled_from([4.0, 12.0, 30.0])),
    )
    # the room at a front is kept off the next module and the wall by the spacing here
    module = replace(module, spacing=max(module.spacing, module.room.front))
    tiers = tuple(draw(st.lists(places, min_size=1, max_size=2)))
    return module, rules, tiers, draw(st.sampled_from(["x", "y"]))


@settings(max_examples=60, deadline=None)
@given(grid=grids())
@example(grid=(HERON, RULES, (FULL, FULL), "y"))
@example(grid=(HERON, RULES, (FULL, frozenset({(1, 1)})), "x"))
def test_whatever_the_box_nothing_meets_and_what_is_not_held_is_told(
    grid: tuple[Module, BoxRules, tuple[frozenset[Grid], ...], str],
) -> None:
    """By the independent judge."""
    module, rules, tiers, lengthways = grid
    findings, _ = judged(grid_box(module, rules, tiers, lengthways), rules, module)
    assert findings == ()


@pytest.mark.parametrize(
    ("headroom", "tiers"), [(0.0, (FULL,)), (5.0, (FULL, FULL)), (12.0, (FULL, FULL))], ids=str
)
def test_too_low_for_a_bar_tells_the_headroom_that_does(
    headroom: float, tiers: tuple[frozenset[Grid], ...]
) -> None:
    """Asked for once more with the headroom told, every module is held; with a millimetre less it is not."""
    flat = replace(HERON, room=FaceRoom())
    rules = replace(RULES, headroom=headroom)
    _, held = judged(grid_box(flat, rules, tiers, "y"), rules, flat)
    assert held.strips == ()
    assert len(held.notes) == len(tiers)
    told = max(float(found) for note in held.notes for found in re.findall(r"box\.headroom = ([\d.]+)", note))
    enough, short = (replace(RULES, headroom=told - less) for less in (0.0, 1.0))
    assert judged(grid_box(flat, enough, tiers, "y"), enough, flat)[1].notes == ()
    assert judged(grid_box(flat, short, tiers, "y"), short, flat)[1].notes != ()


def test_no_room_for_a_block_tells_the_gap_that_does() -> None:
    """An M6 wants 5 mm between wall and modules, and half a millimetre of air."""
    rules = replace(RULES, gap=1.0)
    _, held = judged(grid_box(HERON, rules, (FULL,), "y"), rules, HERON)
    assert held.strips == ()
    assert "box.gap = 2.5 would do" in held.notes[0]
    enough = replace(RULES, gap=2.5)
    assert judged(grid_box(HERON, enough, (FULL,), "y"), enough, HERON)[1].notes == ()


def test_shelves_and_liner_make_room_for_the_blocks_above() -> None:
    """The shelf gets four corners for every block of the tier above; the liner a notch for every block."""
    box = grid_box(HERON, RULES, (FULL, frozenset({(0, 0), (1, 0), (2, 0)})), "y")
    bay = bay_with(RULES)
    parts = with_hold_downs(box_parts(bay, 1, box), bay, box, HERON)
    blocks = [strip_blocks(strip)[0] for strip in parts.fittings.strips if strip.bar]
    above = [block for block in blocks if block.low[2] > parts.shelves[0].plate.top]
    assert above
    assert len(parts.shelves[0].plate.outline) == 4 + 4 * len(above)
    assert parts.liner is not None
    assert len(parts.liner.notches) == len(blocks)


def test_a_stepped_box_is_held_piece_by_piece() -> None:
    """An L of two pieces whose rows do not line up: each has its own bars along its own walls."""
    outline = plan_by("L", ((0.0, 180.0, 360.0, 520.0), (0.0, 374.0, 560.0, 750.0)))
    rules = replace(RULES, shape="stepped")
    empty = stepped_box((outline,), (138.0,), rules)
    stance = next(one for one in stances(HERON) if one.length_along == "y")
    level = empty.tiers[0].stands_on
    places = [(LOW[0] + 9.5 + step * 153.0, LOW[1] + 9.5, level) for step in range(3)]
    places.append((LOW[0] + 9.5, LOW[1] + 9.5 + 357.0, level))
    modules = tuple(PlacedModule(stance, place) for place in places)
    box = replace(empty, tiers=(Tier(level, 138.0, modules, outline),))
    findings, held = judged(box, rules, HERON)
    assert findings == ()
    assert len([strip for strip in held.strips if strip.kind == "hold-down"]) >= 3


def test_packers_fill_every_gap_once() -> None:
    """Three by two modules: each wall side and each joint, none counted from both sides."""
    box = grid_box(HERON, RULES, (FULL,), "y")
    packed = {one.thread: one.count for one in hold_downs("box", bay_with(RULES), box, HERON).fasteners}
    assert packed["2 x 108 x 355 mm"] == 4
    assert packed["2 x 108 x 151 mm"] == 3
    assert packed["4 x 108 x 355 mm"] == 4
    assert packed["4 x 108 x 151 mm"] == 6
