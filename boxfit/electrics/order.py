"""In which order the strings run through the modules: least link, then the lowest voltage between neighbours.

Every string starts at the pack's minus and ends at its plus, where the junction stands. Lengths are square
to the car, as links and cables are laid. Up to `EXACT` modules the least link is exact, by dynamic
programming over sets of modules (Held and Karp's way, with a turn at the junction after each string); beyond
that constraint programming proves it or says that it did not.
"""

from dataclasses import dataclass
from itertools import combinations, pairwise, product

from boxfit.bay import Vector
from boxfit.electrics.circuits import shortest, sought
from boxfit.electrics.improve import Strings, alike

TENTHS = 10
"""Lengths count in tenths of a millimetre."""
EXACT = 20
"""So many modules are ordered by dynamic programming, within seconds and 100 MB."""
EFFORT = 0.3
"""So much is looked for beyond that: steps of the solver, about seconds."""
TURNED = 12
"""Of so many strings every way to turn them is tried; of more the others stay."""


@dataclass(frozen=True)
class Ordered:
    """The strings, each its modules (numbers from 0) from minus to plus.

    `link` [mm] is all that joins modules and the junction, `proven` where no order has less. `step` [-] is
    the most places by which two touching modules are apart in their strings: so many modules' voltage lies
    between them, and no one move that keeps the link as short lessens it.
    """

    strings: tuple[tuple[int, ...], ...]
    link: float
    step: int
    proven: bool


def apart(one: Vector, other: Vector) -> float:
    """Length of a link laid square to the car [mm].

    >>> apart((0.0, 0.0, 0.0), (3.0, -4.0, 1.0))
    8.0
    """
    return sum(abs(two - first) for first, two in zip(one, other, strict=True))


def link_of(strings: tuple[tuple[int, ...], ...], places: tuple[Vector, ...], junction: Vector) -> float:
    """All that joins the modules of each string and both its ends to the junction [mm]."""
    total = 0.0
    for string in strings:
        way = (junction, *(places[module] for module in string), junction)
        total += sum(apart(one, other) for one, other in pairwise(way))
    return total


def step_of(strings: tuple[tuple[int, ...], ...], touching: tuple[tuple[int, int], ...]) -> int:
    """The most places by which two touching modules are apart in their strings [-].

    >>> step_of(((0, 1, 2), (3, 4, 5)), ((0, 3), (0, 5)))
    2
    """
    place = {module: number for string in strings for number, module in enumerate(string)}
    return max((abs(place[one] - place[other]) for one, other in touching), default=0)


def touching(
    lows: tuple[Vector, ...], highs: tuple[Vector, ...], within: float
) -> tuple[tuple[int, int], ...]:
    """Pairs of modules nearer to each other than `within` [mm] along every axis.

    >>> touching(((0, 0, 0), (12, 0, 0), (90, 0, 0)), ((10, 5, 5), (22, 5, 5), (99, 5, 5)), 3.0)
    ((0, 1),)
    """
    pairs = combinations(range(len(lows)), 2)
    return tuple(
        (one, other)
        for one, other in pairs
        if all(
            lows[one][axis] - highs[other][axis] <= within and lows[other][axis] - highs[one][axis] <= within
            for axis in range(3)
        )
    )


def ordered(
    places: tuple[Vector, ...],
    series: int,
    junction: Vector,
    neighbours: tuple[tuple[int, int], ...] = (),
    effort: float = EFFORT,
) -> Ordered:
    """The best order of modules at `places` [mm] into strings of `series` modules.

    Raises ValueError where the modules do not make whole strings. Past `EXACT` modules it looks for
    as long as `effort` says.

    >>> found = ordered(((10.0, 0.0, 0.0), (30.0, 0.0, 0.0), (20.0, 0.0, 0.0)), 3, (0.0, 0.0, 0.0))
    >>> found.link, found.proven
    (60.0, True)
    """
    if not places or len(places) % series:
        raise ValueError(f"{len(places)} modules make no whole strings of {series}")
    nodes = (junction, *places)
    lengths = [[round(apart(one, other) * TENTHS) for other in nodes] for one in nodes]
    if len(places) <= EXACT:
        found, proven = shortest(lengths, series), True
    else:
        found, proven = sought(lengths, series, effort)
    strings = _calmed(_turned(found, neighbours), lengths, neighbours)
    return Ordered(strings, link_of(strings, places, junction), step_of(strings, neighbours), proven)


def _calmed(strings: Strings, lengths: list[list[int]], neighbours: tuple[tuple[int, int], ...]) -> Strings:
    """The strings after every move that keeps the link as short and lowers the voltage between neighbours."""

    def worst(one: Strings) -> tuple[int, int]:
        place = {module: number for string in one for number, module in enumerate(string)}
        apart = [abs(place[first] - place[second]) for first, second in neighbours]
        return (max(apart, default=0), apart.count(max(apart, default=0)))

    while True:
        best = min(alike(strings, lengths), key=worst, default=strings)
        if worst(best) >= worst(strings):
            return strings
        strings = best


def _turned(strings: Strings, neighbours: tuple[tuple[int, int], ...]) -> Strings:
    """The strings, each run one way or the other so that the step is least; the first `TURNED` of them."""
    ways = product((False, True), repeat=min(len(strings), TURNED))
    turned = (
        (
            *(string[::-1] if turn else string for string, turn in zip(strings, way, strict=False)),
            *strings[TURNED:],
        )
        for way in ways
    )
    return min(turned, key=lambda one: step_of(one, neighbours))
