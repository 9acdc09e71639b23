"""Tasks done in other processes, and what becomes of those whose process is ended from outside."""

import os
import signal
from collections.abc import Callable
from multiprocessing import parent_process

import pytest

from boxfit.search.elsewhere import Elsewhere
from boxfit.search.watch import Watch


def tool_of(given: int, _watch: Watch) -> int:
    return given


def sum_of(tool: int, item: int) -> int:
    return tool + item


def killed_elsewhere(tool: int, item: int) -> int:
    """A task that no other process survives, as where memory runs out."""
    if parent_process() is not None:
        os.kill(os.getpid(), signal.SIGKILL)
    return tool + item


@pytest.mark.parametrize("task", [sum_of, killed_elsewhere])
def test_every_task_is_answered_though_processes_are_ended(
    task: Callable[[int, int], int],
) -> None:
    """In this process then; and nothing waits for the process that is gone."""
    with Elsewhere(2, Watch(), tool_of, 40) as elsewhere:
        asked = [elsewhere.ask(task, item) for item in range(3)]
        assert [elsewhere.answer(one) for one in asked] == [40, 41, 42]
        assert elsewhere.answer(elsewhere.ask(task, 3)) == 43


def test_nothing_is_answered_once_the_watch_is_over() -> None:
    watch = Watch()
    with Elsewhere(1, watch, tool_of, 40) as elsewhere:
        asked = elsewhere.ask(killed_elsewhere, 1)
        watch.stop()
        assert elsewhere.answer(asked) is None


def test_an_interrupt_meanwhile_reaches_this_process_alone() -> None:
    before = signal.getsignal(signal.SIGINT)
    with Elsewhere(1, Watch(), tool_of, 40) as elsewhere:
        asked = elsewhere.ask(sum_of, 1)
        assert signal.getsignal(signal.SIGINT) is before
        with pytest.raises(KeyboardInterrupt):
            os.kill(os.getpid(), signal.SIGINT)
        assert elsewhere.answer(asked) == 41
