"""Stepped boxes: sound whatever the bay, as full as exact packings of small bays, never above the bound."""

from dataclasses import replace
from itertools import combinations, pairwise
from random import Random

import pytest
import shapely
from hypothesis import given, settings

from boxfit.bay import Bay, Block, Cylinder, Keepout, Point, Prism
from boxfit.box_shape import grown
from boxfit.car import Car
from boxfit.layout import PlacedBox
from boxfit.module import Module
from boxfit.search.bay import BaySearch
from boxfit.search.stepped import MOST_HANDED_ON, stepped_bound, stepped_boxes
from boxfit.search.stepped_box import SteppedBox
from boxfit.search.stepped_fill import settle
from boxfit.search.stepped_shape import Clad, Shape
from boxfit.search.watch import Watch
from tests.box.samples import RULES
from tests.search.strategies import cars, modules
from tests.search.test_find import MODULE

ONE_TIER = replace(RULES, tiers=1, shape="stepped")
NO_WALLS = replace(
    ONE_TIER, process="welded", thickness=0.0, bend_radius=0.0, flange=0.0, lid_thickness=1.0,
    clearance=0.0, liner=0.0, gap=0.0, headroom=0.0,
)  # fmt: skip
NEAR = 1e-4
CELL = 50.0
"""Side [mm] of a cell of the small bays."""


def l_shaped(width: float, depth: float, arm: float, leg: float) -> tuple[Point, ...]:
    """An arm along x, a leg along y."""
    return ((0.0, 0.0), (width, 0.0), (width, arm), (leg, arm), (leg, depth), (0.0, depth))


L_BAY = l_shaped(1000.0, 1000.0, 500.0, 500.0)
T_BAY = (
    (0.0, 0.0), (1000.0, 0.0), (1000.0, 500.0), (700.0, 500.0), (700.0, 1000.0), (300.0, 1000.0),
    (300.0, 500.0), (0.0, 500.0),
)  # fmt: skip
Z_BAY = (
    (0.0, 0.0), (1000.0, 0.0), (1000.0, 500.0), (1400.0, 500.0), (1400.0, 1000.0), (400.0, 1000.0),
    (400.0, 500.0), (0.0, 500.0),
)  # fmt: skip


def bay_of(outline: tuple[Point, ...], height: float = 190.0, keepouts: tuple[Keepout, ...] = ()) -> Bay:
    return Bay("front bay", Prism(outline, 200.0, 200.0 + height), 3.0, 13.0, ONE_TIER, keepouts)


def boxes_in(bay: Bay, module: Module = MODULE) -> tuple[SteppedBox, ...]:
    search = BaySearch(bay, module)
    found = stepped_boxes(search, search.most, Watch())
    assert len(found) <= MOST_HANDED_ON
    assert list(found) == sorted(found, key=lambda box: -box.count)
    for box in found:
        assert search.most < box.count <= stepped_bound(search)
        assert_sound(box, search)
    return found


def assert_sound(box: SteppedBox, search: BaySearch) -> None:
    """Outlines are simple, run counter-clockwise and hold their modules; the box is clear of its bay."""
    place = next(part for part in shapely.get_parts(box.places(search.rooms)) if part.area > 0)
    at = place.representative_point()
    placed = box.placed(at.x, at.y)
    assert (placed.corners, len(placed.modules)) == (box.corners, box.count)
    assert [len(tier.modules) > 0 for tier in placed.tiers] == [True] * len(placed.tiers)
    for below, above in pairwise(placed.outlines):
        assert shapely.Polygon(below).difference(shapely.Polygon(above)).area < NEAR
    for number, outline in enumerate(placed.outlines):
        ring = shapely.LinearRing(outline)
        assert ring.is_simple
        assert ring.is_ccw
        assert len(outline) <= 8
        assert all((ax == bx) != (ay == by) for (ax, ay), (bx, by) in pairwise((*outline, outline[0])))
        assert_modules_fit(placed, number, search)
    assert_clear(placed, search.bay)


