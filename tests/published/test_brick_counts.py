"""How many equal bricks fit a room, every way up: published and proven counts, through the command itself.

A box of tiers is less free than bricks are: whole levels stand one above the other, and what stays empty on
one level is lost. Where one box cannot hold the published number that is stated, and several boxes of the
same bay are asked for it.
"""

from dataclasses import dataclass
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pytest

from tests.published.hold import Hold, laid_out_apart, laid_out_untold


@dataclass(frozen=True)
class Instance:
    """A cube and a brick [units], the published most, where it is known from, and what one box holds."""

    side: int
    brick: tuple[int, int, int]
    most: int
    source: str
    by_one_box: int

    def hold(self, boxes: int) -> Hold:
        """The cube with up to ten tiers in each of so many boxes."""
        return Hold((self.side,) * 3, self.brick, tiers=10, boxes=boxes, every_way_up=True)


PLANKS = "read with its proof: lists.xmission.com, math-fun; 18 found and 19 refuted by a search of our own"
HARMONIC = "26 found by our own search; 27 would fill the cube: archive.lib.msu.edu/crcmath (de Bruijn)"
FORTY_TWO = "read: perplexus.info pid=8916 (42 impossible); 41 found by a search of our own"
RODS = "52 found and 53 refuted by a search of our own, no source"
TWO_COLOURS = "read: perplexus.info pid=9689; built as 200 + 40 + 8, 249 refuted by two colours of 2x2x2"

INSTANCES = (
    Instance(7, (4, 4, 1), 18, PLANKS, by_one_box=15),
    Instance(7, (4, 2, 1), 41, FORTY_TWO, by_one_box=40),
    Instance(6, (4, 2, 1), 26, HARMONIC, by_one_box=26),
    Instance(6, (4, 1, 1), 52, RODS, by_one_box=52),
    Instance(10, (4, 1, 1), 248, TWO_COLOURS, by_one_box=248),
)
BOXES = 99
"""Boxes allowed where one is not enough: six piles of three planks fill the first cube (our own sum), and
every brick of the second may need a box of its own."""


TOO_MANY_FOR_ONE = [instance for instance in INSTANCES if instance.by_one_box < instance.most]


def name(instance: Instance) -> str:
    return f"{instance.side}-{'x'.join(map(str, instance.brick))}"


@cache
def by_several_boxes(instance: Instance) -> dict[str, Any]:
    """What several boxes hold, searched once."""
    with TemporaryDirectory() as folder:
        return laid_out_untold(instance.hold(BOXES), Path(folder))


@pytest.mark.parametrize("instance", INSTANCES, ids=name)
def test_tiers_of_one_box(instance: Instance, tmp_path: Path) -> None:
    """What tiers allow, which is never more than bricks allow; proven either way."""
    found = laid_out_untold(instance.hold(boxes=1), tmp_path)
    assert found["count"] == instance.by_one_box <= instance.most, instance.source
    assert (found["bound"], found["proven"]) == (instance.by_one_box, True)


@pytest.mark.parametrize("instance", TOO_MANY_FOR_ONE, ids=name)
def test_several_boxes_hold_the_published_number(instance: Instance) -> None:
    """Not proven, as the bound for several boxes is one or more above; never below what was published."""
    found = by_several_boxes(instance)
    assert found["count"] == instance.most < found["bound"], instance.source
    assert not found["proven"]


@pytest.mark.parametrize("instance", INSTANCES[:3], ids=name)
def test_the_command_tells_the_same(instance: Instance, tmp_path: Path) -> None:
    """The first three through the command in a process of its own."""
    found = laid_out_apart(instance.hold(boxes=1), tmp_path)
    assert (found["count"], found["proven"]) == (instance.by_one_box, True)
