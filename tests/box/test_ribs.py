"""Ribs of printed boxes: where the liner was, under every module, out of the way of shelves and cutouts."""

from dataclasses import replace
from itertools import combinations, pairwise

import pytest

from boxfit.bay import Block
from boxfit.box.build import box_parts, box_ribs
from boxfit.box.fitting import Cutout
from boxfit.box.parts import BoxParts
from boxfit.box.rib_clear import with_clear_ribs
from boxfit.box_ribs import RIB_PITCH, floor_ribs, wall_ribs
from boxfit.box_shape import rectangle
from boxfit.weight.box_mass import part_masses
from tests.box.samples import LOW, RULES, bay_with, box_around, plan_by, stepped_box

PRINTED = replace(RULES, process="printed", material="petg", thickness=4.0, flange=24.0)
BOX = box_around(LOW, (300.0, 200.0), (100.0, 110.0), PRINTED)


def parts() -> BoxParts:
    return box_parts(bay_with(PRINTED), 1, BOX)


def apart(one: Block, other: Block) -> bool:
    pairs = zip(one.low, one.high, other.low, other.high, strict=True)
    return any(high <= start or end <= low for low, high, start, end in pairs)


def test_ribs_stand_where_the_liner_was() -> None:
    """No liner sheet; no rib reaches farther in than it did, nor on the floor higher."""
    made = parts()
    assert made.liner is None
    inside = [low + 4.0 + 3.0 for low in BOX.low], [high - 4.0 - 3.0 for high in BOX.high]
    for rib in made.tray.ribs:
        over_floor = rib.high[2] - BOX.low[2] == pytest.approx(4.0 + 3.0)
        beside = any(
            rib.high[axis] <= inside[0][axis] + 1e-9 or rib.low[axis] >= inside[1][axis] - 1e-9
            for axis in (0, 1)
        )
        assert over_floor or beside
    assert all(apart(one, other) for one, other in combinations(made.tray.ribs, 2))


def test_every_module_lies_on_ribs_at_most_the_pitch_apart() -> None:
    """From where modules may begin to where they must end, 11 mm from either outside."""
    plans = sorted(floor_ribs(rectangle((0.0, 0.0), (300.0, 200.0)), PRINTED))
    assert plans[0] == ((11.0, 11.0), (15.0, 189.0))
    assert plans[-1][1] == (289.0, 189.0)
    steps = [after[0][0] - before[0][0] for before, after in pairwise(plans)]
    assert max(steps) <= RIB_PITCH
    assert max(steps) == pytest.approx(min(steps))


def test_ribs_by_hand() -> None:
    """Inside 92 x 72: two on each long side, one on each short one; on the floor three, 58 long."""
    outline = rectangle((0.0, 0.0), (100.0, 80.0))
    assert len(wall_ribs(outline, PRINTED)) == 2 * 2 + 2 * 1
    low = replace(PRINTED, headroom=5.0)
    tray = part_masses((outline,), 120.0, (7.0,), low)[0]
    bare = part_masses((outline,), 120.0, (7.0,), replace(low, liner=0.0))[0]
    on_floor = 3 * 4.0 * 58.0 * 3.0
    on_walls = 6 * 4.0 * 3.0 * (120.0 - 2.0 - 0.5 - 4.0)
    assert len(floor_ribs(outline, PRINTED)) == 3
    assert tray.volume - bare.volume == pytest.approx(on_floor + on_walls)


def test_no_liner_no_ribs_and_none_in_other_boxes() -> None:
    outline = plan_by("L")
    for rules in (replace(PRINTED, liner=0.0), replace(PRINTED, process="welded")):
        assert wall_ribs(outline, rules) == floor_ribs(outline, rules) == ()
    box = stepped_box((outline,), (100.0,), PRINTED)
    assert len(box_ribs(box, PRINTED)) > 20


def test_shelves_drop_in_past_the_ribs_and_still_bear_on_the_ledge() -> None:
    made = parts()
    shelf, ledge = made.shelves[0].plate, made.tray.ledges[0]
    for rib in made.tray.ribs:
        way = Block(shelf.low, (*shelf.high[:2], BOX.high[2]))
        assert apart(rib, way) or rib.high[2] <= shelf.bottom
    bearing = ledge.outside.low[0] + ledge.width - shelf.low[0]
    # hand: ledge 3 + 4 / 2 wide, ribs 3 and air 0.5 beside them
    assert bearing == pytest.approx(1.5)


def test_ribs_end_short_of_cutouts() -> None:
    """A hole of 40 in the front wall and a drain; the ribs they meet end 10 mm from them, others stay."""
    made = parts()
    middle = (BOX.high[0], BOX.low[1] + 100.0, BOX.low[2] + 60.0)
    hole = Cutout("gland", "front", middle, diameter=40.0)
    drain = Cutout("drain", "down", (BOX.low[0] + 50.0, BOX.low[1] + 50.0, BOX.low[2]), diameter=12.0)
    cleared = with_clear_ribs(replace(made, tray=replace(made.tray, cutouts=(hole, drain)))).tray.ribs
    gone = set(made.tray.ribs) - set(cleared)
    assert gone
    for rib in cleared:
        if rib.high[0] > BOX.high[0] - 8.0 and abs(rib.low[1] - middle[1]) < 30.0:
            assert rib.high[2] <= middle[2] - 30.0 or rib.low[2] >= middle[2] + 30.0
    assert with_clear_ribs(made) is made