def assert_modules_fit(placed: PlacedBox, number: int, search: BaySearch) -> None:
    """Gap or room to every wall, spacing and room between modules."""
    rules, tier = search.bay.box, placed.tiers[number]
    gap = max(rules.gap, rules.bend_radius - rules.liner if number == 0 else 0.0)
    wall = rules.thickness + rules.liner
    outline = shapely.Polygon(tier.outline).buffer(NEAR, join_style="mitre")
    bodies, roomy = [], []
    for module in tier.modules:
        low, high = module.low[:2], module.high[:2]
        before, after = module.stance.room_low, module.stance.room_high
        near = [wall + max(gap, before[axis]) for axis in (0, 1)]
        far = [wall + max(gap, after[axis]) for axis in (0, 1)]
        claim = shapely.box(low[0] - near[0], low[1] - near[1], high[0] + far[0], high[1] + far[1])
        assert outline.contains(claim)
        bodies.append((low, high))
        roomy.append(
            shapely.box(low[0] - before[0], low[1] - before[1], high[0] + after[0], high[1] + after[1])
        )
    for (one, its), (other, others) in combinations(list(zip(bodies, roomy, strict=True)), 2):
        apart = max(max(one[0][k] - other[1][k], other[0][k] - one[1][k]) for k in (0, 1))
        assert apart >= search.module.spacing - NEAR
        assert its.intersection(others).area < 1.0 or search.module.room_shared


def assert_clear(placed: PlacedBox, bay: Bay) -> None:
    """Every distance at rest, flange and all, in a bay with upright walls."""
    assert isinstance(bay.room, Prism)
    assert placed.low[2] >= bay.room.floor + bay.distance - NEAR
    assert placed.high[2] <= bay.room.top - bay.distance + NEAR
    rim = shapely.Polygon(grown(placed.outlines[-1], bay.box.flange))
    room = shapely.Polygon(bay.room.outline)
    assert room.buffer(NEAR).contains(rim)
    assert rim.distance(room.exterior) >= bay.distance - NEAR
    feet = [placed.low[2], *(tier.stands_on - bay.box.thickness for tier in placed.tiers[1:]), placed.high[2]]
    bands = [(shapely.Polygon(one), *ends) for one, ends in zip(placed.outlines, pairwise(feet), strict=True)]
    bands.append((rim, placed.high[2] - bay.box.lid_thickness - bay.box.thickness, placed.high[2]))
    for keepout in bay.keepouts:
        if isinstance(keepout.solid, Block):
            low, high = keepout.solid.low, keepout.solid.high
            plan = shapely.box(low[0], low[1], high[0], high[1])
            for outline, bottom, top in bands:
                upright = max(low[2] - top, bottom - high[2], 0.0)
                assert (outline.distance(plan) ** 2 + upright**2) ** 0.5 >= keepout.distance - NEAR


def test_an_l_box_takes_one_row_more() -> None:
    """Worked out by hand: legs of 3 x 1 modules of 200 x 160 in walls of 9.5 mm that fit to a hair.

    Reserves are 202 x 162; a leg for two rows of 202 is 404 + 2 x 9.5 - 2 = 421 wide, 70 more for flange
    and distance.
    """
    arm = 421.0 + 2 * (22.0 + 13.0)
    length = 5 * 162.0 - 2.0 + 2 * 9.5 + 2 * 35.0
    found = boxes_in(bay_of(l_shaped(length, length, arm, arm)))
    assert (found[0].count, found[0].corners) == (14, 6)
    assert max(box.size.width for box in found) == pytest.approx(length - 70.0, abs=1e-6)


@pytest.mark.parametrize(("outline", "count"), [(L_BAY, 16), (T_BAY, 13), (Z_BAY, 20)])
def test_boxes_follow_the_bay(outline: tuple[Point, ...], count: int) -> None:
    found = boxes_in(bay_of(outline))
    assert found[0].count >= count  # own output (regression)
    assert found[0].corners == len(outline)


def test_a_u_box_stands_round_a_column() -> None:
    column = Cylinder((700.0, 0.0, 150.0), (700.0, 0.0, 450.0), 60.0)
    outline = ((0.0, -300.0), (900.0, -300.0), (900.0, 300.0), (0.0, 300.0))
    found = boxes_in(bay_of(outline, keepouts=(Keepout("column", column, 13.0),)))
    assert found
    assert found[0].corners <= 8
    for box in found:
        assert box.count > 0


def test_the_floor_steps_up_over_a_sill() -> None:
    sill = Block((1000.0, -10.0, 190.0), (1510.0, 610.0, 300.0))
    outline = ((0.0, 0.0), (1500.0, 0.0), (1500.0, 600.0), (0.0, 600.0))
    bay = bay_of(outline, 330.0, (Keepout("sill", sill, 13.0),))
    found = boxes_in(replace(bay, box=replace(ONE_TIER, tiers=2)))
    below, above = found[0].outlines
    assert len(below) == len(above) == 4
    assert (found[0].count, found[0].corners) == (33, 8)  # hand: 13 below, 20 above
    assert max(x for x, _ in below) < max(x for x, _ in above)


@settings(max_examples=12)
@given(cars(), modules())
def test_every_stepped_box_is_sound(car: Car, module: Module) -> None:
    bay = replace(car.bays[0], box=replace(car.bays[0].box, shape="stepped"))
    boxes_in(bay, module)


