"""All bays together: the best boxes for a count under limits and target, in the order of what best means."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import product
from math import inf

from boxfit.car import Car
from boxfit.module import Module
from boxfit.search.option import Option, options
from boxfit.search.placing import Placing, Wish, place, reach
from boxfit.search.searches import BaySearches
from boxfit.search.share_out import by_boxes, compositions
from boxfit.search.watch import Watch
from boxfit.weight.demands import Demands, MomentRange

MOST_SHARES = 48
"""Ways to share a count out among bays that are looked at closely."""
MOST_KEPT = {1: 96, 2: 14, 3: 7}
"""Options kept per bay where that many bays hold boxes; 4 where more do."""
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

    def __init__(
        self, car: Car, module: Module, watch: Watch | None = None, searches: BaySearches | None = None
    ) -> None:
        self.car = car
        self.module = module
        self.watch = watch or Watch()
        self.demands = Demands.of(car)
        known = searches or BaySearches(module, self.watch)
        self.bays = tuple(known.of(bay) for bay in car.bays)
        self._options: dict[tuple[int, int, int], tuple[Option, ...]] = {}

    @property
    def most(self) -> list[int]:
        """Modules each bay was found to hold."""
        return [bay.most for bay in self.bays]

    def best(self, count: int) -> Choice | None:
        """The best boxes for exactly `count` modules that meet every limit and the target."""
        for group in by_boxes(count, self.most):
            best: Choice | None = None
            for counts in self._likely(group):
                better = self._best_of(counts, self.demands.allowed, best.front_share_missed if best else inf)
                if better is not None and (best is None or better.score < best.score):
                    best = better
            if best is not None:
                return best
        return None

    def nearest(self, counts_allowed: Sequence[int]) -> Choice | None:
        """Of all allowed counts, the boxes whose front share is nearest the target, every limit met."""
        every = [counts for total in counts_allowed for counts in compositions(total, self.most)]
        best: tuple[tuple[float, ...], Choice] | None = None
        for counts in self._likely(every):
            choice = self._best_of(counts, self.demands.within_limits, best[0][0] if best else inf)
            if choice is not None:
                used = sum(count > 0 for count in counts)
                rank = (choice.score[0], -sum(counts), used, *choice.score[1:])
                best = (rank, choice) if best is None or rank < best[0] else best
        return best[1] if best else None

    def _likely(self, shares: list[tuple[int, ...]]) -> list[tuple[int, ...]]:
        """All ways to share modules out, or where they are very many those that look best balanced."""
        if len(shares) <= MOST_SHARES:
            return shares
        ranked = sorted(shares, key=lambda counts: (self._rough_miss(counts), -sum(counts), counts))
        return ranked[:MOST_SHARES]

    def _rough_miss(self, counts: Sequence[int]) -> float:
        """How far [-] modules in the middle of their bays would be from the target."""
        pulls = 0.0
        for count, bay in zip(counts, self.car.bays, strict=True):
            xs = [x for x, _ in bay.room.outline]
            pulls += count * self.module.mass * (min(xs) + max(xs)) / 2
        return self.demands.missed(sum(counts) * self.module.mass, pulls)

    def _of_bay(self, place_of_bay: int, count: int, used: int) -> tuple[Option, ...]:
        """Boxes of one bay, thinned out where several bays must be matched: extremes of balance, lowest."""
        key = (place_of_bay, count, used)
        if key not in self._options:
            found = options(self.bays[place_of_bay], count)
            self._options[key] = _thinned(found, MOST_KEPT.get(used, 4))
        return self._options[key]

    def _promising(
        self, counts: Sequence[int], allowed: Allowed
    ) -> Iterator[tuple[float, int, list[Option]]]:
        """Boxes for these numbers that may meet what is allowed: least possible miss, order, boxes."""
        used = sum(count > 0 for count in counts)
        choices = [self._of_bay(k, count, used) for k, count in enumerate(counts) if count > 0]
        for order, chosen in enumerate(product(*choices)):
            mass = sum(option.load.mass for option in chosen)
            within, possible = allowed(mass), reach(chosen)
            if possible.meets(within):
                aim = self.demands.wanted_x(mass)
                nearest = _nearest(possible.and_also(within), aim)
                yield self.demands.missed(mass, nearest), order, list(chosen)

    def _best_of(self, counts: Sequence[int], allowed: Allowed, worst_miss: float) -> Choice | None:
        """The best boxes with these numbers in the bays, missing the target by no more than `worst_miss`."""
        best: Choice | None = None
        for miss, order, chosen in sorted(self._promising(counts, allowed), key=lambda found: found[:2]):
            if miss > min(worst_miss, best.front_share_missed if best else inf):
                break
            mass = sum(option.load.mass for option in chosen)
            wish = Wish(allowed(mass), self.demands.wanted_x(mass), self.demands.wanted_y)
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
        height = sum(option.load.z for option in chosen) / mass
        sideways = self.demands.sideways(mass, placing.y)
        return (self.demands.missed(mass, placing.x), round(sideways, 1), round(height, 1))


def _nearest(within: MomentRange, aim: float | None) -> float:
    """The moment in the range that is nearest to the aim; the middle where there is none."""
    return (within.low + within.high) / 2 if aim is None else min(max(aim, within.low), within.high)


def _thinned(found: tuple[Option, ...], most: int) -> tuple[Option, ...]:
    """At most `most` options: those reaching furthest forward and back, the lowest, the lightest."""
    if len(found) <= most:
        return found
    orders = (
        sorted(found, key=lambda option: -option.reach.high),
        sorted(found, key=lambda option: option.reach.low),
        sorted(found, key=lambda option: option.load.z),
        sorted(found, key=lambda option: option.load.mass),
    )
    ranked = dict.fromkeys(option for rank in zip(*orders, strict=True) for option in rank)
    kept = set(list(ranked)[:most])
    return tuple(option for option in found if option in kept)
