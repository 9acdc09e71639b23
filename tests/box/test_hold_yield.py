"""Bars end short beside what comes in through a wall, at one end of a module and never by too much."""

from hypothesis import given
from hypothesis import strategies as st

from boxfit.bay import Block
from boxfit.box.hold_down_place import meets
from boxfit.box.hold_lines import Hold
from boxfit.box.hold_yield import LEAST_HELD, Yielding, shortened, yielding_of
from tests.box.samples import HERON, RULES, bay_with, filled_box

HOLD = Hold(1, "front", 1, 1, 343.0, 355.0, 100.0, 250.0, 500.0, 30.0)
"""Along x at the high edge of a module, 150 long."""


def entry(start: float, stop: float, reach: float = 20.0) -> Block:
    """Something that comes in from the wall 7 mm past the module, so deep [mm]."""
    return Block((start, 362.0 - reach, 502.0), (stop, 362.0, 520.0))


def test_a_strip_ends_where_an_entry_begins() -> None:
    cut = shortened(HOLD, [entry(225.0, 290.0)], 1.0)
    assert (cut.start, cut.stop) == (100.0, 225.0)
    cut = shortened(HOLD, [entry(60.0, 125.0)], 1.0)
    assert (cut.start, cut.stop) == (125.0, 250.0)


def test_too_little_of_a_strip_is_no_strip() -> None:
    for other in (entry(210.0, 290.0), entry(160.0, 190.0)):
        assert shortened(HOLD, [other], 1.0) == HOLD
    assert shortened(HOLD, [entry(60.0, 120.0), entry(230.0, 290.0)], 1.0) == HOLD


def test_what_stays_beside_the_bar_shortens_nothing() -> None:
    assert shortened(HOLD, [entry(225.0, 290.0, reach=6.0)], 1.0) == HOLD
    assert shortened(HOLD, [Block((225.0, 340.0, 528.0), (290.0, 362.0, 540.0))], 1.0) == HOLD


def test_a_bar_gives_way_at_one_end_only() -> None:
    one = Yielding(Block((100.0, 343.0, 500.0), (250.0, 356.0, 527.0)), 0, 29.0)
    assert (one.kept.low[0], one.kept.high[0]) == (129.0, 221.0)
    after = one.beside([entry(225.0, 290.0)])
    assert (after.kept.low[0], after.kept.high[0]) == (100.0, 225.0)
    assert one.beside([entry(300.0, 340.0)]) == one


def test_bars_along_walls_give_way_and_those_between_do_not() -> None:
    """Two rows of three: the strips at the middle belong to a bar from wall to wall."""
    found = yielding_of(bay_with(RULES), filled_box((0.0, 0.0, 260.0), 3, 1), HERON)
    assert [one.spare > 0.0 for one in found] == [True] * 6
    turned = [one for one in found if one.axis != 0]
    assert not turned


@given(st.lists(st.tuples(st.integers(0, 300), st.integers(1, 120)), max_size=4))
def test_whatever_comes_in_a_shortened_strip_is_clear_of_it(entries: list[tuple[int, int]]) -> None:
    taken = [entry(float(start), float(start + wide)) for start, wide in entries]
    cut = shortened(HOLD, taken, 1.0)
    if cut != HOLD:
        assert cut.stop - cut.start >= LEAST_HELD * 150.0 - 1e-6
        strip = Block((cut.start, 343.0, 500.0), (cut.stop, 356.0, 527.0))
        assert not any(meets(strip, other) for other in taken)