def small_bay(random: Random, kind: int) -> tuple[tuple[Point, ...], set[tuple[int, int]]]:
    """An L, T or U of whole cells: its outline [cells] and its cells."""
    width, depth = random.randint(8, 14), random.randint(8, 12)
    first, last = random.randint(2, width - 4), 0
    last = random.randint(first + 2, width - 2)
    one, other = random.randint(2, depth - 2), random.randint(2, depth - 2)
    cut: list[tuple[int, int, int, int]] = [(last, width, one, depth)]
    corners = [(0, 0), (width, 0), (width, one), (last, one), (last, depth), (0, depth)]
    if kind == 1:
        cut.append((0, first, other, depth))
        corners[5:] = [(first, depth), (first, other), (0, other)]
    if kind == 2:
        cut = [(first, last, one, depth)]
        corners = [
            (0, 0), (width, 0), (width, depth), (last, depth), (last, one), (first, one), (first, depth),
            (0, depth),
        ]  # fmt: skip
    inside = {(x, y) for x in range(width) for y in range(depth)}
    inside -= {(x, y) for a, b, c, d in cut for x in range(a, b) for y in range(c, d)}
    return tuple((float(x), float(y)) for x, y in corners), inside


def packed(inside: set[tuple[int, int]], long: int, short: int) -> int:
    """The most rectangles in both turns that the cells hold."""
    from ortools.sat.python import cp_model

    model = cp_model.CpModel()
    covering: dict[tuple[int, int], list[cp_model.IntVar]] = {cell: [] for cell in sorted(inside)}
    chosen = []
    for a, b in ((long, short), (short, long)):
        for x, y in sorted(inside):
            cells = [(x + i, y + j) for i in range(a) for j in range(b)]
            if inside.issuperset(cells):
                chosen.append(model.new_bool_var(""))
                for cell in cells:
                    covering[cell].append(chosen[-1])
    for choices in covering.values():
        model.add_at_most_one(choices)
    model.maximize(sum(chosen))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    assert solver.solve(model) == cp_model.OPTIMAL
    return round(solver.objective_value)


@pytest.mark.parametrize("seed", range(18))
def test_small_bays_are_filled_as_an_exact_packing_fills_them(seed: int) -> None:
    random = Random(seed)
    corners, inside = small_bay(random, seed % 3)
    long, short = random.choice([(3, 2), (4, 2), (4, 3), (5, 2), (5, 3)])
    module = replace(MODULE, length=long * CELL, width=short * CELL, height=100.0, spacing=0.0)
    outline = tuple((x * CELL, y * CELL) for x, y in corners)
    search = BaySearch(Bay("front bay", Prism(outline, 0.0, 101.0), 0.0, 0.0, NO_WALLS), module)
    found = stepped_boxes(search, search.most, Watch())
    exact = packed(inside, long, short)
    assert max([search.most, *(box.count for box in found)]) == exact  # other program: CP-SAT on whole cells
    assert exact <= stepped_bound(search)


def test_the_bound_needs_no_more_than_the_volume() -> None:
    for outline in (L_BAY, T_BAY, Z_BAY):
        search = BaySearch(bay_of(outline), MODULE)
        free = shapely.Polygon(outline).buffer(-13.0, join_style="mitre").area * (190.0 - 2 * 13.0)
        assert stepped_bound(search) <= free / (200.0 * 160.0 * 120.0)


@settings(max_examples=12)
@given(cars(), modules())
def test_no_layout_of_the_search_exceeds_the_bound(car: Car, module: Module) -> None:
    for bay in car.bays:
        search = BaySearch(bay, module)
        assert search.most <= stepped_bound(search)


def test_the_same_boxes_every_time() -> None:
    """Small modules: many counts, of which the fullest are handed on, one box each."""
    small = replace(MODULE, length=80.0, width=50.0)
    first, second = (boxes_in(bay_of(L_BAY), small) for _ in range(2))
    assert first == second
    assert [box.count for box in first] == list(range(first[0].count, first[0].count - len(first), -1))


def test_an_outline_is_settled_exactly() -> None:
    """Nine of 2 x 1 in an L of 19 cells (hand: each covers two cells)."""
    shape = Shape((0, 5, 7), (0, 0), (3, 2))
    assert len(settle(shape, Clad(((2, 1), (1, 2)), (0, 0), (0, 0)), 5, 9)) == 9
    assert settle(shape, Clad(((2, 1), (1, 2)), (0, 0), (0, 0)), 9, 9) == []
    walled = Clad(((2, 1), (1, 2)), (1, 0), (0, 0))
    assert len(settle(shape, walled, 0, 9)) == 8  # hand: 16 cells are left, all can be paired
