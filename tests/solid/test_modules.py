"""The room a module keeps clear, as blocks around it."""

from math import prod

import pytest
from hypothesis import given

from boxfit.module import Module, stances
from boxfit.solid.colours import COLOURS
from boxfit.solid.modules import ModuleForms, room_around
from tests.box.samples import HERON
from tests.strategies import modules


@given(modules())
def test_room_is_what_the_grown_block_has_more(module: Module) -> None:
    """Blocks that do not overlap add up to it."""
    for stance in stances(module):
        blocks = room_around(stance)
        grown = prod(
            low + size + high
            for low, size, high in zip(stance.room_low, stance.size, stance.room_high, strict=True)
        )
        sides = [[end - start for start, end in zip(one.low, one.high, strict=True)] for one in blocks]
        assert sum(prod(one) for one in sides) == pytest.approx(grown - prod(stance.size))


def test_equal_stances_share_one_form() -> None:
    """Lying the other way is another one."""
    forms = ModuleForms(HERON)
    along_x, along_y = stances(HERON)
    assert forms.body(along_x) is forms.body(along_x)
    assert forms.room(along_x) is forms.room(along_x)
    assert forms.body(along_x) is not forms.body(along_y)
    assert forms.body(along_y).name == "Heron 44 151 x 355 x 108"


def test_no_part_is_orange() -> None:
    """Orange says high-voltage cable: hue 15 to 45 degrees, strong."""
    from colorsys import rgb_to_hsv

    for red, green, blue, _ in COLOURS.values():
        hue, strength, _ = rgb_to_hsv(red, green, blue)
        assert not (15 < hue * 360 < 45 and strength > 0.4)
