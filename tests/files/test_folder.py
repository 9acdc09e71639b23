"""Which files are meant."""

from os import mkfifo
from pathlib import Path

import pytest

from boxfit.files.car import read_car
from boxfit.files.folder import all_modules, find_module, scan_file
from boxfit.files.problems import InputError
from boxfit.survey.fault import SurveyError
from tests.samples import CAR_FILES, MODULE, write_car, write_module


def told(error: pytest.ExceptionInfo[InputError]) -> list[str]:
    return str(error.value).split("\n")


def test_no_such_car_folder(tmp_path: Path) -> None:
    folder = write_car(tmp_path)
    with pytest.raises(InputError) as error:
        read_car(folder.parent / "dunlin-85")
    assert told(error) == [
        f"{folder.parent}/dunlin-85: there is no such folder",
        f"  try: did you mean {folder}?",
    ]


def test_a_file_for_a_folder(tmp_path: Path) -> None:
    folder = write_car(tmp_path)
    with pytest.raises(InputError) as error:
        read_car(folder / "car.toml")
    assert told(error) == [
        f"{folder}/car.toml: must be a folder, not a file",
        f"  try: name the folder: {folder}",
    ]


def test_a_scan_for_a_folder(tmp_path: Path) -> None:
    (tmp_path / "scan.stl").write_bytes(b"")
    with pytest.raises(InputError) as error:
        read_car(tmp_path / "scan.stl")
    assert told(error) == [
        f"{tmp_path}/scan.stl: must be a folder, not a file",
        "  try: name a folder that holds a car.toml",
    ]


def test_a_scan_reached_by_a_link_out_of_the_folder_is_refused(tmp_path: Path) -> None:
    (tmp_path / "scan.stl").write_bytes(b"")
    (tmp_path / "car").mkdir()
    (tmp_path / "car" / "scan.stl").symlink_to(tmp_path / "scan.stl")
    with pytest.raises(SurveyError) as error:
        scan_file("scan.stl", tmp_path / "car")
    assert (error.value.key, error.value.rule) == ("file", "must lie inside the car's folder")


def test_a_scan_that_is_a_pipe_is_refused(tmp_path: Path) -> None:
    mkfifo(tmp_path / "scan.stl")
    with pytest.raises(SurveyError, match="is not a plain file"):
        scan_file("scan.stl", tmp_path)


def test_a_folder_without_car_file(tmp_path: Path) -> None:
    with pytest.raises(InputError) as error:
        read_car(tmp_path)
    assert told(error) == ["car.toml: there is no such file", "  try: make the file car.toml"]


def test_a_bay_reached_by_a_link_out_of_the_folder_is_refused(tmp_path: Path) -> None:
    folder = write_car(tmp_path, {"car.toml": CAR_FILES["car.toml"], "front.toml": CAR_FILES["front.toml"]})
    (tmp_path / "rear.toml").write_text(CAR_FILES["rear.toml"])
    (folder / "rear.toml").symlink_to(tmp_path / "rear.toml")
    with pytest.raises(InputError) as error:
        read_car(folder)
    assert told(error)[0] == 'car.toml: bays[2]: must lie inside the car\'s folder (got "rear.toml")'


def test_a_module_by_path_by_stem_here_and_beside_the_bays(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = write_car(tmp_path / "project")
    beside = folder / ".." / ".." / "modules" / "heron-44.toml"
    (tmp_path / "here").mkdir()
    monkeypatch.chdir(tmp_path / "here")
    assert find_module(str(beside), folder) == beside
    assert find_module("heron-44", folder) == beside
    here = write_module(Path("modules"), MODULE)
    assert find_module("heron-44", folder) == here


def test_all_modules_by_stem(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    folder = write_car(tmp_path)
    monkeypatch.chdir(folder)
    (tmp_path / "modules" / "avocet-30.toml").write_text(MODULE)
    assert [path.stem for path in all_modules(folder)] == ["avocet-30", "heron-44"]


@pytest.mark.parametrize(
    ("word", "remedy"),
    [("heron44", 'did you mean "heron-44"? Known here: heron-44'), ("zzz", "Known here: heron-44")],
)
def test_no_such_module(word: str, remedy: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)  # the demo modules of this project must not be found
    with pytest.raises(InputError) as error:
        find_module(word, write_car(tmp_path))
    rule = "there is no such module file, nor one of that name in modules/"
    assert told(error) == [f"{word}: {rule}", f"  try: {remedy}"]


def test_no_modules_at_all(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    assert all_modules(tmp_path / "a" / "b") == ()
    with pytest.raises(InputError, match="put module files into modules/, or name a file"):
        find_module("heron-44", tmp_path / "a" / "b")
