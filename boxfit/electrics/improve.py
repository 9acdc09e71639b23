"""Short circuits for packs too large to be exact: built by the nearest next, then bettered move by move.

The same lengths give the same circuits. Node 0 is the junction, nodes from 1 the modules; strings are told by
module numbers from 0.
"""

from collections.abc import Iterator
from itertools import combinations, pairwise

Strings = tuple[tuple[int, ...], ...]
Lengths = list[list[int]]


def total(strings: Strings, lengths: Lengths) -> int:
    """The length of all circuits.

    >>> total(((0, 1),), [[0, 2, 3], [2, 0, 4], [3, 4, 0]])
    9
    """
    return sum(_one(string, lengths) for string in strings)


def _one(string: tuple[int, ...], lengths: Lengths) -> int:
    way = (0, *(module + 1 for module in string), 0)
    return sum(lengths[one][other] for one, other in pairwise(way))


def nearest_next(lengths: Lengths, series: int) -> Strings:
    """Each string begins at the module left that is furthest from the junction, goes on to the nearest."""
    left = set(range(len(lengths) - 1))
    strings: list[tuple[int, ...]] = []
    while left:
        string = [max(left, key=lambda module: (lengths[0][module + 1], -module))]
        left.remove(string[0])
        while len(string) < series:
            here = string[-1] + 1
            string.append(min(left, key=lambda module: (lengths[here][module + 1], module)))
            left.remove(string[-1])
        strings.append(tuple(string))
    return tuple(strings)


def improved(strings: Strings, lengths: Lengths) -> Strings:
    """The circuits after every move that shortens them: parts turned round, modules and ends exchanged."""
    held = list(strings)
    better = True
    while better:
        better = False
        for number, string in enumerate(held):
            best = min(_turns(string), key=lambda one: _one(one, lengths))
            if _one(best, lengths) < _one(string, lengths):
                held[number], better = best, True
        for one, other in combinations(range(len(held)), 2):
            now = _one(held[one], lengths) + _one(held[other], lengths)
            pair = min(
                _exchanges(held[one], held[other]),
                key=lambda two: _one(two[0], lengths) + _one(two[1], lengths),
            )
            if _one(pair[0], lengths) + _one(pair[1], lengths) < now:
                (held[one], held[other]), better = pair, True
    return tuple(held)


def alike(strings: Strings, lengths: Lengths) -> Iterator[Strings]:
    """Every other way to run the strings that one move makes and that is as long."""
    for number, string in enumerate(strings):
        length = _one(string, lengths)
        for found in _turns(string):
            if found != string and _one(found, lengths) == length:
                yield (*strings[:number], found, *strings[number + 1 :])
    for one, other in combinations(range(len(strings)), 2):
        length = _one(strings[one], lengths) + _one(strings[other], lengths)
        for first, second in _exchanges(strings[one], strings[other]):
            if _one(first, lengths) + _one(second, lengths) == length:
                changed = {one: first, other: second}
                yield tuple(changed.get(number, string) for number, string in enumerate(strings))


def _turns(string: tuple[int, ...]) -> Iterator[tuple[int, ...]]:
    """The string itself, with any part turned round, and with any one module elsewhere in it."""
    yield string
    for start, end in combinations(range(len(string) + 1), 2):
        yield (*string[:start], *string[start:end][::-1], *string[end:])
    for place, module in enumerate(string):
        others = string[:place] + string[place + 1 :]
        for to in range(len(string)):
            yield (*others[:to], module, *others[to:])


def _exchanges(
    one: tuple[int, ...], other: tuple[int, ...]
) -> Iterator[tuple[tuple[int, ...], tuple[int, ...]]]:
    """Two strings with one module of each exchanged, or all from a place on, either way round."""
    for first, mine in enumerate(one):
        for second, theirs in enumerate(other):
            yield (
                (*one[:first], theirs, *one[first + 1 :]),
                (*other[:second], mine, *other[second + 1 :]),
            )
    for way in (other, other[::-1]):
        for cut in range(1, len(one)):
            yield (*one[:cut], *way[cut:]), (*way[:cut], *one[cut:])
