"""The search with a reserve for what is fixed to boxes: never more modules for it, clear for the judge."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boxfit.car import Car, CornerWeights, Limits, PointMass
from boxfit.files.layout_json import layout_as_data
from boxfit.judge.layout import judge_layout
from boxfit.layout import Layout
from boxfit.module import Module
from boxfit.search.find import NoLayout, find_layout
from boxfit.search.pack import PackSearch
from boxfit.search.refute import IMPOSSIBLE, NOTHING, Spread, bay_spread
from boxfit.search.searches import BaySearches
from boxfit.weight.reserve import Kept, Reserve
from tests.report.samples import roadster
from tests.search.strategies import cars, modules

kept = st.builds(
    Kept,
    st.sampled_from([0.5, 3.0, 8.0]),
    st.tuples(st.floats(-200.0, 200.0), st.floats(-100.0, 100.0), st.floats(-50.0, 50.0)),
)
cables = st.builds(
    PointMass, st.just("link cables"), st.sampled_from([0.4, 5.0]), st.just((-900.0, 20.0, 400.0))
)


@st.composite
def reserves(draw: st.DrawFn, bays: int) -> Reserve:
    between = draw(st.lists(cables, max_size=1))
    return Reserve(tuple(draw(kept) for _ in range(bays)), tuple(between))


def count_of(found: Layout | NoLayout) -> int:
    return found.count if isinstance(found, Layout) else 0


@settings(max_examples=10)
@given(cars(), modules(), st.floats(5.0, 60.0), st.data())
def test_with_a_gross_limit_a_reserve_never_makes_the_count_larger(
    car: Car, module: Module, room: float, data: st.DataObject
) -> None:
    """Mass beyond an axle unloads the other one, and a share may need it: only the gross is asked here."""
    weighed = CornerWeights(128.0, 126.5, 109.0, 111.5, 420.0)
    bare = 475.0 + sum(one.mass for one in (*car.fitted, *car.carried))
    car = replace(car, weighed=weighed, target=None, limits=Limits(gross=bare + room))
    reserve = data.draw(reserves(len(car.bays)))
    searches = BaySearches(module)
    plain = find_layout(car, module, None, searches)
    with_it = find_layout(car, module, None, searches, reserve)
    assert count_of(with_it) <= count_of(plain)
    if isinstance(with_it, Layout):
        assert judge_layout(layout_as_data(with_it), car, module) == ()
        pack = with_it.weights.modules + with_it.weights.boxes
        assert pack + sum(one.mass for one in with_it.reserve) <= room + 1e-6
        used = [bool(bay.boxes) for bay in with_it.bays]
        assert len(with_it.reserve) == sum(used) + len(reserve.between)
    if isinstance(plain, Layout):
        assert plain.reserve == ()


CAR, MODULE, _ = roadster()


def test_what_is_kept_moves_with_its_boxes_and_is_weighed() -> None:
    free = replace(CAR, target=None, limits=Limits())
    reserve = Reserve((Kept(2.0, (50.0, 0.0, 0.0)), Kept(3.0, (-20.0, 10.0, 5.0))), ())
    found = find_layout(free, MODULE, reserve=reserve)
    assert isinstance(found, Layout)
    front, rear = found.reserve
    assert (front.mass, rear.mass) == (2.0, 3.0)
    assert front.name == "fixed to the boxes of front bay"
    plain = find_layout(free, MODULE)
    assert isinstance(plain, Layout)
    assert found.weights.gross is not None
    assert plain.weights.gross is not None
    assert found.weights.gross - plain.weights.gross == pytest.approx(
        5.0 + found.weights.boxes - plain.weights.boxes
    )


def test_refutations_reckon_with_all_that_is_kept() -> None:
    """Box, modules and what is kept lie within what refutations take for granted."""
    reserve = Reserve((Kept(2.0, (80.0, 0.0, 0.0)), Kept(3.0, (-90.0, 0.0, 0.0))), ())
    search = PackSearch(CAR, MODULE, reserve=reserve)
    for place, count in ((0, 6), (1, 9)):
        rooms = search.bays[place].loose_rooms
        assert rooms is not None
        spread = bay_spread(search.bays[place], rooms, count, reserve.of_bay(place))
        assert spread is not None
        (corners, *_) = search.offers[place].corners(count)
        for option in search._of_bay(place, count, corners, 1):
            assert spread.mass[0] - 1e-6 <= option.load.mass <= spread.mass[1] + 1e-6
            assert spread.moment[0] <= option.reach.low
            assert option.reach.high <= spread.moment[1]


def test_what_is_kept_for_nothing_or_the_impossible_is_nothing() -> None:
    assert NOTHING.with_kept(Kept()) is NOTHING
    assert IMPOSSIBLE.with_kept(Kept(2.0)) is IMPOSSIBLE
    found = Spread((10.0, 20.0), (-4000.0, -1000.0)).with_kept(Kept(2.0, (5.0, 0.0, 0.0)))
    assert found == Spread((12.0, 22.0), (-4000.0 + 2 * (-400.0 + 5.0), -1000.0 + 2 * (-50.0 + 5.0)))  # hand
