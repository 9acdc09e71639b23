"""Axle loads and shares against sums by hand and against a car put together part by part."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxfit.bay import Vector
from boxfit.car import Car, CornerWeights, PointMass, Target
from boxfit.weight.balance import (
    aboard,
    front_part,
    fully_loaded,
    moments,
    stripped_centre,
    stripped_mass,
    weigh,
    without_pack,
)

WEIGHED = CornerWeights(120.0, 130.0, 115.0, 110.0, 400.0)
CAR = Car(
    name="Dunlin 850",
    folder="dunlin-850",
    wheelbase=2000.0,
    track_front=1200.0,
    track_rear=1000.0,
    bays=(),
    weighed=WEIGHED,
    fitted=(PointMass("drive motor", 50.0, (-200.0, 0.0, 300.0)),),
    carried=(
        PointMass("driver", 80.0, (-1000.0, -300.0, 500.0)),
        PointMass("luggage", 30.0, (-1800.0, 100.0, 600.0)),
    ),
    target=Target(0.5, 0.02, ("driver",)),
)
masses: st.SearchStrategy[tuple[float, Vector]] = st.tuples(
    st.integers(1, 200).map(float),
    st.tuples(
        st.integers(-3000, 800).map(float), st.integers(-600, 600).map(float), st.integers(0, 900).map(float)
    ),
)


def test_stripped_car_by_hand() -> None:
    assert stripped_mass(WEIGHED) == 475.0
    x, y = stripped_centre(CAR, WEIGHED)
    assert x == pytest.approx(-2000.0 * 225.0 / 475.0)
    assert y == pytest.approx((600.0 * (120.0 - 130.0) + 500.0 * (115.0 - 110.0)) / 475.0)


@pytest.mark.parametrize(
    ("x", "part"), [(0.0, 1.0), (-2000.0, 0.0), (-500.0, 0.75), (200.0, 1.1), (-2400.0, -0.2)]
)
def test_lever_rule_between_and_beyond_the_axles(x: float, part: float) -> None:
    assert front_part(CAR, x) == pytest.approx(part)


def test_what_is_aboard() -> None:
    assert [one.name for one in aboard(CAR, everything=False)] == ["drive motor", "driver"]
    assert [one.name for one in aboard(CAR, everything=True)] == ["drive motor", "driver", "luggage"]
    aimless = replace(CAR, target=None)
    assert [one.name for one in aboard(aimless, everything=False)] == ["drive motor"]


def test_car_with_a_pack_by_hand() -> None:
    """Modules 100 kg at (100, 50, 350), their box 10 kg at (90, 40, 340), driver aboard."""
    told = weigh(CAR, [(100.0, (100.0, 50.0, 350.0))], [(10.0, (90.0, 40.0, 340.0))])
    assert (told.modules, told.boxes, told.gross) == (100.0, 10.0, 715.0)
    rear = 225.0 + 50.0 * 0.1 + 80.0 * 0.5 - 100.0 * 0.05 - 10.0 * 0.045
    assert told.rear_axle == pytest.approx(rear)
    assert told.front_axle == pytest.approx(715.0 - rear)
    assert told.front_share == pytest.approx(1.0 - rear / 715.0)
    left = 235.0 + 25.0 + 80.0 * (0.5 - 300.0 * (0.5 / 1200.0 + 0.5 / 1000.0))
    left += 100.0 * (0.5 + 50.0 * (1.05 / 1200.0 - 0.05 / 1000.0))
    left += 10.0 * (0.5 + 40.0 * (1.045 / 1200.0 - 0.045 / 1000.0))
    assert told.left_share == pytest.approx(left / 715.0)
    assert told.centre_of_mass is not None
    x, y, z = told.centre_of_mass
    assert x == pytest.approx(-2000.0 * rear / 715.0)
    sideways = 600.0 * -10.0 + 500.0 * 5.0 - 80.0 * 300.0 + 100.0 * 50.0 + 10.0 * 40.0
    assert y == pytest.approx(sideways / 715.0)
    upwards = 475.0 * 400.0 + 50.0 * 300.0 + 80.0 * 500.0 + 100.0 * 350.0 + 10.0 * 340.0
    assert z == pytest.approx(upwards / 715.0)


def test_plate_is_judged_with_everything_carried() -> None:
    pack = moments([(110.0, (100.0, 0.0, 0.0))])
    loads = fully_loaded(CAR, WEIGHED, pack)
    assert loads.gross == pytest.approx(475.0 + 50.0 + 80.0 + 30.0 + 110.0)
    assert loads.rear == pytest.approx(225.0 + 5.0 + 40.0 + 27.0 - 5.5)


def test_a_car_that_was_not_weighed_knows_its_pack_alone() -> None:
    told = weigh(replace(CAR, weighed=None), [(100.0, (0.0, 0.0, 0.0))], [(10.0, (0.0, 0.0, 0.0))])
    assert (told.modules, told.boxes) == (100.0, 10.0)
    assert (told.gross, told.front_axle, told.front_share, told.centre_of_mass) == (None, None, None, None)


def test_height_is_told_only_where_the_shell_has_one() -> None:
    told = weigh(replace(CAR, weighed=replace(WEIGHED, height_of_mass=None)), [], [])
    assert told.centre_of_mass is not None
    assert told.centre_of_mass[2] is None
    assert told.centre_of_mass[:2] == weigh(CAR, [], []).centre_of_mass[:2]  # type: ignore[index]


@given(st.lists(masses, max_size=6), st.lists(masses, max_size=3))
def test_loads_agree_with_each_other(
    modules: list[tuple[float, Vector]], boxes: list[tuple[float, Vector]]
) -> None:
    told = weigh(CAR, modules, boxes)
    assert None not in (told.front_axle, told.rear_axle, told.gross, told.front_share, told.centre_of_mass)
    assert told.front_axle + told.rear_axle == pytest.approx(told.gross)  # type: ignore[operator]
    assert told.gross == pytest.approx(475.0 + 130.0 + told.modules + told.boxes)
    whole = without_pack(CAR, WEIGHED, everything=False)
    rear = -whole.x / 2000.0 + sum(mass * -at[0] / 2000.0 for mass, at in (*modules, *boxes))
    assert told.rear_axle == pytest.approx(rear)
    swapped = weigh(CAR, boxes, modules)
    assert swapped.front_share == pytest.approx(told.front_share)


@given(st.lists(masses, min_size=1, max_size=6), st.integers(-500, 500).map(float))
def test_centre_moves_with_the_masses(parts: list[tuple[float, Vector]], step: float) -> None:
    whole = moments(parts)
    pushed = moments([(mass, (at[0] + step, at[1], at[2])) for mass, at in parts])
    assert pushed.x / pushed.mass == pytest.approx(whole.x / whole.mass + step, abs=1e-6)
    assert (pushed.mass, pushed.y, pushed.z) == (whole.mass, whole.y, whole.z)
    one, rest = moments(parts[:1]), moments(parts[1:])
    assert one.mass + rest.mass == pytest.approx(whole.mass)
    assert one.x + rest.x == pytest.approx(whole.x)
