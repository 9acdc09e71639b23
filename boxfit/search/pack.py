"""All bays together: the best boxes for a count under limits and target, in the order of what best means."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import product
from math import inf

from boxfit.car import Car
from boxfit.electrics.strings import Pack
from boxfit.module import Module
from boxfit.search.option import Option, options
from boxfit.search.placing import Placing, Wish, place, reach
from boxfit.search.searches import BaySearches
from boxfit.search.share_out import Share, by_corners, compositions
from boxfit.search.watch import Watch
from boxfit.weight.demands import Demands, MomentRange
from boxfit.weight.reserve import NO_RESERVE, Reserve

MOST_SHARES = 48
"""Ways to share a count out among bays that are looked at closely."""
MOST_KEPT = {1: 96, 2: 14, 3: 7}
"""Options kept per bay where that many bays hold boxes; 4 where more do."""
Allowed = Callable[[float], MomentRange]
"""From the mass of a pack [kg] to the moments it may have."""


@dataclass(frozen=True)
class Choice:
    """Boxes and their places; None for a bay that stays empty. `score` orders choices, the least is best."""

    pack: Pack
    chosen: tuple[Option | None, ...]
    placing: Placing
    score: tuple[float, ...]

    @property
    def front_share_missed(self) -> float:
        """How far [-] the front share is from the target."""
        return self.score[0]


class PackSearch:
    """The bays of one car with one module; what `reserve` keeps is weighed as though it were there."""

    def __init__(
        self,
        car: Car,
        module: Module,
        watch: Watch | None = None,
        searches: BaySearches | None = None,
        reserve: Reserve = NO_RESERVE,
    ) -> None:
        self.car = car
        self.reserve = reserve
        self.laden = reserve.on(car)
        self.module = module
        self.watch = watch or Watch()
        self.demands = Demands.of(self.laden)
        known = searches or BaySearches(module, self.watch)
        self.offers = tuple(known.offers(bay) for bay in car.bays)
        self.bays = tuple(offer.search for offer in self.offers)
        self._options: dict[tuple[int, int, int, int], tuple[Option, ...]] = {}

    @cached_property
    def most(self) -> list[int]:
        """Modules each bay was found to hold."""
        return [offer.most for offer in self.offers]

    def best(self, pack: Pack) -> Choice | None:
        """The best boxes for exactly this pack that meet every limit and the target."""
        for group in by_corners(self.shares(pack, self.most), self._corners):
            best: Choice | None = None
            for share in self._likely(group):
                better = self._best_of(
                    pack, share, self.demands.allowed, best.front_share_missed if best else inf
                )
                if better is not None and (best is None or better.score < best.score):
                    best = better
            if best is not None:
                return best
        return None

    def nearest(self, allowed: Sequence[Pack]) -> Choice | None:
        """Of all allowed packs, the boxes whose front share is nearest the target, every limit met."""
        packs = {share: pack for pack in reversed(allowed) for share in self._shares_with_corners(pack)}
        best: tuple[tuple[float, ...], Choice] | None = None
        for share in self._likely(list(packs)):
            choice = self._best_of(
                packs[share], share, self.demands.within_limits, best[0][0] if best else inf
            )
            if choice is not None:
                corners = sum(of_bay for _, of_bay in share)
                rank = (choice.score[0], -choice.pack.count, corners, *choice.score[1:])
                best = (rank, choice) if best is None or rank < best[0] else best
        return best[1] if best else None

    def lightest(self, pack: Pack) -> Choice | None:
        """The lightest boxes for exactly this pack that meet every limit and the target."""
        best: tuple[tuple[float, ...], Choice] | None = None
        for share in self._likely(self._shares_with_corners(pack)):
            for _, order, chosen in self._promising(share, self.demands.allowed):
                mass = round(sum(option.load.mass for option in chosen), 3)
                if best is not None and mass >= best[0][0]:
                    continue
                placing = self._placed(chosen, self.demands.allowed)
                if placing is not None:
                    score = (*self._score(chosen, placing), float(order))
                    best = ((mass, *score), Choice(pack, _spread(share, chosen), placing, score))
        return best[1] if best else None

    def shares(self, pack: Pack, most: Sequence[int]) -> Iterator[tuple[int, ...]]:
        """Every way to share the pack out among bays that hold at most `most`, strings whole where asked."""
        for counts in compositions(pack.count, most):
            if not self.car.string_in_one_bay or all(count % pack.series == 0 for count in counts):
                yield counts

    def _shares_with_corners(self, pack: Pack) -> list[Share]:
        groups = by_corners(self.shares(pack, self.most), self._corners)
        return [share for group in groups for share in group]

    def _corners(self, place_of_bay: int, count: int) -> tuple[int, ...]:
        return self.offers[place_of_bay].corners(count)

    def _likely(self, shares: list[Share]) -> list[Share]:
        """All ways to share modules out, or where they are very many those that look best balanced."""
        most = 1 if self.watch.is_over else MOST_SHARES
        if len(shares) <= most:
            return shares
        ranked = sorted(shares, key=lambda share: (self._rough_miss(share), -sum(n for n, _ in share), share))
        return ranked[:most]

    def _rough_miss(self, share: Share) -> float:
        """How far [-] modules in the middle of their bays would be from the target."""
        pulls, total = 0.0, 0
        for (count, _), bay in zip(share, self.car.bays, strict=True):
            xs = [x for x, _ in bay.room.outline]
            pulls += count * self.module.mass * (min(xs) + max(xs)) / 2
            total += count
        return self.demands.missed(total * self.module.mass, pulls)

    def _of_bay(self, place_of_bay: int, count: int, corners: int, used: int) -> tuple[Option, ...]:
        """Boxes of one bay, thinned out where several bays must be matched: extremes of balance, lowest."""
        key = (place_of_bay, count, corners, used)
        if key not in self._options:
            kept = self.reserve.of_bay(place_of_bay)
            found = options(self.offers[place_of_bay], count, corners, kept)
            self._options[key] = _thinned(found, MOST_KEPT.get(used, 4))
        return self._options[key]

    def _promising(self, share: Share, allowed: Allowed) -> Iterator[tuple[float, int, list[Option]]]:
        """Boxes for this share that may meet what is allowed: least possible miss, order, boxes."""
        used = sum(count > 0 for count, _ in share)
        choices = [
            self._of_bay(k, count, corners, used) for k, (count, corners) in enumerate(share) if count > 0
        ]
        for order, chosen in enumerate(product(*choices)):
            mass = sum(option.load.mass for option in chosen)
            within, possible = allowed(mass), reach(chosen)
            if possible.meets(within):
                aim = self.demands.wanted_x(mass)
                nearest = _nearest(possible.and_also(within), aim)
                yield self.demands.missed(mass, nearest), order, list(chosen)

    def _best_of(self, pack: Pack, share: Share, allowed: Allowed, worst_miss: float) -> Choice | None:
        """The best boxes for this share, missing the target by no more than `worst_miss`."""
        best: Choice | None = None
        for miss, order, chosen in sorted(self._promising(share, allowed), key=lambda found: found[:2]):
            if miss > min(worst_miss, best.front_share_missed if best else inf):
                break
            placing = self._placed(chosen, allowed)
            if placing is None:
                continue
            score = (*self._score(chosen, placing), float(order))
            if best is None or score < best.score:
                best = Choice(pack, _spread(share, chosen), placing, score)
        return best

    def _placed(self, chosen: Sequence[Option], allowed: Allowed) -> Placing | None:
        mass = sum(option.load.mass for option in chosen)
        return place(chosen, Wish(allowed(mass), self.demands.wanted_x(mass), self.demands.wanted_y))

    def _score(self, chosen: Sequence[Option], placing: Placing) -> tuple[float, float, float]:
        """Front share missed, sideways offset and height of mass [mm], no finer than can be weighed."""
        mass = sum(option.load.mass for option in chosen)
        height = sum(option.load.z for option in chosen) / mass
        sideways = self.demands.sideways(mass, placing.y)
        return (self.demands.missed(mass, placing.x), round(sideways, 1), round(height, 1))


def _spread(share: Share, chosen: Sequence[Option]) -> tuple[Option | None, ...]:
    """The boxes bay by bay, None for a bay that stays empty."""
    boxes = iter(chosen)
    return tuple(next(boxes) if count else None for count, _ in share)


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
