"""Searches in processes of their own, beside this one; each gives what it would give here."""

import signal
from collections.abc import Callable, Iterator
from concurrent.futures import Future, ProcessPoolExecutor, wait
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from functools import cache
from multiprocessing import get_context
from multiprocessing.connection import Connection
from multiprocessing.connection import wait as wait_for_end
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


@contextmanager
def interrupts_left_out() -> Iterator[None]:
    """Processes started here are not interrupted with this one: they are told when to end."""
    before = signal.signal(signal.SIGINT, signal.SIG_IGN)
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)


def _begin(over: Connection, prepare: Callable[[Given, Watch], Tool], given: Given) -> None:
    """A process gets ready; it ends when told that all is over, not by an interrupt."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    watch = Watch()

    def stop() -> None:
        wait_for_end([over])
        watch.stop()

    Thread(target=stop, daemon=True).start()
    _tools.append(prepare(given, watch))


def _done(task: Callable[[Tool, Item], Answer], item: Item) -> Answer:
    return task(_tools[0], item)  # type: ignore[arg-type]  # what `prepare` made in this process


class Elsewhere(Generic[Tool]):
    """Processes that search for this one as long as its watch goes on.

    Each makes its own tool once, by `prepare` from what is `given` and a watch; tasks are done with it. What
    a process that was ended from outside leaves undone is done here. That all is over is told by closing the
    one end of a pipe: an event would wait for a process that is gone.
    """

    def __init__(
        self, processes: int, watch: Watch, prepare: Callable[[Given, Watch], Tool], given: Given
    ) -> None:
        context = get_context("spawn")
        self._watch = watch
        self._over, self._going_on = context.Pipe(duplex=False)
        self._pool = ProcessPoolExecutor(processes, context, _begin, (self._over, prepare, given))
        self._tool = cache(lambda: prepare(given, watch))

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._going_on.close()
        self._pool.shutdown(cancel_futures=True)
        self._over.close()

    def ask(self, task: Callable[[Tool, Item], Answer], item: Item) -> "Asked[Tool, Item, Answer]":
        """Begins a task: it gets the tool of the process it is done in, and the item."""
        try:
            with interrupts_left_out():
                return Asked(task, item, self._pool.submit(_done, task, item))
        except BrokenProcessPool:
            return Asked(task, item, None)

    def answer(self, asked: "Asked[Tool, Item, Answer]") -> Answer | None:
        """What the task found; None where the watch was over first."""
        if asked.elsewhere is not None:
            while not asked.elsewhere.done() and not self._watch.is_over:
                wait([asked.elsewhere], timeout=PATIENCE)
            if not asked.elsewhere.done():
                return None
            with suppress(BrokenProcessPool):
                return asked.elsewhere.result()
        return None if self._watch.is_over else asked.task(self._tool(), asked.item)


@dataclass(frozen=True)
class Asked(Generic[Tool, Item, Answer]):
    """A task with its item, and where its answer will be; None where no process is left to do it."""

    task: Callable[[Tool, Item], Answer]
    item: Item
    elsewhere: "Future[Answer] | None"

    def cancel(self) -> None:
        """Leaves the task undone where no process has begun it yet."""
        if self.elsewhere is not None:
            self.elsewhere.cancel()
