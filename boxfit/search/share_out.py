"""Numbers of modules over bays."""

from collections.abc import Iterator, Sequence


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


def by_boxes(total: int, most: Sequence[int]) -> list[list[tuple[int, ...]]]:
    """The same in groups, those that use the fewest bays first.

    >>> by_boxes(2, (2, 2))
    [[(0, 2), (2, 0)], [(1, 1)]]
    """
    groups: dict[int, list[tuple[int, ...]]] = {}
    for counts in compositions(total, most):
        groups.setdefault(sum(count > 0 for count in counts), []).append(counts)
    return [groups[used] for used in sorted(groups)]
