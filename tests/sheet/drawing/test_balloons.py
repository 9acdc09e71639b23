"""Item numbers point at what is seen, and their lines do not run through each other."""

import shapely
from hypothesis import given
from hypothesis import strategies as st

from boxfit.bay import Block
from boxfit.sheet.drawing.balloons import Item, uncrossed
from boxfit.sheet.drawing.pointing import DOWN, FORWARD, shown_place

places = st.tuples(st.integers(0, 90), st.integers(0, 90))


@given(st.lists(places, min_size=2, max_size=9, unique=True))
def test_no_line_crosses_another(at: list[tuple[int, int]]) -> None:
    """Whatever the parts' places, every item keeps a ring and lines meet at a shared end at most."""
    items = [Item(str(number), place) for number, place in enumerate(at)]
    levels = [100.0 - 10.0 * step for step in range(len(items))]
    order = uncrossed(items, 100.0, levels)
    assert sorted(item.number for item in order) == sorted(item.number for item in items)
    lines = [shapely.LineString([item.at, (100.0, level)]) for item, level in zip(order, levels, strict=True)]
    for one, line in enumerate(lines):
        for other in lines[:one]:
            meet = shapely.intersection(line, other)
            assert (
                meet.is_empty or min(meet.distance(shapely.Point(*end)) for end in _ends(line, other)) < 1e-4
            )


def _ends(*lines: shapely.LineString) -> list[tuple[float, float]]:
    """Both ends of lines."""
    return [place for line in lines for place in line.coords]


def test_a_part_under_the_lid_is_not_seen_from_above() -> None:
    """From behind it is, where it hangs below the wall."""
    lid = Block((0.0, 0.0, 100.0), (300.0, 200.0, 104.0))
    wall = Block((10.0, 10.0, 0.0), (290.0, 190.0, 100.0))
    drain = Block((20.0, 20.0, -10.0), (40.0, 40.0, 2.0))
    assert shown_place(drain, [lid, wall], DOWN) is None
    seen = shown_place(drain, [lid, wall], FORWARD)
    assert seen is not None
    assert seen[0] == 20.0
    assert seen[2] < 0.0


def test_a_sliver_is_not_pointed_at() -> None:
    """Where two places of 81 are left to be seen, the part counts as hidden."""
    part = Block((0.0, 0.0, 0.0), (90.0, 90.0, 1.0))
    covers = [
        Block((-1.0, -1.0, 5.0), (80.5, 91.0, 6.0)),
        Block((-1.0, 20.0, 5.0), (91.0, 91.0, 6.0)),
    ]
    assert shown_place(part, covers, DOWN) is None
