"""Numbers of modules over bays."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import product

Share = tuple[tuple[int, int], ...]
"""For each bay, how many modules it takes and how many corners its boxes have."""


def compositions(total: int, most: Sequence[int]) -> Iterator[tuple[int, ...]]:
    """Every way to share `total` among bays that hold at most `most` each, in a fixed order.

    >>> list(compositions(3, (2, 2)))
    [(1, 2), (2, 1)]
    """
    if len(most) == 1:
        if total <= most[0]:
            yield (total,)
        return
    for first in range(max(0, total - sum(most[1:])), min(total, most[0]) + 1):
        for rest in compositions(total - first, most[1:]):
            yield (first, *rest)


def by_corners(
    shares: Iterable[Sequence[int]], corners: Callable[[int, int], Sequence[int]]
) -> list[list[Share]]:
    """Shares with the corners each bay's boxes have, in groups of equally many corners in all, fewest first.

    `corners(bay, count)` are the numbers of corners with which a bay takes a count; none where it cannot.

    >>> by_corners([(2, 0), (1, 1)], lambda bay, count: (4,) if count else (0,))
    [[((2, 4), (0, 0))], [((1, 4), (1, 4))]]
    """
    groups: dict[int, list[Share]] = {}
    for counts in shares:
        for chosen in product(*(corners(bay, count) for bay, count in enumerate(counts))):
            share = tuple(zip(counts, chosen, strict=True))
            groups.setdefault(sum(chosen), []).append(share)
    return [groups[total] for total in sorted(groups)]
