"""The searches of a sweep on a Dask cluster, which shares them out and goes on when a worker is lost."""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from typing import TYPE_CHECKING

from boxfit.car import Car
from boxfit.files.kept import program_mark
from boxfit.files.problems import InputError, Problem
from boxfit.files.shown import plain
from boxfit.jobs.beside import Case, Work
from boxfit.jobs.going_on import StoppedError
from boxfit.jobs.searched import Answer, searched
from boxfit.module import Module

if TYPE_CHECKING:
    from distributed import Client, Future

OPTION = "--cluster"
PATIENCE = 15.0
"""Seconds [s] to wait for a cluster to answer (our own choice)."""
_SAME = "install this very boxfit, and the same Python packages, on every worker"


def answers_of_cluster(work: Work, cases: Sequence[Case], address: str) -> Iterator[tuple[Case, Answer]]:
    """The answers of the cases as they come from the cluster at an address such as `tcp://10.0.0.5:8786`.

    Every worker is given all cars and modules, so that the others go on when one is lost. Searches still
    waited for are called off when the sweep ends early. Raises InputError where distributed is not installed,
    no cluster answers, or its workers run another boxfit; StoppedError where the cluster gives a search up.
    """
    with _connected(address) as client:
        from distributed import as_completed

        cars = client.scatter(list(work.cars), hash=False, broadcast=True)
        modules = client.scatter(list(work.modules), hash=False, broadcast=True)
        asked = {
            client.submit(_searched, cars[car], modules[module], work.seconds, pure=False): (car, module)
            for car, module in cases
        }
        try:
            for one in as_completed(list(asked), loop=client.loop):
                yield asked[one], _answer(one)
        finally:
            client.cancel(list(asked))


def _searched(car: Car, module: Module, seconds: float) -> Answer:
    return searched(car, module, seconds)


def _answer(asked: "Future") -> Answer:
    """The answer of a worker, if it can be taken."""
    if asked.status not in ("finished", "error"):
        raise StoppedError(f"the cluster gave a search up, it says: {asked.status}")
    found = asked.result() if asked.status == "finished" else asked.exception()
    if not isinstance(found, Answer):
        words = plain(f"{type(found).__name__}: {found}")[:200]
        raise _told(f"a worker cannot do the search ({words})", _SAME)
    if found.program != program_mark():
        raise _told("a worker runs another boxfit than this one, or other packages", _SAME)
    return found


@contextmanager
def _connected(address: str) -> "Iterator[Client]":
    """A client of the cluster, closed when done with."""
    try:
        from distributed import Client
    except ImportError:
        remedy = "install it with boxfit's extra: pip install 'boxfit[cluster]'"
        raise _told("needs the package distributed, which is not installed", remedy) from None
    try:
        client = Client(address, timeout=PATIENCE, set_as_default=False)
    except Exception as error:  # of many kinds; all say that this address is no cluster
        reason = plain(str(error).splitlines()[0] if str(error) else type(error).__name__)[:200]
        remedy = "start one (dask scheduler, then dask worker ADDRESS on each machine) and name its address"
        raise _told(f"no cluster answers at {plain(address)}: {reason}", remedy) from None
    try:
        yield client
    finally:
        client.close()


def _told(rule: str, remedy: str) -> InputError:
    return InputError([Problem(OPTION, "", rule, None, remedy)])
