"""Several boxes in one bay: counts worked out by hand, all clear to the judge."""

from dataclasses import replace

import pytest

from boxfit.bay import Bay, Block, Keepout, Opening, Prism, Way
from boxfit.car import Car, Window
from boxfit.files.layout_json import layout_as_data
from boxfit.judge.layout import judge_layout
from boxfit.layout import Layout
from boxfit.module import Module, Voltage
from boxfit.search.cuboids import Cuboid, way_round
from boxfit.search.find import find_layout
from tests.box.samples import NO_BEAD, RULES

BARE = replace(
    RULES, process="welded", bend_radius=0.0, thickness=1.0, lid_thickness=1.0, flange=0.0, clearance=5.0,
    liner=0.0, gap=0.0, headroom=0.0, tiers=1, fold_shop=NO_BEAD,
)  # fmt: skip
BRICK = Module(
    "Brick", "brick", 100.0, 50.0, 40.0, 5.0, 1.0, 50.0, Voltage(33.0, 44.0, 50.4), ("height",), 0.0
)
"""With its walls 102 x 52 x 42, and so apart from the next box by 5."""


def car_of(
    outline: tuple[tuple[float, float], ...], height: float, boxes: int, keepouts: tuple[Keepout, ...] = ()
) -> Car:
    rules = replace(BARE, boxes=boxes)
    bay = Bay("front bay", Prism(outline, 0.0, height), 0.0, 0.0, rules, keepouts)
    return Car("Dunlin 850", "dunlin-850", 2180.0, 1180.0, 1160.0, (bay,))


def laid_out(car: Car, module: Module = BRICK) -> Layout:
    found = find_layout(car, module)
    assert isinstance(found, Layout)
    assert judge_layout(layout_as_data(found), car, module) == ()
    assert found.count <= found.bound
    return found


def wide(width: float, depth: float) -> tuple[tuple[float, float], ...]:
    return ((0.0, 0.0), (width, 0.0), (width, depth), (0.0, depth))


@pytest.mark.parametrize(("width", "boxes", "count"), [(209.0, 2, 2), (208.9, 2, 2), (316.0, 3, 3)])
def test_boxes_stand_clearance_apart(width: float, boxes: int, count: int) -> None:
    """One box of so many would fit as well and has fewer corners."""
    found = laid_out(car_of(wide(width, 52.0), 42.0, boxes))
    assert found.count == count
    assert [box.corners for box in found.bays[0].boxes] == [4]


def test_two_boxes_stand_on_either_side_of_a_column() -> None:
    """A bar 40 wide across the middle of 260 leaves 105 at each side: a box of one module and 3 to spare."""
    bar = Keepout("bar", Block((105.0, -10.0, 0.0), (155.0, 300.0, 100.0)), 2.0)
    one, two = (laid_out(car_of(wide(260.0, 104.0), 42.0, boxes, keepouts=(bar,))) for boxes in (1, 2))
    # hand: 103 x 104 takes two modules, 50 + 50 deep and 2 for the walls, on each side
    assert (one.count, two.count) == (2, 4)
    assert [box.corners for box in two.bays[0].boxes] == [4, 4]


def test_an_l_is_filled_by_two_boxes() -> None:
    """Arms 104 wide: 102 x 302 with six modules, beside it 102 x 52 past the clearance with one."""
    arms = ((0.0, 0.0), (212.0, 0.0), (212.0, 54.0), (104.0, 54.0), (104.0, 302.0), (0.0, 302.0))
    one, two = (laid_out(car_of(arms, 42.0, boxes)) for boxes in (1, 2))
    assert (one.count, two.count) == (6, 7)


def test_boxes_stand_over_one_another_where_a_shelf_of_metal_parts_the_bay() -> None:
    """Room for one level below a beam and one above it; the upper goes in after the lower."""
    beam = Keepout("beam", Block((60.0, -10.0, 45.0), (75.0, 70.0, 50.0)), 0.0)
    two = laid_out(car_of(wide(102.0, 52.0), 97.0, 2, keepouts=(beam,)))
    assert two.count == 2
    lower, upper = sorted(box.low[2] for box in two.bays[0].boxes)
    assert upper - lower >= 50.0 - 1e-6


@pytest.mark.parametrize("way", ["up", "front", "rear", "down", "left", "right"])
def test_cuboids_in_the_open_can_always_leave(way: Way) -> None:
    boxes = ((Cuboid((0, 0, 0), (1, 1, 1)),), (Cuboid((0, 0, 2), (1, 1, 3)),))
    bay = replace(car_of(wide(10.0, 10.0), 10.0, 2).bays[0], opening=Opening(way))
    assert sorted(way_round(boxes, bay) or ()) == [0, 1]


def test_boxes_hooked_into_one_another_cannot_go_in() -> None:
    """Two Ls lying on their sides, each with an arm over the other's foot."""
    one = (Cuboid((0, 0, 0), (4, 1, 1)), Cuboid((0, 0, 1), (1, 1, 4)), Cuboid((1, 0, 3), (3, 1, 4)))
    other = (
        Cuboid((2, 0, 1.5), (5, 1, 2.5)),
        Cuboid((4.5, 0, 1.5), (5, 1, 6)),
        Cuboid((1.5, 0, 5), (5, 1, 6)),
    )
    bay = replace(car_of(wide(10.0, 10.0), 10.0, 2).bays[0], opening=Opening("up"))
    assert way_round((one, other), bay) is None
    assert way_round((one, other), replace(bay, opening=Opening("left"))) is not None
    assert way_round((one, other), replace(bay, opening=None)) == (0, 1)


def test_the_lower_box_goes_in_first() -> None:
    upper, lower = (Cuboid((0, 0, 2), (1, 1, 3)),), (Cuboid((0, 0, 0), (1, 1, 1)),)
    bay = replace(car_of(wide(10.0, 10.0), 10.0, 2).bays[0], opening=Opening("up"))
    assert way_round((upper, lower), bay) == (1, 0)
    assert way_round((upper, lower), replace(bay, opening=Opening("down"))) == (0, 1)


def test_every_number_up_to_the_fullest_can_be_had() -> None:
    """What two boxes hold beyond one they hold less one as well: seven in series need just seven."""
    arms = ((0.0, 0.0), (212.0, 0.0), (212.0, 104.0), (104.0, 104.0), (104.0, 302.0), (0.0, 302.0))
    car = car_of(arms, 42.0, 2)
    assert laid_out(car).count == 8
    seven = replace(car, windows=(Window("inverter", 7 * 33.0, 7 * 50.4),))
    assert laid_out(seven).count == 7
