"""A taped distance against the survey's."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxfit.bay import Block
from boxfit.surface import Vector
from boxfit.survey.fault import SurveyError
from boxfit.survey.placed import placed
from boxfit.survey.reference import check_reference
from boxfit.survey.solids import as_surface

ROOM = as_surface(Block((0.0, 0.0, 0.0), (1000.0, 600.0, 400.0)))
LARGE = as_surface(Block((0.0, 0.0, 0.0), (1009.2, 600.0, 400.0)))
WALL_TO_WALL = ((0.0, 300.0, 200.0), (1000.0, 300.0, 200.0))

near = st.floats(-8.0, 8.0)
beyond = st.floats(-8.0, 0.0)


def test_the_middle_of_a_wall_is_on_the_surface() -> None:
    assert check_reference(ROOM, WALL_TO_WALL, 1001.0, 3.0) == 1000.0


@given(st.tuples(near, st.floats(10.0, 590.0), st.floats(10.0, 390.0)), st.tuples(beyond, beyond, beyond))
def test_the_nearest_place_is_a_foot_on_a_wall_or_else_a_corner(
    by_a_wall: Vector, off_a_corner: Vector
) -> None:
    expected = float(np.hypot(by_a_wall[1], by_a_wall[2]))
    found = check_reference(ROOM, (off_a_corner, by_a_wall), expected, 1e-6)
    assert found == pytest.approx(expected, abs=1e-9)


def test_a_scan_that_is_too_large_is_refused() -> None:
    with pytest.raises(SurveyError) as caught:
        check_reference(LARGE, WALL_TO_WALL, 1000.0, 3.0)
    assert caught.value.key == "reference"
    assert caught.value.rule == (
        "the scan has 1009.2 mm between the two points, the tape 1000: out by 9.2, more than the tolerance 3"
    )
    assert "0.9909 times" in caught.value.remedy


def test_a_scan_in_the_wrong_unit_is_refused_at_its_points() -> None:
    inches = placed(ROOM, "in", (0.0, 0.0, 0.0), (0.0, 0.0, 0.0))
    with pytest.raises(SurveyError) as caught:
        check_reference(inches, WALL_TO_WALL, 1000.0, 3.0)
    assert (caught.value.key, caught.value.got) == ("reference.between", "200 mm from the surface")
    assert caught.value.rule.startswith("point 2 ")


def test_a_rough_survey_reaches_further() -> None:
    between = ((-25.0, 300.0, 200.0), (1000.0, 300.0, 200.0))
    assert check_reference(ROOM, between, 1000.0, 9.0) == 1000.0
    with pytest.raises(SurveyError, match=r"reference\.between"):
        check_reference(ROOM, between, 1000.0, 3.0)


def test_two_points_at_one_place_are_told_without_a_scale() -> None:
    with pytest.raises(SurveyError) as caught:
        check_reference(ROOM, (WALL_TO_WALL[0], WALL_TO_WALL[0]), 1000.0, 3.0)
    assert "times" not in caught.value.remedy
