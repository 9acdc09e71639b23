"""Where bars of a row stand: so that the widest bay between two, or a bar and an end, is as narrow as can be.

All lengths [mm].
"""

from collections.abc import Iterable, Sequence
from itertools import pairwise

from boxfit.box.outside.wall import Span

FINE = 0.05
"""The widest bay is found to this."""
PARTS = 1
"""Decimals of a bar's place."""


def free_spans(within: Span, barred: Iterable[Span]) -> tuple[Span, ...]:
    """What spans that are barred leave of another, in order; a span may be a single place.

    >>> free_spans((0.0, 100.0), [(20.0, 30.0), (25.0, 60.0), (90.0, 120.0)])
    ((0.0, 20.0), (60.0, 90.0))
    """
    found: list[Span] = []
    start = within[0]
    for low, high in sorted(barred):
        if low > start and start <= within[1]:
            found.append((start, min(low, within[1])))
        start = max(start, high)
    if start <= within[1]:
        found.append((start, within[1]))
    return tuple(found)


def spread_bars(ends: Span, free: Sequence[Span], count: int, apart: float) -> tuple[float, ...]:
    """Places of at most `count` bars, at least so far apart, that leave the narrowest widest bay; fewer where
    more find no room. Bars that the widest bay does not need part the next widest.

    >>> spread_bars((0.0, 300.0), [(0.0, 300.0)], 2, 40.0)
    (100.0, 200.0)
    >>> spread_bars((0.0, 300.0), [(0.0, 80.0), (190.0, 300.0)], 2, 40.0)
    (80.0, 190.0)
    """
    even = _even(ends, free, count, apart)
    if even:
        return even
    narrow, wide = 0.0, ends[1] - ends[0]
    places: tuple[float, ...] = ()
    while wide - narrow > FINE:
        middle = (narrow + wide) / 2.0
        found = _within(ends, free, middle, apart)
        if found is not None and len(found) <= count:
            wide, places = middle, found
        else:
            narrow = middle
    return _more(ends, free, places, count, apart)


def _more(
    ends: Span, free: Sequence[Span], places: tuple[float, ...], count: int, apart: float
) -> tuple[float, ...]:
    """The same with further bars, each as near to the middle of the widest bay that has room for one."""
    found = list(places)
    while found and len(found) < count:
        bays = sorted(pairwise((ends[0], *found, ends[1])), key=lambda bay: (bay[0] - bay[1], bay[0]))
        inside = (_halfway(ends, free, bay, apart) for bay in bays)
        place = next((one for one in inside if one is not None), None)
        if place is None:
            break
        found = sorted([*found, place])
    return tuple(found)


def _halfway(ends: Span, free: Sequence[Span], bay: Span, apart: float) -> float | None:
    """The free place nearest to the middle of a bay that keeps bars apart; None where there is none."""
    low = bay[0] + (apart if bay[0] > ends[0] else 0.0)
    high = bay[1] - (apart if bay[1] < ends[1] else 0.0)
    middle = (bay[0] + bay[1]) / 2.0
    reached: list[float] = []
    for start, end in free:
        first, last = max(low, start), min(high, end)
        if first <= last:
            reached.append(min(max(middle, first), last))
    if not reached:
        return None
    nearest = min(reached, key=lambda place: (abs(place - middle), place))
    return round(nearest, PARTS)


def _even(ends: Span, free: Sequence[Span], count: int, apart: float) -> tuple[float, ...]:
    """Bars all as far apart; none where one of them would stand where none may."""
    bay = (ends[1] - ends[0]) / (count + 1)
    places = tuple(round(ends[0] + bay * number, PARTS) for number in range(1, count + 1))
    stand = all(any(low <= place <= high for low, high in free) for place in places)
    return places if stand and bay >= apart else ()


def _within(ends: Span, free: Sequence[Span], bay: float, apart: float) -> tuple[float, ...] | None:
    """The fewest places with no bay wider than this, each as far on as can be; None where there are none."""
    places: list[float] = []
    reached = ends[0]
    while ends[1] - reached > bay:
        ahead = [min(high, reached + bay) for low, high in free if low <= reached + bay]
        beyond = [place for place in ahead if place - reached >= (apart if places else 0.0)]
        if not beyond or max(beyond) <= reached:
            return None
        reached = round(max(beyond), PARTS)
        places.append(reached)
    return tuple(places)
