"""Outlines of stepped boxes: cut up and measured as another library, and the boxes' own sums, have it."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import MultiPolygon, Polygon, box, unary_union

from boxfit import box_shape
from boxfit.judge.distance import Cuboid, Rectangle
from boxfit.judge.outline import (
    Outline,
    area,
    cells,
    holds,
    is_simple,
    is_square,
    largest,
    middle_of_area,
    middle_of_sides,
    narrowest_notch,
    perimeter,
    turns_left,
)
from boxfit.judge.walls import liner_distance
from tests.judge.samples import RULES
from tests.judge.stepped import L_PLAN, U_PLAN
from tests.judge.strategies import square_outlines

depths = st.integers(1, 40).map(float)


def shape(rectangle: Rectangle) -> Polygon:
    return box(*rectangle.low, *rectangle.high)


@given(square_outlines())
def test_measures(outline: Outline) -> None:
    assert is_square(outline)
    assert is_simple(outline)
    assert turns_left(outline)
    assert not turns_left(outline[::-1])
    polygon = Polygon(outline)
    assert area(outline) == pytest.approx(polygon.area) == pytest.approx(box_shape.area(outline))
    assert perimeter(outline) == pytest.approx(polygon.length)
    assert middle_of_area(outline) == pytest.approx((polygon.centroid.x, polygon.centroid.y))
    ring = polygon.exterior.centroid
    assert middle_of_sides(outline) == pytest.approx((ring.x, ring.y))


@given(square_outlines())
def test_largest_rectangles_make_up_the_whole(outline: Outline) -> None:
    found = largest(outline)
    polygon = Polygon(outline)
    assert unary_union([shape(one) for one in found]).symmetric_difference(polygon).area < 1e-6
    assert not any(one != other and holds(one, other) for one in found for other in found)
    told = [Rectangle(low, high) for low, high in box_shape.rectangles(outline)]
    for one in (*told, *cells(outline)):
        assert any(holds(other, one) for other in found)


@given(square_outlines(), st.floats(0.01, 0.499))
def test_an_outline_wider_than_its_walls_has_one_inside(outline: Outline, share: float) -> None:
    width = min(min(one.high[k] - one.low[k] for k in range(2)) for one in largest(outline))
    inside = Polygon(outline).buffer(-share * width, join_style="mitre", mitre_limit=2.0)
    assert isinstance(inside, Polygon)
    assert not inside.is_empty


@given(square_outlines(), depths)
def test_a_notch_too_narrow_is_one_in_which_flanges_meet(outline: Outline, flange: float) -> None:
    notch = narrowest_notch(outline)
    rim = Polygon(outline).buffer(flange, join_style="mitre", mitre_limit=2.0)
    # hand: a strip along every side and four corners more, unless strips lie on each other
    free = area(outline) + perimeter(outline) * flange + 4.0 * flange**2
    if notch is None or notch >= 2.0 * flange:
        assert rim.area == pytest.approx(free)
    else:
        assert rim.area < free


@given(
    square_outlines(), st.tuples(*[st.integers(-90, 90)] * 2), st.tuples(depths, depths), st.integers(0, 9)
)
def test_distance_to_the_liner(
    outline: Outline, low: tuple[int, int], size: tuple[float, float], deep: int
) -> None:
    (x, y), (long, wide) = low, size
    block = Cuboid((x, y, 0.0), (x + long, y + wide, 1.0))
    liner = Polygon(outline).buffer(-RULES.thickness - RULES.liner, join_style="mitre", mitre_limit=2.0)
    plan = shape(block.shrunk(deep / 4).across((0, 1)))
    expected = plan.distance(liner.boundary) if liner.contains(plan) else 0.0
    found = liner_distance(block.shrunk(deep / 4), outline, RULES)
    assert found == pytest.approx(expected, abs=1e-6)


def test_by_hand() -> None:
    assert len(L_PLAN) == 6
    # hand: 223 x 81 and 121 x 62
    assert area(L_PLAN) == 25565.0
    assert perimeter(L_PLAN) == 2 * (223 + 143)
    assert narrowest_notch(L_PLAN) is None
    assert narrowest_notch(U_PLAN) == 287.0
    # hand: a wall at 2 and one at 4 look at each other, but past each other
    assert narrowest_notch(((0, 2), (4, 2), (4, 0), (6, 0), (6, 4), (2, 4), (2, 6), (0, 6))) is None
    assert narrowest_notch(((0, 0), (2, 0), (2, 2), (6, 2), (6, 6), (4, 6), (4, 4), (0, 4))) is None
    assert [one.low + one.high for one in largest(L_PLAN)] == [
        (-10.5, -10.5, 110.5, 132.5),
        (-10.5, -10.5, 212.5, 70.5),
    ]


@pytest.mark.parametrize(
    "outline",
    [
        ((0, 0), (4, 0), (4, 2), (2, 2), (2, -2), (0, -2)),
        ((0, 0), (4, 0), (4, 4), (2, 4), (2, 0), (1, 0), (1, 4), (0, 4)),
        ((0, 0), (2, 0), (2, 2), (4, 2), (4, 4), (2, 4), (2, 2), (0, 2)),
    ],
)
def test_outlines_that_meet_themselves(outline: Outline) -> None:
    assert not is_simple(outline)


def test_two_parts_that_share_a_corner_are_no_one_outline() -> None:
    assert isinstance(unary_union([box(0, 0, 2, 2), box(2, 2, 4, 4)]), MultiPolygon)
