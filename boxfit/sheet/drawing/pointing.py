"""Where an item number points: at a place of a part that no other part hides."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from boxfit.bay import Block, Vector

ACROSS = 9
"""Places looked at along either side of a part's face."""
SLIVER = 3
"""Of a part of which so few places are seen, no more than an edge shows."""


@dataclass(frozen=True)
class Look:
    """The way a view looks: along which axis, and whether it sees the high or the low end of it."""

    axis: int
    high: bool

    def nearness(self, block: Block) -> float:
        """How near [mm] a block's face is to whoever looks."""
        return block.high[self.axis] if self.high else -block.low[self.axis]

    @property
    def flat(self) -> tuple[int, int]:
        """The two axes of the picture."""
        one, other = (axis for axis in range(3) if axis != self.axis)
        return one, other


DOWN = Look(2, True)
FORWARD = Look(0, False)


def shown_place(block: Block, others: Sequence[Block], look: Look) -> Vector | None:
    """A place [mm] on the face of a block that nearer blocks leave to be seen, as far in as there is one.

    None where they hide it or leave no more than a sliver.

    >>> plate, lid = Block((0.0, 0.0, 0.0), (40.0, 90.0, 2.0)), Block((0.0, 30.0, 5.0), (40.0, 90.0, 7.0))
    >>> shown_place(plate, [lid], DOWN), shown_place(lid, [plate], DOWN)
    ((20.0, 15.0, 2.0), (20.0, 60.0, 7.0))
    """
    one, other = look.flat
    steps = (np.arange(ACROSS) + 0.5) / ACROSS
    u = block.low[one] + steps * (block.high[one] - block.low[one])
    v = block.low[other] + steps * (block.high[other] - block.low[other])
    shown = np.ones((ACROSS, ACROSS), bool)
    for cover in others:
        if look.nearness(cover) > look.nearness(block):
            within_u = (cover.low[one] < u) & (u < cover.high[one])
            within_v = (cover.low[other] < v) & (v < cover.high[other])
            shown &= ~np.outer(within_u, within_v)
    if np.count_nonzero(shown) <= SLIVER:
        return None
    places = np.argwhere(shown)
    column, row = places[np.argmin(((places - places.mean(axis=0)) ** 2).sum(axis=1))]
    found = [0.0, 0.0, 0.0]
    found[one], found[other] = float(u[column]), float(v[row])
    found[look.axis] = block.high[look.axis] if look.high else block.low[look.axis]
    return (found[0], found[1], found[2])
