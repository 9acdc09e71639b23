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
    """A cube and a brick [units], the published most, where it is known from, and what one box holds.

    `reached` is the number that several boxes hold now.
    """

    side: int
    brick: tuple[int, int, int]
    most: int
    source: str
    by_one_box: int
    reached: int

    def hold(self, boxes: int) -> Hold:
        """The cube with up to ten tiers in each of so many boxes."""
        return Hold((self.side,) * 3, self.brick, tiers=10, boxes=boxes, every_way_up=True)


PLANKS = "read with its proof: lists.xmission.com, math-fun; 18 found and 19 refuted by a search of our own"
HARMONIC = "26 found by our own search; 27 would fill the cube: archive.lib.msu.edu/crcmath (de Bruijn)"
FORTY_TWO = "read: perplexus.info pid=8916 (42 impossible); 41 found by a search of our own"
RODS = "52 found and 53 refuted by a search of our own, no source"
TWO_COLOURS = "read: perplexus.info pid=9689; built as 200 + 40 + 8, 249 refuted by two colours of 2x2x2"

INSTANCES = (
    Instance(7, (4, 4, 1), 18, PLANKS, by_one_box=15, reached=18),
    Instance(7, (4, 2, 1), 41, FORTY_TWO, by_one_box=40, reached=40),
    Instance(6, (4, 2, 1), 26, HARMONIC, by_one_box=26, reached=26),
    Instance(6, (4, 1, 1), 52, RODS, by_one_box=52, reached=52),
    Instance(10, (4, 1, 1), 248, TWO_COLOURS, by_one_box=248, reached=248),
)
BOXES = 8
"""Boxes allowed where one is not enough: six piles of three planks each fill the first cube (our own sum)."""


TOO_MANY_FOR_ONE = [instance for instance in INSTANCES if instance.by_one_box < instance.most]


def name(instance: Instance) -> str:
    return f"{instance.side}-{'x'.join(map(str, instance.brick))}"


def still_short(instance: Instance) -> object:
    """The instance, marked where several boxes do not hold the published number yet."""
    marks = [] if instance.reached == instance.most else [pytest.mark.xfail(strict=True)]
    return pytest.param(instance, marks=marks, id=name(instance))


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
def test_several_boxes_are_never_told_that_less_is_the_most(instance: Instance) -> None:
    """At least what is reached now; the bound is never below what was published."""
    found = by_several_boxes(instance)
    assert instance.reached <= found["count"] <= instance.most <= found["bound"], instance.source
    assert found["proven"] == (found["count"] == found["bound"])


@pytest.mark.parametrize("instance", [still_short(instance) for instance in TOO_MANY_FOR_ONE])
def test_several_boxes_hold_the_published_number(instance: Instance) -> None:
    assert by_several_boxes(instance)["count"] == instance.most, instance.source


@pytest.mark.parametrize("instance", INSTANCES[:3], ids=name)
def test_the_command_tells_the_same(instance: Instance, tmp_path: Path) -> None:
    """The first three through the command in a process of its own."""
    found = laid_out_apart(instance.hold(boxes=1), tmp_path)
    assert (found["count"], found["proven"]) == (instance.by_one_box, True)
