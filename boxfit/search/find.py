"""From a car and a module to the best layout, how good it is, and what held it back."""

from dataclasses import dataclass, replace
from itertools import islice

from boxfit.car import Car
from boxfit.electrics.strings import packs
from boxfit.layout import BayLayout, Layout, PlacedBox, Weights
from boxfit.module import Module
from boxfit.search.pack import Choice, PackSearch
from boxfit.search.reasons import held_back, nothing_fits, target_missed
from boxfit.search.refute import refuted
from boxfit.search.searches import BaySearches
from boxfit.search.watch import Watch
from boxfit.search.weighed import weighed
from boxfit.weight.balance import without_pack
from boxfit.weight.reserve import NO_RESERVE, Reserve

NOT_WEIGHED = Weights(0.0, 0.0)
"""Until `weighed` has it."""
MOST_REFUTED = 200
"""Ways to share a count out among bays that are refuted one by one."""


@dataclass(frozen=True)
class NoLayout:
    """Why no layout meets the hard rules, one plain sentence each."""

    reasons: tuple[str, ...]


def find_layout(
    car: Car,
    module: Module,
    watch: Watch | None = None,
    searches: BaySearches | None = None,
    reserve: Reserve = NO_RESERVE,
) -> Layout | NoLayout:
    """The best layout under every hard rule; the nearest to the target where none meets it.

    Once the watch is over it is the best so far. `searches` remember what is alike in several cars. Limits
    and target hold, and the bound is proven, with what `reserve` keeps.
    """
    search = PackSearch(car, module, watch, searches, reserve)
    wanted = packs(car, module, sum(search.most))
    for pack in wanted:
        choice = search.best(pack)
        if choice is not None:
            search.watch.tell(pack.count)
            return _best(search, choice, _bound(search, pack.count), target_met=True)
    nearest = search.nearest(wanted)
    if nearest is None:
        return NoLayout(nothing_fits(search))
    return _best(search, nearest, max(_bound(search, 0), nearest.pack.count), target_met=False)


def _bound(search: PackSearch, found: int) -> int:
    """The most modules any layout within the hard rules could hold; `found` is known to be possible."""
    rooms = [offer.bound for offer in search.offers]
    most = _most_by_gross(search, sum(rooms))
    for pack in packs(search.car, search.module, most):
        if pack.count <= found:
            break
        search.watch.tell(found, pack.count)
        shares = list(islice(search.shares(pack, rooms), MOST_REFUTED + 1))
        if shares and (len(shares) > MOST_REFUTED or not refuted(search, shares)):
            return pack.count
    return found


def _most_by_gross(search: PackSearch, most: int) -> int:
    """Modules that the gross limit leaves room for if boxes weigh nothing, and no more than `most`."""
    car = search.laden
    if car.weighed is None or car.limits.gross is None:
        return most
    left = car.limits.gross - without_pack(car, car.weighed, everything=True).mass
    return max(0, min(most, int(left / search.module.mass + 1e-9)))


def _best(search: PackSearch, choice: Choice, bound: int, target_met: bool) -> Layout:
    """The layout of a choice, with what holds it back."""
    found = _placed(search, choice)
    notes = held_back(search, choice.pack, bound)
    proven = bound == found.count and target_met
    if not target_met:
        notes = (*target_missed(search.car, found.weights), *notes)
    if search.watch.is_over:
        better = "a better balanced one" if proven else "a better layout"
        notes = (*notes, f"The search was ended before it was done: there may be {better}.")
    return replace(found, bound=bound, proven=proven, target_met=target_met, notes=notes)


def layout_of(search: PackSearch, choice: Choice, best: Layout) -> Layout:
    """The layout of another choice of the same car, of which the bound of the best holds as well."""
    found = _placed(search, choice)
    target = search.car.target
    share = found.weights.front_share
    met = target is None or share is None or abs(share - target.front_share) <= target.tolerance + 1e-9
    return replace(found, bound=best.bound, proven=met and found.count == best.bound, target_met=met)


def _placed(search: PackSearch, choice: Choice) -> Layout:
    """Where everything stands and what it weighs; the count is its own bound as yet."""
    car, module, pack = search.car, search.module, choice.pack
    bays: list[BayLayout] = []
    corners = iter(choice.placing.corners)
    for bay, option in zip(car.bays, choice.chosen, strict=True):
        boxes: tuple[PlacedBox, ...] = ()
        if option is not None:
            boxes = option.arrangement.placed(*next(corners))
        bays.append(BayLayout(bay.name, boxes))
    found = Layout(
        car=car.name,
        module=module.name,
        count=pack.count,
        series=pack.series,
        parallel=pack.parallel,
        energy=pack.count * module.energy,
        bound=pack.count,
        proven=False,
        target_met=True,
        bays=tuple(bays),
        weights=NOT_WEIGHED,
    )
    return weighed(car, module, found, search.reserve)
