"""The search's options on the command line: time, Ctrl-C, processes, and what limits tells."""

import csv
import json
import os
import signal
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from boxfit.cli import app
from boxfit.search.watch import Watch

ROOT = Path(__file__).parent.parent
DUNLIN, PETREL = ROOT / "bays" / "dunlin-850", ROOT / "bays" / "petrel-van"
ENDED = "The search was ended before it was done"


def run(*words: str | Path) -> Result:
    """A command, in this process."""
    return CliRunner().invoke(app, [str(word) for word in words])


def laid_out(car: Path, module: str, out: Path, *words: str) -> tuple[Result, Path]:
    """`boxfit layout` and the file it writes."""
    result = run("layout", car, "--module", ROOT / "modules" / f"{module}.toml", "--out", out, *words)
    return result, out / car.name / module / "layout.json"


def test_no_time_gives_the_best_so_far_and_says_so(tmp_path: Path) -> None:
    result, file = laid_out(PETREL, "wren-22", tmp_path, "--seconds", "0")
    assert result.exit_code == 0
    data = json.loads(file.read_text())
    assert data["notes"][-1].startswith(ENDED)
    assert not data["proven"]
    assert data["bound"] > data["count"] > 0
    assert data["alternatives"] == []


def test_ctrl_c_keeps_what_is_found(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Interrupted as soon as a layout is found; what the bound still proves is proven."""
    plain = Watch.tell

    def interrupted(watch: Watch, found: int, bound: int | None = None) -> None:
        if bound is None:
            os.kill(os.getpid(), signal.SIGINT)
        plain(watch, found, bound)

    before = signal.getsignal(signal.SIGINT)
    monkeypatch.setattr(Watch, "tell", interrupted)
    result, file = laid_out(DUNLIN, "heron-44", tmp_path, "--processes", "1")
    assert result.exit_code == 0
    assert signal.getsignal(signal.SIGINT) is before
    data = json.loads(file.read_text())
    assert data["count"] == 9 <= data["bound"]
    assert data["proven"] == (data["bound"] == 9)
    assert data["alternatives"] == []
    assert any(note.startswith(ENDED) for note in data["notes"])


def test_a_second_ctrl_c_stops_everything(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupted(_watch: Watch, _found: int, _bound: int | None = None) -> None:
        os.kill(os.getpid(), signal.SIGINT)
        os.kill(os.getpid(), signal.SIGINT)

    monkeypatch.setattr(Watch, "tell", interrupted)
    result, file = laid_out(DUNLIN, "heron-44", tmp_path)
    assert result.exit_code == 130
    assert "stopped; nothing was written by halves" in result.stderr
    assert not file.exists()


@pytest.mark.parametrize(("car", "module"), [(DUNLIN, "heron-44"), (PETREL, "heron-44")])
def test_one_process_or_more_give_the_same_bytes(car: Path, module: str, tmp_path: Path) -> None:
    files = []
    for processes in ("1", "3"):
        result, file = laid_out(car, module, tmp_path / processes, "--processes", processes)
        assert result.exit_code == 0
        files.append(file.read_bytes())
    assert files[0] == files[1]
    assert json.loads(files[0])["alternatives"]


@pytest.mark.parametrize("words", [("--seconds", "-1"), ("--seconds", "soon"), ("--processes", "0")])
def test_wrong_options_are_refused(words: tuple[str, str], tmp_path: Path) -> None:
    result, file = laid_out(DUNLIN, "heron-44", tmp_path, *words)
    assert result.exit_code == 2
    assert words[0] in result.stderr
    assert not file.exists()


def test_limits_tells_what_the_spare_wheel_costs(tmp_path: Path) -> None:
    """In two processes; the page on stdout, the same figures as CSV."""
    result = run("limits", DUNLIN, "--module", ROOT / "modules" / "heron-44.toml", "--out", tmp_path)
    assert result.exit_code == 0
    assert "the spare wheel costs 13.2 kWh" in " ".join(result.stdout.split())
    with (tmp_path / "dunlin-850" / "heron-44" / "limits.csv").open(newline="") as file:
        rows = list(csv.DictReader(file))
    assert rows
    assert all(len(line) <= 100 for line in result.stdout.splitlines())
