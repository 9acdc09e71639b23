"""Which cables lie between the boxes: both poles, and every string that runs on in another box. [A]

The boxes are a chain from the inverter on. What leads to a box further on passes through those before it.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise, permutations
from math import ceil

from boxfit.box.outside.cables import Cable
from boxfit.box.wiring.strings import PackStrings
from boxfit.standards.conductors import CONDUCTORS

FEW = 6
"""So many ends are paired by trying every way: sooner done than a solver is loaded."""


@dataclass(frozen=True)
class Conductor:
    """What a cable carries: a pole, or a string between two modules (`between`, numbers); amperes all the
    time [A], None where the module's file has none."""

    what: str
    amperes: float | None
    between: tuple[int, int] | None = None


def to_inverter(pack: PackStrings, each: float | None, cable: Cable) -> tuple[Conductor, ...]:
    """Both poles with all strings' current."""
    return _poles(len(pack.strings), len(pack.strings), each, cable)


def between_boxes(
    pack: PackStrings, beyond: frozenset[int], each: float | None, cable: Cable
) -> tuple[Conductor, ...]:
    """What leads from a part of the chain to the boxes beyond it; `each` is the current of one string [A]."""
    minus = sum(pack.box_of(string[0]) in beyond for string in pack.strings)
    plus = sum(pack.box_of(string[-1]) in beyond for string in pack.strings)
    crossing = [
        Conductor(f"string {number}, from module {one} to {other}", each, (one, other))
        for number, string in enumerate(pack.strings, start=1)
        for one, other in pairwise(string)
        if (pack.box_of(one) in beyond) != (pack.box_of(other) in beyond)
    ]
    return (*_poles(minus, plus, each, cable), *crossing)


def _poles(minus: int, plus: int, each: float | None, cable: Cable) -> tuple[Conductor, ...]:
    """The cables of both poles, side by side where one does not carry the current."""
    found: list[Conductor] = []
    for name, strings in (("minus", minus), ("plus", plus)):
        count = cables_for(strings, each, cable)
        share = None if each is None else strings * each / max(count, 1)
        found += [Conductor(name, share)] * count
    return tuple(found)


def cables_for(strings: int, each: float | None, cable: Cable) -> int:
    """How many cables carry so many strings; none for none."""
    if each is None:
        return cable.to_a_pole * (strings > 0)
    rating = next(one.rating for one in CONDUCTORS if one.section == cable.section)
    assert rating is not None  # main cables are chosen by their rating
    return ceil(strings * each / rating - 1e-9)


def paired(
    ones: Sequence[tuple[float, float, float]], others: Sequence[tuple[float, float, float]]
) -> list[int]:
    """Which of the others each goes to so that all together is shortest, square to the car.

    >>> paired([(0.0, 0.0, 0.0), (0.0, 9.0, 0.0)], [(5.0, 8.0, 0.0), (5.0, 1.0, 0.0)])
    [1, 0]
    """
    if len(ones) <= FEW:
        return list(min(permutations(range(len(ones))), key=lambda way: _all(way, ones, others)))
    import numpy
    from scipy.optimize import linear_sum_assignment

    apart = numpy.abs(numpy.array(ones)[:, None, :] - numpy.array(others)[None, :, :]).sum(axis=2)
    _, found = linear_sum_assignment(apart)
    return [int(place) for place in found]


def _all(
    way: Iterable[int],
    ones: Sequence[tuple[float, float, float]],
    others: Sequence[tuple[float, float, float]],
) -> float:
    """All together, square to the car."""
    return sum(
        abs(a - b)
        for one, place in zip(ones, way, strict=True)
        for a, b in zip(one, others[place], strict=True)
    )
