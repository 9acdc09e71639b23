"""The order in which boxes go in: found just where some order works."""

from dataclasses import replace
from itertools import permutations

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from boxfit.bay import Bay, Opening, Prism, Way
from boxfit.judge.distance import Cuboid, block_distance
from boxfit.judge.finding import Finding
from boxfit.judge.insertion import DIRECTIONS, sweep
from boxfit.judge.layout import judge_layout
from boxfit.judge.order import judge_order
from boxfit.judge.places import SetBox
from tests.judge.samples import MODULE
from tests.judge.stepped import STEPPED, TWO_BOXES_CAR, plain, two_boxes

BAY = Bay("bay", Prism(plain(0.0, 0.0, 60.0, 60.0), 0.0, 60.0), 0.0, 0.0, STEPPED)
WAYS: tuple[Way, ...] = ("up", "down", "front", "rear", "left", "right")
numbers = st.integers(0, 5)


@st.composite
def bars(draw: st.DrawFn) -> Cuboid:
    """Blocks on a grid of 10 mm."""
    low = draw(st.tuples(numbers, numbers, numbers))
    x, y, z = (at * 10.0 for at in low)
    a, b, c = (min(at + draw(st.integers(1, 4)), 6) * 10.0 for at in low)
    return Cuboid((x, y, z), (a, b, c))


def set_box(number: int, pieces: tuple[Cuboid, ...]) -> SetBox:
    return SetBox(f"box {number}", BAY, pieces[0], pieces[0], pieces, pieces)


def meet(some: tuple[Cuboid, ...], others: tuple[Cuboid, ...]) -> bool:
    return any(block_distance(one, other) < -0.01 for one in some for other in others)


def goes_in(order: tuple[SetBox, ...], way: Way) -> bool:
    """True where each box of the order goes straight in past those before it."""
    return not any(
        meet(sweep(box, *DIRECTIONS[way]), already.parts)
        for number, box in enumerate(order)
        for already in order[:number]
    )


@settings(deadline=None)
@given(st.lists(st.lists(bars(), min_size=1, max_size=3), min_size=2, max_size=4), st.sampled_from(WAYS))
def test_an_order_is_found_where_there_is_one(parts: list[list[Cuboid]], way: Way) -> None:
    boxes = [set_box(number, tuple(pieces)) for number, pieces in enumerate(parts)]
    assume(not any(meet(one.parts, other.parts) for one, other in permutations(boxes, 2)))
    findings = judge_order(boxes, Opening(way))
    assert bool(findings) is not any(goes_in(order, way) for order in permutations(boxes))
    assert all(finding.figure in (2.0, 3.0, 4.0) for finding in findings)


def hooked(number: int, up: float) -> tuple[SetBox, SetBox]:
    """A C open to the left, and a block between its arms."""
    arms = (
        Cuboid((0.0, 0.0, up), (50.0, 10.0, up + 10.0)),
        Cuboid((0.0, 0.0, up), (10.0, 50.0, up + 10.0)),
        Cuboid((40.0, 0.0, up), (50.0, 50.0, up + 10.0)),
    )
    return set_box(number, arms), set_box(number + 1, (Cuboid((20.0, 20.0, up), (30.0, 30.0, up + 10.0)),))


@pytest.mark.parametrize(
    ("way", "names"), [("front", "box 1, box 2"), ("rear", "box 1, box 2"), ("left", "")]
)
def test_only_those_that_block_one_another_are_named(way: Way, names: str) -> None:
    behind = set_box(3, (Cuboid((52.0, 20.0, 0.0), (60.0, 30.0, 10.0)),))
    findings = judge_order((*hooked(1, 0.0), behind), Opening(way))
    assert [finding.place for finding in findings] == ([names] if names else [])


def test_boxes_that_meet_where_they_stand_are_not_told_of_here() -> None:
    one, other = hooked(1, 0.0)[0], set_box(2, (Cuboid((0.0, 0.0, 0.0), (5.0, 5.0, 5.0)),))
    assert judge_order((one, other), Opening("left")) == []
    assert judge_order((one,), Opening("left")) == []


def two_in(way: Way) -> tuple[Finding, ...]:
    """The sample of two boxes in a bay that opens another way."""
    bay = replace(TWO_BOXES_CAR.bays[0], opening=Opening(way))
    return judge_layout(two_boxes(), replace(TWO_BOXES_CAR, bays=(bay,)), MODULE)


def test_in_a_layout_the_boxes_are_named() -> None:
    (finding,) = two_in("front")
    assert finding.place == "front bay, box 1, front bay, box 2"


@pytest.mark.parametrize("way", ["up", "down", "left"])
def test_other_ways_let_one_box_out_after_the_other(way: Way) -> None:
    # hand: to the left the box between the arms leaves first; the arms then have nothing ahead
    assert two_in(way) == ()
