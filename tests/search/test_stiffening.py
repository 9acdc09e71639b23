"""Room for stiffening bars: search and judge keep the same, once, beside the walls and below the floor."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boxfit.bay import Bay, Block, Keepout, Opening, Prism
from boxfit.car import Car
from boxfit.files.layout_json import layout_as_data
from boxfit.judge.layout import judge_layout
from boxfit.layout import Layout
from boxfit.module import Module
from boxfit.report.margins import margins
from boxfit.search.find import find_layout
from tests.box.samples import HERON, RULES
from tests.search.strategies import cars, modules

ROOM = (520.0, 560.0, 260.0)


def car_with(size: tuple[float, float, float], deep: float, below: float, flange: float = 12.0) -> Car:
    """A bay of so much room, without survey's tolerance or clearance."""
    x, y, z = size
    outline = ((x, 0.0), (x, y), (0.0, y), (0.0, 0.0))
    rules = replace(
        RULES,
        clearance=0.0,
        flange=flange,
        tiers=1,
        stiffening_depth=deep,
        stiffening_floor_depth=below,
    )
    bay = Bay("front bay", Prism(outline, 0.0, z), 0.0, 0.0, rules, opening=Opening("up"))
    return Car("Dunlin 850", "dunlin-850", 2180.0, 1180.0, 1160.0, (bay,))


def found(car: Car) -> Layout | None:
    layout = find_layout(car, HERON)
    return layout if isinstance(layout, Layout) else None


# one Heron: 355 and 151 with 2.5 sheet, 3 liner and 4 gap on both sides; 108 + 30 between floor and lid
LENGTH, WIDTH, HEIGHT = 374.0, 170.0, 2.5 + 3.0 + 138.0 + 5.0 + 2.0


@pytest.mark.parametrize("flange", [0.0, 12.0, 40.0])
def test_bars_are_asked_for_once(flange: float) -> None:
    """A bay as wide as box and bars on both sides takes one module, a millimetre less none."""
    out = max(flange, 20.0)
    snug = (LENGTH + 2.0 * out, WIDTH + 2.0 * out, HEIGHT + 35.0)
    layout = found(car_with(snug, 20.0, 35.0, flange))
    assert layout is not None
    assert layout.count == 1
    box = layout.bays[0].boxes[0]
    assert box.low == pytest.approx((out, out, 35.0), abs=0.01)
    for axis in range(3):
        narrow = [side - (1.0 if axis == k else 0.0) for k, side in enumerate(snug)]
        assert found(car_with((narrow[0], narrow[1], narrow[2]), 20.0, 35.0, flange)) is None


def test_margins_are_counted_from_the_bars() -> None:
    car = car_with((LENGTH + 50.0, WIDTH + 50.0, HEIGHT + 35.0), 20.0, 35.0, 0.0)
    layout = found(car)
    assert layout is not None
    told = {one.face: one for one in margins(car, layout)}
    assert (told["bottom"].distance, told["right"].distance) == pytest.approx((0.0, 0.0), abs=0.01)
    assert min(one.left for one in told.values()) >= -0.01


def test_a_post_beside_the_walls_is_kept_off() -> None:
    """A low post that the flange passes over bars the place of the bars, and no more."""
    car = car_with((LENGTH + 2.0 * 30.0 + 10.0, WIDTH + 60.0, HEIGHT + 40.0), 20.0, 0.0, 30.0)
    (bay,) = car.bays
    post = Keepout("post", Block((0.0, 0.0, 0.0), (30.0, 300.0, 60.0)), 0.0)
    layout = find_layout(replace(car, bays=(replace(bay, keepouts=(post,)),)), HERON)
    assert not isinstance(layout, Layout)
    slim = replace(bay, keepouts=(post,), box=replace(bay.box, stiffening_depth=8.0))
    assert isinstance(find_layout(replace(car, bays=(slim,)), HERON), Layout)


@settings(max_examples=5, deadline=None)
@given(cars(), modules(), st.sampled_from([0.0, 6.0, 30.0]), st.sampled_from([0.0, 9.0, None]))
def test_what_the_search_finds_is_clear(car: Car, module: Module, deep: float, below: float | None) -> None:
    bays = tuple(
        replace(bay, box=replace(bay.box, stiffening_depth=deep, stiffening_floor_depth=below))
        for bay in car.bays
    )
    barred = replace(car, bays=bays)
    layout = find_layout(barred, module)
    if isinstance(layout, Layout):
        assert judge_layout(layout_as_data(layout), barred, module) == ()
        plain = find_layout(car, module)
        assert isinstance(plain, Layout)
        assert layout.count <= plain.bound
