"""The greatest free depth against a scan that looks at strips of the plan one by one."""

from math import inf

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from boxfit.bay import Point
from boxfit.space.plan import PlanRoom, longest_upright_chord
from boxfit.space.shadow import Polygon

SQUARE = ((0.0, 0.0), (100.0, 0.0), (100.0, 60.0), (0.0, 60.0))


def edges(outline: tuple[Point, ...]) -> tuple[Polygon, ...]:
    return tuple(zip(outline, outline[1:] + outline[:1], strict=True))


def room(outline: tuple[Point, ...], pieces: tuple[Polygon, ...] = ()) -> PlanRoom:
    return PlanRoom((shapely.Polygon(outline),), edges(outline) + pieces)


@st.composite
def outlines(draw: st.DrawFn) -> tuple[Point, ...]:
    """Simple outlines on whole mm, most with corners that point inwards: two rows of points, low and high."""
    xs = sorted(draw(st.lists(st.integers(0, 60), min_size=3, max_size=6, unique=True)))
    low = [(float(x), float(draw(st.integers(0, 25)))) for x in xs]
    high = [(float(x), float(draw(st.integers(26, 60)))) for x in xs]
    return (*low, *high[::-1])


@st.composite
def obstacles(draw: st.DrawFn) -> Polygon:
    """A convex piece of three or four corners."""
    corner = st.tuples(st.integers(0, 60), st.integers(0, 60))
    hull = shapely.MultiPoint(draw(st.lists(corner, min_size=3, max_size=4))).convex_hull
    points = hull.exterior.coords[:-1] if isinstance(hull, shapely.Polygon) else hull.coords
    return tuple((float(x), float(y)) for x, y in points)


def gap_in_strip(plan: PlanRoom, left: float, right: float) -> float:
    """The deepest free gap between left and right, by what each piece takes of the strip's height."""
    strip = shapely.box(left + 1e-7, -1e3, right - 1e-7, 1e3)
    taken = []
    for piece in plan.pieces:
        part = shapely.MultiPoint(piece).convex_hull.intersection(strip)
        if not part.is_empty:
            taken.append((part.bounds[1], part.bounds[3]))
    best, reached = 0.0, -inf
    for low, high in sorted(taken):
        middle = shapely.Point((left + right) / 2, (low + reached) / 2)
        if low - reached > best and all(shapely.Polygon(o).contains(middle) for o in plan.inside):
            best = low - reached
        reached = max(reached, high)
    return best


def scanned(plan: PlanRoom, width: float) -> float:
    """The greatest depth over strips that begin or end at a corner, and over a fine row of others."""
    corners = {x for piece in plan.pieces for x, _ in piece}
    starts = corners | {x - width for x in corners} | {0.5 * step for step in range(120)}
    return max(gap_in_strip(plan, start, start + width) for start in starts)


@settings(max_examples=120)
@given(outlines(), st.lists(obstacles(), max_size=3).map(tuple), st.integers(1, 200).map(lambda n: n / 4.0))
def test_deepest_against_a_scan(
    outline: tuple[Point, ...], pieces: tuple[Polygon, ...], width: float
) -> None:
    plan = room(outline, pieces)
    found = plan.deepest(width)
    assert scanned(plan, width) <= found + 1e-4
    if found > 0.1:
        place = shapely.get_coordinates(plan.places(width, found - 2e-6))
        assert len(place)
        x, y = place.mean(axis=0) if len(place) < 3 else place[0]
        rectangle = shapely.box(x + 1e-5, y + 1e-5, x + width - 1e-5, y + found - 1e-5)
        assert shapely.Polygon(outline).contains(rectangle)
        assert not any(shapely.MultiPoint(piece).convex_hull.intersects(rectangle) for piece in plan.pieces)


@pytest.mark.parametrize(
    ("width", "depth"), [(100.0, 60.0), (99.999, 60.0), (0.5, 60.0), (100.001, 0.0), (150.0, 0.0)]
)
def test_exact_fit_in_a_rectangle(width: float, depth: float) -> None:
    assert room(SQUARE).deepest(width) == pytest.approx(depth, abs=1e-5)


def test_slanted_walls_by_hand() -> None:
    """A triangle of base 100 and height 100: a square-cornered rectangle of width 40 is 60 deep."""
    triangle = ((0.0, 0.0), (100.0, 0.0), (50.0, 100.0))
    assert room(triangle).deepest(40.0) == pytest.approx(60.0, abs=1e-4)
    slanted = ((0.0, 0.0), (100.0, 20.0), (100.0, 80.0), (0.0, 60.0))
    assert room(slanted).deepest(50.0) == pytest.approx(50.0, abs=1e-4)  # hand: 60 less 50 x 20 / 100


def test_corners_that_point_inwards_by_hand() -> None:
    """An L of arms 40 and 30 wide, and a U whose bottom is 20 deep."""
    ell = ((0.0, 0.0), (100.0, 0.0), (100.0, 30.0), (40.0, 30.0), (40.0, 90.0), (0.0, 90.0))
    assert [room(ell).deepest(width) for width in (40.0, 40.001, 100.0)] == pytest.approx(
        [90.0, 30.0, 30.0], abs=1e-4
    )
    cup = (
        (0.0, 0.0), (100.0, 0.0), (100.0, 90.0), (70.0, 90.0), (70.0, 20.0), (30.0, 20.0), (30.0, 90.0),
        (0.0, 90.0),
    )  # fmt: skip
    assert [room(cup).deepest(width) for width in (30.0, 30.01)] == pytest.approx([90.0, 20.0], abs=1e-4)


def test_a_ring_of_free_plan_round_an_obstacle() -> None:
    block = ((20.0, 20.0), (50.0, 20.0), (50.0, 40.0), (20.0, 40.0))
    plan = room(SQUARE, (block,))
    assert plan.deepest(50.0) == pytest.approx(60.0, abs=1e-5)
    assert plan.deepest(51.0) == pytest.approx(20.0, abs=1e-5)


def test_places_of_an_exact_fit_are_one_point() -> None:
    spot = room(SQUARE).places(100.0, 60.0)
    assert shapely.get_coordinates(spot) == pytest.approx(0.0, abs=1e-5)
    assert not spot.is_empty
    assert room(SQUARE).places(100.1, 60.0).is_empty


def test_longest_chord_of_a_shape_with_a_hole() -> None:
    ring = shapely.Polygon([(0, 0), (10, 0), (10, 10), (0, 10)], [[(1, 1), (9, 1), (9, 8), (1, 8)]])
    assert longest_upright_chord(ring) == 10.0
    pierced = shapely.Polygon([(0, 0), (4, 0), (4, 8), (0, 8)], [[(-0.0, 3), (4, 3), (4, 4), (0, 4)]])
    assert longest_upright_chord(pierced.buffer(0)) == 4.0
