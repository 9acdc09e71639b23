"""How many equal rectangles fit a rectangle: published and independently proven counts.

Instances are written (length, width, long side, short side). "Proven" stands for work of our own that shares
no code with boxfit: an exhaustive search or a constraint solver found the packing, and it equals the area
bound or one more was shown impossible. Which paper lists an instance is from memory unless a page is named.
"""

from dataclasses import dataclass

import pytest

from boxfit.bay import Bay, Prism
from boxfit.car import Car
from boxfit.files.bay import NOTHING_ASKED
from boxfit.files.layout_json import layout_as_data
from boxfit.judge.layout import judge_layout
from boxfit.layout import Layout
from boxfit.module import Module, Voltage
from boxfit.search.find import find_layout
from boxfit.search.rectangle import fill


@dataclass(frozen=True)
class Instance:
    """Sides of the rectangle and of the piece, the most pieces it holds, and where that is known from."""

    length: int
    width: int
    long: int
    short: int
    count: int
    source: str


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


@pytest.mark.parametrize("instance", [one for one in INSTANCES if one.count <= 60], ids=name)
def test_found_as_a_layout_of_a_bay(instance: Instance) -> None:
    """A bay of just that size in mm, no allowance asked, and the piece as a module."""
    x, y, z = float(instance.length), float(instance.width), 5.0
    room = Prism(((0.0, 0.0), (x, 0.0), (x, y), (0.0, y)), 0.0, z)
    bay = Bay("bay", room, 0.0, 0.0, NOTHING_ASKED)
    car = Car("instance", "instance", 1000.0, 1000.0, 1000.0, (bay,))
    volts = Voltage(3.0, 3.6, 4.2)
    sides = (float(instance.long), float(instance.short), z)
    module = Module("piece", "piece", *sides, 1.0, 1.0, 1.0, volts, ("height",), 0.0)
    layout = find_layout(car, module)
    assert isinstance(layout, Layout)
    assert (layout.count, layout.bound, layout.proven) == (instance.count, instance.count, True)
    assert judge_layout(layout_as_data(layout), car, module) == ()
