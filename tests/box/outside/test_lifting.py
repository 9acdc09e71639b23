"""Lifting lugs as made parts: the least that bear, about the middle of the mass, all of one part."""

from dataclasses import replace

import pytest

from boxfit.bay import Opening, Prism
from boxfit.box.fitting import DIRECTIONS, Strip
from boxfit.box.numbers import part_numbers
from boxfit.box.outside.lug_shapes import ALUMINIUM, PIN_PAST, STEEL, foot_of_lug, sizes_on
from boxfit.box.outside.wall import walls_of
from boxfit.box.retention.lugs import lugs_of_box
from boxfit.box.retention.masses import filled
from boxfit.box.strip_legs import hole_middle, strip_blocks
from boxfit.box.whole import BuiltBox, built_boxes
from boxfit.car import Car
from boxfit.module import Current, Module
from boxfit.retention.lug import DOWN, HEIGHTS, share, to_edge
from boxfit.sheet.checks import findings_of
from boxfit.sheet.strip_flat import strip_flats
from boxfit.standards.lifting import HOLE
from tests.box.samples import HERON, car_and_layout

CAR, LAYOUT = car_and_layout()
MODULE = replace(HERON, current=Current(100.0, 250.0))
OPEN = replace(CAR, bays=tuple(replace(bay, opening=Opening("up")) for bay in CAR.bays))
BUILT = built_boxes(OPEN, MODULE, LAYOUT)


def lugs_of(one: BuiltBox) -> list[Strip]:
    return [strip for strip in one.parts.fittings.strips if strip.kind == "lifting lug"]


def front(car: Car = OPEN, module: Module = MODULE) -> BuiltBox:
    return built_boxes(car, module, LAYOUT)[0]


def with_rules(**changes: object) -> Car:
    bays = [replace(bay, box=replace(bay.box, **changes)) for bay in OPEN.bays]  # type: ignore[arg-type]
    return replace(OPEN, bays=tuple(bays))


def test_lugs_only_where_one_person_does_not_lift_the_box() -> None:
    assert {len(lugs_of(one)) for one in BUILT} <= {0, 4}
    assert len(lugs_of(BUILT[0])) == 4
    assert [len(lugs_of(one)) for one in built_boxes(OPEN, replace(MODULE, mass=1.0), LAYOUT)] == [0, 0]


def test_none_on_a_printed_box() -> None:
    built = front(with_rules(process="printed", material="petg", thickness=4.0, lid_thickness=4.0))
    assert lugs_of(built) == []
    assert any("no lugs on a printed box" in note for note in built.parts.fittings.notes)


def test_lugs_enclose_the_middle_of_the_mass() -> None:
    at = [foot_of_lug(lug) for lug in lugs_of(BUILT[0])]
    middles = [
        [(a + b) / 2.0 for a, b in zip(one.low, one.high, strict=True)] for one in BUILT[0].box.modules
    ]
    for axis in (0, 1):
        middle = sum(each[axis] for each in middles) / len(middles)
        assert min(place[axis] for place in at) < middle < max(place[axis] for place in at)


def test_all_lugs_of_a_box_are_one_part() -> None:
    """One number, one flat of four, though they stand on walls that look opposite ways."""
    lugs = lugs_of(BUILT[0])
    assert len({lug.legs[0][0] for lug in lugs}) == 2
    assert len({part_numbers(BUILT)[lug.name] for lug in lugs}) == 1
    (flat,) = strip_flats(tuple(lugs), OPEN.bays[0].box.fold_shop)
    assert flat.quantity == 4
    assert findings_of(flat, OPEN.bays[0].box.fold_shop) == ()


