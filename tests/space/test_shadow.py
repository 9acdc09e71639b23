"""Shadows against the judge's true distances in space."""

from math import cos, pi, sin

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from boxfit.bay import Block, Cylinder
from boxfit.judge.cylinder import cylinder_distance
from boxfit.judge.distance import Cuboid, block_distance
from boxfit.space.shadow import grown, shadow
from tests.judge.strategies import bars, cuboids

ALLOWED = 0.1
"""How much [mm] a shadow may ask more than needed, as distance in space."""
NOISE = 2e-4
"""What the judge's own figure may miss by [mm]."""
asked_distances = st.sampled_from([0.0, 3.0, 13.0, 18.0, 28.0])


def distance(box: Cuboid, solid: Block | Cylinder) -> float:
    if isinstance(solid, Block):
        return max(block_distance(box, Cuboid(solid.low, solid.high)), 0.0)
    return cylinder_distance(box, solid).lower


def moved(box: Cuboid, dx: float, dy: float) -> Cuboid:
    (x, y, z), (a, b, c) = box.low, box.high
    return Cuboid((x + dx, y + dy, z), (a + dx, b + dy, c))


def step_out(box: Cuboid, polygon: tuple[tuple[float, float], ...], turn: float) -> Cuboid:
    """The box moved in a direction of the plan to where it just leaves the polygon."""
    (x, y, _), (a, b, _) = box.low, box.high
    corners = [
        (px - qx, py - qy)
        for px, py in polygon
        for qx, qy in ((0, 0), (a - x, 0), (0, b - y), (a - x, b - y))
    ]
    held = shapely.MultiPoint(corners).convex_hull
    start = held.representative_point()
    ray = shapely.LineString([start, (start.x + 1e5 * cos(turn), start.y + 1e5 * sin(turn))])
    end = ray.intersection(held).coords[-1]
    return moved(box, end[0] - x, end[1] - y)


@settings(max_examples=150)
@given(
    st.one_of(bars(), cuboids().map(lambda one: Block(one.low, one.high))),
    cuboids(),
    asked_distances,
    st.floats(0.0, 2 * pi),
)
def test_a_box_on_the_edge_of_a_shadow_keeps_the_distance_and_no_more(
    solid: Block | Cylinder, box: Cuboid, asked: float, turn: float
) -> None:
    levels = (box.low[2], box.high[2])
    polygon = shadow(solid, levels, asked)
    if polygon is None:
        over = Cuboid((-5e3, -5e3, levels[0]), (5e3, 5e3, levels[1]))
        assert distance(over, solid) >= asked - NOISE
        return
    on_edge = step_out(box, polygon, turn)
    found = distance(on_edge, solid)
    assert asked - NOISE <= found <= asked + ALLOWED


@settings(max_examples=150)
@given(
    st.one_of(bars(), cuboids().map(lambda one: Block(one.low, one.high))),
    cuboids(),
    asked_distances,
    st.floats(0.0, 2 * pi),
    st.floats(0.2, 60.0),
)
def test_a_box_in_a_shadow_is_too_near_and_one_outside_is_not(
    solid: Block | Cylinder, box: Cuboid, asked: float, turn: float, step: float
) -> None:
    polygon = shadow(solid, (box.low[2], box.high[2]), asked)
    if polygon is None:
        return
    on_edge = step_out(box, polygon, turn)
    for side in (1.0, -1.0):
        there = moved(on_edge, side * step * cos(turn), side * step * sin(turn))
        meets = (
            shapely.Polygon(polygon)
            .intersection(shapely.box(there.low[0], there.low[1], there.high[0], there.high[1]))
            .area
            > 1e-9
        )
        found = distance(there, solid)
        if found < asked - NOISE:
            assert meets
        if found > asked + ALLOWED:
            assert not meets


def test_hand_figures_of_a_block() -> None:
    """3-4-5: 3 above and 5 asked leave 4 sideways."""
    block = Block((0.0, 0.0, 0.0), (10.0, 20.0, 30.0))
    polygon = shadow(block, (33.0, 40.0), 5.0)
    assert polygon is not None
    assert shapely.Polygon(polygon).bounds == pytest.approx((-4.0, -4.0, 14.0, 24.0), abs=1e-9)
    assert shadow(block, (35.0, 40.0), 5.0) is None
    assert shadow(block, (34.99, 40.0), 5.0) is not None
    assert shadow(block, (30.0, 40.0), 0.0) is None


def test_hand_figures_of_an_upright_bar() -> None:
    """Diameter 20 and 5 asked: 15 from the axis all round."""
    polygon = shadow(Cylinder((0.0, 0.0, 0.0), (0.0, 0.0, 100.0), 20.0), (10.0, 20.0), 5.0)
    assert polygon is not None
    reaches = [(x**2 + y**2) ** 0.5 for x, y in polygon]
    assert all(15.0 - 1e-9 <= reach <= 15.0 + ALLOWED for reach in reaches)
    inside = shapely.Polygon(polygon).exterior.distance(shapely.Point(0.0, 0.0))
    assert inside >= 15.0 - 1e-9


def test_grown_holds_every_point_within_the_distance() -> None:
    side = ((0.0, 0.0), (30.0, 40.0))
    polygon = shapely.Polygon(grown(side, 13.0))
    true = shapely.LineString(side).buffer(13.0, quad_segs=256)
    assert polygon.buffer(1e-6).covers(true)
    assert shapely.hausdorff_distance(polygon, true) <= ALLOWED
