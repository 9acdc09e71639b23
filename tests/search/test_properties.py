"""What must hold for any car: more room, front and rear exchanged, the same bytes.

That left and right may be exchanged stands in `test_find`.
"""

import os
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from boxfit.bay import Bay
from boxfit.car import Car, Limits
from boxfit.files.layout_json import layout_bytes
from boxfit.layout import Layout
from boxfit.module import Module
from boxfit.search.find import find_layout
from tests.search.strategies import (
    cars,
    mirrored,
    mirrored_module,
    modules,
    prism_of,
    quarter_turned,
)

ROOT = Path(__file__).parents[2]
FEW = settings(max_examples=12)
CHILD = """
from boxfit.files.layout_json import layout_bytes
from boxfit.layout import Layout
from boxfit.search.find import find_layout
from tests.reference.small_bays import with_outline, with_posts, with_two_bays
for made in (with_outline, with_posts, with_two_bays):
    for seed in range({first}, {first} + 8):
        small = made(seed)
        found = find_layout(small.car, small.module)
        print(layout_bytes(found).decode() if isinstance(found, Layout) else found)
"""


def energy_of(car: Car, module: Module) -> tuple[float, Layout | None]:
    """The energy [kWh] of the layout that meets every hard rule; 0 and None where there is none."""
    found = find_layout(car, module)
    if isinstance(found, Layout) and found.target_met:
        return found.energy, found
    return 0.0, None


def assert_no_less(more: tuple[float, Layout | None], less: tuple[float, Layout | None]) -> None:
    """What has more room holds as much, and never proves that as much cannot be."""
    assert more[0] >= less[0]
    if more[1] is not None and less[1] is not None:
        assert more[1].bound >= less[1].count


def longer(bay: Bay, by: float) -> Bay:
    """The bay with its rear end this much [mm] further back."""
    room = prism_of(bay)
    rear = min(x for x, _ in room.outline)
    outline = tuple((x - by if x == rear else x, y) for x, y in room.outline)
    return replace(bay, room=replace(room, outline=outline))


def taller(bay: Bay, by: float) -> Bay:
    """The bay with its top this much [mm] higher."""
    room = prism_of(bay)
    return replace(bay, room=replace(room, top=room.top + by))


def unweighed(car: Car) -> Car:
    """The car with nothing asked of its weights."""
    return replace(car, weighed=None, target=None, limits=Limits())


@FEW
@given(cars(), modules(), st.sampled_from([2.5, 20.0, 75.0]))
def test_a_longer_bay_never_holds_less(car: Car, module: Module, by: float) -> None:
    larger = replace(car, bays=(longer(car.bays[0], by), *car.bays[1:]))
    assert_no_less(energy_of(larger, module), energy_of(car, module))


@FEW
@given(cars(), modules(), st.sampled_from([1.5, 15.0, 60.0]))
def test_a_taller_bay_never_holds_less(car: Car, module: Module, by: float) -> None:
    larger = replace(car, bays=(taller(car.bays[0], by), *car.bays[1:]))
    assert_no_less(energy_of(larger, module), energy_of(car, module))


@FEW
@given(cars(), modules())
def test_without_a_keepout_there_is_never_less(car: Car, module: Module) -> None:
    """Whether it could go or not: the search counts with every one there is."""
    assume(any(bay.keepouts for bay in car.bays))
    freed = tuple(replace(bay, keepouts=bay.keepouts[1:]) for bay in car.bays)
    assert_no_less(energy_of(replace(car, bays=freed), module), energy_of(car, module))


@FEW
@given(cars(), modules())
def test_front_and_rear_exchanged_count_alike(car: Car, module: Module) -> None:
    """Turned by a quarter, mirrored, and turned by three quarters: x for -x. Weights ask nothing here."""
    plain = unweighed(car)
    image = quarter_turned(mirrored(quarter_turned(plain)))
    other = quarter_turned(quarter_turned(image))
    found, turned = find_layout(plain, module), find_layout(other, mirrored_module(module))
    assert isinstance(found, Layout) == isinstance(turned, Layout)
    if isinstance(found, Layout) and isinstance(turned, Layout):
        assert (found.count, found.bound) == (turned.count, turned.bound)


@FEW
@given(cars(), modules())
def test_the_same_input_gives_the_same_bytes(car: Car, module: Module) -> None:
    one, other = find_layout(car, module), find_layout(replace(car), replace(module))
    if isinstance(one, Layout) and isinstance(other, Layout):
        assert layout_bytes(one) == layout_bytes(other)
    else:
        assert one == other


@pytest.mark.parametrize("first", [0, 100])
def test_processes_of_any_hash_seed_give_the_same_bytes(first: int) -> None:
    told = set()
    for seed in ("1", "2"):
        words = [sys.executable, "-c", CHILD.format(first=first)]
        environment = {**os.environ, "PYTHONHASHSEED": seed}
        run = subprocess.run(words, cwd=ROOT, env=environment, check=True, capture_output=True)
        told.add(run.stdout)
    assert len(told) == 1
    assert b'"modules"' in told.pop()
