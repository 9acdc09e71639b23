"""Room between modules: kept by each for itself, or shared where the module file says so."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxfit.bay import Vector
from boxfit.judge.distance import Cuboid
from boxfit.judge.modules import judge_rooms, judge_spacing, room_depth
from boxfit.judge.turning import Standing

NONE = (0.0, 0.0, 0.0)


def standing(name: str, low: Vector, room_low: Vector = NONE, room_high: Vector = NONE) -> Standing:
    x, y, z = low
    return Standing(f"box, {name}", Cuboid(low, (x + 10.0, y + 10.0, z + 10.0)), room_low, room_high)


FIRST = standing("module 1", (0.0, 0.0, 0.0), room_high=(5.0, 0.0, 0.0))


def found(other: Standing, shared: bool, first: Standing = FIRST) -> list[float | None]:
    return [finding.figure for finding in judge_rooms((first, other), shared)]


@pytest.mark.parametrize(
    ("x", "room", "alone", "shared"),
    [
        (20.0, 5.0, [], []),  # hand: 10 between the faces is enough for both rooms
        (19.0, 5.0, [1.0], []),
        (15.0, 5.0, [5.0], []),  # hand: each room reaches just to the other's body
        (14.0, 5.0, [4.0], [1.0]),  # hand: now a body stands 1 deep in the other's room
        (15.0, 3.0, [3.0], []),
        (17.0, 8.0, [6.0], [1.0]),  # hand: the deeper room of the two is what is kept
        (18.0, 8.0, [5.0], []),
    ],
)
def test_face_to_face(x: float, room: float, alone: list[float], shared: list[float]) -> None:
    other = standing("module 2", (x, 0.0, 0.0), room_low=(room, 0.0, 0.0))
    assert found(other, False) == alone
    assert found(other, True) == shared


@pytest.mark.parametrize(
    "other",
    [
        pytest.param(standing("module 2", (12.0, 12.0, 0.0), room_low=(0.0, 5.0, 0.0)), id="round a corner"),
        pytest.param(standing("module 2", (0.0, 10.0, 0.0), room_high=(5.0, 0.0, 0.0)), id="side by side"),
        pytest.param(standing("module 2", (15.0, 0.0, 1.0), room_low=(5.0, 0.0, 0.0)), id="another tier"),
        pytest.param(
            standing("module 2", (-11.0, 0.0, 0.0), room_high=(18.0, 0.0, 0.0)), id="both look forward"
        ),
    ],
)
def test_only_rooms_that_face_each_other_on_one_level_are_shared(other: Standing) -> None:
    assert found(other, True) == found(other, False)
    is_beside = other.body.low == (0.0, 10.0, 0.0)
    assert bool(found(other, True)) is not is_beside


def test_rooms_above_each_other_are_not_shared() -> None:
    lower = standing("module 1", (0.0, 0.0, 0.0), room_high=(0.0, 0.0, 5.0))
    upper = standing("module 2", (0.0, 0.0, 12.0), room_low=(0.0, 0.0, 4.0))
    # hand: the upper body starts at 12, the lower one's room ends at 15
    assert found(upper, True, lower) == [3.0]


def test_spacing_is_asked_where_rooms_are_shared() -> None:
    other = standing("module 2", (11.0, 0.0, 0.0))
    assert [finding.code for finding in judge_spacing((FIRST, other), 2.0)] == ["module-spacing"]


rooms = st.tuples(*[st.integers(0, 8).map(float)] * 3)


@given(rooms, rooms, rooms, rooms, st.tuples(*[st.integers(-25, 25).map(float)] * 3))
def test_sharing_never_asks_more_and_never_lets_a_body_in(
    low: Vector, high: Vector, other_low: Vector, other_high: Vector, at: Vector
) -> None:
    one = replace(FIRST, room_low=low, room_high=high)
    other = standing("module 2", at, other_low, other_high)
    alone, shared = room_depth(one, other, False), room_depth(one, other, True)
    assert shared <= alone
    bare = replace(other, room_low=NONE, room_high=NONE)
    assert shared >= room_depth(one, bare, True) == room_depth(one, bare, False)
