"""Tilting a box in: worked figures of a block through a slot, splitting, and what must always hold."""

from dataclasses import replace
from math import asin, degrees

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boxfit.bay import Bay, Block, Cylinder, Keepout, Opening, Point, Prism, Shell, Surface, Vector, Way
from boxfit.space.crosscut import crosscut, planes
from boxfit.space.tilt import COARSE, least, turning, way_in
from boxfit.space.tilt_raster import TURN, Part, Turning, Window
from boxfit.space.tilt_words import CAUTION, told, told_lines
from tests.box.samples import RULES

BARE = replace(RULES, flange=0.0, thickness=0.0, lid_thickness=0.0, liner=0.0, gap=0.0)
BOX = ((-250.0, -200.0, 20.0), (250.0, 200.0, 220.0))
"""500 long fore and aft, 400 across, 200 high."""


def rectangle(half_x: float, half_y: float) -> tuple[Point, ...]:
    return ((-half_x, -half_y), (half_x, -half_y), (half_x, half_y), (-half_x, half_y))


def slot(width: float, depth: float = 900.0, keepouts: tuple[Keepout, ...] = ()) -> Bay:
    """A deep free bay under a slot as wide fore and aft as told, and wide enough across for the box."""
    opening = Opening("up", rectangle(width / 2.0, 290.0))
    return Bay("bay", Prism(rectangle(600.0, 300.0), 0.0, depth), 0.0, 10.0, BARE, keepouts, opening)


def turned_to(bay: Bay, box: tuple[Vector, Vector] = BOX, plane: int = 0) -> float | None:
    """The least angle by turning in one plane."""
    assert bay.opening is not None
    return turning(bay, bay.opening, planes(bay.opening.way)[plane], box, 0.0).least_angle()


def test_a_box_as_short_as_the_hole_goes_straight_in() -> None:
    found = way_in(slot(500.0), *BOX)
    assert found.straight
    assert told(found) == ()


@pytest.mark.parametrize("width", [210.0, 230.0, 280.0, 400.0])
def test_a_block_goes_through_a_wider_slot_tilted(width: float) -> None:
    """A slab H thick, tilted by a, takes H / sin a of a slot in thin metal: sin a = H / W at the least."""
    found = way_in(slot(width), *BOX)
    least_angle = degrees(asin(200.0 / width))
    assert (found.straight, found.tilted, found.tilt_axis) == (False, True, "y")
    assert found.straight_lacks == pytest.approx(500.0 - width, abs=0.11)
    assert found.straight_axis == "x"
    assert least_angle <= found.greatest_angle <= least_angle + 5 * TURN
    assert CAUTION in told(found)


def test_a_slot_narrower_than_the_block_is_high_takes_it_at_no_angle() -> None:
    """Every chord of a convex block is as long as its least width at least, in the direction across it."""
    found = way_in(slot(195.0), *BOX)
    assert not found.tilted
    assert found.tilted_lacks is not None
    # Shorter than the slot, it need not be tilted at all: 500 - 195 = 305 mm, to the next ten.
    assert 305.0 <= found.tilted_lacks <= 310.0 + COARSE
    assert any("tilted it does not go in either; about 3" in one for one in told(found))


def test_a_bay_too_shallow_to_turn_in_keeps_the_block_out() -> None:
    """Tilted to go through 230, at 60 degrees, 500 x 200 is 533 high: in 260 of depth the slot stays shut."""
    assert turned_to(slot(230.0)) is not None
    assert turned_to(slot(230.0, depth=260.0)) is None


def test_a_keep_out_beside_the_box_matters_only_where_the_box_is() -> None:
    """A bar across the bay above the box stops it; the same bar beyond the box's side does not."""
    above = Block((-600.0, -300.0, 300.0), (600.0, 300.0, 320.0))
    beside = Block((-600.0, 201.0, 300.0), (600.0, 300.0, 320.0))
    assert turned_to(slot(400.0, keepouts=(Keepout("bar", above, 10.0),))) is None
    assert turned_to(slot(400.0, keepouts=(Keepout("bar", beside, 10.0),))) == turned_to(slot(400.0))


