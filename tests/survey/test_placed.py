"""Surfaces from their own axes into the car's."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxfit.bay import Block
from boxfit.surface import Vector
from boxfit.survey.placed import placed, turning
from boxfit.survey.solids import as_surface
from boxfit.survey.volume import volume_of

BLOCK = as_surface(Block((1.0, 2.0, 3.0), (10.0, 20.0, 40.0)))
NO_TURN = (0.0, 0.0, 0.0)
degrees = st.floats(-720.0, 720.0)
offsets = st.floats(-5000.0, 5000.0)
vectors = st.tuples(degrees, degrees, degrees)


@given(
    vectors, st.tuples(offsets, offsets, offsets), st.sampled_from([("mm", 1.0), ("cm", 10.0), ("in", 25.4)])
)
def test_distances_and_sense_are_kept(turn: Vector, move: Vector, unit: tuple[str, float]) -> None:
    moved = placed(BLOCK, unit[0], turn, move)
    before = np.linalg.norm(BLOCK.points[:, None] - BLOCK.points, axis=2) * unit[1]
    after = np.linalg.norm(moved.points[:, None] - moved.points, axis=2)
    assert np.allclose(before, after, rtol=1e-9, atol=1e-8)
    assert volume_of(moved) == pytest.approx(volume_of(BLOCK) * unit[1] ** 3, rel=1e-8)


@given(st.tuples(*[st.sampled_from([-270.0, -90.0, 0.0, 90.0, 180.0, 360.0, 450.0])] * 3))
def test_quarter_turns_are_exact(turn: Vector) -> None:
    assert set(turning(turn).ravel().tolist()) <= {-1.0, 0.0, 1.0}


@pytest.mark.parametrize(
    ("turn", "axis", "goes_to"),
    [
        ((90.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)),
        ((0.0, 90.0, 0.0), (0.0, 0.0, 1.0), (1.0, 0.0, 0.0)),
        ((0.0, 0.0, 90.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0)),
        ((90.0, 0.0, 90.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)),
        ((90.0, 90.0, 0.0), (0.0, 1.0, 0.0), (1.0, 0.0, 0.0)),
    ],
)
def test_turns_are_right_handed_about_fixed_axes(turn: Vector, axis: Vector, goes_to: Vector) -> None:
    assert tuple((turning(turn) @ np.array(axis)).tolist()) == goes_to


def test_metres_carry_the_surfaces_own_error_along() -> None:
    rough = placed(BLOCK, "cm", NO_TURN, (0.0, 0.0, -30.0))
    assert rough.low == (10.0, 20.0, 0.0)
    again = placed(type(BLOCK)(BLOCK.points, BLOCK.triangles, 0.02), "m", NO_TURN, (0.0, 0.0, 0.0))
    assert again.off == 20.0
