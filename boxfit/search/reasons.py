"""Plain words for what holds a layout back."""

from boxfit.car import Car, Limits
from boxfit.electrics.strings import Pack, packs, series_allowed
from boxfit.layout import Weights
from boxfit.module import stances
from boxfit.search.at_the_opening import at_the_opening
from boxfit.search.bay import BaySearch
from boxfit.search.floors import height_for_boxes
from boxfit.search.pack import PackSearch
from boxfit.search.stack import Stack
from boxfit.search.tier import TierKind, stance_height
from boxfit.weight.balance import fully_loaded, moments

MANY = 1000


def _plural(count: int, word: str) -> str:
    """
    >>> _plural(1, "module"), _plural(3, "module")
    ('1 module', '3 modules')
    """
    return f"{count} {word}" if count == 1 else f"{count} {word}s"


def held_back(search: PackSearch, pack: Pack, bound: int) -> tuple[str, ...]:
    """Why there is not one string more, and whether that is proven."""
    room = sum(search.most)
    holds = f"the fullest boxes found hold {room}" if room < bound else f"the bays hold {room}"
    more = [one.count for one in packs(search.car, search.module, MANY) if one.count > pack.count]
    following = min(more, default=None)
    notes = []
    if following is None:
        notes.append("No larger whole string fits the voltage windows.")
    elif following > room:
        notes.append(
            f"The next whole string would make {_plural(following, 'module')}; {holds} ({_by_bay(search)})."
        )
        notes += at_the_opening(search)
    else:
        notes.append(
            f"The bays would hold {_plural(following, 'module')} ({_by_bay(search)}),"
            f" but {_stopped_by(search, following)}."
        )
    if bound > pack.count:
        notes.append(
            f"Not proven best: no layout can hold more than {_plural(bound, 'module')},"
            f" but between {pack.count} and {bound} the search did not settle it."
        )
    return tuple(notes)


def _stopped_by(search: PackSearch, count: int) -> str:
    """Which rule stops a count that the bays would hold."""
    wanted = [one for one in packs(search.car, search.module, count) if one.count == count]
    if not any(True for pack in wanted for _ in search.shares(pack, search.most)):
        return "no way leaves every string whole in one bay"
    nearest = search.nearest(wanted)
    within = " within the plate's limits" if search.car.limits != Limits() else ""
    if nearest is None or search.car.target is None:
        return f"no way to place them{within} was found"
    return (
        f"the nearest way found{within} misses the target front share"
        f" {search.car.target.front_share:.3f} by {nearest.front_share_missed:.3f}"
        f" (allowed {search.car.target.tolerance:.3f})"
    )


def _by_bay(search: PackSearch) -> str:
    return ", ".join(f"{offer.search.bay.name} {offer.most}" for offer in search.offers)


def target_missed(car: Car, weights: Weights) -> tuple[str, ...]:
    """How far the nearest layout is from the target, and which way."""
    if car.target is None or weights.front_share is None:
        return ()
    missed = weights.front_share - car.target.front_share
    towards = "front" if missed > 0 else "rear"
    return (
        f"No layout meets the target front share {car.target.front_share:.3f}"
        f" +/- {car.target.tolerance:.3f}: this one is nearest at {weights.front_share:.3f},"
        f" {abs(missed):.3f} too far to the {towards}.",
    )


def nothing_fits(search: PackSearch) -> tuple[str, ...]:
    """Why there is no layout at all, the first cause that stands."""
    car, module = search.car, search.module
    if not any(search.most):
        return (*(_no_module(bay) for bay in search.bays), *at_the_opening(search))
    series = series_allowed(car, module, MANY)
    volts = f"{module.voltage.empty:g} V empty and {module.voltage.full:g} V full"
    if not series:
        windows = "; ".join(f"{one.name} {one.low:g} to {one.high:g} V" for one in car.windows)
        return (f"No number of modules in series, each {volts}, stays inside every window ({windows}).",)
    if series[0] > sum(search.most):
        return (
            f"The shortest string the voltage windows allow has {_plural(series[0], 'module')}"
            f" (each {volts}); the bays hold {sum(search.most)} ({_by_bay(search)}).",
            *at_the_opening(search),
        )
    if car.string_in_one_bay and series[0] > max(search.most):
        return (
            f"The shortest string the voltage windows allow has {_plural(series[0], 'module')} and must"
            f" stay whole in one bay; no bay holds so many ({_by_bay(search)}).",
        )
    return (_over_limits(search, series[0]),)


def _over_limits(search: PackSearch, count: int) -> str:
    car, module = search.car, search.module
    plate = {
        "front axle": car.limits.front_axle,
        "rear axle": car.limits.rear_axle,
        "gross": car.limits.gross,
    }
    limits = ", ".join(f"{name} {limit:g} kg" for name, limit in plate.items() if limit is not None)
    text = f"Even the smallest pack of {_plural(count, 'module')} ({count * module.mass:g} kg and boxes)"
    if car.weighed is None:
        return f"{text} finds no place that meets every rule."
    empty = fully_loaded(car, car.weighed, moments([]))
    return (
        f"{text} breaks a limit of the plate ({limits}) wherever it stands: with everything carried and"
        f" no pack the axles already bear {empty.front:.1f} kg in front and {empty.rear:.1f} kg behind."
    )


def _no_module(search: BaySearch) -> str:
    """Why not one module fits a bay: the least height, or the plan left at the lowest level."""
    bay, module = search.bay, search.module
    height = height_for_boxes(bay)
    ways = stances(module)
    if not ways:
        return f"{bay.name}: {module.name} has no face free of room that it may stand on."
    single = [Stack((TierKind(stance_height(way), (way,)),), module, bay.box) for way in ways]
    lowest = min(single, key=lambda stack: stack.height)
    if lowest.height > height:
        return (
            f"{bay.name}: the lowest box for one module is {lowest.height:.1f} mm high,"
            f" {lowest.height - height:.1f} mm more than the {height:.1f} mm between the allowances."
        )
    return (
        f"{bay.name}: no box for one module finds a place in plan that keeps every distance and gets in"
        f" through the opening."
    )
