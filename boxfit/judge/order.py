"""The order several boxes of a bay go in: each goes straight past those that already stand there."""

from collections.abc import Callable, Sequence
from itertools import permutations

from boxfit.bay import Opening
from boxfit.judge.finding import Finding
from boxfit.judge.insertion import DIRECTIONS, sweep
from boxfit.judge.places import SetBox, parts_apart


def judge_order(boxes: Sequence[SetBox], opening: Opening) -> list[Finding]:
    """The boxes can be taken out one by one, and so put in the other way about.

    Boxes already in are to be passed without meeting them, no more. What can leave now can also leave
    later, so it does not matter which goes first. Boxes that meet where they stand are told of elsewhere.
    """
    axis, sign = DIRECTIONS[opening.way]
    blocked = {
        (j, k)
        for j, k in permutations(range(len(boxes)), 2)
        if parts_apart(boxes[j].taken, boxes[k].taken, 0.0) is None
        and parts_apart(sweep(boxes[j], axis, sign), boxes[k].taken, 0.0) is not None
    }
    stuck = _peeled(set(range(len(boxes))), lambda one, other: (one, other) in blocked)
    # those that only wait for others, and hold up none, are no cause
    stuck = _peeled(stuck, lambda one, other: (other, one) in blocked)
    if not stuck:
        return []
    names = ", ".join(boxes[k].place for k in sorted(stuck))
    text = "none of them goes in or comes out past the others"
    return [Finding("insertion-order", names, text, float(len(stuck)))]


def _peeled(left: set[int], holds: Callable[[int, int], bool]) -> set[int]:
    """What is left when all that nothing left holds is taken away, again and again."""
    while True:
        free = {one for one in left if not any(holds(one, other) for other in left)}
        if not free:
            return left
        left = left - free
