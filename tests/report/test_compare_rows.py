"""The figures of a row, by hand from tests/report/samples.py."""

from dataclasses import replace
from itertools import pairwise
from math import prod

import pytest
from shapely import Polygon

from boxfit.car import Car
from boxfit.report.compare_rows import box_litres, limit_margins, row_of, row_that_fails
from boxfit.report.cost import cost_of, sheet_masses
from boxfit.search.option import empty_box
from tests.report.samples import many, roadster, van
from tests.report.stepped import notched


def test_the_row_of_a_layout() -> None:
    row = row_of(*roadster(), (("box.tiers", "2"),))
    assert (row.count, row.series, row.parallel, row.bound, row.proven) == (9, 3, 3, 9, True)
    volts = (row.volts_empty, row.volts_nominal, row.volts_full)
    assert volts == pytest.approx((99.0, 132.0, 151.2))
    assert row.mass == pytest.approx(104.4 + 21.5)
    assert row.energy_by_mass == pytest.approx(19.8 / 125.9)
    assert row.share_error == pytest.approx(0.0085)
    assert (row.boxes, row.corners) == (2, 8)
    assert row.name == "Heron 44, box.tiers=2"
    assert row.fits


def test_height_left_is_the_least_over_the_boxes() -> None:
    """By hand: front 640 - 13 - 571, rear 700 - 13 - 495.5."""
    row = row_of(*roadster())
    assert [bay.height_left for bay in row.bays] == [56.0, 191.5]
    assert row.height_left == 56.0


def test_litres_left_are_those_of_the_room_less_its_boxes() -> None:
    """By hand: the rear bay is 560 x 960 x 370, its box as it stands there."""
    car, module, layout = roadster()
    row = row_of(car, module, layout)
    (box,) = layout.bays[1].boxes
    x, y, z = (high - low for low, high in zip(box.low, box.high, strict=True))
    assert row.bays[1].litres == pytest.approx(560 * 960 * 370 / 1e6)
    assert row.bays[1].litres_left == pytest.approx((560 * 960 * 370 - x * y * z) / 1e6)
    assert row.litres_left == pytest.approx(sum(bay.litres_left for bay in row.bays))
    assert [(bay.modules, bay.boxes) for bay in row.bays] == [(6, 1), (3, 1)]


def test_a_stepped_box_takes_what_its_tiers_take() -> None:
    """Its steps lie a sheet's thickness below what stands on them; areas by another library."""
    car, _, layout = notched()
    boxes = [(bay, box) for bay, placed in zip(car.bays, layout.bays, strict=True) for box in placed.boxes]
    for bay, box in boxes:
        levels = [box.low[2], *(one.stands_on - bay.box.thickness for one in box.tiers[1:]), box.high[2]]
        parts = zip(box.outlines, pairwise(levels), strict=True)
        litres = sum(Polygon(outline).area * (top - low) for outline, (low, top) in parts) / 1e6
        block = prod(high - low for low, high in zip(box.low, box.high, strict=True)) / 1e6
        assert box_litres(box, bay) == pytest.approx(litres)
        assert litres < block - 0.5
    assert len(boxes) == 2


def test_margins_to_every_limit() -> None:
    """By hand: the passenger's 75 kg at x -1240 of 2180 put 43.1 % on the front axle; then the windows."""
    car, module, layout = roadster()
    part = 1.0 - 1240.0 / 2180.0
    left = {one.limit: one for one in limit_margins(car, module, layout)}
    assert left["front axle"].left == pytest.approx(480.0 - 371.4 - 75.0 * part)
    assert left["rear axle"].left == pytest.approx(520.0 - 359.0 - 75.0 * (1.0 - part))
    assert left["gross"].left == pytest.approx(950.0 - 730.4 - 75.0)
    assert left["inverter low end"].left == pytest.approx(99.0 - 80.0)
    assert left["inverter high end"].left == pytest.approx(160.0 - 151.2)
    assert left["charger high end"].left == pytest.approx(170.0 - 151.2)
    assert left["front share"].left == pytest.approx(0.02 - 0.0085)
    assert {one.unit for one in left.values()} == {"kg", "V", ""}


def test_what_is_not_asked_leaves_no_margin() -> None:
    row = row_of(*many())
    assert (row.margins, row.front_share, row.share_error) == ((), None, None)
    (only,) = (one for one in limit_margins(*van()) if one.unit == "kg")
    assert only.limit == "rear axle"


def test_a_target_missed_is_a_margin_below_nothing() -> None:
    row = row_of(*van())
    assert row.target_met is False
    assert row.margins[-1].limit == "front share"
    assert row.margins[-1].left == pytest.approx(0.01 - 0.022)


def test_the_sheet_is_all_of_a_box_but_liner_and_gasket() -> None:
    """The boxes' own masses by the same sums, asked for without a liner."""
    car, _, layout = roadster()
    ((name, mass),) = sheet_masses(car, layout).items()
    whole = sum(
        empty_box(bay, box).mass
        for bay, placed in zip(car.bays, layout.bays, strict=True)
        for box in placed.boxes
    )
    assert name == "aluminium-5754"
    assert 0.7 * whole < mass < whole


def priced(car: Car, prices: tuple[tuple[str, float], ...]) -> Car:
    bays = []
    for bay in car.bays:
        shop = replace(bay.box.fold_shop, prices=prices)
        bays.append(replace(bay, box=replace(bay.box, fold_shop=shop)))
    return replace(car, bays=tuple(bays))


def test_cost_is_modules_and_sheet_where_all_prices_are_given() -> None:
    car, module, layout = roadster()
    dear = replace(module, price=480.0)
    mass = sum(sheet_masses(car, layout).values())
    asked = priced(car, (("aluminium-5754", 6.5),))
    assert cost_of(asked, dear, layout) == pytest.approx(9 * 480.0 + 6.5 * mass)
    assert cost_of(asked, module, layout) is None
    assert cost_of(car, dear, layout) is None
    assert cost_of(priced(car, (("steel-s235", 2.0),)), dear, layout) is None


def test_a_cover_plate_of_another_sheet_has_its_own_price() -> None:
    car, module, layout = roadster()
    bays = tuple(replace(bay, box=replace(bay.box, cover_material="stainless-1.4301")) for bay in car.bays)
    other = replace(car, bays=bays)
    masses = sheet_masses(other, layout)
    assert set(masses) == {"aluminium-5754", "stainless-1.4301"}
    dear = replace(module, price=0.0)
    both = priced(other, (("aluminium-5754", 1.0), ("stainless-1.4301", 10.0)))
    assert cost_of(priced(other, (("aluminium-5754", 1.0),)), dear, layout) is None
    expected = masses["aluminium-5754"] + 10.0 * masses["stainless-1.4301"]
    assert cost_of(both, dear, layout) == pytest.approx(expected)


def test_without_a_box_there_is_no_sheet_to_pay() -> None:
    car, module, layout = roadster()
    bare = replace(car, bays=tuple(replace(bay, box=replace(bay.box, asked=False)) for bay in car.bays))
    assert sheet_masses(bare, layout) == {}
    assert cost_of(bare, replace(module, price=100.0), layout) == pytest.approx(900.0)


def test_a_row_where_nothing_fits_says_why() -> None:
    _, module, _ = roadster()
    row = row_that_fails(module, (("box.tiers", "1"),), ("Too high.", "Too heavy."))
    assert not row.fits
    assert row.reason == "Too high. Too heavy."
    assert (row.margins, row.bays) == ((), ())
