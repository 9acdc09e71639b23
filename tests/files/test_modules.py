"""Module files by the folder: what is taken for one, and every problem of all files at once."""

from pathlib import Path

import pytest

from boxfit.files.modules import is_modules, read_modules
from boxfit.files.problems import InputError
from tests.samples import CAR, FRONT, MODULE, changed, write_car, write_module

ROOT = Path(__file__).parents[2]


def test_what_is_taken_for_modules(tmp_path: Path) -> None:
    car = write_car(tmp_path)
    (tmp_path / "empty").mkdir()
    assert is_modules(tmp_path / "modules")
    assert is_modules(tmp_path / "modules" / "heron-44.toml")
    for other in (car, car / "front.toml", tmp_path / "bays", tmp_path / "empty", tmp_path / "gone"):
        assert not is_modules(other)
    assert not is_modules(Path("\0"))


def test_every_module_is_read_by_file_name() -> None:
    stems = [module.stem for module in read_modules(ROOT / "modules")]
    assert len(stems) == 8
    assert stems == sorted(stems)
    assert [module.name for module in read_modules(ROOT / "modules" / "wren-22.toml")] == ["Wren 22"]


def test_all_problems_of_all_files_are_told(tmp_path: Path) -> None:
    folder = write_module(tmp_path, changed(MODULE, "peak = 250.0", "peak = 50.0")).parent
    (folder / "auk.toml").write_text(changed(changed(MODULE, "mass = 11.6", "mass = 0"), "spacing", "spacin"))
    (folder / "bay.toml").write_text(FRONT)
    (folder / "other.toml").write_text(CAR)
    (folder / "torn.toml").write_text("name = ")
    (folder / "right.toml").write_text(MODULE)
    with pytest.raises(InputError) as told:
        read_modules(folder)
    rules = [f"{problem.file}: {problem.key}: {problem.rule}" for problem in told.value.problems]
    assert rules == [
        "auk.toml: mass: must be a number from 0.001 to 20000 kg",
        "auk.toml: spacing: is missing",
        "auk.toml: spacin: is not a known key",
        "bay.toml: : is a bay's file, no module's",
        "heron-44.toml: current.peak: must not be below continuous 100",
        "other.toml: : is a car's file, no module's",
        "torn.toml: : is not TOML: invalid value (at end of document)",
    ]
