"""Searches in processes of their own, beside this one; each gives what it would give here."""

import signal
from collections.abc import Callable
from concurrent.futures import Future, ProcessPoolExecutor, wait
from multiprocessing import get_context
from multiprocessing.synchronize import Event
from threading import Thread
from types import TracebackType
from typing import Self, TypeVar

from boxfit.search.watch import Watch

PATIENCE = 0.2
"""Seconds [s] between looks at whether the time is up."""

Given = TypeVar("Given")
Answer = TypeVar("Answer")

_watches: list[Watch] = []
"""The one watch of a process that searches for another."""


def _begin(over: Event) -> None:
    """A process gets ready; it ends when told that all is over, not by an interrupt."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    watch = Watch()

    def stop() -> None:
        over.wait()
        watch.stop()

    Thread(target=stop, daemon=True).start()
    _watches.append(watch)


def _done(task: Callable[[Watch, Given], Answer], given: Given) -> Answer:
    return task(_watches[0], given)


class Elsewhere:
    """Processes that search for this one as long as its watch goes on."""

    def __init__(self, processes: int, watch: Watch) -> None:
        context = get_context("spawn")
        self._watch = watch
        self._over = context.Event()
        self._pool = ProcessPoolExecutor(processes, context, _begin, (self._over,))

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._over.set()
        self._pool.shutdown(cancel_futures=True)

    def ask(self, task: Callable[[Watch, Given], Answer], given: Given) -> "Future[Answer]":
        """Begins a task, which gets a watch of its own and what is given."""
        return self._pool.submit(_done, task, given)

    def answer(self, asked: "Future[Answer]") -> Answer | None:
        """What the task found; None where the watch was over first."""
        while not asked.done() and not self._watch.is_over:
            wait([asked], timeout=PATIENCE)
        return asked.result() if asked.done() else None
