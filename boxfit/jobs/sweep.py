"""Every module in every variation of a car: searched wherever there is a core, kept as soon as found."""

from collections.abc import Generator, Sequence
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from boxfit.car import Car
from boxfit.files.kept import KEPT, Finding, Kept, key_of_search, mark_of_car, mark_of_module
from boxfit.jobs.beside import Case, Work, answers
from boxfit.jobs.going_on import Count, JudgedWrongError, StoppedError
from boxfit.jobs.on_cluster import answers_of_cluster
from boxfit.jobs.searched import Answer
from boxfit.layout import Layout
from boxfit.module import Module


@dataclass(frozen=True)
class Means:
    """How a sweep is done: seconds [s] for each search, in so many processes or at a cluster's address.

    `out` is the folder of all results; what is found is kept in a folder of its own within it.
    """

    seconds: float
    processes: int
    out: Path
    cluster: str | None = None


def swept(cars: Sequence[Car], modules: Sequence[Module], means: Means, count: Count) -> dict[Case, Finding]:
    """What was found for each car and module, by their places; what was kept before is not searched again.

    The same whatever does the searches, where none of them ran out of time. Raises StoppedError when
    interrupted, JudgedWrongError, and InputError as `Kept` and `answers_of_cluster` do.
    """
    kept = Kept(means.out / KEPT)
    cases = [(car, module) for module in range(len(modules)) for car in range(len(cars))]
    of_cars, of_modules = [mark_of_car(car) for car in cars], [mark_of_module(one) for one in modules]
    keys = {(car, module): key_of_search(of_cars[car], of_modules[module]) for car, module in cases}
    found: dict[Case, Finding] = {}
    try:
        for case in cases:
            known = kept.found(keys[case])
            if known and known.serves(means.seconds) and _stands(known, cars[case[0]], modules[case[1]]):
                found[case] = known
        count(len(found), len(cases))
        todo = [case for case in cases if case not in found]
        with closing(_answers(Work(cars, modules, means.seconds), todo, means)) as coming:
            for case, answer in coming:
                if answer.faults:
                    raise JudgedWrongError(answer.faults)
                kept.keep(keys[case], answer.finding)
                found[case] = answer.finding
                count(len(found), len(cases))
    except KeyboardInterrupt:
        raise StoppedError(_how_far(len(found), len(cases))) from None
    except StoppedError as stopped:
        raise StoppedError(f"{stopped}; {_how_far(len(found), len(cases))}") from None
    return found


def _answers(work: Work, cases: Sequence[Case], means: Means) -> Generator[tuple[Case, Answer], None, None]:
    if means.cluster is not None and cases:
        yield from answers_of_cluster(work, cases, means.cluster)
    else:
        yield from answers(work, cases, means.processes)


def _how_far(done: int, cases: int) -> str:
    return f"stopped: {done} of {cases} searches are kept; the same command goes on from there"


def _stands(finding: Finding, car: Car, module: Module) -> bool:
    """Whether what was kept is a layout of this car and module that the judge clears, or is none at all."""
    from boxfit.judge.layout import judge_layout

    if finding.layout is None:
        return bool(finding.reasons)
    return layout_of(finding, car, module) is not None and not judge_layout(finding.layout, car, module)


def layout_of(finding: Finding, car: Car, module: Module) -> Layout | None:
    """The layout of a finding; None where nothing fits, or it is no layout of this car and module."""
    from boxfit.files.layout_back import layout_from_data

    try:
        return layout_from_data(finding.layout, car, module) if finding.layout else None
    except ValueError:
        return None
