"""What is swept round an outline: against sums by hand, and laws that hold for every outline."""

from itertools import pairwise
from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxfit.box_shape import grown, rectangle
from boxfit.surface import Outline
from boxfit.weight.swept import Profile, Swept, bend, less, plan_of, prism, strip, total
from tests.box.samples import outlines

UP = (20.0, 70.0)


def swept(outline: Outline, profile: Profile) -> Swept:
    """The profile round the outline."""
    return plan_of(outline).swept(profile)


def test_an_angle_by_hand() -> None:
    """Two bars, 20 x 10 and 10 x 20 beyond it, 3 high: centre at 7.5 + 10 / 12 and the same in y."""
    angle = ((0, 0), (20, 0), (20, 10), (10, 10), (10, 30), (0, 30))
    whole = swept(angle, prism((0.0, 3.0)))
    assert whole == pytest.approx((1200.0, 3 * (200 * 10 + 200 * 5), 3 * (200 * 5 + 200 * 20), 1800.0))
    rim = swept(angle, strip((0.0, 2.0), (0.0, 1.0)))
    sides = {(10, -1): 24, (21, 5): 14, (15, 11): 10, (11, 21): 20, (5, 31): 14, (-1, 15): 34}
    assert rim.volume == pytest.approx(2 * (sum(sides.values()) - 8))


@given(outlines(), st.floats(-25.0, 25.0))
def test_a_prism_over_a_moved_outline_is_one_over_that_outline(outline: Outline, by: float) -> None:
    """Volume and all moments."""
    assert swept(outline, prism(UP, by)) == pytest.approx(
        swept(grown(outline, by), prism(UP)), rel=1e-9, abs=1e-3
    )


@given(outlines(), st.floats(-25.0, 25.0), st.floats(0.1, 10.0))
def test_a_strip_is_what_one_prism_has_more_than_another(outline: Outline, start: float, wide: float) -> None:
    """Outside, inside, or across the outline."""
    more = total([prism(UP, start + wide), less(prism(UP, start))])
    assert swept(outline, strip((start, start + wide), UP)) == pytest.approx(
        swept(outline, more), rel=1e-9, abs=1e-3
    )


@pytest.mark.parametrize("outwards", [1, -1])
@given(outlines(), st.floats(0.5, 8.0), st.floats(0.5, 5.0))
def test_a_bend_is_many_thin_strips(outwards: int, outline: Outline, radius: float, thick: float) -> None:
    """400 of them, to 0.1 % of volume and 0.001 mm of the centre."""
    across, up, large = -12.0, 40.0, radius + thick
    found = swept(outline, bend((across, up), (radius, large), outwards))
    slices = []
    for low, high in pairwise([large * step / 400 for step in range(401)]):
        level = (low + high) / 2
        far, near = sqrt(large**2 - level**2), sqrt(max(radius**2 - level**2, 0.0))
        reach = sorted((across + outwards * near, across + outwards * far))
        span = sorted((up - outwards * low, up - outwards * high))
        slices.append(strip((reach[0], reach[1]), (span[0], span[1])))
    summed = swept(outline, total(slices))
    assert found.volume == pytest.approx(summed.volume, rel=2e-3)
    for axis in (1, 2, 3):
        assert found[axis] / found.volume == pytest.approx(summed[axis] / summed.volume, abs=5e-3)


@given(outlines(), st.tuples(st.floats(-900, 900), st.floats(-900, 900)))
def test_moving_an_outline_moves_the_centre(outline: Outline, by: tuple[float, float]) -> None:
    """And nothing else."""
    moved = tuple((x + by[0], y + by[1]) for x, y in outline)
    flange = strip((0.0, 22.0), UP)
    one, other = swept(outline, flange), swept(moved, flange)
    assert other.volume == pytest.approx(one.volume)
    assert other.x / other.volume - one.x / one.volume == pytest.approx(by[0], abs=1e-6)
    assert other.y / other.volume - one.y / one.volume == pytest.approx(by[1], abs=1e-6)


def test_a_rectangle_keeps_its_middle() -> None:
    """Whatever is swept round it."""
    found = swept(rectangle((10.0, 20.0), (110.0, 220.0)), bend((-5.0, 5.0), (2.0, 4.0), 1))
    assert (found.x / found.volume, found.y / found.volume) == pytest.approx((60.0, 120.0))
