"""One search of a sweep, done wherever it may be: plain things in, plain things out, nothing raised."""

from dataclasses import dataclass
from time import thread_time

from boxfit.car import Car
from boxfit.files.kept import Finding, program_mark
from boxfit.jobs.going_on import JudgedWrongError, NothingFitsError
from boxfit.jobs.laid_out import laid_out
from boxfit.judge.finding import Finding as Fault
from boxfit.module import Module


@dataclass(frozen=True)
class Answer:
    """What a search found, or the `faults` that the judge finds with it.

    `program` is the mark of the program that searched.
    """

    finding: Finding
    faults: tuple[Fault, ...] = ()
    program: str = ""


def searched(car: Car, module: Module, seconds: float) -> Answer:
    """The best layout of the module in the car, judged.

    The search goes on for `seconds` [s] of its own time on a processor, so that what goes on beside it takes
    nothing from it.
    """
    from boxfit.files.layout_json import layout_as_data
    from boxfit.search.watch import Watch

    watch = Watch(seconds, clock=thread_time)
    try:
        layout = laid_out(car, module, watch)
    except NothingFitsError as nothing:
        return Answer(Finding(None, nothing.reasons, _ended(watch.is_over, seconds)), (), program_mark())
    except JudgedWrongError as wrong:
        return Answer(Finding(None), wrong.findings, program_mark())
    ended = _ended(watch.is_over, seconds)
    return Answer(Finding(layout_as_data(layout), (), ended), (), program_mark())


def _ended(is_over: bool, seconds: float) -> float | None:
    return seconds if is_over else None
