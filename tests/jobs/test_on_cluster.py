"""The same sweep on a Dask cluster: two workers of this machine, each a process of its own."""

import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from distributed import LocalCluster

from boxfit.files.kept import KEPT
from boxfit.files.problems import InputError
from boxfit.jobs import on_cluster
from boxfit.jobs.on_cluster import _answer
from boxfit.jobs.sweep import Means, swept
from tests.jobs.sweeps import CARS, MODULES


@pytest.fixture(scope="module")
def address() -> Iterator[str]:
    """Where a cluster of two workers answers."""
    with LocalCluster(n_workers=2, threads_per_worker=1, processes=True, dashboard_address=":0") as cluster:
        yield cluster.scheduler_address


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

    from boxfit.jobs.going_on import StoppedError

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


def test_a_worker_that_cannot_search_is_told() -> None:
    with pytest.raises(
        InputError, match=r"cannot do the search \(ModuleNotFoundError: No module named 'boxfit'\)"
    ):
        _answer(ModuleNotFoundError("No module named 'boxfit'"))


@pytest.mark.parametrize("wrong", ["tcp://127.0.0.1:1", "nonsense://x", "127.0.0.1:0", ""])
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
