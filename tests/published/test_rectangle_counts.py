"""How many equal rectangles fit a rectangle: published and independently proven counts.

Instances are written (length, width, long side, short side). "Proven" stands for work of our own that shares
no code with boxfit: an exhaustive search or a constraint solver found the packing, and it equals the area
bound or one more was shown impossible. Which paper lists an instance is from memory unless a page is named.
"""

from dataclasses import dataclass
from pathlib import Path

import pytest

from boxfit.search.rectangle import fill
from tests.published.hold import Hold, laid_out, laid_out_apart


@dataclass(frozen=True)
class Instance:
    """Sides of the rectangle and of the piece, the most pieces it holds, and where that is known from."""

    length: int
    width: int
    long: int
    short: int
    count: int
    source: str

    @property
    def hold(self) -> Hold:
        """The rectangle as a bay one piece high."""
        return Hold((self.length, self.width, 1), (self.long, self.short, 1))


PAGE = (
    "count read: lagrange.ime.usp.br/~lobato/packing, stored copy (Birgin, Lobato, Morabito, JORS 61, 2010)"
)
CLASS = "instance read: familiamartins.com/plp (Martins and Dell), count proven; one class of three"
SHOWN = "instance read: familiamartins.com/plp (Martins and Dell), count equals the area bound"
AREA = "proven: equals the area bound; remembered as one that five-block heuristics miss"
HELD = "proven: equals the area bound; its paper is from memory"
TRAP = "proven: area bound and Barnes bound are both one too high, and exhaustive search excludes them"
BARNES = "equals the Barnes bound, the area bound is 91; its paper is from memory"

INSTANCES = (
    Instance(49, 28, 8, 3, 57, PAGE),
    Instance(22, 16, 5, 3, 23, CLASS),
    Instance(30, 22, 7, 4, 23, CLASS),
    Instance(50, 36, 11, 7, 23, CLASS),
    Instance(56, 52, 12, 5, 48, SHOWN),
    Instance(57, 34, 7, 4, 69, AREA),
    Instance(63, 44, 8, 5, 69, AREA),
    Instance(61, 35, 10, 3, 71, AREA),
    Instance(67, 37, 11, 3, 75, AREA),
    Instance(42, 39, 9, 4, 45, HELD),
    Instance(40, 25, 7, 3, 47, HELD),
    Instance(52, 33, 9, 4, 47, HELD),
    Instance(93, 46, 13, 4, 82, HELD),
    Instance(153, 100, 24, 7, 90, BARNES),
    Instance(32, 22, 5, 4, 34, TRAP),
    Instance(32, 27, 5, 4, 42, TRAP),
    Instance(40, 26, 7, 4, 36, TRAP),
    Instance(37, 30, 8, 3, 45, TRAP),
)


def name(instance: Instance) -> str:
    return f"{instance.length},{instance.width},{instance.long},{instance.short}"


def no_overlap(placements: tuple[tuple[int, int, int], ...], sizes: tuple[tuple[int, int], ...]) -> bool:
    """No two pieces share area, told by sweeping over every pair."""
    pieces = [(x, y, x + sizes[kind][0], y + sizes[kind][1]) for kind, x, y in placements]
    return all(
        a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]
        for place, a in enumerate(pieces)
        for b in pieces[:place]
    )


@pytest.mark.parametrize("instance", INSTANCES, ids=name)
def test_counted_and_proven(instance: Instance) -> None:
    turns = ((instance.long, instance.short), (instance.short, instance.long))
    found = fill(instance.length, instance.width, turns)
    assert (found.count, found.bound) == (instance.count, instance.count), instance.source
    assert len(found.placements) == instance.count
    assert all(
        x >= 0 and x + turns[kind][0] <= instance.length and y >= 0 and y + turns[kind][1] <= instance.width
        for kind, x, y in found.placements
    )
    assert no_overlap(found.placements, turns)


@pytest.mark.parametrize("instance", INSTANCES, ids=name)
def test_found_by_the_command(instance: Instance, tmp_path: Path) -> None:
    """A bay of just that size, one tier, no allowance asked, and the piece as a module."""
    found = laid_out(instance.hold, tmp_path)
    assert (found["count"], found["proven"]) == (instance.count, True), instance.source
    assert found["bound"] == instance.count


@pytest.mark.parametrize("instance", INSTANCES[::4], ids=name)
def test_found_in_a_process_of_its_own(instance: Instance, tmp_path: Path) -> None:
    found = laid_out_apart(instance.hold, tmp_path)
    assert (found["count"], found["proven"]) == (instance.count, True), instance.source
