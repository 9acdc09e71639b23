"""The searches of a sweep in processes of this machine."""

import os
import signal
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor, as_completed
from concurrent.futures.process import BrokenProcessPool
from multiprocessing import get_context, parent_process
from multiprocessing.connection import Connection, wait
from threading import Thread

from boxfit.car import Car
from boxfit.jobs.going_on import StoppedError
from boxfit.jobs.searched import Answer, searched
from boxfit.module import Module
from boxfit.search.elsewhere import interrupts_left_out

Case = tuple[int, int]
"""The places of a car and of a module among those of the sweep."""


class Work:
    """What is searched: cars, modules, and for how long [s] each."""

    def __init__(self, cars: Sequence[Car], modules: Sequence[Module], seconds: float) -> None:
        self.cars, self.modules, self.seconds = tuple(cars), tuple(modules), seconds

    def done(self, case: Case) -> Answer:
        """The answer of one case."""
        return searched(self.cars[case[0]], self.modules[case[1]], self.seconds)


_work: list[Work] = []
"""What a process that searches for another works on."""


def answers(work: Work, cases: Sequence[Case], processes: int) -> Iterator[tuple[Case, Answer]]:
    """The answers of the cases as they come, each searched in one process; which one changes no answer.

    In this process where one is enough. Raises StoppedError where a process was ended from outside.
    """
    if min(processes, len(cases)) <= 1:
        yield from ((case, work.done(case)) for case in cases)
        return
    context = get_context("spawn")
    over, going_on = context.Pipe(duplex=False)
    pool = ProcessPoolExecutor(min(processes, len(cases)), context, _begin, (over, work))
    try:
        with interrupts_left_out():
            asked = {pool.submit(_done, case): case for case in cases}
        for one in as_completed(asked):
            yield asked[one], one.result()
    except BrokenProcessPool:
        raise StoppedError("a search was ended from outside, perhaps for lack of memory") from None
    except BaseException:
        going_on.close()
        raise
    finally:
        pool.shutdown(cancel_futures=True)
        going_on.close()
        over.close()


def _begin(over: Connection, work: Work) -> None:
    """A process gets ready; it ends at once when told that all is over, and when who asks is gone."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    Thread(target=_end_after, args=(lambda: wait([over]),), daemon=True).start()
    asking = parent_process()
    if asking is not None:
        Thread(target=_end_after, args=(asking.join,), daemon=True).start()
    _work.append(work)


def _end_after(waited_for: Callable[[], object]) -> None:
    waited_for()
    os._exit(1)


def _done(case: Case) -> Answer:
    return _work[0].done(case)
