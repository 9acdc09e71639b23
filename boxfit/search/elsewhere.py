"""Searches in processes of their own, beside this one; each gives what it would give here."""

import signal
from collections.abc import Callable
from concurrent.futures import Future, ProcessPoolExecutor, wait
from multiprocessing import get_context
from multiprocessing.synchronize import Event
from threading import Thread
from types import TracebackType
from typing import Generic, Self, TypeVar

from boxfit.search.watch import Watch

PATIENCE = 0.2
"""Seconds [s] between looks at whether the time is up."""

Given = TypeVar("Given")
Tool = TypeVar("Tool")
Item = TypeVar("Item")
Answer = TypeVar("Answer")

_tools: list[object] = []
"""What a process that searches for another works with."""


def _begin(over: Event, prepare: Callable[[Given, Watch], Tool], given: Given) -> None:
    """A process gets ready; it ends when told that all is over, not by an interrupt."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    watch = Watch()

    def stop() -> None:
        over.wait()
        watch.stop()

    Thread(target=stop, daemon=True).start()
    _tools.append(prepare(given, watch))


def _done(task: Callable[[Tool, Item], Answer], item: Item) -> Answer:
    return task(_tools[0], item)  # type: ignore[arg-type]  # what `prepare` made in this process


class Elsewhere(Generic[Tool]):
    """Processes that search for this one as long as its watch goes on.

    Each makes its own tool once, by `prepare` from what is `given` and a watch; tasks are done with it.
    """

    def __init__(
        self, processes: int, watch: Watch, prepare: Callable[[Given, Watch], Tool], given: Given
    ) -> None:
        context = get_context("spawn")
        self._watch = watch
        self._over = context.Event()
        self._pool = ProcessPoolExecutor(processes, context, _begin, (self._over, prepare, given))

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._over.set()
        self._pool.shutdown(cancel_futures=True)

    def ask(self, task: Callable[[Tool, Item], Answer], item: Item) -> "Future[Answer]":
        """Begins a task: it gets the tool of the process it is done in, and the item."""
        return self._pool.submit(_done, task, item)

    def answer(self, asked: "Future[Answer]") -> Answer | None:
        """What the task found; None where the watch was over first."""
        while not asked.done() and not self._watch.is_over:
            wait([asked], timeout=PATIENCE)
        return asked.result() if asked.done() else None
