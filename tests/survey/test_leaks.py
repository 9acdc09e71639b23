"""Ways out of a scanned tub: found, placed and told, and only those that are there."""

import numpy as np
import pytest

from boxfit.bay import Opening, Way
from boxfit.surface import Shell, Surface
from boxfit.survey.fault import SurveyError
from boxfit.survey.shell import shell_of
from tests.survey.tubs import Wanted, block, noisy, tub, turned, without

LOW, HIGH = (200.0, -200.0, 400.0), (600.0, 200.0, 700.0)
TUB = tub(LOW, HIGH)


def hole(y: float, z: float, size: float) -> Wanted:
    """A square hole in the rear wall."""
    return lambda middles: (
        (middles[:, 0] < 200.001) & (np.abs(middles[:, 1:] - (y, z)) < size / 2).all(axis=1)
    )


def drain(x: float, y: float, size: float) -> Wanted:
    """A round hole in the floor."""
    return lambda middles: (
        (middles[:, 2] < 400.001) & (np.hypot(middles[:, 0] - x, middles[:, 1] - y) < size / 2)
    )


def read(surface: Surface, way: Way = "up", tolerance: float = 3.0, fixed: tuple[Surface, ...] = ()) -> Shell:
    return shell_of(surface, "body", Opening(way), tolerance, fixed, ())


def rule(surface: Surface, opening: Opening | None = None) -> str:
    with pytest.raises(SurveyError) as caught:
        shell_of(surface, "body", opening or Opening("up"), 3.0, (), ())
    assert caught.value.key == "file"
    return caught.value.rule


def place(text: str) -> tuple[float, ...]:
    """The first place in a message."""
    return tuple(float(figure) for figure in text.partition("(")[2].partition(")")[0].split(", "))


def test_a_tub_has_no_leak() -> None:
    assert read(TUB).told == ("the room's volume is a working figure, from cells of 5.0 mm",)


@pytest.mark.parametrize("noise", [0.0, 2.0])
def test_a_hole_in_a_side_is_a_leak_and_told_where_it_is(noise: float) -> None:
    text = rule(noisy(without(TUB, hole(50, 520, 80)), noise))
    assert text.startswith("leaks: a way out about ")
    assert text.endswith(", towards the rear")
    assert place(text) == pytest.approx((200, 50, 520), abs=8)
    sizes = [float(size) for size in text.split("about ")[1].split(" mm")[0].split(" x ")]
    assert sizes == pytest.approx([80, 80], abs=10)


def test_a_keep_out_across_the_hole_closes_it() -> None:
    across = block((190.0, -20.0, 450.0), (230.0, 120.0, 590.0))
    assert read(without(TUB, hole(50, 520, 80)), fixed=(across,)).volume > 0


def test_a_keep_out_beside_the_hole_does_not() -> None:
    beside = block((190.0, -180.0, 450.0), (230.0, -80.0, 590.0))
    with pytest.raises(SurveyError, match="towards the rear"):
        read(without(TUB, hole(50, 520, 80)), fixed=(beside,))


def test_a_hole_less_wide_than_twice_the_tolerance_is_none() -> None:
    assert read(without(TUB, hole(50, 520, 20)), tolerance=12.0).volume > 0


def test_a_hole_wider_than_that_and_six_cells_always_is_one() -> None:
    for y in (48, 50, 52):
        with pytest.raises(SurveyError, match="leaks"):
            read(without(tub(LOW, HIGH, 2.0), hole(y, 521, 2 * 8.0 + 30.0)), tolerance=8.0)


def test_two_leaks_are_told_the_wider_first() -> None:
    text = rule(without(without(TUB, hole(50, 520, 80)), drain(400, 60, 120)))
    first, _, second = text.partition(", and 1 more, at ")
    assert place(first) == pytest.approx((400, 60, 400), abs=8)
    assert first.endswith("towards below")
    assert place(second) == pytest.approx((200, 50, 520), abs=8)


def test_the_place_is_that_of_the_hole_though_the_block_ends_further_off() -> None:
    """A bracket behind the tub: the way out leaves the block far from the hole in the wall."""
    bracket = block((50.0, 150.0, 650.0), (60.0, 160.0, 660.0))
    holed = without(TUB, hole(50, 520, 80))
    points = np.concatenate([holed.points, bracket.points])
    triangles = np.concatenate([holed.triangles, bracket.triangles + len(holed.points)])
    inside = ((210.0, -190.0), (590.0, -190.0), (590.0, 190.0), (210.0, 190.0))
    text = rule(Surface(points, triangles), Opening("up", inside))
    assert place(text) == pytest.approx((200, 50, 520), abs=15)
    assert "towards the rear" in text


def test_a_low_rim_is_told_and_is_no_leak() -> None:
    low = without(TUB, lambda middles: (middles[:, 0] > 599.9) & (middles[:, 2] > 560))
    shell = read(low)
    assert len(shell.told) == 2
    before, _, after = shell.told[0].partition(", as far as z ")
    assert before == "open at the rim towards the front"
    level, _, rest = after.partition(";")
    assert float(level) == pytest.approx(560, abs=6)
    assert rest == " boxes end at the scan's extent"


@pytest.mark.parametrize(("way", "axes", "sign"), [("front", (2, 0, 1), 1), ("down", (0, 1, 2), -1)])
def test_ways_in_from_elsewhere(way: Way, axes: tuple[int, ...], sign: int) -> None:
    """The tub lies on its side, or upside down; the last is a mirror image, as metal does not mind."""
    holed = without(TUB, hole(50, 520, 80))
    lying, open_only = (turned(one, axes) for one in (holed, TUB))
    signs = np.where(np.arange(3) == axes.index(2), sign, 1)
    assert read(Surface(open_only.points * signs, open_only.triangles), way).volume > 0
    text = rule(Surface(lying.points * signs, lying.triangles), Opening(way))
    expected = np.array((200, 50, 520))[list(axes)] * signs
    assert place(text) == pytest.approx(tuple(expected), abs=8)


def test_a_tub_that_stands_askew_needs_the_outline_of_its_opening() -> None:
    turn = np.array([[0.8, 0.6, 0.0], [-0.6, 0.8, 0.0], [0.0, 0.0, 1.0]])
    askew = Surface(TUB.points @ turn, TUB.triangles)
    assert rule(askew).startswith("leaks: a wide way out at ")
    rim = np.array([(200, -200, 0), (600, -200, 0), (600, 200, 0), (200, 200, 0)]) @ turn
    outline = tuple((float(x), float(y)) for x, y, _ in rim)
    shell = shell_of(askew, "body", Opening("up", outline), 3.0, (), ())
    assert shell.volume == pytest.approx(400 * 400 * 300, rel=0.02)


def test_an_opening_that_the_scan_closes_is_told() -> None:
    assert rule(block(LOW, HIGH)) == "the opening towards above is closed by the scan"
    assert rule(TUB, Opening("left")) == "the opening towards the left is closed by the scan"


def test_an_outline_beside_the_scan_is_no_way_in() -> None:
    beside = ((900.0, 0.0), (950.0, 0.0), (950.0, 50.0))
    assert "closed by the scan" in rule(TUB, Opening("up", beside))


@pytest.mark.parametrize("length", [401.0, 403.3, 404.9])
def test_an_even_rim_is_never_low_however_the_cells_lie(length: float) -> None:
    assert len(read(tub(LOW, (200.0 + length, 190.0 + length, 300.0 + length))).told) == 1
