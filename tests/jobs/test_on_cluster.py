"""The same sweep on a Dask cluster: two workers of this machine, each a process of its own."""

import os
import signal
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from distributed import LocalCluster

from boxfit.files.kept import KEPT
from boxfit.files.problems import InputError
from boxfit.jobs import on_cluster
from boxfit.jobs.going_on import StoppedError
from boxfit.jobs.on_cluster import _answer
from boxfit.jobs.sweep import Means, swept
from tests.jobs.sweeps import CARS, MODULES


@pytest.fixture(scope="module")
def cluster() -> Iterator[LocalCluster]:
    """A cluster of two workers."""
    with LocalCluster(n_workers=2, threads_per_worker=1, processes=True, dashboard_address=":0") as two:
        yield two


@pytest.fixture
def address(cluster: LocalCluster) -> str:
    """Where the cluster answers."""
    return str(cluster.scheduler_address)


def told(out: Path, address: str) -> str:
    with pytest.raises(InputError) as error:
        swept(CARS, MODULES, Means(30.0, 1, out, address), lambda _done, _all: None)
    return str(error.value)


def test_a_cluster_gives_what_this_machine_gives(tmp_path: Path, address: str) -> None:
    done: list[tuple[int, int]] = []
    means = Means(30.0, 1, tmp_path / "there", address)
    there = swept(CARS, MODULES, means, lambda one, of_all: done.append((one, of_all)))
    here = swept(CARS, MODULES, Means(30.0, 1, tmp_path / "here"), lambda _done, _all: None)
    assert there == here
    assert done == [(count, 6) for count in range(7)]
    kept = [
        {path.name: path.read_bytes() for path in (tmp_path / one / KEPT).iterdir()}
        for one in ("there", "here")
    ]
    assert kept[0] == kept[1]


def test_an_interrupted_sweep_calls_off_the_rest(tmp_path: Path, address: str) -> None:
    def interrupt(done: int, _all: int) -> None:
        if done == 1:
            raise KeyboardInterrupt

    with pytest.raises(StoppedError, match="1 of 6 searches are kept"):
        swept(CARS, MODULES, Means(30.0, 1, tmp_path, address), interrupt)
    assert len(list((tmp_path / KEPT).iterdir())) == 1


def test_workers_of_another_program_are_refused(
    tmp_path: Path, address: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(on_cluster, "program_mark", lambda: "another")
    assert told(tmp_path, address) == (
        "--cluster: a worker runs another boxfit than this one, or other packages\n"
        "  try: install this very boxfit, and the same Python packages, on every worker"
    )


class Asked:
    """What a cluster tells of a search."""

    def __init__(self, status: str, error: Exception | None = None) -> None:
        self.status, self.error = status, error

    def exception(self) -> Exception | None:
        """What went wrong."""
        return self.error


def test_a_worker_that_cannot_search_is_told() -> None:
    error = ModuleNotFoundError("No module named 'boxfit'")
    with pytest.raises(
        InputError, match=r"cannot do the search \(ModuleNotFoundError: No module named 'boxfit'\)"
    ):
        _answer(Asked("error", error))


def test_a_search_that_the_cluster_gives_up_stops_the_sweep() -> None:
    with pytest.raises(StoppedError, match="it says: cancelled"):
        _answer(Asked("cancelled"))


def test_the_sweep_goes_on_when_a_worker_is_lost(tmp_path: Path, cluster: LocalCluster) -> None:
    """One of the two is killed once the first search is done; Dask starts another in its place."""

    def kill(done: int, _all: int) -> None:
        if done == 1:
            os.kill(cluster.workers[0].pid, signal.SIGKILL)

    means = Means(30.0, 1, tmp_path / "there", cluster.scheduler_address)
    there = swept(CARS, MODULES, means, kill)
    assert there == swept(CARS, MODULES, Means(30.0, 1, tmp_path / "here"), lambda _done, _all: None)


@pytest.mark.parametrize("wrong", ["tcp://127.0.0.1:1", "nonsense://x"])
def test_no_cluster_there_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, wrong: str) -> None:
    monkeypatch.setattr(on_cluster, "PATIENCE", 0.3)
    text = told(tmp_path, wrong)
    assert text.startswith(f"--cluster: no cluster answers at {wrong}")
    assert "try: start one (dask scheduler" in text


def test_without_distributed_it_says_how_to_get_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "distributed", None)
    assert told(tmp_path, "tcp://127.0.0.1:1") == (
        "--cluster: needs the package distributed, which is not installed\n"
        "  try: install it with boxfit's extra: pip install 'boxfit[cluster]'"
    )
