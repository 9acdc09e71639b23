"""Sweeps: the same whatever does the searches, kept as soon as found, going on where they were stopped."""

import json
import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from boxfit.files.kept import KEPT, Finding, Kept, key_of_search, mark_of_car, mark_of_module
from boxfit.jobs import beside, sweep
from boxfit.jobs.beside import Case, Work
from boxfit.jobs.going_on import JudgedWrongError, StoppedError
from boxfit.jobs.searched import Answer, searched
from boxfit.jobs.sweep import Means, layout_of, swept
from boxfit.judge.finding import Finding as Fault
from tests.jobs.sweeps import CARS, MODULES

ROOT = Path(__file__).parents[2]
CASES = [(car, module) for module in range(len(MODULES)) for car in range(len(CARS))]


def found(out: Path, seconds: float = 30.0, processes: int = 1) -> dict[Case, Finding]:
    return swept(CARS, MODULES, Means(seconds, processes, out), lambda _done, _all: None)


@pytest.fixture
def asked(monkeypatch: pytest.MonkeyPatch) -> list[Case]:
    """The cases that are truly searched."""
    cases: list[Case] = []
    real = Work.done

    def done(work: Work, case: Case) -> Answer:
        cases.append(case)
        return real(work, case)

    monkeypatch.setattr(Work, "done", done)
    return cases


def test_one_process_or_two_give_the_same(tmp_path: Path) -> None:
    one, two = found(tmp_path / "1"), found(tmp_path / "2", processes=2)
    assert one == two
    assert [bool(one[case].layout) for case in CASES] == [True] * 4 + [False] * 2
    kept = [sorted((tmp_path / name / KEPT).iterdir()) for name in ("1", "2")]
    assert [path.name for path in kept[0]] == [path.name for path in kept[1]]
    assert [path.read_bytes() for path in kept[0]] == [path.read_bytes() for path in kept[1]]


def test_searches_ended_by_time_give_the_same_too(tmp_path: Path) -> None:
    """Without any time each takes what it finds first."""
    one, two = found(tmp_path / "1", 0.0), found(tmp_path / "2", 0.0, processes=2)
    assert one == two
    assert all(finding.ended == 0.0 for finding in one.values())


def test_time_is_that_of_the_search_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    """What the machine does meanwhile takes nothing from it: here the clock on the wall runs by hours."""
    hours = iter(range(0, 10**9, 3600))
    monkeypatch.setattr("boxfit.search.watch.monotonic", lambda: float(next(hours)))
    assert searched(CARS[0], MODULES[1], 30.0).finding.ended is None


def test_what_is_kept_is_not_searched_again(tmp_path: Path, asked: list[Case]) -> None:
    first = found(tmp_path)
    assert asked == CASES
    assert found(tmp_path) == first
    assert asked == CASES
    told: list[tuple[int, int]] = []
    swept(CARS, MODULES, Means(30.0, 1, tmp_path), lambda done, of_all: told.append((done, of_all)))
    assert told == [(6, 6)]


def test_another_figure_is_searched_anew_and_the_rest_is_not(tmp_path: Path, asked: list[Case]) -> None:
    found(tmp_path)
    asked.clear()
    heavier = (MODULES[0], replace(MODULES[1], mass=6.5), MODULES[2])
    swept(CARS, heavier, Means(30.0, 1, tmp_path), lambda _done, _all: None)
    assert asked == [(0, 1), (1, 1)]


def test_an_ended_search_is_made_again_only_for_more_time(tmp_path: Path, asked: list[Case]) -> None:
    found(tmp_path, 0.0)
    asked.clear()
    found(tmp_path, 0.0)
    assert asked == []
    found(tmp_path, 30.0)
    assert asked == CASES


def test_an_interrupted_sweep_goes_on_where_it_was(tmp_path: Path, asked: list[Case]) -> None:
    def interrupt(done: int, _all: int) -> None:
        if done == 2:
            raise KeyboardInterrupt

    with pytest.raises(StoppedError, match="stopped: 2 of 6 searches are kept; the same command goes on"):
        swept(CARS, MODULES, Means(30.0, 1, tmp_path), interrupt)
    assert asked == CASES[:2]
    whole = found(tmp_path)
    assert asked == CASES
    assert whole == found(tmp_path / "without a break")


def damage(finding: Finding) -> Finding:
    """The same layout with its first module moved through the wall."""
    layout = json.loads(json.dumps(finding.layout))
    module = layout["bays"][0]["boxes"][0]["modules"][0]
    for corner in ("low", "high"):
        module[corner][1] -= 40.0
    return replace(finding, layout=layout)


