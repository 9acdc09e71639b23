"""Bars give way where a cable finds no room otherwise, and nothing is held less for it."""

from dataclasses import replace

from boxfit.bay import Block, Keepout, Opening
from boxfit.box.fittings_json import fittings_as_data
from boxfit.box.hold_down_place import meets
from boxfit.box.outside.standing import Standing, site_of
from boxfit.box.whole import BuiltBox, built_boxes
from boxfit.car import Car
from boxfit.files.layout_json import layout_as_data
from boxfit.judge.fittings import judge_fittings
from boxfit.judge.hold_downs import judge_hold_downs
from boxfit.layout import Layout
from boxfit.module import FaceRoom, Module
from tests.box.samples import HERON, box_around, car_and_layout, filled_box

CAR, WHOLE = car_and_layout()
BOX = filled_box((-300.0, -184.5, 280.0), 3, 1)
LAYOUT = replace(
    WHOLE, count=3, bays=(replace(WHOLE.bays[0], boxes=(BOX,)), replace(WHOLE.bays[1], boxes=()))
)
AHEAD = Keepout("wall ahead", Block((210.0, -500.0, 210.0), (240.0, 500.0, 800.0)), 5.0)
BEHIND = Keepout("wall behind", Block((-370.0, -500.0, 210.0), (-340.0, 500.0, 800.0)), 5.0)


def car_with(*keepouts: Keepout) -> Car:
    front = replace(CAR.bays[0], opening=Opening("up"), keepouts=keepouts)
    return replace(CAR, bays=(front, CAR.bays[1]))


def findings(
    car: Car, built: tuple[BuiltBox, ...], layout: Layout = LAYOUT, module: Module = HERON
) -> object:
    told, laid = fittings_as_data(built), layout_as_data(layout)
    return (*judge_fittings(told, car, module, laid), *judge_hold_downs(told, car, module, laid))


def bars(one: BuiltBox) -> list[float]:
    return [strip.width for strip in one.parts.fittings.strips if strip.kind == "hold-down"]


def test_bars_stay_whole_where_cables_find_room() -> None:
    car = car_with()
    (one,) = built_boxes(car, HERON, LAYOUT)
    assert bars(one) == [457.0, 457.0]
    slots = [each for each in one.parts.fittings.bought if each.kind == "bars and glands"]
    assert {each.looks for each in slots} <= {"front", "rear"}
    assert findings(car, (one,)) == ()


def test_bars_end_short_beside_a_slot_where_only_their_walls_are_free() -> None:
    car = car_with(AHEAD, BEHIND)
    (one,) = built_boxes(car, HERON, LAYOUT)
    slots = [each for each in one.parts.fittings.bought if each.kind == "bars and glands"]
    assert {each.looks for each in slots} <= {"left", "right"}
    assert len(bars(one)) == 3
    assert "no room for" not in " ".join(one.parts.fittings.notes)
    assert "not held" not in " ".join(one.parts.fittings.notes)
    assert findings(car, (one,)) == ()


def test_a_module_too_narrow_to_give_way_stays_held_and_the_cable_is_told() -> None:
    """A fifth of two strips 50 long is room neither for a slot of 61 mm nor for a nut of 24 mm."""
    module = replace(HERON, width=50.0)
    box = filled_box((-300.0, -184.5, 280.0), 3, 1, module)
    layout = replace(LAYOUT, bays=(replace(LAYOUT.bays[0], boxes=(box,)), LAYOUT.bays[1]))
    ahead = replace(AHEAD, solid=Block((-92.0, -500.0, 210.0), (-62.0, 500.0, 800.0)))
    car = car_with(ahead, BEHIND)
    (one,) = built_boxes(car, module, layout)
    assert len(bars(one)) == 2
    assert "no room for the main cables" in " ".join(one.parts.fittings.notes)
    assert findings(car, (one,), layout, module) == ()


def test_rooms_at_the_sides_are_kept_and_the_one_above_is_not() -> None:
    """Room of 6 mm at the front of each module: nothing may reach into it behind the walls."""
    module = replace(HERON, room=FaceRoom(top=30.0, front=6.0))
    bare = box_around((0.0, 0.0, 260.0), (400.0, 200.0), (138.0,), CAR.bays[0].box)
    box = replace(bare, tiers=filled_box((0.0, 0.0, 260.0), 1, 1, module).tiers)
    parts = built_boxes(car_with(), HERON, LAYOUT)[0].parts
    site = site_of(Standing(CAR.bays[0], box, replace(parts, fittings=type(parts.fittings)())), [])
    (body,) = box.modules
    beside = [each for each in site.inside if not meets(each, Block(body.low, body.high))]
    assert any(each.high[1] - each.low[1] == 6.0 or each.high[0] - each.low[0] == 6.0 for each in beside)
    assert [each.high[2] - each.low[2] for each in site.above] == [30.0]


def test_ribs_of_a_printed_box_end_short_of_what_reaches_in() -> None:
    rules = replace(CAR.bays[0].box, process="printed", material="petg", thickness=4.0, lid_thickness=4.0)
    car = replace(car_with(), bays=(replace(car_with().bays[0], box=rules), CAR.bays[1]))
    (one,) = built_boxes(car, HERON, LAYOUT)
    ribs, sheet = one.parts.tray.ribs, one.parts.tray.thickness
    assert ribs
    walls = [each for each in one.parts.tray.cutouts if each.looks in ("front", "rear")]
    assert walls
    for each in walls:
        inwards = -1.0 if each.looks == "front" else 1.0
        ends = sorted(each.at[0] + inwards * far for far in (sheet, sheet + 15.0))
        wide, high = (each.diameter,) * 2 if each.diameter else each.size
        (_, y, z), nut = each.at, 7.0
        low, top = (ends[0], y - wide / 2.0 - nut, z - high / 2.0 - nut), (ends[1], y + wide / 2.0 + nut, z)
        assert not any(meets(Block(low, top), rib) for rib in ribs)
