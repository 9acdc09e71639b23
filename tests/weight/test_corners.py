"""Loads under four wheels against the axle sums, and by hand."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxfit.car import Car, CornerWeights, Limits, PointMass, Target
from boxfit.weight.balance import fully_loaded, moments, weigh
from boxfit.weight.corners import Corners, Mass, corners_of, margins, states

WEIGHED = CornerWeights(128.0, 126.5, 109.0, 111.5, 420.0)
CAR = Car(
    name="Dunlin 850",
    folder="dunlin-850",
    wheelbase=2180.0,
    track_front=1180.0,
    track_rear=1160.0,
    bays=(),
    weighed=WEIGHED,
    fitted=(PointMass("motor", 54.0, (-310.0, 0.0, 360.0)),),
    carried=(
        PointMass("driver", 75.0, (-1240.0, -330.0, 480.0)),
        PointMass("bag", 25.0, (-2150.0, 0.0, 600.0)),
    ),
    target=Target(0.5, 0.02, ("driver",)),
    limits=Limits(480.0, 520.0, 950.0),
)
PACK: tuple[Mass, ...] = ((40.0, (-200.0, 10.0, 400.0)), (80.0, (-1700.0, -20.0, 500.0)))
places = st.tuples(st.floats(-3500, 800), st.floats(-600, 600), st.floats(100, 900))
masses = st.lists(st.tuples(st.floats(0.1, 300), places), max_size=6)


@given(masses)
def test_what_is_added_is_all_on_the_wheels(added: list[Mass]) -> None:
    loads, whole = corners_of(CAR, added), moments(added)
    assert loads.gross == pytest.approx(whole.mass, abs=1e-9)
    assert -CAR.wheelbase * loads.rear == pytest.approx(whole.x, rel=1e-9, abs=1e-6)


def test_states_in_order() -> None:
    found = states(CAR, WEIGHED, PACK)
    assert [state.name for state in found] == ["stripped", "as converted", "with driver", "with everything"]
    assert found[0].corners == Corners(128.0, 126.5, 109.0, 111.5)
    assert [state.corners.gross for state in found] == pytest.approx([475.0, 649.0, 724.0, 749.0])


def test_the_driver_sits_on_the_right() -> None:
    """By hand: 75 kg at x -1240 put 43.12 % on the front axle, and 330 right of its track of 1180."""
    _, converted, driven, _ = states(CAR, WEIGHED, PACK)
    added = driven.corners.less(converted.corners)
    front = 75.0 * (1.0 - 1240.0 / 2180.0)
    assert added.front_right == pytest.approx(front * (0.5 + 330.0 / 1180.0))
    assert added.front_left == pytest.approx(front * (0.5 - 330.0 / 1180.0))


def test_the_same_as_the_layout_is_judged_by() -> None:
    """The target's state agrees with the search's own weights, everything with the plate's."""
    _, _, driven, everything = states(CAR, WEIGHED, PACK)
    judged, plate = weigh(CAR, [PACK[0]], [PACK[1]]), fully_loaded(CAR, WEIGHED, moments(PACK))
    assert driven.front_share == pytest.approx(judged.front_share)
    assert driven.left_share == pytest.approx(judged.left_share)
    assert driven.centre == pytest.approx(judged.centre_of_mass)
    assert (everything.corners.front, everything.corners.rear) == pytest.approx((plate.front, plate.rear))


def test_states_that_add_nothing_are_left_out() -> None:
    bare = replace(CAR, carried=(), target=None)
    assert [state.name for state in states(bare, WEIGHED, PACK)] == ["stripped", "as converted"]


def test_an_unknown_height_stays_unknown() -> None:
    found = states(CAR, replace(WEIGHED, height_of_mass=None), PACK)
    assert all(state.centre[2] is None for state in found)


def test_margins_name_what_is_over() -> None:
    *_, everything = states(CAR, WEIGHED, PACK)
    tight = margins(everything, Limits(front_axle=300.0, gross=950.0))
    assert [margin.what for margin in tight] == ["front axle", "gross"]
    assert tight[0].left < 0.0 < tight[1].left
    assert tight[1].left == pytest.approx(950.0 - 749.0)


def test_a_twisted_car_shows_in_the_cross_share() -> None:
    assert Corners(110.0, 90.0, 90.0, 110.0).cross_share == pytest.approx(0.45)
