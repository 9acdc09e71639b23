"""Other layouts worth a look beside the best: another family of boxes, a keep-out gone, centred, lightest."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from boxfit.bay import Bay, Shape
from boxfit.car import Car
from boxfit.electrics.strings import packs
from boxfit.layout import Alternative, Layout
from boxfit.module import Module
from boxfit.search.elsewhere import Asked, Elsewhere
from boxfit.search.find import NoLayout, find_layout, layout_of
from boxfit.search.pack import PackSearch
from boxfit.search.searches import BaySearches
from boxfit.search.watch import Watch
from boxfit.weight.reserve import NO_RESERVE, Reserve

LIGHTER = 0.1
"""A pack lighter by less than this [kg] is not worth a line: no scale in a workshop tells it."""


@dataclass(frozen=True)
class Found:
    """An alternative and the car it is a layout of."""

    alternative: Alternative
    car: Car


@dataclass(frozen=True)
class _Task:
    """A changed car to be searched with a reserve."""

    car: Car
    reserve: Reserve


class Alternatives:
    """Looks for alternatives; those of changed cars elsewhere, from the start, where that is given."""

    def __init__(
        self, car: Car, module: Module, watch: Watch, elsewhere: Elsewhere[BaySearches] | None = None
    ) -> None:
        self.car = car
        self.module = module
        self.watch = watch
        self.searches = BaySearches(module, watch)
        self.elsewhere = elsewhere
        self._changed = list(_changed_cars(car))
        self._asked: list[Asked[BaySearches, _Task, Layout | NoLayout]] = []
        self.keep(NO_RESERVE)

    def keep(self, reserve: Reserve) -> None:
        """Looks for all of them with this reserve, anew where they were looked for with another."""
        for asked in self._asked:
            asked.cancel()
        self._reserve = reserve
        self._tasks = [_Task(one, reserve) for _, one in self._changed]
        elsewhere = self.elsewhere
        self._asked = [elsewhere.ask(_found, task) for task in self._tasks] if elsewhere else []

    def beside(self, best: Layout) -> tuple[Found, ...]:
        """What differs from the best in a way worth knowing; nothing further once the watch is over."""
        same = self.of_the_same_car(best)
        return (*self.of_changed_cars(best), *same)

    def of_changed_cars(self, best: Layout) -> tuple[Found, ...]:
        """What is gained by something given up."""
        return tuple(
            _told(what, best, other, changed)
            for (what, changed), other in zip(self._changed, self._of_changed_cars(), strict=False)
            if isinstance(other, Layout) and (_is_better(other, best) or _is_plainer(other, best))
        )

    def of_the_same_car(self, best: Layout) -> tuple[Found, ...]:
        """What else may be chosen without any change; none once the watch is over."""
        if self.watch.is_over:
            return ()
        search = PackSearch(self.car, self.module, self.watch, self.searches, self._reserve)
        return tuple(_told(what, best, other, self.car) for what, other in _same_car(search, best))

    def _of_changed_cars(self) -> Iterator[Layout | NoLayout | None]:
        if self.elsewhere is not None:
            yield from map(self.elsewhere.answer, self._asked)
            return
        for task in self._tasks:
            if self.watch.is_over:
                return
            yield _found(self.searches, task)


def _found(searches: BaySearches, task: _Task) -> Layout | NoLayout:
    return find_layout(task.car, searches.module, searches.watch, searches, task.reserve)


def _changed_cars(car: Car) -> Iterator[tuple[str, Car]]:
    """Cars with something given up, and what that is called."""
    if any(bay.box.shape == "stepped" for bay in car.bays):
        yield "plain rectangular boxes", _shaped(car, "rectangular")
    else:
        yield "stepped boxes", _shaped(car, "stepped")
    for place, bay in enumerate(car.bays):
        for gone in bay.keepouts:
            if gone.negotiable:
                kept = tuple(keepout for keepout in bay.keepouts if keepout is not gone)
                yield f"without the {gone.name}", _with_bay(car, place, replace(bay, keepouts=kept))


def _shaped(car: Car, shape: Shape) -> Car:
    return replace(car, bays=tuple(replace(bay, box=replace(bay.box, shape=shape)) for bay in car.bays))


def _with_bay(car: Car, place: int, bay: Bay) -> Car:
    return replace(car, bays=(*car.bays[:place], bay, *car.bays[place + 1 :]))


def _is_better(other: Layout, best: Layout) -> bool:
    """More energy, a target met that the best missed, or as much energy with fewer corners."""
    gains = (other.target_met, other.count, -_corners(other))
    return gains > (best.target_met, best.count, -_corners(best))


def _is_plainer(other: Layout, best: Layout) -> bool:
    """Fewer corners: what the best has its corners for is worth knowing."""
    return _corners(other) < _corners(best) and other.target_met >= best.target_met


def _same_car(search: PackSearch, best: Layout) -> Iterator[tuple[str, Layout]]:
    """The layout nearest the target with at most a string less, and the lightest of as much energy."""
    allowed = packs(search.car, search.module, best.count)
    counts = list(dict.fromkeys(pack.count for pack in allowed))[:2]
    close = [pack for pack in allowed if pack.count in counts]
    if search.car.target is not None and (centred := search.nearest(close)) is not None:
        other = layout_of(search, centred, best)
        if _missed(search.car, other) < _missed(search.car, best):
            yield "nearest the target front share", other
    same = [pack for pack in allowed if pack.count == best.count]
    for pack in same[:1] if best.target_met else []:
        lightest = search.lightest(pack)
        if lightest is not None:
            other = layout_of(search, lightest, best)
            if _mass(other) <= _mass(best) - LIGHTER:
                yield "lightest for the same energy", other


def _missed(car: Car, layout: Layout) -> float:
    if car.target is None or layout.weights.front_share is None:
        return 0.0
    return round(abs(layout.weights.front_share - car.target.front_share), 3)


def _mass(layout: Layout) -> float:
    return layout.weights.modules + layout.weights.boxes


def _corners(layout: Layout) -> int:
    return sum(box.corners for bay in layout.bays for box in bay.boxes)


def _told(what: str, best: Layout, other: Layout, car: Car) -> Found:
    return Found(Alternative(what, difference(best, other), other), car)


def difference(best: Layout, other: Layout) -> str:
    """How another layout differs from the best, in a line."""
    parts = []
    modules, energy = other.count - best.count, other.energy - best.energy
    if modules:
        word = "module" if abs(modules) == 1 else "modules"
        parts.append(f"{modules:+d} {word}, {energy:+.4g} kWh ({other.series} x {other.parallel})")
    else:
        parts.append("the same energy")
    corners = _corners(other) - _corners(best)
    if corners:
        parts.append(f"{abs(corners)} corners {'more' if corners > 0 else 'fewer'}")
    mass = _mass(other) - _mass(best)
    if abs(mass) >= LIGHTER / 2:
        parts.append(f"{abs(mass):.1f} kg {'heavier' if mass > 0 else 'lighter'}")
    if other.weights.front_share is not None and best.weights.front_share is not None:
        moved = round(other.weights.front_share - best.weights.front_share, 3)
        parts.append(f"front share {other.weights.front_share:.3f}" + (f" ({moved:+.3f})" if moved else ""))
    if other.target_met != best.target_met:
        parts.append("meets the target" if other.target_met else "misses the target")
    return ", ".join(parts)
