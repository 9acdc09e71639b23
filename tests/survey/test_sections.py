"""Rooms given by outlines at stations."""

from math import cos, pi, sin

import numpy as np
import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from boxfit.surface import Outline
from boxfit.survey.fault import SurveyError
from boxfit.survey.reference import check_reference
from boxfit.survey.sections import lofted
from boxfit.survey.volume import volume_of
from tests.survey.sealed import is_one_skin

SQUARE: Outline = ((0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0))
OCTAGON: Outline = (
    (30.0, 0.0),
    (70.0, 0.0),
    (100.0, 30.0),
    (100.0, 70.0),
    (70.0, 100.0),
    (30.0, 100.0),
    (0.0, 70.0),
    (0.0, 30.0),
)
CUP_OPEN_UP: Outline = (
    (0.0, 0.0),
    (100.0, 0.0),
    (100.0, 100.0),
    (90.0, 100.0),
    (90.0, 10.0),
    (10.0, 10.0),
    (10.0, 100.0),
    (0.0, 100.0),
)
CUP_OPEN_DOWN: Outline = tuple((100.0 - y, 100.0 - z) for y, z in CUP_OPEN_UP)


def polygon(radii: list[float], turn: float = 0.0) -> Outline:
    """A star-shaped outline round (200, 300)."""
    angles = [turn + 2.0 * pi * k / len(radii) for k in range(len(radii))]
    return tuple((200.0 + r * cos(a), 300.0 + r * sin(a)) for r, a in zip(radii, angles, strict=True))


outlines = st.builds(polygon, st.lists(st.floats(60.0, 150.0), min_size=3, max_size=9), st.floats(0.0, 1.0))


def split(outline: Outline, parts: dict[int, list[float]]) -> Outline:
    """The outline with points added on its sides."""
    found: list[tuple[float, float]] = []
    for k, (y, z) in enumerate(outline):
        far_y, far_z = outline[(k + 1) % len(outline)]
        found.append((y, z))
        for part in sorted(set(parts.get(k, []))):
            found.append((y + part * (far_y - y), z + part * (far_z - z)))
    return tuple(found)


added = st.dictionaries(
    st.integers(0, 8), st.lists(st.sampled_from([0.2, 0.5, 0.75]), max_size=3), max_size=4
)


@given(outlines, st.floats(10.0, 2000.0))
def test_the_same_outline_twice_is_a_prism(outline: Outline, length: float) -> None:
    room = lofted([(-40.0, outline), (-40.0 + length, outline)])
    assert volume_of(room) == pytest.approx(shapely.Polygon(outline).area * length, rel=1e-9)
    assert is_one_skin(room)
    assert room.off == 0.0


@settings(max_examples=30)
@given(outlines, outlines, outlines)
def test_any_room_is_closed_and_holds_something(one: Outline, two: Outline, three: Outline) -> None:
    try:
        room = lofted([(0.0, one), (250.0, two), (300.0, three)])
    except SurveyError:
        assume(False)
    assert is_one_skin(room)
    assert volume_of(room) > 0.0
    assert (room.low[0], room.high[0]) == (0.0, 300.0)


@given(outlines, st.floats(0.5, 2.0), added, added)
def test_points_on_straight_sides_change_nothing(
    outline: Outline, scale: float, first: dict[int, list[float]], second: dict[int, list[float]]
) -> None:
    other = tuple((scale * y, scale * z) for y, z in outline)
    plain = lofted([(0.0, outline), (400.0, other)])
    finer = lofted([(0.0, split(outline, first)), (400.0, split(other, second))])
    assert volume_of(finer) == pytest.approx(volume_of(plain), rel=1e-9)
    assert is_one_skin(finer)
    assert finer.off <= 0.02


def test_a_finer_version_of_the_same_square() -> None:
    finer = split(SQUARE, {0: [0.5], 1: [0.5], 2: [0.2, 0.5], 3: [0.75]})
    room = lofted([(0.0, SQUARE), (10.0, finer), (30.0, SQUARE)])
    assert volume_of(room) == pytest.approx(300_000.0, rel=1e-12)
    assert room.off == 0.0


def test_a_square_to_an_octagon_cuts_each_corner_flat() -> None:
    """From a square at x = 0 down to four corner triangles 30 x 30 less at x = 60: the rest is convex.

    The cut at part t has corners of legs 30 t taken off, so the volume taken off is 4 x 30^2 / 2 / 3 x 60.
    """
    room = lofted([(0.0, SQUARE), (60.0, OCTAGON)])
    assert volume_of(room) == pytest.approx(600_000.0 - 4 * 450.0 / 3.0 * 60.0, rel=1e-12)
    assert len(room.triangles) == 12 + 2 + 6


def test_falling_stations_give_the_same_room() -> None:
    rising = lofted([(0.0, SQUARE), (60.0, OCTAGON), (90.0, SQUARE)])
    falling = lofted([(90.0, SQUARE), (60.0, OCTAGON), (0.0, SQUARE)])
    assert np.array_equal(rising.corners, falling.corners)


def test_where_an_outline_starts_makes_no_difference() -> None:
    started_elsewhere = (*SQUARE[2:], *SQUARE[:2])
    room = lofted([(0.0, SQUARE), (60.0, started_elsewhere)])
    assert volume_of(room) == pytest.approx(600_000.0)
    assert len(room.points) == 8


def test_a_twisted_side_is_as_near_as_it_says() -> None:
    low, high = polygon([100.0] * 4), polygon([100.0] * 4, turn=0.5)
    room = lofted([(0.0, low), (300.0, high)])
    assert room.off == 0.02
    for k in range(4):
        for along in (0.13, 0.5, 0.87):
            ends = [
                tuple((1 - along) * a + along * b for a, b in zip(one, two, strict=True))
                for one, two in ((low[k], high[k]), (low[(k + 1) % 4], high[(k + 1) % 4]))
            ]
            for part in (0.25, 0.5):
                y, z = ((1 - part) * a + part * b for a, b in zip(*ends, strict=True))
                start = (0.0, *low[k])
                ruled = (300.0 * along, y, z)
                straight = float(np.linalg.norm(np.subtract(ruled, start)))
                assert check_reference(room, (start, ruled), straight, 0.02) == pytest.approx(
                    straight, abs=0.02
                )


def test_a_far_twist_is_taken_coarser_and_says_so() -> None:
    low, high = polygon([20_000.0] * 3), polygon([20_000.0] * 3, turn=1.0)
    room = lofted([(0.0, low), (30_000.0, high)])
    assert room.off > 0.02
    assert len(room.triangles) < 210_000


def test_a_room_that_crosses_itself_is_refused() -> None:
    with pytest.raises(SurveyError) as caught:
        lofted([(100.0, CUP_OPEN_UP), (300.0, CUP_OPEN_DOWN)])
    assert caught.value.key == "section"
    assert "between at = 100 and at = 300 must not cross itself" in caught.value.rule
