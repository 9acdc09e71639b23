"""Stiffening bars as judged: room kept for them in the bay, and each bar on its box, clear of all else."""

from collections.abc import Callable
from copy import deepcopy
from dataclasses import replace
from typing import Any

import pytest

from boxfit.bay import Block, Keepout
from boxfit.car import Car
from boxfit.judge.finding import Finding
from boxfit.judge.fittings import judge_fittings
from boxfit.judge.layout import judge_layout
from tests.judge.samples import CAR, MODULE, layout
from tests.judge.test_fittings import MOUNTED, sample, without_shelves

Data = dict[str, Any]


def barred(car: Car, deep: float, below: float | None = None) -> Car:
    """The car with so much asked for bars in every bay."""
    bays = (
        replace(bay, box=replace(bay.box, stiffening_depth=deep, stiffening_floor_depth=below))
        for bay in car.bays
    )
    return replace(car, bays=tuple(bays))


def bar(start: tuple[float, float, float], along: str, legs: tuple[str, float], inwards: str) -> Data:
    return {
        "kind": "stiffening bar",
        "name": "bar",
        "thickness": 5.0,
        "start": list(start),
        "along": along,
        "width": 8.0,
        "legs": [{"way": legs[0], "length": legs[1]}],
        "inwards": inwards,
        "holes": [],
    }


# the box stands from (-400, -100, 250) to (-177, -19, 370)
UPRIGHT = bar((-177.0, -90.0, 255.0), "front", ("up", 55.0), "left")
UNDER = bar((-240.0, -100.0, 250.0), "down", ("left", 81.0), "front")
BARS = barred(MOUNTED, 8.0)


def judged(change: Callable[[Data], None] = lambda _: None, car: Car = BARS) -> tuple[Finding, ...]:
    data = sample()
    data["boxes"][0]["strips"] += [deepcopy(UPRIGHT), deepcopy(UNDER)]
    change(data["boxes"][0])
    return judge_fittings(data, car, MODULE, without_shelves())


def moved(number: int, axis: int, by: float) -> Callable[[Data], None]:
    def move(box: Data) -> None:
        box["strips"][number]["start"][axis] += by

    return move


def deeper(box: Data) -> None:
    box["strips"][-2]["width"] = 9.5


def into_breather(box: Data) -> None:
    box["strips"][-2]["start"] = [-177.0, -62.0, 275.0]


def codes(findings: tuple[Finding, ...]) -> set[str]:
    return {finding.code for finding in findings}


def test_bars_on_their_box_are_clear() -> None:
    assert judged() == ()


@pytest.mark.parametrize(
    ("change", "code", "figure"),
    [
        (moved(-2, 0, 1.5), "bar-off-box", 1.5),
        (moved(-2, 0, -1.5), "bar-off-box", -1.5),
        (moved(-1, 2, -2.0), "bar-off-box", 2.0),
        (deeper, "bar-outside", 1.5),
        (into_breather, "fitting-meets", None),
        (moved(-1, 0, -140.0), "fitting-meets", None),
    ],
)
def test_a_spoiled_bar_is_found(change: Callable[[Data], None], code: str, figure: float | None) -> None:
    found = [finding for finding in judged(change) if finding.code == code]
    assert found
    if figure is not None:
        assert found[0].figure == pytest.approx(figure)


def test_a_bar_too_near_to_what_stays_is_found() -> None:
    post = Keepout("post", Block((-160.0, -95.0, 260.0), (-150.0, -80.0, 300.0)), 13.0)
    bay = BARS.bays[0]
    near = replace(BARS, bays=(replace(bay, keepouts=(*bay.keepouts, post)), *BARS.bays[1:]))
    found = [one for one in judged(car=near) if one.code == "fitting-outside" and "bar" in one.place]
    assert [one.figure for one in found] == [pytest.approx(9.0)]


def test_the_bay_keeps_room_for_bars() -> None:
    """The sample's box is clear by its own; deep bars take that, and no code but those of distances tells."""
    assert judge_layout(layout(), barred(CAR, 0.0), MODULE) == ()
    found = judge_layout(layout(), barred(CAR, 0.0, 200.0), MODULE)
    assert "bay-clearance" in codes(found)
    assert codes(found) <= {"bay-clearance", "keepout-clearance", "insertion", "box-clearance"}
    assert "bay-clearance" in codes(judge_layout(layout(), barred(CAR, 400.0, 0.0), MODULE))
