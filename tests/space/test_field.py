"""The free plan beside very many triangles, against exact distances and exact shadows."""

from functools import cache

import numpy as np
import pytest
import shapely
from numpy.typing import NDArray

from boxfit.judge.distance import Cuboid
from boxfit.judge.triangle import triangle_distances
from boxfit.space.covered import FEW
from boxfit.space.field import Metal, free_plan
from boxfit.space.shadow import Levels
from boxfit.space.triangle_shadow import triangle_shadow
from boxfit.surface import Surface
from tests.survey.scan import Scan, noisy_scan

FLOOR, TOP = 200.0, 360.0
OUTLINE = ((-150.0, -100.0), (150.0, -120.0), (150.0, 40.0), (40.0, 60.0), (30.0, 120.0), (-150.0, 100.0))
LOST = 1.0
"""Room [mm] that the grid may cost."""
BOX = 20.0
"""Side [mm] in plan of the narrowest box that is to keep its place."""
UPRIGHT = {"between walls": (260.0, 300.0), "down to a rough floor": (FLOOR + 4.0, 300.0)}


@cache
def rough(pitch: float) -> Surface:
    """A room with a slanting side and an inward corner, surveyed with noise."""
    return noisy_scan(Scan(outline=OUTLINE, floor=FLOOR, top=TOP, pitch=pitch, noise=2.0, holes=2))


def places_on(region: shapely.Geometry, count: int) -> NDArray[np.float64]:
    """Corners of a region's edge, and places anywhere in it."""
    chance = np.random.default_rng(3)
    corners = shapely.get_coordinates(region)
    corners = corners[chance.permutation(len(corners))[:count]]
    anywhere = chance.uniform(corners.min(axis=0), corners.max(axis=0), (count, 2))
    return np.concatenate([corners, anywhere[shapely.contains_xy(region, anywhere)]])


@pytest.mark.parametrize("levels", UPRIGHT.values(), ids=UPRIGHT)
@pytest.mark.parametrize("distance", [0.0, 0.5, 1.0, 3.0, 13.0])
@pytest.mark.parametrize("pitch", [7.0, 18.0])
def test_no_free_place_is_nearer_than_asked(levels: Levels, distance: float, pitch: float) -> None:
    surface = rough(pitch)
    region = free_plan(Metal(surface), levels, distance)
    assert not region.is_empty
    for x, y in places_on(region, 30).tolist():
        upright = Cuboid((x, y, levels[0]), (x, y, levels[1]))
        assert float(triangle_distances(upright, surface.corners).min()) >= distance - 1e-6, (x, y)


def exactly_free(surface: Surface, levels: Levels, distance: float) -> shapely.Geometry:
    """What the shadows of all triangles leave free within the room."""
    shadows = (triangle_shadow(corners, levels, distance) for corners in surface.corners)
    taken = shapely.union_all([shadow for shadow in shadows if shadow is not None])
    return shapely.difference(shapely.Polygon(OUTLINE), taken)


def boxes_at_the_edge(region: shapely.Geometry) -> list[shapely.Polygon]:
    """The narrowest boxes that lie in a region with a corner on one of its own."""
    found = []
    for x, y in shapely.get_coordinates(region).tolist():
        for dx, dy in ((0.0, 0.0), (BOX, 0.0), (0.0, BOX), (BOX, BOX)):
            box = shapely.box(x - dx, y - dy, x - dx + BOX, y - dy + BOX)
            if region.covers(box):
                found.append(box)
    return found


@pytest.mark.parametrize("levels", UPRIGHT.values(), ids=UPRIGHT)
@pytest.mark.parametrize("distance", [3.0, 13.0])
@pytest.mark.parametrize("pitch", [8.0, 25.0])
def test_no_more_than_a_millimetre_is_lost(levels: Levels, distance: float, pitch: float) -> None:
    """Every box with a millimetre more than asked all round is free."""
    surface = rough(pitch)
    assert len(surface.triangles) > FEW
    region = free_plan(Metal(surface), levels, distance)
    exact = exactly_free(surface, levels, distance + LOST)
    shapely.prepare(exact)
    shapely.prepare(region)
    boxes = boxes_at_the_edge(exact)
    assert all(region.covers(box) for box in boxes)
    if levels == UPRIGHT["between walls"]:
        assert boxes
