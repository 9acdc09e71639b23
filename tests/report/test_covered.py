"""The volume of solids that overlap, against blocks whose volumes are plain sums."""

import numpy as np
import pytest

from boxfit.bay import Block
from boxfit.report.covered import covered_volume
from boxfit.surface import Surface
from boxfit.survey.solids import as_surface


def _both(one: Surface, other: Surface) -> Surface:
    shifted = other.triangles + len(one.points)
    return Surface(np.vstack([one.points, other.points]), np.vstack([one.triangles, shifted]))


CUBE = as_surface(Block((0.0, 0.0, 0.0), (100.0, 100.0, 100.0)))


def test_one_piece_is_exact() -> None:
    assert covered_volume(CUBE) == pytest.approx(1e6, rel=1e-12)


@pytest.mark.parametrize(
    ("low", "high", "volume"),
    [
        ((50.0, 0.0, 0.0), (150.0, 100.0, 100.0), 1.5e6),
        ((200.0, 0.0, 0.0), (300.0, 100.0, 100.0), 2e6),
        ((20.0, 20.0, 20.0), (80.0, 80.0, 80.0), 1e6),
        ((50.0, 7.0, 20.0), (190.0, 133.0, 160.0), 1e6 + 140 * 126 * 140 - 50 * 93 * 80),
    ],
)
def test_what_overlaps_counts_once(
    low: tuple[float, float, float], high: tuple[float, float, float], volume: float
) -> None:
    assert covered_volume(_both(CUBE, as_surface(Block(low, high)))) == pytest.approx(volume, rel=0.02)
