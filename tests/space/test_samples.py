"""Samples of a surface: close together all over it, and one set that serves its parts as well."""

from functools import cache

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.spatial import cKDTree

from boxfit.space.part import Part
from boxfit.space.samples import on_part, samples
from boxfit.surface import Surface
from tests.survey.scan import Scan, noisy_scan

PITCHES = [5.0, 40.0]
SMALL = [3.2, 6.0]


@cache
def rough(pitch: float) -> Surface:
    """A small room, surveyed with noise."""
    outline = ((-80.0, -60.0), (80.0, -60.0), (80.0, 60.0), (-80.0, 60.0))
    return noisy_scan(Scan(outline=outline, floor=200.0, top=280.0, pitch=pitch, noise=2.0, holes=1))


def third_of(surface: Surface) -> Part:
    """Every third triangle."""
    return Part(surface, np.arange(len(surface.triangles)) % 3 == 0)


def apart(places: NDArray[np.float64]) -> NDArray[np.float64]:
    """Each different place once, in order."""
    return np.unique(np.round(places, 6) + 0.0, axis=0)


@pytest.mark.parametrize("small", SMALL)
@pytest.mark.parametrize("pitch", PITCHES)
def test_no_place_is_far_from_a_sample_on_its_part(pitch: float, small: float) -> None:
    surface = rough(pitch)
    part = third_of(surface)
    shares = np.random.default_rng(1).dirichlet((1.0, 1.0, 1.0), (50, np.count_nonzero(part.chosen)))
    anywhere = np.einsum("nmk,mkx->nmx", shares, surface.corners[part.chosen]).reshape(-1, 3)
    tree = cKDTree(samples(surface, small).places[on_part(part, small)])
    assert tree.query(anywhere)[0].max() <= small / np.sqrt(3.0) + 1e-9


@pytest.mark.parametrize("small", SMALL)
@pytest.mark.parametrize("pitch", PITCHES)
def test_samples_on_a_part_are_those_of_the_part_alone(pitch: float, small: float) -> None:
    part = third_of(rough(pitch))
    found = samples(part.surface, small).places[on_part(part, small)]
    np.testing.assert_array_equal(apart(found), apart(samples(part.alone, small).places))
