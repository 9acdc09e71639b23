"""Each demo shows what it is there to show: what decides the count."""

import dataclasses
from functools import cache
from pathlib import Path

import pytest

from boxfit.bay import Shell
from boxfit.car import Car
from boxfit.files.layout_json import layout_as_data
from boxfit.files.together import read_together
from boxfit.judge.layout import judge_layout
from boxfit.layout import Layout
from boxfit.module import Module
from boxfit.search.find import NoLayout, find_layout
from tests.roadster_scan import SCANNED, scans

ROOT = Path(__file__).parent.parent
SURVEYED = ("dunlin-850-sections", "dunlin-850-scan")


def demo(car: str, module: str) -> tuple[Car, Module]:
    """A demo car and module as read from their files."""
    read, modules = read_together(ROOT / "bays" / car, [str(ROOT / "modules" / f"{module}.toml")])
    return read, modules[0]


@cache
def main_job() -> Layout:
    """The layout of the README's command."""
    return laid_out(*demo("dunlin-850", "heron-44"))


def laid_out(car: Car, module: Module) -> Layout:
    """The layout, which must be there."""
    found = find_layout(car, module)
    assert isinstance(found, Layout)
    return found


def test_the_main_job_is_nine_modules_proven_best() -> None:
    found = main_job()
    assert (found.count, found.series, found.parallel) == (9, 3, 3)
    assert found.proven
    assert found.target_met


def test_the_axle_split_decides() -> None:
    car, module = demo("dunlin-850", "heron-44")
    freed = laid_out(dataclasses.replace(car, target=None), module)
    assert freed.count == 12 > main_job().count


def test_the_voltage_window_decides() -> None:
    car, module = demo("dunlin-850", "crane-88")
    assert isinstance(find_layout(car, module), NoLayout)
    assert laid_out(dataclasses.replace(car, windows=()), module).count > 0


def test_the_window_is_tested_full_and_not_nominal() -> None:
    """Six of 57 V nominal, 67 V full, are 402 V full: over 350 V (common practice, no source)."""
    car, module = demo("petrel-van", "skimmer-57")
    inverter = car.windows[0]
    assert 6 * module.voltage.nominal < inverter.high < 6 * module.voltage.full


def test_the_opening_decides() -> None:
    car, module = demo("petrel-van", "skimmer-57")
    assert isinstance(find_layout(car, module), NoLayout)
    opened = tuple(dataclasses.replace(bay, opening=None) for bay in car.bays)
    assert laid_out(dataclasses.replace(car, bays=opened), module).count >= 4


@pytest.mark.parametrize("path", sorted((ROOT / "modules").glob("*.toml")), ids=lambda path: path.stem)
def test_every_demo_says_that_it_is_invented(path: Path) -> None:
    assert "nvented" in path.read_text(encoding="utf-8").splitlines()[0]


def test_there_are_eight_modules_and_two_cars_one_surveyed_three_ways_and_with_stiff_boxes() -> None:
    assert len(list((ROOT / "modules").glob("*.toml"))) == 8
    cars = {path.parent.name for path in (ROOT / "bays").glob("*/car.toml")}
    assert cars == {"petrel-van", "dunlin-850", "dunlin-850-stiff", *SURVEYED}


@pytest.mark.parametrize("survey", SURVEYED)
def test_however_the_roadster_is_surveyed_it_holds_as_many(survey: str) -> None:
    car, module = demo(survey, "heron-44")
    assert all(isinstance(bay.room, Shell) for bay in car.bays)
    found = laid_out(car, module)
    assert found.count == main_job().count == 9
    assert judge_layout(layout_as_data(found), car, module) == ()


def test_the_scans_of_the_roadster_are_made_the_same_to_the_byte() -> None:
    made = scans()
    assert made == {path.name: path.read_bytes() for path in SCANNED.glob("*.ply")}
