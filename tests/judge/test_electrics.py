"""Each code of electrics: right ones, spoiled as little as possible, yield that code alone."""

import json
from collections.abc import Callable
from copy import deepcopy
from dataclasses import replace
from typing import Any

import pytest

from boxfit.box.wiring.electrics_json import electrics_as_data, electrics_bytes
from boxfit.car import Window
from boxfit.files.layout_json import layout_as_data
from boxfit.judge.electrics import judge_electrics
from boxfit.judge.finding import CODES, Finding
from tests.box.wiring.samples import MODULE, car_and_strings, electrics

Data = dict[str, Any]


def told() -> Data:
    return deepcopy(json.loads(electrics_bytes(electrics())))


def judged(data: Data, **changed: Any) -> tuple[Finding, ...]:
    car, layout = car_and_strings()
    laid = json.loads(json.dumps(layout_as_data(layout)))
    return judge_electrics(data, replace(car, **changed), MODULE, laid)


def test_what_is_right_has_no_findings_and_is_the_same_twice() -> None:
    assert judged(told()) == ()
    assert electrics_bytes(electrics()) == electrics_bytes(electrics())
    assert electrics_as_data(electrics())["link_proven"] is True


def _twice(data: Data) -> None:
    data["strings"][0]["modules"][0] = data["strings"][0]["modules"][1]


def _moved(data: Data) -> None:
    data["modules"][0]["terminals"][2] += 1.0
    data["link"] += _change(data, 1.0)


def _change(data: Data, up: float) -> float:
    """What the link grows by where the first module's terminals rise."""
    places = {one["number"]: one["terminals"] for one in data["modules"]}
    string = next(one["modules"] for one in data["strings"] if 1 in one["modules"])
    at = string.index(1)
    ends = [places[string[at - 1]] if at else data["junction"]]
    ends.append(places[string[at + 1]] if at + 1 < len(string) else data["junction"])
    here = places[1][2]
    return float(sum(abs(here - end[2]) - abs(here - up - end[2]) for end in ends))


def _longer(data: Data) -> None:
    data["link"] += 1.0


def _milder(data: Data) -> None:
    data["touching"]["volts"] -= 1.0


def _fuller(data: Data) -> None:
    data["volts"]["full"] += 1.0


def _tighter(data: Data) -> None:
    data["cable"]["inside_bend"] = 80.0


def _slanting(data: Data) -> None:
    cable = data["cables"][0]
    for axis in (0, 1, 2):
        cable["points"][-1][axis] += 30.0


def _stretched(data: Data) -> None:
    data["cables"][0]["length"] += 1.0


SLIPS = (
    (_twice, "string-modules"),
    (_moved, "terminals"),
    (_longer, "link-length"),
    (_milder, "touching-volts"),
    (_fuller, "string-volts"),
    (_stretched, "cable-length"),
)
BENT = {"cable-bend", "cable-length"}
ELECTRIC_CODES = {code for _, code in SLIPS} | BENT
"""Those that have a case here."""


@pytest.mark.parametrize(("spoil", "code"), SLIPS)
def test_each_slip_has_its_code(spoil: Callable[[Data], None], code: str) -> None:
    data = told()
    spoil(data)
    found = judged(data)
    assert {finding.code for finding in found} == {code}
    assert code in CODES


@pytest.mark.parametrize("spoil", [_slanting, _tighter])
def test_a_cable_that_slants_or_bends_too_tight_is_found(spoil: Callable[[Data], None]) -> None:
    data = told()
    spoil(data)
    assert {finding.code for finding in judged(data)} == BENT


def test_windows_hold_the_string_empty_and_full() -> None:
    for low, high in ((170.0, 260.0), (160.0, 250.0)):
        found = judged(told(), windows=(Window("inverter", low, high),))
        assert [finding.code for finding in found] == ["string-window"]


def test_strings_that_are_to_stay_in_one_bay_are_held_to_it() -> None:
    assert {one.code for one in judged(told(), string_in_one_bay=True)} == {"string-modules"}


def test_what_cannot_be_read_is_told() -> None:
    data = told()
    del data["link"]
    assert [(one.code, one.place) for one in judged(data)] == [("malformed", "link")]
