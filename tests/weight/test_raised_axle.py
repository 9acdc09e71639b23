"""The height of the centre of mass from a raised axle."""

from dataclasses import replace
from math import asin, cos, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxfit.car import Axle, CornerWeights, RaisedAxle
from boxfit.weight.raised_axle import height_error, height_of_mass

LEVEL = CornerWeights(250.0, 250.0, 250.0, 250.0)


@given(
    st.floats(310.0, 900.0),
    st.floats(-1900.0, -500.0),
    st.floats(150.0, 1200.0),
    st.sampled_from(["front", "rear"]),
)
def test_a_raised_car_gives_its_height_back(height: float, x: float, raise_by: float, axle: Axle) -> None:
    """A car tilted by turning its points in the plane, loads by the lever rule: apart from the formula."""
    wheelbase, radius, mass = 2400.0, 300.0, 1000.0
    front = mass * (1.0 + x / wheelbase)
    level = CornerWeights(front / 2, front / 2, (mass - front) / 2, (mass - front) / 2)
    tilt = asin(raise_by / wheelbase) * (1.0 if axle == "front" else -1.0)
    # about the rear wheel's centre: along the wheelbase, and up
    along, up = wheelbase + x, height - radius
    across = along * cos(tilt) - up * sin(tilt)
    front_load = mass * across / (wheelbase * cos(tilt))
    load = mass - front_load if axle == "front" else front_load
    found = height_of_mass(level, RaisedAxle(axle, raise_by, load, radius), wheelbase)
    assert found == pytest.approx(height, abs=1e-6)


@pytest.mark.parametrize("raise_by", [0.0, 99.0, 2400.0])
def test_a_raise_that_tells_nothing_is_refused(raise_by: float) -> None:
    with pytest.raises(ValueError, match="the raise must be"):
        height_of_mass(LEVEL, RaisedAxle("front", raise_by, 500.0, 300.0), 2400.0)


def test_the_error_of_a_height_by_hand() -> None:
    """1000 kg, wheelbase 2400, raised so that tan = 3/4: 3.2 mm a kilogram; four scales of 1 kg: 2 kg."""
    raised = RaisedAxle("front", 1440.0, 500.0, 300.0)
    assert height_error(LEVEL, raised, 2400.0) == pytest.approx(6.4)
    worse = replace(LEVEL, scale_error=2.5)
    assert height_error(worse, raised, 2400.0) == pytest.approx(16.0)
