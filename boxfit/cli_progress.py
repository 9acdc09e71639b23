"""What is shown while something is being done: on a terminal only, on stderr."""

import os
import signal
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from boxfit.jobs import Count, Tell
    from boxfit.search.watch import Watch


@contextmanager
def progress() -> "Iterator[Tell]":
    """Shows in words what is being done."""
    if not sys.stderr.isatty():
        yield lambda _: None
        return
    from rich.console import Console

    with Console(stderr=True).status("reading") as status:
        yield status.update


@contextmanager
def counted(what: str) -> "Iterator[Count]":
    """Shows as a bar how much of `what` is done, and how long it may still take."""
    if not sys.stderr.isatty():
        yield lambda _done, _all: None
        return
    from rich.console import Console
    from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn, TimeRemainingColumn

    columns = (TextColumn("{task.description}"), BarColumn(), MofNCompleteColumn(), TimeRemainingColumn())
    with Progress(*columns, console=Console(stderr=True), transient=True) as bar:
        task = bar.add_task(what, total=None)

        def count(done: int, of_all: int) -> None:
            bar.update(task, completed=done, total=of_all)

        yield count


@contextmanager
def watched(seconds: float, tell: "Tell") -> "Iterator[Watch]":
    """A watch that Ctrl-C ends, so that what is found by then is kept; a second Ctrl-C stops everything."""
    from boxfit.search.watch import Watch

    def hear(found: int, bound: int | None) -> None:
        open_still = f"; whether {bound} could go in is being settled" if bound else ""
        tell(f"{found} modules found{open_still}")

    watch = Watch(seconds, hear)

    def interrupted(_signal: int, _frame: object) -> None:
        watch.stop()
        signal.signal(signal.SIGINT, signal.default_int_handler)

    before = signal.signal(signal.SIGINT, interrupted)
    try:
        yield watch
    finally:
        signal.signal(signal.SIGINT, before)


def usual_processes() -> int:
    """As many as there are cores for this process."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
