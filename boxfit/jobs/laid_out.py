"""The search, judged: the best layout, alone or beside its alternatives."""

import json
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, TypeAlias

from boxfit.car import Car
from boxfit.jobs.going_on import NothingFitsError, Search, refuse_faulty
from boxfit.jobs.landing import landing, origin_of
from boxfit.layout import Layout
from boxfit.module import Module
from boxfit.weight.reserve import NO_RESERVE, Reserve

if TYPE_CHECKING:
    from boxfit.search.elsewhere import Elsewhere
    from boxfit.search.searches import BaySearches
    from boxfit.search.watch import Watch

    Beside: TypeAlias = Elsewhere[BaySearches]


def laid_out(
    car: Car,
    module: Module,
    watch: "Watch | None" = None,
    searches: "BaySearches | None" = None,
    reserve: Reserve = NO_RESERVE,
) -> Layout:
    """The best layout, judged; with a reserve for what is fixed to boxes where one is given.

    Raises NothingFitsError or JudgedWrongError.
    """
    from boxfit.search.find import NoLayout, find_layout

    found = find_layout(car, module, watch, searches, reserve)
    if isinstance(found, NoLayout):
        raise NothingFitsError(found.reasons)
    refuse_misjudged(found, car, module)
    return found


def refuse_misjudged(layout: Layout, car: Car, module: Module) -> None:
    """Raises JudgedWrongError where the judge finds fault with a layout of the car."""
    from boxfit.files.layout_json import layout_bytes
    from boxfit.judge.layout import judge_layout

    findings = judge_layout(json.loads(layout_bytes(layout)), car, module)
    refuse_faulty(findings)


def refuse_misjudged_alternatives(layout: Layout, cars: tuple[Car, ...], module: Module) -> None:
    """Raises JudgedWrongError where the judge finds fault with an alternative, each of its own car."""
    from boxfit.files.layout_json import layout_bytes
    from boxfit.judge.layout import judge_alternative

    tables = json.loads(layout_bytes(layout))["alternatives"]
    for table, car in zip(tables, cars, strict=True):
        findings = judge_alternative(table, car, module)
        refuse_faulty(findings)


class BestAndOthers:
    """The best layout, and the same with its alternatives once they are asked for; all judged.

    Raises as `laid_out` does.
    """

    def __init__(self, car: Car, module: Module, search: Search, elsewhere: "Beside | None") -> None:
        from boxfit.search.alternatives import Alternatives

        self._car, self._module, self._search = car, module, search
        search.tell("searching for the best layout")
        self._others = Alternatives(car, module, search.watch, elsewhere)
        self._is_helped = elsewhere is not None
        self.best = laid_out(car, module, search.watch, self._others.searches)
        self._look_around()

    def again(self, reserve: Reserve) -> Layout:
        """The best layout with this reserve, judged; bays are not searched again."""
        return laid_out(self._car, self._module, self._search.watch, self._others.searches, reserve)

    def settle(self, layout: Layout, reserve: Reserve) -> None:
        """Another layout is taken for the best, found with this reserve; so are its alternatives."""
        refuse_misjudged(layout, self._car, self._module)
        self.best = layout
        self._others.keep(reserve)
        self._look_around()

    def _look_around(self) -> None:
        """All is looked for that is not looked for elsewhere."""
        self._search.tell(f"{self.best.count} modules; looking at alternatives")
        self._same = self._others.of_the_same_car(self.best)
        self._now = () if self._is_helped else self._others.of_changed_cars(self.best)

    def with_alternatives(self) -> Layout:
        """The best with its alternatives."""
        changed = self._others.of_changed_cars(self.best) if self._is_helped else self._now
        found = (*changed, *self._same)
        layout = replace(self.best, alternatives=tuple(one.alternative for one in found))
        refuse_misjudged_alternatives(layout, tuple(one.car for one in found), self._module)
        return layout


@contextmanager
def best_and_others(car: Car, module: Module, search: Search) -> Iterator[BestAndOthers]:
    """The best layout and its alternatives.

    In several processes those of changed cars are looked for meanwhile; all else is looked for before
    anything is made of the best, as the time for the search goes on. Raises as `laid_out` does.
    """
    from boxfit.search.elsewhere import Elsewhere
    from boxfit.search.searches import BaySearches

    with ExitStack() as stack:
        elsewhere = None
        if search.processes > 1:
            beside = Elsewhere(search.processes - 1, search.watch, BaySearches, module)
            elsewhere = stack.enter_context(beside)
        yield BestAndOthers(car, module, search, elsewhere)


def write_layout(car: Car, module: Module, layout: Layout, target: Path) -> None:
    """Writes layout.json alone into the results folder. Raises InputError where that cannot be."""
    from boxfit.files.layout_json import layout_bytes
    from boxfit.files.record import LAYOUT

    with landing(target, LAYOUT, car, module, origin_of(car, module, layout)) as folder:
        (folder / "layout.json").write_bytes(layout_bytes(layout))
