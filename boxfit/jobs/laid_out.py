"""The search, judged: the best layout, alone or beside its alternatives."""

import json
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from boxfit.car import Car
from boxfit.jobs.going_on import JudgedWrongError, NothingFitsError, Search
from boxfit.jobs.landing import landing, origin_of
from boxfit.layout import Layout
from boxfit.module import Module

if TYPE_CHECKING:
    from boxfit.search.searches import BaySearches
    from boxfit.search.watch import Watch


def laid_out(
    car: Car, module: Module, watch: "Watch | None" = None, searches: "BaySearches | None" = None
) -> Layout:
    """The best layout, judged. Raises NothingFitsError or JudgedWrongError."""
    from boxfit.search.find import NoLayout, find_layout

    found = find_layout(car, module, watch, searches)
    if isinstance(found, NoLayout):
        raise NothingFitsError(found.reasons)
    refuse_misjudged(found, car, module)
    return found


def refuse_misjudged(layout: Layout, car: Car, module: Module) -> None:
    """Raises JudgedWrongError where the judge finds fault with a layout of the car."""
    from boxfit.files.layout_json import layout_bytes
    from boxfit.judge.layout import judge_layout

    findings = judge_layout(json.loads(layout_bytes(layout)), car, module)
    if findings:
        raise JudgedWrongError(findings)


def refuse_misjudged_alternatives(layout: Layout, cars: tuple[Car, ...], module: Module) -> None:
    """Raises JudgedWrongError where the judge finds fault with an alternative, each of its own car."""
    from boxfit.files.layout_json import layout_bytes
    from boxfit.judge.layout import judge_alternative

    tables = json.loads(layout_bytes(layout))["alternatives"]
    for table, car in zip(tables, cars, strict=True):
        findings = judge_alternative(table, car, module)
        if findings:
            raise JudgedWrongError(findings)


@contextmanager
def best_and_others(
    car: Car, module: Module, search: Search
) -> Iterator[tuple[Layout, Callable[[], Layout]]]:
    """The best layout, and what gives the same with its alternatives once they are asked for; all judged.

    In several processes those of changed cars are looked for meanwhile; all else is looked for before
    anything is made of the best, as the time for the search goes on. Raises as `laid_out` does.
    """
    from boxfit.search.alternatives import Alternatives
    from boxfit.search.elsewhere import Elsewhere
    from boxfit.search.searches import BaySearches

    with ExitStack() as stack:
        search.tell("searching for the best layout")
        elsewhere = None
        if search.processes > 1:
            beside = Elsewhere(search.processes - 1, search.watch, BaySearches, module)
            elsewhere = stack.enter_context(beside)
        others = Alternatives(car, module, search.watch, elsewhere)
        best = laid_out(car, module, search.watch, others.searches)
        search.tell(f"{best.count} modules; looking at alternatives")
        same = others.of_the_same_car(best)
        now = () if elsewhere else others.of_changed_cars(best)

        def with_alternatives() -> Layout:
            found = (*(others.of_changed_cars(best) if elsewhere else now), *same)
            layout = replace(best, alternatives=tuple(one.alternative for one in found))
            refuse_misjudged_alternatives(layout, tuple(one.car for one in found), module)
            return layout

        yield best, with_alternatives


def laid_out_beside_others(car: Car, module: Module, search: Search) -> Layout:
    """The best layout with its alternatives, all judged. Raises as `laid_out` does."""
    with best_and_others(car, module, search) as (_, with_alternatives):
        return with_alternatives()


def write_layout(car: Car, module: Module, layout: Layout, target: Path) -> None:
    """Writes layout.json alone into the results folder. Raises InputError where that cannot be."""
    from boxfit.files.layout_json import layout_bytes
    from boxfit.files.record import LAYOUT

    with landing(target, LAYOUT, car, module, origin_of(car, module, layout)) as folder:
        (folder / "layout.json").write_bytes(layout_bytes(layout))