@pytest.mark.parametrize("material", ["aluminium-5754", "steel-s235", "stainless-1.4301"])
def test_pins_stand_past_flange_lid_and_cover_plate(material: str) -> None:
    """By the extent of everything on the rim, 14 mm further out, and 20 mm under the flange."""
    built = front(with_rules(material=material))
    rules, parts = OPEN.bays[0].box, built.parts
    over = [(parts.lid.plate.low, parts.lid.plate.high)]
    if parts.cover_plate:
        over.append((parts.cover_plate.plate.low, parts.cover_plate.plate.high))
    assert lugs_of(built)
    for lug in lugs_of(built):
        pin, way = hole_middle(lug, lug.holes[0]), DIRECTIONS[lug.legs[0][0]]
        axis = 0 if way[0] else 1
        ends = [high[axis] if way[axis] > 0.0 else -low[axis] for low, high in over]
        assert pin[axis] * way[axis] - max(ends) == pytest.approx(PIN_PAST)
        assert pin[2] == pytest.approx(parts.tray.outside.high[2] - rules.thickness - DOWN)
        (block,) = strip_blocks(lug)
        tip = block.high[axis] if way[axis] > 0.0 else -block.low[axis]
        assert tip - pin[axis] * way[axis] == pytest.approx(to_edge(lug.thickness))


def test_the_least_lug_that_bears_is_taken() -> None:
    """Every lower or thinner one of the table fails a check at the mass it is chosen for."""
    lugs = lugs_of(BUILT[0])
    mass = filled(BUILT[0], MODULE).mass
    chosen = lugs_of_box(BUILT[0], mass)
    assert all(share(lug) <= 1.0 for lug in chosen)
    wall = next(wall for wall in walls_of(BUILT[0].parts) if wall.looks == lugs[0].legs[0][0])
    for size in sizes_on(BUILT[0].parts, wall):
        if (size.height, size.thickness) == (lugs[0].width, lugs[0].thickness):
            break
        smaller = replace(chosen[0], height=size.height, thickness=size.thickness, load=1.1 * chosen[0].load)
        assert share(smaller) > 0.95


def test_heavier_boxes_get_larger_lugs() -> None:
    def area(mass: float) -> float:
        lug = lugs_of(front(module=replace(MODULE, mass=mass)))[0]
        return lug.width * lug.thickness

    light, middling, heavy = area(5.0), area(15.0), area(25.0)
    assert light <= middling <= heavy
    assert light < heavy
    assert light == HEIGHTS[0] * 6.0


def test_where_none_bears_the_largest_stand_and_that_is_told() -> None:
    built = front(module=replace(MODULE, mass=60.0))
    lugs = lugs_of(built)
    assert len(lugs) == 4
    wall = next(wall for wall in walls_of(built.parts) if wall.looks == lugs[0].legs[0][0])
    assert (lugs[0].thickness, lugs[0].width) == (8.0, sizes_on(built.parts, wall)[-1].height)
    assert any("these do not: see retention.csv" in note for note in built.parts.fittings.notes)


@pytest.mark.parametrize("sheet", [*ALUMINIUM, *STEEL])
def test_every_sheet_leaves_its_metal_over_the_hole(sheet: float) -> None:
    """1.5 t, as the judge asks of every side."""
    assert 1.5 * sheet <= DOWN - HOLE / 2.0
    assert HEIGHTS[0] - DOWN - HOLE / 2.0 >= 1.5 * sheet


def test_without_a_flange_the_hole_has_its_metal_towards_the_wall_too() -> None:
    bare = with_rules(flange=0.0, gasket_width=0.0, gasket_thickness=0.0)
    lugs = lugs_of(built_boxes(bare, MODULE, LAYOUT)[1])
    assert lugs
    for lug in lugs:
        assert lug.holes[0].across - HOLE / 2.0 >= 1.5 * lug.thickness


def test_no_room_is_told_with_what_lugs_need() -> None:
    x, y, a, b = -330.0, -220.0, 215.0, 220.0
    narrow = Prism(((a, y), (a, b), (x, b), (x, y)), 265.0, 650.0)
    car = replace(OPEN, bays=(replace(OPEN.bays[0], room=narrow), OPEN.bays[1]))
    built = front(car)
    assert lugs_of(built) == []
    assert any("no room for lifting lugs; lugs need" in note for note in built.parts.fittings.notes)
