"""All bays together: the best boxes for a count under limits and target, in the order of what best means."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import product
from math import inf

from boxfit.car import Car
from boxfit.module import Module
from boxfit.search.bay import BaySearch
from boxfit.search.option import Option, options
from boxfit.search.placing import Placing, Wish, place, reach
from boxfit.search.share_out import by_boxes, compositions
from boxfit.weight.balance import stripped_centre, without_pack
from boxfit.weight.demands import MomentRange, limit_range, moment_for_share, target_range

MOST_KEPT = {1: 96, 2: 14, 3: 7}
"""Options kept per bay where that many bays hold boxes; 4 where more do."""
ANYWHERE = MomentRange(-inf, inf)
Allowed = Callable[[float], MomentRange]
"""From the mass of a pack [kg] to the moments it may have."""


@dataclass(frozen=True)
class Choice:
    """Boxes and their places; None for a bay that stays empty. `score` orders choices, the least is best."""

    chosen: tuple[Option | None, ...]
    placing: Placing
    score: tuple[float, ...]

    @property
    def front_share_missed(self) -> float:
        """How far [-] the front share is from the target."""
        return self.score[0]


class PackSearch:
    """The bays of one car with one module."""

    def __init__(self, car: Car, module: Module) -> None:
        self.car = car
        self.module = module
        self.bays = tuple(BaySearch(bay, module) for bay in car.bays)
        self._options: dict[tuple[int, int, int], tuple[Option, ...]] = {}

    @property
    def most(self) -> list[int]:
        """Modules each bay was found to hold."""
        return [bay.most for bay in self.bays]

    def best(self, count: int) -> Choice | None:
        """The best boxes for exactly `count` modules that meet every limit and the target."""
        for group in by_boxes(count, self.most):
            found = [choice for counts in group if (choice := self._best_of(counts, self._within, inf))]
            if found:
                return min(found, key=lambda choice: choice.score)
        return None

    def nearest(self, counts_allowed: Sequence[int]) -> Choice | None:
        """Of all allowed counts, the boxes whose front share is nearest the target, every limit met."""
        shares = [
            (self._least_miss(counts), -total, counts)
            for total in counts_allowed
            for counts in compositions(total, self.most)
        ]
        best: tuple[tuple[float, ...], Choice] | None = None
        for miss, negative, counts in sorted(shares):
            if miss == inf or (best is not None and miss > best[0][0]):
                break
            choice = self._best_of(counts, self._limits, inf if best is None else best[0][0])
            if choice is not None:
                rank = (choice.score[0], negative, sum(count > 0 for count in counts), *choice.score[1:])
                best = (rank, choice) if best is None or rank < best[0] else best
        return best[1] if best else None

    def _of_bay(self, place_of_bay: int, count: int, used: int) -> tuple[Option, ...]:
        """Boxes of one bay, thinned out where several bays must be matched: extremes of balance, lowest."""
        key = (place_of_bay, count, used)
        if key not in self._options:
            found = options(self.bays[place_of_bay], count)
            self._options[key] = _thinned(found, MOST_KEPT.get(used, 4))
        return self._options[key]

    def _choices(self, counts: Sequence[int]) -> list[tuple[Option, ...]]:
        used = sum(count > 0 for count in counts)
        return [self._of_bay(k, count, used) for k, count in enumerate(counts) if count > 0]

    def _within(self, mass: float) -> MomentRange:
        """Moments that limits and target allow a pack of this mass [kg]."""
        limits = self._limits(mass)
        if self.car.weighed is None:
            return limits
        target = target_range(self.car, self.car.weighed, mass)
        return MomentRange(max(limits.low, target.low), min(limits.high, target.high))

    def _limits(self, mass: float) -> MomentRange:
        return ANYWHERE if self.car.weighed is None else limit_range(self.car, self.car.weighed, mass)

    def _best_of(self, counts: Sequence[int], allowed: Allowed, worst_miss: float) -> Choice | None:
        """The best boxes with these numbers in the bays, missing the target by no more than `worst_miss`."""
        best: Choice | None = None
        for order, chosen in enumerate(product(*self._choices(counts))):
            mass = sum(option.load.mass for option in chosen)
            wish = Wish(allowed(mass), self._wanted_x(mass), self._wanted_y())
            limit = min(worst_miss, best.score[0] if best else inf)
            if self._miss(mass, _nearest_to(reach(chosen), wish)) > limit:
                continue
            placing = place(chosen, wish)
            if placing is None:
                continue
            score = (*self._score(chosen, mass, placing), float(order))
            if best is None or score < best.score:
                spread = iter(chosen)
                best = Choice(tuple(next(spread) if count else None for count in counts), placing, score)
        return best

    def _score(self, chosen: Sequence[Option], mass: float, placing: Placing) -> tuple[float, float, float]:
        """Front share missed, sideways offset and height of mass [mm], no finer than can be weighed."""
        shell = without_pack(self.car, self.car.weighed, False) if self.car.weighed else None
        sideways = abs(placing.y - self._wanted_y()) / (mass + (shell.mass if shell else 0.0))
        height = sum(option.load.z for option in chosen) / mass
        return (self._miss(mass, placing.x), round(sideways, 1), round(height, 1))

    def _miss(self, mass: float, moment: float) -> float:
        """How far [-] from the target a pack of this mass [kg] and moment [kg mm] leaves the front share."""
        if self.car.target is None or self.car.weighed is None:
            return 0.0
        shell = without_pack(self.car, self.car.weighed, everything=False)
        share = 1.0 + (shell.x + moment) / (self.car.wheelbase * (shell.mass + mass))
        return round(abs(share - self.car.target.front_share), 4)

    def _least_miss(self, counts: Sequence[int]) -> float:
        """The least by which any boxes with these numbers can miss the target; infinite where none fit."""
        least = inf
        for chosen in product(*self._choices(counts)):
            mass = sum(option.load.mass for option in chosen)
            wish = Wish(self._limits(mass), self._wanted_x(mass), 0.0)
            nearest = _nearest_to(reach(chosen), wish)
            if wish.within.low <= wish.within.high and wish.within.holds(nearest, 1.0):
                least = min(least, self._miss(mass, nearest))
        return least

    def _wanted_x(self, mass: float) -> float | None:
        """The pack's moment [kg mm] that meets the target, or without one keeps the stripped car's share."""
        if self.car.weighed is None:
            return None
        if self.car.target is not None:
            share = self.car.target.front_share
        else:
            share = 1.0 + stripped_centre(self.car, self.car.weighed)[0] / self.car.wheelbase
        return moment_for_share(self.car, self.car.weighed, mass, share)

    def _wanted_y(self) -> float:
        """The pack's sideways moment [kg mm] that puts the car's mass on the centre line."""
        if self.car.weighed is None:
            return 0.0
        return -without_pack(self.car, self.car.weighed, everything=False).y


def _nearest_to(within: MomentRange, wish: Wish) -> float:
    """The moment nearest to the wish among those the boxes can give and the rules allow, if they overlap."""
    low, high = max(within.low, wish.within.low), min(within.high, wish.within.high)
    aim = (low + high) / 2 if wish.x is None else wish.x
    return min(max(aim, low), high)


def _thinned(found: tuple[Option, ...], most: int) -> tuple[Option, ...]:
    """At most `most` options: those reaching furthest forward and back, the lowest, the lightest."""
    if len(found) <= most:
        return found
    orders = (
        sorted(found, key=lambda option: -reach([option]).high),
        sorted(found, key=lambda option: reach([option]).low),
        sorted(found, key=lambda option: option.load.z),
        sorted(found, key=lambda option: option.load.mass),
    )
    ranked = dict.fromkeys(option for rank in zip(*orders, strict=True) for option in rank)
    kept = set(list(ranked)[:most])
    return tuple(option for option in found if option in kept)
