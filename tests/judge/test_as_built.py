"""Weights as built: loads worked out by hand, and what a wrong list or a broken limit may not get past."""

import json
from dataclasses import replace
from pathlib import Path

import pytest

from boxfit.car import Car, Limits, Target
from boxfit.judge.as_built import judge_as_built
from tests.judge.samples import CAR

HEADS = "state,front axle [kg],rear axle [kg],gross [kg]"
ROWS = (
    "stripped,400.00,400.00,800.00",
    "as converted,470.00,410.00,880.00",  # hand: motor 45 + 5, box 20 + 0, cables 5 + 5
    "with driver,510.00,450.00,960.00",
    "with everything,513.00,477.00,990.00",
)
BOX = {"name": "front bay box 1", "with_modules": {"mass": 20.0, "centre": [0.0, 0.0, 300.0]}}
CABLES = {"name": "cable", "mass": 10.0, "centre": [-1000.0, 0.0, 500.0]}
ROOMY = replace(CAR, limits=Limits(513.0, 477.0, 990.0))


def folder(path: Path, rows: tuple[str, ...] = ROWS, met: bool = True) -> Path:
    """The files of a build that the judge looks at."""
    (path / "mass.json").write_text(json.dumps({"boxes": [BOX], "cables": [CABLES]}))
    (path / "layout.json").write_text(json.dumps({"target_met": met}))
    (path / "weights.csv").write_text("\n".join((HEADS, *rows)) + "\n")
    return path


def codes(path: Path, car: Car = ROOMY) -> list[tuple[str, str]]:
    return [(one.code, one.place) for one in judge_as_built(path, car)]


def test_a_sound_build_is_clear(tmp_path: Path) -> None:
    assert codes(folder(tmp_path)) == []


@pytest.mark.parametrize(
    ("limits", "code", "place"),
    [
        (Limits(front_axle=512.9), "axle-limit", "front axle"),
        (Limits(rear_axle=476.9), "axle-limit", "rear axle"),
        (Limits(gross=989.9), "gross-limit", "whole car"),
    ],
)
def test_a_limit_broken_by_what_is_fixed_is_told(
    limits: Limits, code: str, place: str, tmp_path: Path
) -> None:
    assert codes(folder(tmp_path), replace(CAR, limits=limits)) == [(code, place)]


def test_a_target_told_as_met_must_be_met_with_everything_on(tmp_path: Path) -> None:
    share = 510.0 / 960.0
    near = replace(ROOMY, target=Target(share + 0.0105, 0.01, ("driver",)))
    assert codes(folder(tmp_path), near) == [("target", "as built")]
    assert codes(folder(tmp_path, met=False), near) == []
    nobody = replace(near, target=Target(470.0 / 880.0, 0.0005, ()))
    rows = (*ROWS[:2], ROWS[3])
    assert codes(folder(tmp_path, rows), nobody) == []


@pytest.mark.parametrize("place", range(4))
@pytest.mark.parametrize("column", [1, 2, 3])
def test_a_load_told_wrongly_is_told(place: int, column: int, tmp_path: Path) -> None:
    cells = ROWS[place].split(",")
    cells[column] = f"{float(cells[column]) + 0.05:.2f}"
    rows = (*ROWS[:place], ",".join(cells), *ROWS[place + 1 :])
    ((code, where),) = codes(folder(tmp_path, rows))
    assert code == "weights"
    assert cells[0] in where


def test_states_left_out_and_words_for_figures_are_told(tmp_path: Path) -> None:
    assert codes(folder(tmp_path, ROWS[:3])) == [("weights", "weights.csv")]
    assert codes(folder(tmp_path, (*ROWS[:3], "with everything,much,477.00,990.00"))) == [
        ("weights", "weights.csv, with everything, front axle [kg]")
    ]


@pytest.mark.parametrize("name", ["mass.json", "layout.json", "weights.csv"])
def test_a_file_that_is_missing_or_damaged_is_told(name: str, tmp_path: Path) -> None:
    (folder(tmp_path) / name).unlink()
    assert codes(tmp_path) == [("malformed", "weights as built")]
    if name != "weights.csv":
        (tmp_path / name).write_text("{}")
        assert codes(tmp_path) == [("malformed", "weights as built")]


def test_a_car_that_was_not_weighed_is_not_judged(tmp_path: Path) -> None:
    assert codes(tmp_path, replace(CAR, weighed=None)) == []
