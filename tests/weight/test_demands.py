"""What limits and target ask of a pack, against the car weighed with such a pack."""

from dataclasses import replace
from math import inf

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxfit.car import Limits, Target
from boxfit.weight.balance import fully_loaded, moments, weigh
from boxfit.weight.demands import ANYWHERE, Demands, MomentRange
from tests.weight.test_balance import CAR, WEIGHED

LIMITED = replace(CAR, limits=Limits(400.0, 420.0, 760.0))
packs = st.tuples(st.integers(1, 200).map(float), st.integers(-2600, 600).map(float))


def test_ranges() -> None:
    both = MomentRange(0.0, 5.0).and_also(MomentRange(3.0, 9.0))
    assert both == MomentRange(3.0, 5.0)
    assert both.holds(3.0)
    assert not both.holds(2.9)
    assert both.holds(2.9, slack=0.1001)
    assert both.meets(MomentRange(5.0, 6.0))
    assert not both.meets(MomentRange(5.1, 6.0))
    assert not MomentRange(inf, -inf).meets(ANYWHERE)


@given(packs)
def test_limits_hold_where_no_load_exceeds_the_plate(pack: tuple[float, float]) -> None:
    mass, x = pack
    loads = fully_loaded(LIMITED, WEIGHED, moments([(mass, (x, 0.0, 0.0))]))
    over = max(loads.front - 400.0, loads.rear - 420.0, loads.gross - 760.0)
    if abs(over) > 1e-6:
        assert Demands.of(LIMITED).within_limits(mass).holds(mass * x) is (over < 0.0)


@given(packs)
def test_target_holds_where_the_front_share_is_within_tolerance(pack: tuple[float, float]) -> None:
    mass, x = pack
    share = weigh(CAR, [(mass, (x, 0.0, 0.0))], []).front_share
    assert share is not None
    demands = Demands.of(CAR)
    off = abs(share - 0.5) - 0.02
    if abs(off) > 1e-9:
        assert demands.allowed(mass).holds(mass * x) is (off < 0.0)
    assert demands.missed(mass, mass * x) == pytest.approx(abs(share - 0.5), abs=6e-5)


@given(st.integers(1, 300).map(float), st.floats(0.3, 0.7))
def test_the_wanted_moment_gives_the_share_to_a_hair(mass: float, share: float) -> None:
    car = replace(CAR, target=Target(share, 0.02))
    moment = Demands.of(car).wanted_x(mass)
    assert moment is not None
    assert weigh(car, [(mass, (moment / mass, 0.0, 0.0))], []).front_share == pytest.approx(share)


def test_without_a_target_the_share_of_the_stripped_car_is_kept() -> None:
    car = replace(CAR, target=None)
    moment = Demands.of(car).wanted_x(100.0)
    assert moment is not None
    assert weigh(car, [(100.0, (moment / 100.0, 0.0, 0.0))], []).front_share == pytest.approx(250.0 / 475.0)
    assert Demands.of(car).allowed(100.0) == ANYWHERE
    assert Demands.of(car).missed(100.0, 0.0) == 0.0


def test_the_wanted_sideways_moment_puts_the_mass_on_the_centre_line() -> None:
    demands = Demands.of(CAR)
    told = weigh(CAR, [(50.0, (0.0, demands.wanted_y / 50.0, 0.0))], [])
    assert told.centre_of_mass is not None
    assert told.centre_of_mass[1] == pytest.approx(0.0, abs=1e-9)
    assert demands.sideways(50.0, demands.wanted_y) == 0.0
    # hand: 50 kg moved by 10 mm in a car of 655 kg
    assert demands.sideways(50.0, demands.wanted_y + 500.0) == pytest.approx(500.0 / 655.0)


def test_too_heavy_a_pack_is_allowed_nowhere() -> None:
    # hand: 635 kg with everything carried, 760 on the plate
    assert Demands.of(LIMITED).within_limits(125.0).meets(ANYWHERE)
    assert not Demands.of(LIMITED).within_limits(125.1).meets(ANYWHERE)


def test_limits_left_out_ask_nothing() -> None:
    assert Demands.of(CAR).within_limits(1000.0) == ANYWHERE
    only_rear = Demands.of(replace(CAR, limits=Limits(rear_axle=420.0))).within_limits(100.0)
    assert only_rear.high == inf
    assert only_rear.low > -inf


def test_a_car_that_was_not_weighed_asks_nothing() -> None:
    demands = Demands.of(replace(LIMITED, weighed=None))
    assert demands.allowed(5000.0) == ANYWHERE
    assert (demands.wanted_x(100.0), demands.wanted_y, demands.missed(100.0, 5.0)) == (None, 0.0, 0.0)