@pytest.mark.parametrize(
    "spoilt",
    [
        damage,
        lambda finding: replace(finding, layout={**finding.layout, "count": 7}),
        lambda finding: replace(finding, layout={"count": 7}),
        lambda finding: replace(finding, layout={**finding.layout, "module": "Another"}),
        lambda finding: replace(finding, layout=None),
    ],
)
def test_what_the_judge_does_not_clear_is_searched_again(
    tmp_path: Path, asked: list[Case], spoilt: Callable[[Finding], Finding]
) -> None:
    """Whole by its check sum, as if an older judge had let it pass."""
    first = found(tmp_path)
    of_module = mark_of_module(MODULES[0])
    key, other = (key_of_search(mark_of_car(car), of_module) for car in CARS)
    kept = Kept(tmp_path / KEPT)
    kept.keep(key, spoilt(first[0, 0]))
    (tmp_path / KEPT / f"{other}.json").write_text("{", encoding="utf-8")
    asked.clear()
    assert found(tmp_path) == first
    assert asked == [(0, 0), (1, 0)]
    assert kept.found(key) == first[0, 0]


def test_what_the_judge_refuses_at_once_is_not_kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    fault = Fault("module-outside", "boot, box 1", "by 3 mm")
    monkeypatch.setattr(beside, "searched", lambda *_: Answer(Finding(None), (fault,), ""))
    with pytest.raises(JudgedWrongError, match="module-outside: boot, box 1: by 3 mm"):
        found(tmp_path)
    assert not list((tmp_path / KEPT).glob("*"))


def test_the_judge_is_asked_of_every_search(monkeypatch: pytest.MonkeyPatch) -> None:
    fault = Fault("module-outside", "boot, box 1", "by 3 mm")
    monkeypatch.setattr("boxfit.judge.layout.judge_layout", lambda *_: (fault,))
    assert searched(CARS[0], MODULES[1], 30.0).faults == (fault,)


def test_a_layout_comes_back_as_it_was_searched(tmp_path: Path) -> None:
    finding = found(tmp_path)[0, 0]
    layout = layout_of(finding, CARS[0], MODULES[0])
    assert layout is not None
    assert layout.count == 8
    assert layout_of(Finding(None, ("too high",)), CARS[0], MODULES[0]) is None


class Ending(Work):
    """Work that ends the process which does it."""

    def done(self, case: Case) -> Answer:
        """Never gives an answer."""
        os._exit(9 if case in CASES else 1)


def test_a_process_that_is_ended_from_outside_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sweep, "Work", Ending)
    with pytest.raises(StoppedError, match=r"from outside, .*; stopped: 0 of 6 searches are kept"):
        found(tmp_path, processes=2)


def running(group: int) -> list[str]:
    """The processes of a group that still run."""
    left: list[str] = []
    for stat in Path("/proc").glob("[0-9]*/stat"):
        try:
            words = stat.read_text(encoding="utf-8").rpartition(")")[2].split()
        except OSError:
            continue
        if words[0] != "Z" and int(words[2]) == group:
            left.append(stat.parent.name)
    return left


@pytest.mark.skipif(not Path("/proc/self/stat").exists(), reason="looks at /proc")
@pytest.mark.parametrize("kind", [signal.SIGINT, signal.SIGKILL])
def test_a_stopped_command_leaves_what_it_found_and_no_process(tmp_path: Path, kind: signal.Signals) -> None:
    """A quick module beside one that takes long; Ctrl-C reaches all of the group, a kill only the first."""
    modules = [f"--module={ROOT / 'modules' / name}.toml" for name in ("skimmer-57", "plover-15")]
    script = "from boxfit.cli import main; main()"
    words = [sys.executable, "-c", script, "compare", str(ROOT / "bays" / "dunlin-850"), *modules]
    command = subprocess.Popen(
        [*words, "--out", str(tmp_path), "--processes", "2"],
        cwd=ROOT,
        stderr=subprocess.PIPE,
        stdout=subprocess.DEVNULL,
        text=True,
        start_new_session=True,
    )
    wait_until(lambda: bool(list((tmp_path / KEPT).glob("[!.]*.json"))), 60.0)
    if kind == signal.SIGINT:
        os.killpg(command.pid, kind)
    else:
        command.send_signal(kind)
    _, said = command.communicate(timeout=20.0)
    wait_until(lambda: not running(command.pid), 20.0)
    if kind == signal.SIGINT:
        assert said == "stopped: 1 of 2 searches are kept; the same command goes on from there\n"
        assert command.returncode == 130
    assert len(list((tmp_path / KEPT).glob("[!.]*.json"))) == 1
    assert not list(tmp_path.rglob("compare.*"))


def wait_until(true: Callable[[], bool], seconds: float) -> None:
    """Waits until something is true, and fails where it takes longer than so many seconds [s]."""
    end = time.monotonic() + seconds
    while not true():
        assert time.monotonic() < end, "took too long"
        time.sleep(0.05)
