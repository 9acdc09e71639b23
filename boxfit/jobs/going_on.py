"""How a job goes on, and what can end it."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from boxfit.judge.finding import Finding

if TYPE_CHECKING:
    from boxfit.search.watch import Watch

Tell = Callable[[str], None]
"""Takes a line about what is being done."""


Count = Callable[[int, int], None]
"""Takes how many searches of a sweep are done, and how many there are."""


@dataclass(frozen=True)
class Search:
    """How a search goes on: under which watch, in how many processes, and who is told."""

    watch: "Watch"
    processes: int
    tell: Tell


class NothingFitsError(Exception):
    """No layout meets the hard rules; `reasons` say why, one sentence each."""

    def __init__(self, reasons: tuple[str, ...]) -> None:
        super().__init__("\n".join(reasons))
        self.reasons = reasons


class JudgedWrongError(Exception):
    """The judge found fault with a result that should have none; nothing is written."""

    def __init__(self, findings: Sequence[Finding]) -> None:
        super().__init__("\n".join(f"{one.code}: {one.place}: {one.text}" for one in findings))
        self.findings = tuple(findings)


def refuse_faulty(findings: Sequence[Finding]) -> None:
    """Raises JudgedWrongError where there are findings."""
    if findings:
        raise JudgedWrongError(findings)


class StoppedError(Exception):
    """A sweep was stopped before its end; the text tells what is kept of it."""
