"""What is taken for an outline always is one."""

from hypothesis import given, settings
from hypothesis import strategies as st

from boxfit.files.outline import counter_clockwise, fault, signed_area

points = st.tuples(st.integers(-40, 40), st.integers(-40, 40)).map(
    lambda point: (point[0] * 5.0, point[1] * 5.0)
)


@settings(deadline=None)
@given(st.lists(points, min_size=3, max_size=6))
def test_a_sound_outline_is_sound_either_way_round(outline: list[tuple[float, float]]) -> None:
    told, told_reversed = fault(outline), fault(outline[::-1])
    assert (told is None) == (told_reversed is None)
    if told is None:
        turned = counter_clockwise(outline)
        assert signed_area(list(turned)) == abs(signed_area(outline)) > 0.0
        assert (turned[0], sorted(turned)) == (outline[0], sorted(outline))
        assert counter_clockwise(list(turned)) == turned


@settings(deadline=None)
@given(points, points)
def test_points_on_a_line_are_no_outline(one: tuple[float, float], other: tuple[float, float]) -> None:
    middle = ((one[0] + other[0]) / 2.0, (one[1] + other[1]) / 2.0)
    assert fault([one, middle, other]) is not None
