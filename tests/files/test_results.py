"""Results land whole or not at all, and nothing else stays behind."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from boxfit.files.problems import InputError
from boxfit.files.results import whole_or_nothing


def everything(root: Path) -> dict[str, str]:
    """Every file below `root` with its text, and every folder with a dash."""
    found = sorted(root.rglob("*"))
    return {str(path.relative_to(root)): path.read_text() if path.is_file() else "-" for path in found}


def half_written(target: Path, stop: BaseException) -> None:
    """Begins to write results and is stopped."""
    with whole_or_nothing(target) as fresh:
        (fresh / "half.dxf").write_text("half")
        raise stop


def test_new_results_land_with_the_folders_above(tmp_path: Path) -> None:
    with whole_or_nothing(tmp_path / "out" / "car") as fresh:
        (fresh / "layout.json").write_text("new")
        assert not (tmp_path / "out" / "car").exists()
    assert everything(tmp_path) == {"out": "-", "out/car": "-", "out/car/layout.json": "new"}


def test_old_results_go_altogether(tmp_path: Path) -> None:
    (tmp_path / "car").mkdir()
    (tmp_path / "car" / "old.dxf").write_text("old")
    with whole_or_nothing(tmp_path / "car") as fresh:
        (fresh / "new.dxf").write_text("new")
    assert everything(tmp_path) == {"car": "-", "car/new.dxf": "new"}


@pytest.mark.parametrize("stop", [ValueError, KeyboardInterrupt, InputError])
def test_old_results_stay_when_anything_goes_wrong(stop: type[BaseException], tmp_path: Path) -> None:
    (tmp_path / "car").mkdir()
    (tmp_path / "car" / "old.dxf").write_text("old")
    with pytest.raises(stop):
        half_written(tmp_path / "car", stop(()))
    assert everything(tmp_path) == {"car": "-", "car/old.dxf": "old"}


def test_nothing_stays_of_new_folders_when_anything_goes_wrong(tmp_path: Path) -> None:
    with pytest.raises(KeyboardInterrupt):
        half_written(tmp_path / "out" / "car", KeyboardInterrupt())
    assert everything(tmp_path) == {}


@pytest.mark.parametrize("target", ["file", "file/out/car"])
def test_a_file_in_the_way(target: str, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("kept")
    with pytest.raises(InputError) as told, whole_or_nothing(tmp_path / target):
        raise AssertionError
    assert str(told.value) == (
        f"{tmp_path}/file: is in the way of the results\n"
        "  try: move that file away, or name another folder with --out"
    )
    assert everything(tmp_path) == {"file": "kept"}


def test_a_place_that_may_not_be_written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_arguments: object, **_options: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "mkdir", refuse)
    with pytest.raises(InputError) as told, whole_or_nothing(tmp_path / "car"):
        raise AssertionError
    assert str(told.value) == (
        f"{tmp_path}/car: results cannot be written there: permission denied\n"
        "  try: name a folder that you may write to with --out"
    )


def test_old_results_come_back_when_the_new_cannot_take_their_place(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "car").mkdir()
    (tmp_path / "car" / "old.dxf").write_text("old")
    really_rename = Path.rename

    def rename(path: Path, onto: Path) -> Path:
        if ".new-" in path.name:
            raise OSError(5, "Input/output error")
        return really_rename(path, onto)

    monkeypatch.setattr(Path, "rename", rename)
    with pytest.raises(InputError, match="input/output error"), whole_or_nothing(tmp_path / "car"):
        pass
    assert everything(tmp_path) == {"car": "-", "car/old.dxf": "old"}


def test_what_killed_runs_left_behind_is_cleared_away(tmp_path: Path) -> None:
    for name in (".car.new-1", ".car.old-1", f".car.new-{os.getpid()}"):
        (tmp_path / name).mkdir()
        (tmp_path / name / "half.dxf").write_text("half")
    (tmp_path / "car").mkdir()
    (tmp_path / ".cart.new-1").mkdir()
    with whole_or_nothing(tmp_path / "car") as fresh:
        (fresh / "new.dxf").write_text("new")
    assert everything(tmp_path) == {".cart.new-1": "-", "car": "-", "car/new.dxf": "new"}


def test_results_that_a_killed_run_had_set_aside_come_back(tmp_path: Path) -> None:
    (tmp_path / ".car.old-1").mkdir()
    (tmp_path / ".car.old-1" / "old.dxf").write_text("old")
    with pytest.raises(ValueError, match="stopped"):
        half_written(tmp_path / "car", ValueError("stopped"))
    assert everything(tmp_path) == {"car": "-", "car/old.dxf": "old"}


def test_two_runs_at_the_same_time_both_land_whole(tmp_path: Path) -> None:
    """The second begins, with a process number of its own, while the first still writes."""
    script = (
        "import sys\nfrom pathlib import Path\nfrom boxfit.files.results import whole_or_nothing\n"
        "with whole_or_nothing(Path(sys.argv[1])) as fresh:\n    (fresh / 'second').write_text('whole')\n"
    )
    with whole_or_nothing(tmp_path / "car") as fresh:
        (fresh / "first").write_text("whole")
        subprocess.run([sys.executable, "-c", script, str(tmp_path / "car")], check=True)
        assert everything(tmp_path / "car") == {"second": "whole"}
        assert fresh.is_dir()
    assert everything(tmp_path) == {"car": "-", "car/first": "whole"}


def test_the_last_word_is_had_with_what_was_there(tmp_path: Path) -> None:
    seen: list[tuple[Path, Path | None]] = []
    for _ in range(2):
        with whole_or_nothing(tmp_path / "car", finish=lambda *both: seen.append(both)) as fresh:
            pass
    assert seen == [(fresh, None), (fresh, tmp_path / "car")]
