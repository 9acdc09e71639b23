"""Where a tray stops being one blank: just at the blank the sheet takes, and the fold the brake takes."""

from dataclasses import replace
from math import dist

import pytest
from hypothesis import given, settings

from boxfit.bay import BoxRules
from boxfit.box.build import box_parts
from boxfit.box.notes import cannot_build
from boxfit.box_blank import blank_limits, floor_radius, fold_of
from boxfit.box_shape import rectangle
from boxfit.layout import PlacedBox
from boxfit.sheet.cross import cross_blank
from boxfit.workshop import FoldedK, FoldShop
from tests.box.samples import LOW, RULES, bay_with, box_around, boxes

BOX = box_around(LOW, (480.3, 390.7), (138.0, 120.0), RULES)


def is_bent(rules: BoxRules, box: PlacedBox = BOX) -> bool:
    return box_parts(bay_with(rules), 1, box).tray.floor_radius is not None


@pytest.mark.parametrize("flange", [0.0, 22.0])
def test_the_sheet_and_the_brake_decide(flange: float) -> None:
    """The blank with 10 mm of edge all round, and the longest of its folds, to a hundredth."""
    rules = replace(RULES, flange=flange)
    flat = cross_blank(box_parts(bay_with(rules), 1, BOX).tray, rules)
    wide, deep = (side + 20.0 for side in flat.size)
    longest = max(dist(bend.start, bend.end) for bend in flat.bends)
    for sheet, brake, one_blank in (
        ((wide + 0.01, deep + 0.01), 2500.0, True),
        ((deep + 0.01, wide + 0.01), 2500.0, True),
        ((wide - 0.01, deep + 0.01), 2500.0, False),
        ((wide + 0.01, deep - 0.01), 2500.0, False),
        ((2500.0, 1250.0), longest + 0.01, True),
        ((2500.0, 1250.0), longest - 0.01, False),
    ):
        shop = replace(rules.fold_shop, sheet=sheet, brake=brake)
        assert is_bent(replace(rules, fold_shop=shop)) == one_blank


def test_a_larger_k_needs_a_larger_sheet() -> None:
    """K 0.5 for 0.325 adds pi / 4 t (K - K') at each of four bends along a side: 2.75 mm in all."""
    flat = cross_blank(box_parts(bay_with(RULES), 1, BOX).tray, RULES)
    sheet = (flat.size[0] + 20.1, flat.size[1] + 20.1)
    assert is_bent(replace(RULES, fold_shop=FoldShop(sheet=sheet)))
    table = (FoldedK(2.5, 2.5, 0.5),)
    assert not is_bent(replace(RULES, fold_shop=FoldShop(sheet=sheet, k_table=table)))
    larger = (sheet[0] + 2.75, sheet[1] + 2.75)
    assert is_bent(replace(RULES, fold_shop=FoldShop(sheet=larger, k_table=table)))


def test_only_folded_rectangles_are_one_blank() -> None:
    plan = rectangle((0.0, 0.0), (300.0, 200.0))
    angle = ((0.0, 0.0), (300.0, 0.0), (300.0, 90.0), (90.0, 90.0), (90.0, 200.0), (0.0, 200.0))
    assert floor_radius((plan, plan), 200.0, RULES) == 2.5
    assert floor_radius((angle,), 200.0, RULES) is None
    assert floor_radius((rectangle((0.0, 0.0), (200.0, 200.0)), plan), 200.0, RULES) is None
    for process in ("welded", "printed"):
        assert floor_radius((plan,), 200.0, replace(RULES, process=process)) is None


def test_walls_take_their_flanges_in_the_blank() -> None:
    """5 of corner and 22 of flange, 1 of air: 28 of a wall that is 0.203 longer laid flat."""
    plan = (rectangle((0.0, 0.0), (300.0, 200.0)),)
    fold = fold_of(2.5, 2.5, FoldShop())
    least = 28.0 - fold.allowance + 2.0 * fold.outer
    assert floor_radius(plan, least + 0.01, RULES) == 2.5
    assert floor_radius(plan, least - 0.01, RULES) is None
    assert not blank_limits(RULES, least - 0.01).hold((300.0, 200.0))


@settings(deadline=None)
@given(boxes())
def test_every_blank_goes_on_sheet_and_brake(drawn: tuple[BoxRules, PlacedBox]) -> None:
    rules, box = drawn
    if cannot_build(rules, (box,)) or not is_bent(rules, box):
        return
    flat = cross_blank(box_parts(bay_with(rules), 1, box).tray, rules)
    assert rules.fold_shop.takes(flat.size)
    assert all(dist(bend.start, bend.end) <= rules.fold_shop.brake for bend in flat.bends)
    plan = (box.high[0] - box.low[0], box.high[1] - box.low[1])
    height = box.high[2] - rules.rim_below_top - box.low[2]
    grown = blank_limits(rules, height).growth
    assert flat.size == pytest.approx((plan[0] + grown, plan[1] + grown))
