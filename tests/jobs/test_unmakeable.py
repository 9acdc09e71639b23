"""What no shop makes is refused before any search, by the bay it belongs to."""

from dataclasses import replace

import pytest

from boxfit.bay import BoxRules
from boxfit.car import Car
from boxfit.files.problems import InputError
from boxfit.jobs.unmakeable import refuse_unmakeable
from tests.box.samples import RULES, bay_with

TIGHT = replace(RULES, bend_radius=1.0)
NARROW = replace(RULES, flange=5.0)


def car_with(*rules: BoxRules) -> Car:
    bays = tuple(replace(bay_with(one), name=f"bay {number}") for number, one in enumerate(rules, start=1))
    return Car("Dunlin 850", "dunlin-850", 2180.0, 1180.0, 1160.0, bays)


def refused(car: Car) -> list[tuple[str, str]]:
    with pytest.raises(InputError) as told:
        refuse_unmakeable(car)
    return [(problem.file, problem.key) for problem in told.value.problems]


def test_nothing_is_said_of_what_can_be_made() -> None:
    refuse_unmakeable(car_with(RULES, replace(TIGHT, asked=False)))


def test_each_bay_is_named() -> None:
    assert refused(car_with(TIGHT, NARROW)) == [("bay 1", "box.bend_radius"), ("bay 2", "box.flange")]


def test_what_all_bays_share_is_said_once() -> None:
    assert refused(car_with(TIGHT, TIGHT)) == [("every bay", "box.bend_radius")]
    assert refused(car_with(TIGHT)) == [("bay 1", "box.bend_radius")]