@pytest.mark.parametrize("way", ["up", "down", "front", "rear", "left", "right"])
def test_the_same_bay_turned_round_gives_the_same_answer(way: Way) -> None:
    """A cube of a bay, a box 400 x 400 x 200 high along the way out, a slot 260 wide."""
    out, sign = {
        "front": (0, 1),
        "rear": (0, -1),
        "left": (1, 1),
        "right": (1, -1),
        "up": (2, 1),
        "down": (2, -1),
    }[way]
    across = next(axis for axis in range(3) if axis != out)
    low, high = [-200.0] * 3, [200.0] * 3
    low[out], high[out] = (-390.0, -190.0) if sign > 0 else (190.0, 390.0)
    hole = rectangle(130.0, 350.0)
    bay = Bay("bay", Prism(rectangle(400.0, 400.0), -400.0, 400.0), 0.0, 10.0, BARE, (), Opening(way, hole))
    assert planes(way)[0].across == across
    angle = turned_to(bay, ((low[0], low[1], low[2]), (high[0], high[1], high[2])))
    upright = turned_to(
        replace(bay, opening=Opening("up", hole)), ((-200.0, -200.0, -390.0), (200.0, 200.0, -190.0))
    )
    assert angle is not None
    assert upright is not None
    assert abs(angle) == abs(upright)


def boards(block: Block) -> tuple[np.ndarray, np.ndarray]:
    """A block's corners and its twelve triangles, the last two on top."""
    (x, y, z), (a, b, c) = block.low, block.high
    points = [(p, q, r) for r in (z, c) for p, q in ((x, y), (a, y), (a, b), (x, b))]
    sides = [
        tri for k in range(4) for tri in ((k, (k + 1) % 4, 4 + k), ((k + 1) % 4, 4 + (k + 1) % 4, 4 + k))
    ]
    return np.array(points), np.array([(0, 2, 1), (0, 3, 2), *sides, (4, 5, 6), (4, 6, 7)])


def test_triangles_stand_in_the_way_as_a_prism_does() -> None:
    prism = slot(400.0)
    points, triangles = boards(Block((-600.0, -300.0, 0.0), (600.0, 300.0, 900.0)))
    opens = np.arange(12) >= 10
    outline = rectangle(600.0, 300.0)
    shell = Shell(
        Surface(points, triangles), "room", (-600.0, -300.0, 0.0), (600.0, 300.0, 900.0), opens, 648e6,
        (outline,), (outline,), (outline,),
    )  # fmt: skip
    one, other = turned_to(prism), turned_to(replace(prism, room=shell))
    assert one is not None
    assert other is not None
    assert abs(abs(one) - abs(other)) <= TURN


def test_a_keep_out_of_triangles_stands_in_the_way_as_its_block_does() -> None:
    block = Block((-600.0, -300.0, 300.0), (600.0, 300.0, 320.0))
    surface = Surface(*boards(block))
    assert turned_to(slot(400.0, keepouts=(Keepout("bar", surface, 10.0),))) is None
    low = Block((260.0, -100.0, 0.0), (270.0, 100.0, 15.0))
    free = [
        turned_to(slot(400.0, keepouts=(Keepout("rib", solid, 10.0),)))
        for solid in (low, Surface(*boards(low)))
    ]
    assert all(angle is not None for angle in free)


def test_many_small_triangles_are_drawn_and_none_is_missed() -> None:
    """A sheet of 10 mm squares upright across the bay is a wall from end to end."""
    y, z = (part.ravel() for part in np.meshgrid(np.arange(-300.0, 310.0, 10.0), np.arange(0.0, 310.0, 10.0)))
    points = np.stack([np.zeros_like(y), y, z], axis=1)
    across = 61
    corner = np.array([row * across + k for row in range(30) for k in range(60)])
    triangles = np.concatenate(
        [
            np.stack([corner, corner + 1, corner + across], axis=1),
            np.stack([corner + 1, corner + across + 1, corner + across], axis=1),
        ]
    )
    bay = slot(400.0, keepouts=(Keepout("sheet", Surface(points, triangles, 1.0), 10.0),))
    assert bay.opening is not None
    pieces = crosscut(bay, bay.opening, planes("up")[0], (-200.0, 200.0))
    sheet = [point for piece in pieces for point in piece if abs(point[0]) < 20.0]
    assert min(v for _, v in sheet) <= 0.0
    assert max(v for _, v in sheet) >= 300.0
    assert turned_to(bay) is None


def test_a_round_bar_is_cut_to_what_reaches_the_box() -> None:
    """Upright, 40 across, its middle 10 beyond the box's side: a chord of 2 sqrt(20^2 - 10^2) counts."""
    bay = slot(
        400.0, keepouts=(Keepout("bar", Cylinder((0.0, 210.0, 0.0), (0.0, 210.0, 300.0), 40.0), 10.0),)
    )
    assert bay.opening is not None
    pieces = crosscut(bay, bay.opening, planes("up")[0], (-200.0, 200.0))
    bar = max((piece for piece in pieces if all(abs(u) < 30.0 for u, _ in piece)), key=len)
    assert max(u for u, _ in bar) - min(u for u, _ in bar) == pytest.approx(34.64 + 0.4, abs=0.5)


