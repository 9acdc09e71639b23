"""Parts on stock sheets: apart, inside, as often as asked, the grain kept, and no sheet too many."""

from dataclasses import replace
from math import ceil

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon, box

from boxfit.sheet.nesting import grain_turn, nested
from boxfit.sheet.outline import points_of
from boxfit.sheet.stock import Nesting, Sheet, Wanted
from boxfit.sheet.stock_csv import stock_words
from boxfit.workshop import FoldShop
from tests.sheet.nesting_samples import plate, rounded, wall, wanted

SMALL = FoldShop(sheet=(1000.0, 2000.0), part_gap=6.0, sheet_edge=12.0)
sizes = st.floats(5.0, 900.0)
plates = st.builds(plate, st.just("plate"), sizes, sizes, st.integers(1, 3))
corners = st.builds(
    rounded, st.just("rounded"), st.floats(60.0, 900.0), st.floats(60.0, 900.0), st.just(20.0)
)
walls = st.builds(wall, st.just("wall"), st.floats(50.0, 900.0), st.floats(50.0, 900.0), st.booleans())
shops = st.builds(
    FoldShop,
    sheet=st.sampled_from([(2500.0, 1250.0), (1000.0, 2000.0)]),
    part_gap=st.floats(0.0, 20.0),
    sheet_edge=st.floats(0.0, 30.0),
)


def shapes(sheet: Sheet) -> list[Polygon]:
    return [Polygon(points_of(one.flat.contours[0])) for one in sheet.placed]


def names(nesting: Nesting) -> list[tuple[str, int]]:
    return sorted((one.part.number, one.copy) for sheet in nesting.sheets for one in sheet.placed)


@settings(max_examples=60)
@given(st.lists(plates | corners | walls, min_size=1, max_size=8), shops)
def test_apart_inside_and_complete(flats: list, shop: FoldShop) -> None:  # type: ignore[type-arg]
    asked = wanted(*flats, shop=shop)
    nesting = nested(asked)
    assert names(nesting) == sorted(
        (one.number, copy) for one in asked for copy in range(1, one.flat.quantity + 1)
    )
    for sheet in nesting.sheets:
        edge = shop.sheet_edge - 1e-6
        room = box(edge, edge, max(shop.sheet) - edge, min(shop.sheet) - edge)
        found = shapes(sheet)
        assert all(room.covers(shape) for shape in found)
        for place, shape in enumerate(found):
            assert all(shape.distance(other) >= shop.part_gap - 1e-6 for other in found[:place])
        for one, shape in zip(sheet.placed, found, strict=True):
            assert shape.bounds[:2] == pytest.approx(one.at)
            turn = grain_turn(one.part.flat)
            assert turn is None or one.turned == turn
        assert 0.0 < sheet.utilisation <= 1.0
        assert sheet.used_length == pytest.approx(max(shape.bounds[2] for shape in found))
    for use in nesting.uses:
        area = sum(one.flat.area * one.flat.quantity for one in asked)
        assert use.least_sheets <= len(use.sheets)
        assert use.least_sheets == max(1, ceil(area / (use.stock.usable[0] * use.stock.usable[1]) - 1e-6))


def test_as_many_as_a_sheet_holds() -> None:
    """Eight plates fill a sheet to the last millimetre; a ninth asks for another."""
    four = (2500.0 - 20.0 - 3 * 8.0) / 4.0
    two = (1250.0 - 20.0 - 8.0) / 2.0
    full = nested(wanted(plate("plate", four, two, 8)))
    assert [len(sheet.placed) for sheet in full.sheets] == [8]
    assert full.sheets[0].remainder == (2.0, 1250.0)
    assert full.uses[0].least_sheets == 1
    more = nested(wanted(plate("plate", four, two, 9)))
    assert [len(sheet.placed) for sheet in more.sheets] == [8, 1]
    assert more.uses[0].mass_bought == pytest.approx(2 * 2.5 * 1.25 * 2.5e-3 * 2660.0)


def test_the_last_sheet_is_used_as_short_as_may_be() -> None:
    """Ten strips of a hundred lie ten high and not end to end."""
    sheet = nested(wanted(plate("strip", 700.0, 100.0, 10))).sheets[0]
    assert sheet.used_length == pytest.approx(710.0)
    assert sheet.remainder == pytest.approx((2500.0 - 710.0 - 8.0, 1250.0))


def test_sorts_of_sheet_are_kept_apart() -> None:
    thick = replace(plate("thick", 300.0, 200.0), thickness=3.0)
    steel = replace(plate("steel", 300.0, 200.0), material="steel-dc01")
    nesting = nested(wanted(plate("thin", 300.0, 200.0), thick, steel))
    assert [sheet.name for sheet in nesting.sheets] == [
        "sheet-aluminium-5754-2.5-1",
        "sheet-aluminium-5754-3-1",
        "sheet-steel-dc01-2.5-1",
    ]


def test_two_shops_sheets_of_one_sort_are_numbered_on() -> None:
    asked = (
        Wanted(plate("one", 300.0, 200.0), "F1-01", FoldShop()),
        Wanted(plate("two", 300.0, 200.0), "R1-01", SMALL),
    )
    nesting = nested(asked)
    assert [(sheet.name, sheet.stock.size) for sheet in nesting.sheets] == [
        ("sheet-aluminium-5754-2.5-1", (2000.0, 1000.0)),
        ("sheet-aluminium-5754-2.5-2", (2500.0, 1250.0)),
    ]


def test_tight_folds_lie_across_the_grain() -> None:
    """5754 of 2.5 mm takes a radius of 2.5 mm (EN 485-2): that fold lies across, one of 4 mm as it will."""
    assert grain_turn(wall("along", 600.0, 200.0, False)) is True
    assert grain_turn(wall("up", 600.0, 200.0, True)) is False
    assert grain_turn(wall("wide", 600.0, 200.0, False, 4.0)) is None
    assert grain_turn(plate("plain", 600.0, 200.0)) is None
    both = replace(
        wall("both", 600.0, 200.0, True),
        bends=wall("both", 600.0, 200.0, True).bends + wall("both", 600.0, 200.0, False).bends,
    )
    assert grain_turn(both) is None


def test_a_fold_too_long_for_that_is_told() -> None:
    nesting = nested(wanted(wall("long wall", 1800.0, 200.0, False)))
    assert nesting.notes == ("long wall: fits the sheet only with its folds along the grain",)
    assert nesting.sheets[0].placed[0].size == (1800.0, 200.0)


def test_what_no_sheet_takes_is_told_and_bars_are_left_out() -> None:
    bar = replace(plate("bar", 600.0, 10.0), bar=True)
    nesting = nested(wanted(plate("huge", 2600.0, 300.0), bar, plate("lid", 300.0, 200.0)))
    assert [one.flat.name for one in nesting.too_large] == ["huge"]
    assert names(nesting) == [("F1-03", 1)]
    assert stock_words(nesting)[-1] == "huge: larger than the sheet, laid out on none"
    assert stock_words(nesting)[0].startswith(
        "1 sheet of aluminium-5754 2.5 mm, 2500 x 1250 mm, 20.8 kg bought"
    )


def test_nothing_asked_for_nothing_bought() -> None:
    assert nested(()) == Nesting(())


def test_same_layout_every_time() -> None:
    flats = [plate(f"plate {place}", 100.0 + 37.0 * place, 90.0 + 11.0 * place, 3) for place in range(6)]
    assert nested(wanted(*flats)) == nested(wanted(*flats))
