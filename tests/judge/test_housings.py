"""The judge of made cable housings: clear as made, each part moved or lost is told with its figure."""

from collections.abc import Callable
from copy import deepcopy
from typing import Any

import pytest

from boxfit.box.fittings_json import fittings_as_data
from boxfit.box.whole import built_boxes
from boxfit.judge.finding import Finding
from boxfit.judge.fittings_claim import read_fittings
from boxfit.judge.housings import judge_housings
from tests.box.samples import HERON
from tests.box.test_fixed import AHEAD, BEHIND, LAYOUT, car_with

Data = dict[str, Any]
FITTINGS = fittings_as_data(built_boxes(car_with(AHEAD, BEHIND), HERON, LAYOUT))


def judged(change: Callable[[Data], None]) -> list[Finding]:
    data: Data = deepcopy(FITTINGS)
    change(data["boxes"][0])
    told = read_fittings(data)
    assert not isinstance(told, tuple)
    return [finding for box in told.boxes for finding in judge_housings(box)]


def first(box: Data, kind: str) -> Data:
    found: Data = next(strip for strip in box["strips"] if strip["kind"] == kind)
    return found


def moved(kind: str, axis: int, by: float) -> Callable[[Data], None]:
    def change(box: Data) -> None:
        first(box, kind)["start"][axis] += by

    return change


def lost(kind: str) -> Callable[[Data], None]:
    return lambda box: box["strips"].remove(first(box, kind))


def shallower(box: Data) -> None:
    """A collar that ends 1 mm short of the wall's side is on no wall."""
    first(box, "cable housing")["start"][1] += 1.0 if first(box, "cable housing")["along"] == "left" else -1.0


def wide_slot(box: Data) -> None:
    room = next(one for one in box["bought"] if one["kind"] == "bars and glands")
    slot = next(one for one in box["cutouts"] if one["at"] == room["at"])
    slot["size"][0] = room["body"]["high"][0] - room["body"]["low"][0] + 3.0


def test_housings_as_made_are_clear() -> None:
    assert [one["kind"] for one in FITTINGS["boxes"][0]["strips"]].count("cable housing") >= 1  # type: ignore[index]
    assert judged(lambda _: None) == []


CASES: dict[str, tuple[Callable[[Data], None], float]] = {
    "collar too high": (moved("cable housing", 2, 1.5), 1.5),
    "collar off its wall": (shallower, 1.0),
    "cover along the wall": (moved("housing cover", 0, 2.0), 2.0),
    "block down": (moved("housing block", 2, -80.0), 80.0 - 2.5),
    "no cover": (lost("housing cover"), 0.0),
    "no collar": (lost("cable housing"), 0.0),
    "slot past the collar": (wide_slot, 1.5),
}


@pytest.mark.parametrize("name", CASES)
def test_spoiled_housings_are_told(name: str) -> None:
    change, figure = CASES[name]
    found = judged(change)
    assert {one.code for one in found} == {"housing-astray"}
    assert any(one.figure == pytest.approx(figure, abs=2e-3) for one in found)


def test_a_part_without_a_room_is_told() -> None:
    def change(box: Data) -> None:
        box["bought"] = [one for one in box["bought"] if one["kind"] != "bars and glands"]

    assert {one.text for one in judged(change)} == {"no room is told for it"}


def test_a_housing_whose_slot_is_lost_is_told() -> None:
    """No bars go through a wall without a slot."""

    def without_slot(box: Data) -> None:
        room = next(one for one in box["bought"] if one["kind"] == "bars and glands")
        box["cutouts"] = [one for one in box["cutouts"] if one["at"] != room["at"]]

    assert any("no slot" in finding.text for finding in judged(without_slot))