def test_splitting_says_whether_both_halves_go_in_and_stand() -> None:
    """Halves of 250 and 9.5 for a wall, liner and gap; a slot of 400 takes one, not two side by side."""
    rules = replace(RULES, flange=0.0)
    bay = replace(slot(400.0), box=rules)
    fore_and_aft, across = way_in(bay, *BOX).splits
    assert (fore_and_aft.size, fore_and_aft.lacks) == (259.5, 0.0)
    assert not fore_and_aft.together  # straight down through a slot of 400 there is no place for two of 259.5
    assert across.lacks is None  # 500 long as before
    narrow = way_in(replace(slot(250.0), box=rules), *BOX).splits[0]
    assert narrow.lacks == pytest.approx(9.5, abs=0.11)


def test_a_box_beside_the_hole_is_told_how_far_it_would_have_to_move() -> None:
    (x, y, z), (a, b, c) = BOX
    found = way_in(slot(600.0), (x + 80.0, y, z), (a + 80.0, b, c))
    assert not found.straight
    assert found.shift == pytest.approx(30.0, abs=0.01)
    assert found.tilted
    assert "30 mm from it would do" in told(found)[0]


def test_without_an_opening_nothing_is_asked() -> None:
    assert way_in(replace(slot(400.0), opening=None), *BOX).straight


def test_the_least_is_none_where_nothing_fits() -> None:
    assert least(lambda by: by > 200.0, 100.0, 0.1) is None


@settings(max_examples=12, deadline=None)
@given(st.integers(20, 60), st.integers(0, 30), st.integers(25, 80))
def test_a_larger_hole_never_makes_it_fail(width: int, more: int, depth: int) -> None:
    one, other = (turned_to(slot(wide * 10.0, depth * 10.0)) for wide in (width, width + more))
    if one is not None:
        assert other is not None
        assert abs(other) <= abs(one)


@settings(max_examples=12, deadline=None)
@given(
    st.lists(st.tuples(st.integers(-50, 50), st.integers(-50, 120)), min_size=1, max_size=4),
    st.integers(0, 60),
)
def test_what_passes_among_obstacles_passes_among_fewer_and_when_smaller(
    places: list[tuple[int, int]], by: int
) -> None:
    """A bar 300 x 100 that must come 600 mm up among squares of 40 mm, none where it rests."""
    squares = tuple(
        ((u, v), (u + 40.0, v), (u + 40.0, v + 40.0), (u, v + 40.0))
        for u, v in ((10.0 * p, 10.0 * q) for p, q in places)
        if abs(u + 20.0) > 180.0 or abs(v + 20.0) > 80.0
    )

    def passes(half: float, obstacles: tuple[tuple[Point, ...], ...]) -> bool:
        part = Part((-half, -50.0), (half, 50.0), obstacles)
        return Turning((part,), Window(300.0, 300.0, 100.0, 600.0), 3.0).passes

    if passes(150.0, squares):
        assert passes(150.0, squares[1:])
        assert passes(150.0 - by, squares)


def test_the_end_under_the_metal_goes_in_first() -> None:
    """The hole lies over the front half of a shallow bay: the rear end goes down and back under the metal."""
    bay = Bay("bay", Prism(rectangle(350.0, 300.0), 0.0, 300.0), 0.0, 10.0, BARE)
    box = ((-320.0, -200.0, 20.0), (180.0, 200.0, 100.0))
    for sign, end in ((1.0, "rear"), (-1.0, "front")):
        near, far = sorted((sign * -60.0, sign * 340.0))
        hole = ((near, -290.0), (far, -290.0), (far, 290.0), (near, 290.0))
        (low, *rest), (high, *others) = box
        turned = (
            (sorted((sign * low, sign * high))[0], *rest),
            (sorted((sign * low, sign * high))[1], *others),
        )
        found = way_in(replace(bay, opening=Opening("up", hole)), *turned)  # type: ignore[arg-type]
        assert (found.tilted, found.leading) == (True, end)
        assert f"{end} end first" in told(found)[1]


@settings(max_examples=8, deadline=None)
@given(st.integers(60, 199), st.integers(300, 900))
def test_no_slot_narrower_than_the_block_is_thick_lets_it_pass(width: int, depth: int) -> None:
    assert turned_to(slot(float(width), float(depth))) is None


def test_cautions_are_told_once_for_several_boxes() -> None:
    one, other = (replace(way_in(slot(400.0), *BOX), bay=name) for name in ("front bay", "rear bay"))
    lines = list(told_lines((one, other)))
    assert lines.count(CAUTION) == 1
    assert sum("goes in tilted by about" in line for line in lines) == 2
