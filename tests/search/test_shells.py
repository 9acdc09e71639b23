"""The same rooms as prisms, as shells of few triangles or many and as sections: the same counts."""

from dataclasses import replace

import pytest
from hypothesis import assume, given, settings

from boxfit.bay import Bay, Block, Cylinder, Keepout, Opening, Prism
from boxfit.car import Car
from boxfit.files.layout_json import layout_as_data
from boxfit.judge.layout import judge_layout
from boxfit.layout import Layout
from boxfit.module import FaceRoom, Module, Voltage
from boxfit.search.find import find_layout
from boxfit.space.covered import FEW
from boxfit.survey.sections import lofted
from boxfit.survey.shell import shell_of
from tests.box.samples import RULES
from tests.search.strategies import bays, modules, outline_from, prism_of
from tests.surfaces import as_shell, room_of


def car_with(bay: Bay) -> Car:
    """A car of which only the room counts."""
    return Car("Dunlin 850", "dunlin-850", 2180.0, 1180.0, 1160.0, (bay,))


small_cars = bays("bay", 250.0).map(car_with)
HAIR = 0.3
"""Where so little [mm] more or less of every allowance changes a prism's count, drawing may change it too."""
LOST = 1.0
"""Room [mm] that a grid may cost."""
LONGEST = 60.0
"""Sides [mm] of the triangles of a fine shell."""


def count_of(car: Car, module: Module) -> int:
    """The modules of a layout that is clear and honest; none where there is no layout."""
    found = find_layout(car, module)
    if not isinstance(found, Layout):
        return 0
    assert judge_layout(layout_as_data(found), car, module) == ()
    return found.count


def with_more_asked(car: Car, more: float) -> Car:
    """The car with every allowance greater [mm], none less than nothing."""

    def asked(bay: Bay) -> Bay:
        keepouts = tuple(replace(one, distance=max(one.distance + more, 0.0)) for one in bay.keepouts)
        tolerance, distance = max(bay.tolerance + more, 0.0), max(bay.distance + more, 0.0)
        return replace(bay, tolerance=tolerance, distance=distance, keepouts=keepouts)

    return replace(car, bays=tuple(asked(bay) for bay in car.bays))


def as_shells(car: Car) -> Car:
    """The car with every room as a shell of few triangles."""
    return replace(car, bays=tuple(as_shell(bay) for bay in car.bays))


def as_sections(bay: Bay) -> Bay:
    """The bay, a trapezium in plan, as the room between a section at its rear and one at its front."""
    room = prism_of(bay)
    stations = []
    for at in sorted({x for x, _ in room.outline}):
        right, left = sorted(y for x, y in room.outline if x == at)
        outline = ((right, room.floor), (left, room.floor), (left, room.top), (right, room.top))
        stations.append((at, outline))
    return replace(bay, room=shell_of(lofted(stations), "room", bay.opening, bay.tolerance, (), ()))


def is_four_sided(car: Car) -> bool:
    """True where every room is a rectangle or a trapezium in plan."""
    return all(len(prism_of(bay).outline) == 4 for bay in car.bays)


def emptied(car: Car) -> Car:
    """The car with nothing in its bays."""
    return replace(car, bays=tuple(replace(bay, keepouts=()) for bay in car.bays))


def settled_count(car: Car, module: Module) -> int:
    """The prism's count, where a hair more or less asked does not change it."""
    count = count_of(car, module)
    assume(count == count_of(with_more_asked(car, HAIR), module))
    assume(count == count_of(with_more_asked(car, -HAIR), module))
    return count


@settings(max_examples=4)
@given(small_cars, modules())
def test_a_shell_of_few_triangles_holds_what_its_prism_holds(car: Car, module: Module) -> None:
    count = settled_count(car, module)
    assert count_of(as_shells(car), module) == count


@settings(max_examples=8)
@given(small_cars.filter(is_four_sided).map(emptied), modules())
def test_sections_hold_what_their_prism_holds(car: Car, module: Module) -> None:
    """The room alone: what stays in it is the same solids either way."""
    count = settled_count(car, module)
    sections = replace(car, bays=tuple(as_sections(bay) for bay in car.bays))
    assert count_of(sections, module) == count


BAR = Keepout("pipe", Cylinder((0.0, -120.0, 320.0), (-60.0, -150.0, 250.0), 20.0), 13.0)
SILL = Keepout("cross-member", Block((220.0, -40.0, 200.0), (250.0, 10.0, 260.0)), 18.0)
ROOMS = {
    "plain": ("plain", (), None),
    "past a bar, out at the top": ("plain", (BAR,), Opening("up")),
    "narrowing, out to the front": ("narrowing", (), Opening("front")),
    "cut out, over a sill": ("cut out", (SILL,), None),
}
MODULE = Module(
    "Wren 12", "wren-12", 182.5, 90.0, 95.5, 5.0, 1.1, 50.0, Voltage(18.0, 22.0, 25.2), ("height",), 2.0,
    room=FaceRoom(top=12.5),
)  # fmt: skip


@pytest.mark.parametrize("name", ROOMS)
def test_a_shell_of_many_triangles_loses_no_more_than_a_millimetre(name: str) -> None:
    shape, keepouts, opening = ROOMS[name]
    room = Prism(outline_from(250.0, 320.0, 160.0, shape), 200.0, 350.0)
    bay = Bay("bay", room, 3.0, 13.0, replace(RULES, tiers=1), keepouts, opening)
    fine = as_shell(bay, LONGEST)
    assert len(room_of(fine).surface.triangles) > FEW
    found = count_of(car_with(fine), MODULE)
    assert count_of(with_more_asked(car_with(bay), LOST), MODULE) <= found <= count_of(car_with(bay), MODULE)
    assert found > 0


def test_a_bound_for_many_triangles_allows_what_the_prism_holds() -> None:
    """Two modules fill their box and the box its room to a tenth, corner to corner."""
    rules = replace(RULES, process="welded", bend_radius=0.0, flange=0.0, liner=0.0, gap=0.0, tiers=1)
    outline = ((-400.0, -300.0), (400.75, -300.0), (400.75, 300.75), (-400.0, 300.75))
    bay = Bay("bay", Prism(outline, 200.0, 600.0), 3.0, 13.0, rules)
    module = replace(MODULE, length=384.8, width=569.7, height=300.0, spacing=0.0, room=FaceRoom())
    plain = find_layout(car_with(bay), module)
    assert isinstance(plain, Layout)
    fine = car_with(as_shell(bay, LONGEST))
    assert judge_layout(layout_as_data(plain), fine, module) == ()
    found = find_layout(fine, module)
    assert isinstance(found, Layout)
    assert plain.count <= found.bound
