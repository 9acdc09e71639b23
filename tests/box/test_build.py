"""The parts of a box lie where the rules put them."""

from dataclasses import replace
from itertools import pairwise
from math import dist

import pytest
from hypothesis import given

from boxfit.bay import Block, BoxRules
from boxfit.box.build import box_parts
from boxfit.box.names import file_stem
from boxfit.box.parts import BoxParts, Part
from boxfit.box_details import TRAY_HOLE, screw_inset
from boxfit.layout import PlacedBox
from tests.box.samples import LOW, RULES, bay_with, box_around, boxes

TWO_TIERS = box_around(LOW, (600.0, 400.0), (138.0, 100.0), RULES)


def parts_of(rules: BoxRules = RULES, box: PlacedBox = TWO_TIERS, top: float = 900.0) -> BoxParts:
    """The parts of the box in a bay with that top."""
    return box_parts(bay_with(rules, top), 1, box)


def test_names_tell_bay_box_and_part() -> None:
    """As in files and drawings."""
    parts = parts_of()
    assert parts.cover_plate is not None
    assert parts.liner is not None
    named: tuple[Part, ...] = (parts.tray, parts.lid, parts.cover_plate, *parts.shelves, parts.liner)
    assert [part.name for part in named] == [
        "front bay box 1 tray",
        "front bay box 1 lid",
        "front bay box 1 cover plate",
        "front bay box 1 shelf 1",
        "front bay box 1 liner",
    ]
    assert [part.material for part in named] == [*["aluminium-5754"] * 4, "hdpe"]


def test_heights_stack_up() -> None:
    """By hand: floor 2.5, liner 3, tier 138, headroom 5, shelf 2.5, tier 100, headroom 5, lid 2."""
    parts = parts_of()
    assert parts.tray.outside == Block(LOW, (286.3, 199.9, 516.0))
    assert (parts.lid.plate.low[2], parts.lid.plate.high[2]) == (516.0, 518.0)
    assert parts.lid.plate.low[:2] == (LOW[0] - 22.0, LOW[1] - 22.0)
    (shelf,) = parts.shelves
    assert (shelf.plate.low[2], shelf.plate.high[2]) == (408.5, 411.0)
    assert shelf.plate.low[0] == pytest.approx(LOW[0] + 3.0)
    (bar,) = parts.tray.ledges
    assert (bar.outside.low[2], bar.outside.high[2], bar.width) == (403.5, 408.5, 5.0)
    assert parts.cover_plate is not None
    assert (parts.cover_plate.plate.low[2], parts.cover_plate.plate.high[2]) == (522.0, 524.0)


def test_wall_liner_stops_at_the_ledge_and_under_the_lid() -> None:
    """Lower sheets from the floor liner to the ledge, upper ones from the shelf to 0.5 below the lid."""
    liner = parts_of().liner
    assert liner is not None
    spans = {sheet.name: (sheet.sheet.low[2], sheet.sheet.high[2]) for sheet in liner.sheets}
    assert spans["floor"] == (262.5, 265.5)
    assert spans["front wall tier 1"] == (265.5, 403.5)
    assert spans["left wall tier 2"] == (411.0, 515.5)
    assert len(spans) == 9


def test_cover_plate_is_left_out_where_the_bay_is_too_low() -> None:
    """It ends at 524, its low nuts at 527.2; a bay of 528.2 less 3 of tolerance lacks 2."""
    parts = parts_of(top=528.2)
    assert parts.cover_plate is None
    assert parts.cover_plate_lacking == pytest.approx(2.0)
    assert parts.notes == ("front bay box 1: cover plate left out: 2 mm too little above the lid",)
    assert parts_of(top=530.2).cover_plate is not None


def test_square_corners_are_not_bent() -> None:
    """A welded tray has no bend radius, whatever the rules say of it."""
    assert parts_of().tray.bend_radius == 2.5
    assert parts_of(replace(RULES, process="welded")).tray.bend_radius is None


@given(boxes())
def test_screws_keep_their_rules(drawn: tuple[BoxRules, PlacedBox]) -> None:
    """Corners first, within 15 mm of them; even pitch of at most 80, not under 60 where the side permits."""
    rules, box = drawn
    parts = parts_of(rules, box)
    lid = parts.lid
    assert parts.tray.holes == lid.holes
    if not lid.holes:
        assert "no lid screws" in " ".join(parts.notes)
        return
    inset = screw_inset(rules)
    assert inset <= min(rules.flange / 2, 15.0)
    assert inset == min(rules.flange / 2, 15.0) or parts.gasket
    assert inset - TRAY_HOLE / 2 >= 1.5 * rules.thickness - 1e-9
    assert lid.holes[0] == pytest.approx((lid.plate.low[0] + inset, lid.plate.low[1] + inset))
    for axis, end in ((0, lid.plate.low[1]), (1, lid.plate.low[0])):
        row = sorted(hole[axis] for hole in lid.holes if hole[1 - axis] == pytest.approx(end + inset))
        gaps = [after - before for before, after in pairwise(row)]
        assert max(gaps) <= 80.0 + 1e-6
        assert min(gaps) == pytest.approx(max(gaps))
        assert min(gaps) >= 60.0 or sum(gaps) < 180.0
        assert row[0] - lid.plate.low[axis] <= 15.0 + 1e-6
    for number, hole in enumerate(lid.holes):
        assert all(dist(hole, other) > 20.0 for other in lid.holes[number + 1 :])


@given(boxes())
def test_no_part_is_where_another_is(drawn: tuple[BoxRules, PlacedBox]) -> None:
    """Ledges, shelves and liner stay clear of each other, of the bend and of the modules' room."""
    rules, box = drawn
    parts = parts_of(rules, box)
    wall = rules.thickness + rules.liner + rules.gap
    rooms = [
        Block(
            (box.low[0] + wall, box.low[1] + wall, tier.stands_on),
            (box.high[0] - wall, box.high[1] - wall, tier.stands_on + tier.height),
        )
        for tier in box.tiers
    ]
    sheets = [sheet.sheet for sheet in parts.liner.sheets] if parts.liner else []
    plates = [*sheets, *(shelf.plate for shelf in parts.shelves), parts.lid.plate]
    flat = [*rooms, *(Block(plate.low, plate.high) for plate in plates)]
    assert not [
        (one, other) for place, one in enumerate(flat) for other in flat[:place] if overlap(one, other)
    ]
    for bar in parts.tray.ledges:
        reach = bar.outside.low[0] + bar.width
        assert reach <= box.low[0] + wall
        band = Block((bar.outside.low[0], -1e4, bar.outside.low[2]), (reach, 1e4, bar.outside.high[2]))
        assert not [one for one in flat if overlap(band, one)]


def overlap(one: Block, other: Block) -> bool:
    """Whether two blocks share more than a thousandth of a millimetre."""
    return all(
        min(one.high[axis], other.high[axis]) - max(one.low[axis], other.low[axis]) > 1e-3
        for axis in range(3)
    )


def test_no_name_is_too_long_for_a_disk() -> None:
    """A hundred letters of any writing; what tells its kind still goes behind, and none are mixed up."""
    names = [f"{'前' * 100} box 1 foot {'后' * 99}{last}" for last in "后侧"]
    stems = [file_stem(name) for name in names]
    assert len(set(stems)) == 2
    assert all(180 <= len(stem.encode()) <= 200 for stem in stems)
    assert file_stem("a" * 200) == "a" * 200
