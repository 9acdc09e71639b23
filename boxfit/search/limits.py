"""What easing each thing would bring: the least that gains a string, and how much all of it gains.

Whether a car gains is asked of the search itself, without bounds or notes; what is claimed in the end is a
whole layout of the car eased by so much.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from math import ceil

from boxfit.car import Car
from boxfit.electrics.strings import Pack, packs
from boxfit.layout import Layout
from boxfit.module import Module
from boxfit.search.easing import MOST_SHARE, STEPS, TOLERANCE, Easing, easings, with_tolerance
from boxfit.search.elsewhere import Elsewhere
from boxfit.search.find import find_layout
from boxfit.search.pack import PackSearch
from boxfit.search.searches import BaySearches
from boxfit.search.watch import Watch

RUNGS = 10
"""Easings looked at, evenly, of what may gain and lose it again."""


@dataclass(frozen=True)
class Asked:
    """A car and a module, and the modules of the best layout as it is; 0 where none meets every rule."""

    car: Car
    module: Module
    above: int


@dataclass(frozen=True)
class Eased:
    """A thing eased `by` so much [unit], and the best layout then."""

    by: float
    layout: Layout


@dataclass(frozen=True)
class Limit:
    """One thing: the `least` easing that gains a string and the `most` gained, None where it gains nothing.

    `pair` is the least it takes beside a wider tolerance of the target, where neither brings anything alone.
    `alike` is the layout without a negotiable keep-out that gains nothing, for the front share it costs.
    `looked_at` is False where time was up before it was known, `stands` where a layout found for it did not
    pass the judge.
    """

    easing: Easing
    least: Eased | None = None
    most: Eased | None = None
    pair: "Limit | None" = None
    alike: Eased | None = None
    looked_at: bool = True
    stands: bool = True


def gains(search: PackSearch, above: int) -> bool:
    """True where more than `above` modules in whole strings meet every limit and the target."""
    return any(search.best(pack) is not None for pack in _larger(search, above))


def _larger(search: PackSearch, above: int) -> list[Pack]:
    """Packs of more than `above` modules that the bays hold, the least first."""
    allowed = packs(search.car, search.module, sum(search.most))
    return [pack for pack in reversed(allowed) if pack.count > above]


class LimitSearch:
    """The easings of one car and module; bays that stay as they are are searched once."""

    def __init__(self, asked: Asked, watch: Watch) -> None:
        self.asked = asked
        self.watch = watch
        self._searches = BaySearches(asked.module, watch)

    def of(self, easing: Easing) -> Limit:
        """What easing this one thing brings."""
        if self.watch.is_over:
            return Limit(easing, looked_at=False)
        steps = ceil(round(easing.most / easing.step, 6))
        found = self._bracket(easing, steps)
        least = most = pair = alike = None
        alone = easing.tolerance is None
        if found is not None:
            least = self._gaining(easing, self._least(easing, *found))
            most = self._gaining(easing, self._fullest(easing, steps)) if least and alone else None
        elif (wider := self._wider(easing, steps)) is not None:
            pair = self.of(with_tolerance(easing, wider))
        if easing.negotiable and alone and least is None:
            alike = self._laid_out(easing, steps)
        if self.watch.is_over:
            return Limit(easing, looked_at=False)
        return Limit(easing, least, _fuller(least, most), pair, alike)

    @cached_property
    def _tolerance_alone(self) -> bool:
        """True where a wider tolerance of the target brings something by itself, or is not asked about."""
        own = [easing for easing in easings(self.asked.car) if easing.what == TOLERANCE]
        return not own or self._gains(own[0], ceil(own[0].most / own[0].step))

    def _wider(self, easing: Easing, steps: int) -> float | None:
        """The tolerance of the target [-] that lets the thing, eased wholly, gain; None where none does."""
        target = self.asked.car.target
        if target is None or not easing.bay or easing.tolerance is not None or self._tolerance_alone:
            return None
        search = self._search(easing, steps)
        larger = _larger(search, self.asked.above)[::-1]
        nearest = search.nearest(larger) if larger else None
        if nearest is None or nearest.front_share_missed > target.tolerance + MOST_SHARE:
            return None
        return ceil(round(nearest.front_share_missed / STEPS["share"], 6)) * STEPS["share"]

    def _by(self, easing: Easing, step: int) -> float:
        return min(round(step * easing.step, 6), easing.most)

    def _search(self, easing: Easing, step: int) -> PackSearch:
        car = easing.change(self.asked.car, self._by(easing, step))
        return PackSearch(car, self.asked.module, self.watch, self._searches)

    def _gains(self, easing: Easing, step: int) -> bool:
        return gains(self._search(easing, step), self.asked.above)

    def _rungs(self, easing: Easing, steps: int) -> list[int]:
        """The easings [steps] looked at before any between them, the least first."""
        parts = RUNGS if easing.wanders else 1
        return sorted({ceil(steps * rung / parts) for rung in range(1, parts + 1)})

    def _bracket(self, easing: Easing, steps: int) -> tuple[int, int] | None:
        """An easing [steps] that gains nothing and the next looked at, which gains; None where none does."""
        before = 0
        for rung in self._rungs(easing, steps):
            if self._gains(easing, rung):
                return before, rung
            before = rung
        return None

    def _least(self, easing: Easing, low: int, high: int) -> int:
        """The least easing [steps] between the two that gains."""
        while high - low > 1:
            middle = (low + high) // 2
            low, high = (low, middle) if self._gains(easing, middle) else (middle, high)
        return high

    def _fullest(self, easing: Easing, steps: int) -> int:
        """The least of the easings [steps] looked at that gains the most."""
        rungs = self._rungs(easing, steps)
        if len(rungs) == 1:
            return rungs[0]
        return max(rungs, key=lambda rung: (self._most_modules(easing, rung), -rung))

    def _most_modules(self, easing: Easing, step: int) -> int:
        search = self._search(easing, step)
        larger = reversed(_larger(search, self.asked.above))
        return next((pack.count for pack in larger if search.best(pack) is not None), 0)

    def _laid_out(self, easing: Easing, step: int) -> Eased | None:
        """The best layout of the car eased by so much; None where none meets every rule."""
        by = self._by(easing, step)
        eased = easing.change(self.asked.car, by)
        found = find_layout(eased, self.asked.module, self.watch, self._searches)
        return Eased(by, found) if isinstance(found, Layout) and found.target_met else None

    def _gaining(self, easing: Easing, step: int) -> Eased | None:
        """The same where it has more modules than the car as it is."""
        found = self._laid_out(easing, step)
        return found if found is not None and found.layout.count > self.asked.above else None


def _fuller(least: Eased | None, most: Eased | None) -> Eased | None:
    """The one with more modules, and of equals the one eased less; None where no string was gained."""
    if least is None or most is None:
        return least
    return most if most.layout.count > least.layout.count else least


def _look(search: LimitSearch, place: int) -> Limit:
    return search.of(easings(search.asked.car)[place])


def limits(asked: Asked, watch: Watch, processes: int = 1) -> Iterator[Limit]:
    """Every easing of the car in the order listed, each looked at by itself; the same from many processes."""
    things = easings(asked.car)
    if processes == 1:
        yield from map(LimitSearch(asked, watch).of, things)
        return
    with Elsewhere(processes, watch, LimitSearch, asked) as elsewhere:
        looks = [elsewhere.ask(_look, place) for place in range(len(things))]
        for thing, look in zip(things, looks, strict=True):
            yield elsewhere.answer(look) or Limit(thing, looked_at=False)
