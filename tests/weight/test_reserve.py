"""Reserves: measured on packs worked out by hand, grown, parted, and put onto boxes again."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxfit.bay import Vector
from boxfit.car import Car, PointMass
from boxfit.layout import BayLayout, PlacedBox
from boxfit.weight.balance import Moments, moments
from boxfit.weight.pack import Pack
from boxfit.weight.reserve import NO_RESERVE, NOTHING, Kept, Reserve, measured
from boxfit.weight.scales import Item

BOX = PlacedBox((0.0, 0.0, 0.0), (1.0, 1.0, 1.0), ())
BAYS = (BayLayout("front", (BOX, BOX)), BayLayout("middle", ()), BayLayout("rear", (BOX,)))
SEARCHED = Pack(
    (
        Item("front box 1", 10.0, (-100.0, 0.0, 300.0)),
        Item("front box 2", 30.0, (-300.0, 0.0, 300.0)),
        Item("rear box 1", 20.0, (-2000.0, 50.0, 400.0)),
    ),
    every_part=False,
)
AS_MADE = Pack(
    (
        Item("front box 1", 11.0, (-100.0, 0.0, 300.0)),
        Item("front box 2", 30.55, (-300.0, 0.0, 300.0)),
        Item("rear box 1", 19.9, (-2000.0, 50.0, 410.0)),
        Item("link cables", 4.01, (-900.0, 10.0, 500.0)),
    ),
    every_part=True,
)


def test_a_reserve_is_what_boxes_weigh_more_bay_by_bay() -> None:
    front, middle, rear = (found := measured(BAYS, SEARCHED, AS_MADE)).bays
    assert front.mass == pytest.approx(1.6)  # 1.55 rounded up
    assert middle == NOTHING
    # hand: moments 1 x -100 + 0.55 x -300 = -265; 0.05 kg rounded up lies at the boxes' middle, -250
    assert front.away[0] * front.mass == pytest.approx(-265.0 - 1.55 * -250.0)
    assert rear.mass == 0.1  # lighter as made: the least there is
    assert found.between == (PointMass("link cables", 4.1, (-900.0, 10.0, 500.0)),)
    assert found.mass == pytest.approx(1.6 + 0.1 + 4.1)


def sums(pack: Pack, first: int, last: int) -> Moments:
    return moments(pack.masses[first:last])


def test_put_onto_the_same_boxes_it_gives_the_moments_as_made() -> None:
    found = measured(BAYS, SEARCHED, AS_MADE)
    for place, (first, last) in ((0, (0, 2)), (2, (2, 3))):
        searched, whole = sums(SEARCHED, first, last), sums(AS_MADE, first, last)
        laden = found.of_bay(place).onto(searched)
        more = laden.mass - whole.mass
        assert 0.0 <= more <= 0.2 + 1e-9
        assert laden.x == pytest.approx(whole.x + more * searched.x / searched.mass)
        assert laden.z == pytest.approx(whole.z + more * searched.z / searched.mass)


def test_nothing_kept_leaves_boxes_and_car_as_they_are() -> None:
    boxes, car = Moments(10.0, 1.0, 2.0, 3.0), Car("c", "c", 2000.0, 1200.0, 1200.0, ())
    assert NOTHING.onto(boxes) is boxes
    assert NO_RESERVE.on(car) is car
    assert NO_RESERVE.of_bay(3) is NOTHING


def test_cables_count_as_fitted() -> None:
    car = Car("c", "c", 2000.0, 1200.0, 1200.0, ())
    cables = PointMass("link cables", 4.0, (-900.0, 0.0, 500.0))
    assert Reserve((), (cables,)).on(car).fitted == (cables,)


def test_a_reserve_grows_to_the_greater_of_what_was_kept_and_measured() -> None:
    cables = (PointMass("link cables", 4.0, (-900.0, 0.0, 500.0)),)
    kept = Reserve((Kept(2.0, (1.0, 0.0, 0.0)), Kept(1.0)), cables)
    grown = kept.grown(Reserve((Kept(1.0), Kept(3.0, (2.0, 0.0, 0.0))), ()))
    assert grown == Reserve((kept.bays[0], Kept(3.0, (2.0, 0.0, 0.0))), cables)
    assert NO_RESERVE.grown(kept) is kept


@given(st.lists(st.floats(0.1, 50.0), min_size=1, max_size=3), st.floats(0.0, 20.0))
def test_a_reserve_that_did_not_do_always_grows(masses: list[float], cables: float) -> None:
    at: Vector = (-900.0, 0.0, 500.0)
    kept = Reserve(tuple(Kept(mass) for mass in masses), (PointMass("link cables", cables, at),)).parts(1.0)
    assert kept.grown(kept).mass > kept.mass
    assert kept.parts(0.5).mass <= kept.mass
