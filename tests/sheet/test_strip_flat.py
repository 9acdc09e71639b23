"""Flats of strips: folded up again they are the solid, and weigh as much within the bend's error."""

from dataclasses import replace
from math import pi

import pytest
from hypothesis import example, given, settings

from boxfit.bay import Point, Vector
from boxfit.box.fitting import Strip
from boxfit.box.strip_legs import hole_middle, strip_blocks
from boxfit.box.strip_mass import strip_mass
from boxfit.sheet.flat import Flat
from boxfit.sheet.strip_flat import strip_flat, strip_flats
from boxfit.workshop import FoldedK, FoldShop
from tests.sheet.refold import folded, folded_points, size_of
from tests.solid.test_strip import CHANNEL, strips

SHOP = FoldShop()


def base_of(flat: Flat) -> Point:
    """A place in the first leg."""
    return (flat.size[0] / 2.0, 1.0)


def in_every_leg(flat: Flat) -> list[Vector]:
    """Both faces of the corners, and of both edges in the middle of every leg, once folded."""
    base, (wide, high) = base_of(flat), flat.size
    ends = [0.0]
    for bend in flat.bends:
        ends += [bend.start[1] - bend.allowance / 2.0, bend.start[1] + bend.allowance / 2.0]
    ends.append(high)
    middles = [(ends[place] + ends[place + 1]) / 2.0 for place in range(0, len(ends), 2)]
    edges = [(x, y) for x in (0.0, wide) for y in middles]
    return [*folded_points(flat, base), *(face for point in edges for face in folded(flat, base, point))]


def distances(points: list[Vector]) -> list[float]:
    """Between all of them, sorted: the same however they are turned and moved."""
    return sorted(
        sum((a - b) ** 2 for a, b in zip(one, other, strict=True)) ** 0.5
        for place, one in enumerate(points)
        for other in points[place + 1 :]
    )


@settings(max_examples=40, deadline=None)
@given(strip=strips())
@example(strip=CHANNEL)
def test_folded_up_again_it_is_the_strip(strip: Strip) -> None:
    """Outside dimensions within 0.1 mm, and the holes as far apart as in the solid."""
    flat = strip_flat(strip, SHOP)
    blocks = strip_blocks(strip)
    outside = [
        max(block.high[axis] for block in blocks) - min(block.low[axis] for block in blocks)
        for axis in range(3)
    ]
    assert sorted(size_of(in_every_leg(flat))) == pytest.approx(sorted(outside), abs=0.1)
    holes = [folded(flat, base_of(flat), hole.at)[0] for hole in flat.holes]
    assert distances(holes) == pytest.approx(
        distances([hole_middle(strip, hole) for hole in strip.holes]), abs=0.1
    )


def test_holes_are_seen_from_the_inside() -> None:
    """Neither flat is the other's mirror image.

    By hand: who looks from the left at a leg's inside has the car's rear to the right, and its front where
    the leg's way down is drawn upwards.
    """
    flat = strip_flat(replace(CHANNEL, holes=CHANNEL.holes[:1]), SHOP)
    mirrored = strip_flat(replace(CHANNEL, along="rear", holes=CHANNEL.holes[:1]), SHOP)
    assert (flat.holes[0].at[0], mirrored.holes[0].at[0]) == (20.0, 80.0)


@settings(max_examples=30, deadline=None)
@given(strip=strips())
def test_it_weighs_what_the_solid_weighs(strip: Strip) -> None:
    """But for the bends: as much as the neutral fibre there is off the middle of the sheet."""
    flat = strip_flat(strip, SHOP)
    off = sum(
        pi / 2.0 * abs(0.5 - bend.k) * strip.thickness * strip.thickness * strip.width for bend in flat.bends
    )
    assert abs(flat.area * strip.thickness - strip_mass(strip).volume) <= off + 1e-3


def test_length_by_the_shops_own_k() -> None:
    """Hand: two bends, each longer by (0.45 - 0.325) * 2.5 * pi / 2."""
    own = strip_flat(CHANNEL, FoldShop(k_table=(FoldedK(2.5, 2.5, 0.45),)))
    longer = own.size[1] - strip_flat(CHANNEL, SHOP).size[1]
    assert longer == pytest.approx(2.0 * 0.125 * 2.5 * pi / 2.0, abs=1e-5)


def test_equal_strips_are_one_flat() -> None:
    """Wherever they stand and whatever they are called; the others are named in its notes."""
    other = replace(CHANNEL, name="other", start=(0.1 + 0.2, 7.0, 9.0))
    longer = replace(CHANNEL, name="longer", width=101.0)
    first, second = strip_flats((CHANNEL, other, longer), SHOP)
    assert (first.name, first.quantity, second.name, second.quantity) == ("channel", 2, "longer", 1)
    assert first.notes[-1] == "also other"
