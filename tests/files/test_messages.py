"""Every message word for word. messages*.txt hold one block a case: file, what is changed, what is told.

Kind of expected value: own output (regression), read through case by case when it was first taken down.
"""

from dataclasses import dataclass
from pathlib import Path

import pytest

from boxfit.files.car import read_car
from boxfit.files.module import read_module
from boxfit.files.problems import InputError
from tests.files.samples import SURVEYS, write_surveyed
from tests.samples import CAR_FILES, MODULE, changed, write_car, write_module

CORPORA = [Path(__file__).with_name(f"messages{of}.txt") for of in ("", "_survey", "_shops")]
FILES = {"heron-44.toml": MODULE, **CAR_FILES, **SURVEYS}


@dataclass(frozen=True)
class Case:
    """One change to one file of the sample, and the message it must give."""

    file: str
    old: str
    new: str
    told: str


def _case(block: str) -> Case:
    heading, _, told = block.partition("\n")
    file, _, change = heading.partition(": ")
    old, _, new = change.partition(" => ")
    return Case(file, _unescaped(old), _unescaped(new), told.strip("\n"))


def _unescaped(text: str) -> str:
    return text.replace("\\n", "\n").replace("\\\n", "\\n")


def _blocks(corpus: Path) -> list[str]:
    return corpus.read_text(encoding="utf-8").removeprefix("== ").split("\n== ")


CASES = [_case(block) for corpus in CORPORA for block in _blocks(corpus)]


@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case.file}: {case.new!r}")
def test_message_word_for_word(case: Case, tmp_path: Path) -> None:
    files = {**FILES, case.file: changed(FILES[case.file], case.old, case.new)}
    if case.file in SURVEYS:
        folder = write_surveyed(tmp_path, case.file, files)
    else:
        folder = write_car(tmp_path, {name: files[name] for name in CAR_FILES})
    module = write_module(tmp_path / "modules", files["heron-44.toml"])
    with pytest.raises(InputError) as told:
        read_module(module) if case.file == module.name else read_car(folder)
    assert case.told == str(told.value)


def test_there_are_many_cases() -> None:
    assert len(CASES) >= 140


def test_problems_of_all_files_come_at_once_by_file(tmp_path: Path) -> None:
    folder = write_car(
        tmp_path,
        {
            "car.toml": changed(changed(CAR_FILES["car.toml"], "2180.0", "-1"), "gap = 4.0", "gap = -4"),
            "front.toml": changed(CAR_FILES["front.toml"], 'way = "up"', 'way = "upp"'),
            "rear.toml": "not toml",
        },
    )
    with pytest.raises(InputError) as told:
        read_car(folder)
    places = [(problem.file, problem.key) for problem in told.value.problems]
    assert places == [
        ("car.toml", "wheelbase"),
        ("car.toml", "box.gap"),
        ("front.toml", "opening.way"),
        ("rear.toml", "line 1, column 5"),
    ]


def test_a_slip_in_one_table_hides_nothing_between_tables(tmp_path: Path) -> None:
    text = changed(CAR_FILES["car.toml"], "mass = 75.0", "mass = true")
    text = changed(changed(text, '["driver"]', '["drivr"]'), "front_axle = 480.0", "front_axle = 5")
    with pytest.raises(InputError) as told:
        read_car(write_car(tmp_path, {**CAR_FILES, "car.toml": text}))
    assert [problem.key for problem in told.value.problems] == [
        "carried[1].mass",
        "target.with[1]",
        "limits.front_axle",
    ]
