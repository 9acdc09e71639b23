"""Floor and top of a room are told apart, rough or not."""

import pytest

from boxfit.bay import Prism
from boxfit.space.flat import flat_levels
from tests.surfaces import prism_surface
from tests.survey.scan import RECTANGLE, Scan, noisy_scan

FLOOR, TOP, NOISE = 200.0, 600.0, 2.0


def test_a_plain_room_is_flat_at_floor_and_top() -> None:
    assert flat_levels(prism_surface(Prism(RECTANGLE, FLOOR, TOP))) == ((FLOOR, FLOOR), (TOP, TOP))


def test_a_rough_room_is_flat_within_its_noise() -> None:
    levels = flat_levels(noisy_scan(Scan(floor=FLOOR, top=TOP, noise=NOISE, specks=6)))
    assert len(levels) == 2
    for (low, high), level in zip(levels, (FLOOR, TOP), strict=True):
        assert low == pytest.approx(level - NOISE, abs=0.3)
        assert high == pytest.approx(level + NOISE, abs=0.3)
