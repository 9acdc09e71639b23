"""Rectangles, scales, dimension lines and words on paper."""

from hypothesis import given
from hypothesis import strategies as st

from boxfit.report.area import Area
from boxfit.report.dimension import Span, levels
from boxfit.report.look import SCALES, SMALL
from boxfit.report.panel import fitted_panel
from boxfit.report.paper import Sheet
from boxfit.report.placing import inside, place, place_with_leader
from boxfit.report.projection import PLAN

SIZES = st.floats(1.0, 30000.0)


@given(SIZES, SIZES, st.floats(-5000, 5000))
def test_panel_takes_the_largest_scale_that_holds_everything(
    width: float, height: float, shift: float
) -> None:
    flats = [(shift, shift), (shift + width, shift + height)]
    into = Area(10.0, 10.0, 110.0, 90.0)
    panel = fitted_panel(PLAN, flats, into)
    (left, bottom), (right, top) = panel.outline(flats)
    assert into.inset(-1e-6).holds(Area(left, bottom, right, top))
    larger = [scale for scale in SCALES if scale < panel.scale]
    assert not larger or width / larger[-1] > into.width or height / larger[-1] > into.height


def test_spans_that_meet_go_on_different_lines() -> None:
    sheet = Sheet()
    spans = [Span(0, 50, "500"), Span(60, 110, "500"), Span(0, 110, "1100"), Span(40, 70, "300")]
    assert levels(sheet, spans) == (0, 0, 1, 2)


def test_long_words_of_a_short_span_keep_their_line_to_themselves() -> None:
    sheet = Sheet()
    assert levels(sheet, [Span(0, 2, "a very long word"), Span(4, 30, "260")]) == (0, 1)


def test_place_takes_the_first_free_candidate_or_none() -> None:
    sheet = Sheet()
    room = Area(0.0, 0.0, 60.0, 30.0)
    first = place(sheet, "words", [((30.0, 15.0), SMALL)], room)
    assert first is not None
    assert first.centre == (30.0, 15.0)
    assert place(sheet, "words", [((30.0, 15.0), SMALL)], room) is None
    second = place(sheet, "words", [((30.0, 15.0), SMALL), ((30.0, 22.0), SMALL)], room)
    assert second is not None
    assert second.centre == (30.0, 22.0)
    assert place(sheet, "words", [((1.0, 15.0), SMALL)], room) is None


def test_narrow_place_turns_the_words() -> None:
    sheet = Sheet()
    narrow = Area(10.0, 10.0, 14.5, 40.0)
    spot = place(sheet, "12 / 34", inside(narrow, SMALL), narrow)
    assert spot is not None
    assert spot.height > spot.width


def test_words_too_large_for_their_place_stand_beside_it() -> None:
    sheet = Sheet()
    tiny = Area(50.0, 50.0, 51.0, 51.0)
    room = Area(0.0, 0.0, 100.0, 100.0)
    spot = place_with_leader(sheet, "12", tiny, SMALL, room)
    assert spot is not None
    assert not spot.meets(tiny)
    assert room.holds(spot)
    assert place_with_leader(sheet, "12", tiny, SMALL, Area(49.0, 49.0, 52.0, 52.0)) is None
