"""A layout that holds limits and target with everything on: boxes are made, weighed, and searched for again.

The search weighs boxes and modules; what is fixed to a box, and link cables, are known only once boxes are
made. Where these, and only these, take an axle, the gross mass or the front share out of what is asked, the
search is made again with a reserve of as much as was found on the boxes made, until all holds or rounds are
spent.
"""

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from boxfit.car import Car, Limits
from boxfit.jobs.going_on import NothingFitsError, Search, Tell
from boxfit.jobs.laid_out import BestAndOthers, best_and_others
from boxfit.layout import Layout
from boxfit.module import Module
from boxfit.weight.held import Held, held
from boxfit.weight.pack import Pack
from boxfit.weight.reserve import NO_RESERVE, STEP, Reserve, measured

if TYPE_CHECKING:
    from boxfit.box.whole import BuiltBox
    from boxfit.box.wiring.figures import Electrics

MOST_ROUNDS = 4
"""Searches made again at most: each makes boxes and cables anew (our own choice)."""
GRAM = 0.001
"""Steps [kg] in which a reserve is told of a layout that no round made hold."""


@dataclass(frozen=True)
class Made:
    """A layout found with a reserve, its boxes and cables, what all of it weighs, and what that breaks."""

    layout: Layout
    reserve: Reserve
    built: "tuple[BuiltBox, ...]"
    electrics: "Electrics"
    pack: Pack
    held: Held

    @property
    def holds(self) -> bool:
        """Whether limits hold, and the target where the search met it."""
        return not self.held.over and not (self.layout.target_met and self.held.missed)


def made(car: Car, module: Module, layout: Layout, reserve: Reserve = NO_RESERVE) -> Made:
    """Boxes and cables of a layout. Raises InputError where a box cannot be made as its rules say."""
    from boxfit.box.weighed import weighed_pack
    from boxfit.box.whole import built_boxes
    from boxfit.box.wiring.figures import electrics_of
    from boxfit.jobs.unmakeable import refuse_unbuildable

    refuse_unbuildable(car, layout)
    built = built_boxes(car, module, layout)
    electrics = electrics_of(car, module, layout, built)
    pack = weighed_pack(module, built, electrics.wiring)
    return Made(layout, reserve, built, electrics, pack, held(car, pack))


def holding(car: Car, module: Module, found: BestAndOthers, tell: Tell) -> Made:
    """The best layout made; another where that one does not hold with everything on, told in its notes.

    Where none that was tried meets the target, the nearest of those that hold the limits, its target told as
    missed. Raises NothingFitsError where none holds the limits, InputError as `made` does.
    """
    tell("making boxes and cables")
    first = made(car, module, found.best)
    if first.holds:
        return first
    tried, reasons = _rounds(car, module, found, first, tell)
    if tried[-1].holds:
        tried.append(_fuller(car, module, found, tried[-1]))
    chosen = _settled(car, module, tried, reasons)
    found.settle(chosen.layout, chosen.reserve)
    return chosen


def laid_out_beside_others(car: Car, module: Module, search: Search) -> tuple[Layout, Pack | None]:
    """The best layout with its alternatives, all judged, and its pack with everything on.

    It holds limits and target so, as `build` would. The pack is None where none of that is asked, or boxes
    cannot be made as their rules say: then boxes and modules alone are weighed. Raises as `holding` does.
    """
    with best_and_others(car, module, search) as found:
        pack = holding(car, module, found, search.tell).pack if _can_be_held(car, found.best) else None
        return found.with_alternatives(), pack


def _can_be_held(car: Car, layout: Layout) -> bool:
    """Whether weights are asked of the car, and boxes of the layout can be made."""
    from boxfit.files.problems import InputError
    from boxfit.jobs.unmakeable import refuse_unbuildable, refuse_unmakeable

    if car.weighed is None or (car.target is None and car.limits == Limits()):
        return False
    try:
        refuse_unmakeable(car)
        refuse_unbuildable(car, layout)
    except InputError:
        return False
    return True


def _rounds(
    car: Car, module: Module, found: BestAndOthers, first: Made, tell: Tell
) -> tuple[list[Made], tuple[str, ...]]:
    """All that was made, what holds last where anything does; and why the last search found nothing."""
    tried, reserve = [first], _measured(car, module, first)
    reasons: tuple[str, ...] = ()
    for _ in range(MOST_ROUNDS):
        tell(f"keeping {reserve.mass:.1f} kg for fittings and cables; searching again")
        try:
            layout = found.again(reserve)
        except NothingFitsError as nothing:
            reasons, reserve = nothing.reasons, reserve.parts(0.5)
            continue
        known = next((one for one in tried if one.layout.bays == layout.bays), None)
        tried.append(
            replace(known, layout=layout, reserve=reserve) if known else made(car, module, layout, reserve)
        )
        if tried[-1].holds:
            break
        reserve = reserve.grown(_measured(car, module, tried[-1]))
    return tried, reasons


def _fuller(car: Car, module: Module, found: BestAndOthers, last: Made) -> Made:
    """A better layout than one that holds, where that one carries less than was kept; else the same.

    What was kept was found on a larger pack: with less, a pack between the two may do.
    """
    less = _measured(car, module, last)
    if less.mass >= last.reserve.mass:
        return last
    try:
        layout = found.again(less)
    except NothingFitsError:
        return last
    if (layout.target_met, layout.count) <= (last.layout.target_met, last.layout.count):
        return last
    fuller = made(car, module, layout, less)
    return fuller if fuller.holds else last


def _measured(car: Car, module: Module, one: Made, step: float = STEP) -> Reserve:
    from boxfit.box.searched_pack import searched_pack

    return measured(one.layout.bays, searched_pack(car, module, one.layout), one.pack, step)


def _settled(car: Car, module: Module, tried: list[Made], reasons: tuple[str, ...]) -> Made:
    """What is built of all that was tried, with notes that say why. Raises NothingFitsError."""
    from boxfit.report.kept_text import kept_note, nearest_note, never_holds
    from boxfit.search.weighed import weighed

    first, last = tried[0], tried[-1]
    if last.holds:
        note = kept_note(first.layout, first.held, last.layout)
        return replace(last, layout=replace(last.layout, notes=(note, *last.layout.notes)))
    within = [one for one in tried if not one.held.over]
    most = max(one.reserve.mass for one in tried)
    if not within:
        raise NothingFitsError(never_holds(first.layout, first.held, most, reasons))
    nearest = min(within, key=lambda one: (one.held.missed, -one.layout.count))
    exact = _measured(car, module, nearest, GRAM)
    told = weighed(car, module, replace(nearest.layout, target_met=False, proven=False), exact)
    note = nearest_note(car, nearest.held, most)
    return replace(nearest, reserve=exact, layout=replace(told, notes=(note, *told.notes)))
