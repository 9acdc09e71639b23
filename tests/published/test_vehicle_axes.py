"""Axes and turns of surveys against ISO 8855:2011, Road vehicles, Vehicle dynamics and road-holding ability,
Vocabulary: the vehicle axis system, X forward, Y to the left, Z up, right-handed, and the senses of yaw
(about Z), pitch (about Y) and roll (about X). From memory: the standard was not at hand.
"""

import numpy as np

from boxfit.surface import Surface, Vector
from boxfit.survey.placed import placed, turning

FORWARD, LEFT, UP = np.eye(3)


def turned(place: Vector, turn: Vector) -> Vector:
    one = Surface(np.array([place]), np.zeros((0, 3), dtype=np.int64))
    return placed(one, "mm", turn, (0.0, 0.0, 0.0)).low


def test_the_axes_are_right_handed() -> None:
    assert np.cross(FORWARD, LEFT).tolist() == UP.tolist()
    for turn in ((90.0, 0.0, 0.0), (0.0, 90.0, 0.0), (0.0, 0.0, 90.0), (20.0, -70.0, 130.0)):
        assert np.isclose(np.linalg.det(turning(turn)), 1.0)


def test_positive_yaw_turns_the_nose_to_the_left() -> None:
    assert turned((1.0, 0.0, 0.0), (0.0, 0.0, 90.0)) == (0.0, 1.0, 0.0)


def test_positive_pitch_turns_the_nose_down() -> None:
    assert turned((1.0, 0.0, 0.0), (0.0, 90.0, 0.0)) == (0.0, 0.0, -1.0)


def test_positive_roll_lifts_the_left_side() -> None:
    assert turned((0.0, 1.0, 0.0), (90.0, 0.0, 0.0)) == (0.0, 0.0, 1.0)


def test_turns_are_about_fixed_axes_one_after_the_other() -> None:
    """About x first, then y, then z: the product of three matrices, from the right."""
    together = turning((0.0, 0.0, 30.0)) @ turning((0.0, 20.0, 0.0)) @ turning((10.0, 0.0, 0.0))
    assert np.allclose(together, turning((10.0, 20.0, 30.0)))
