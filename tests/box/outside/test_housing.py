"""Cable housings as made parts: round their slot, with room for every gland and its nut, under one cover."""

from dataclasses import replace
from itertools import pairwise
from math import pi

import pytest

from boxfit.bay import Block, BoxRules
from boxfit.box.fitting import Bought, Looks, Strip
from boxfit.box.outside.housing import DEEP, PRESSED, SLOT_HEIGHT, Made, Main, housings_wanted, made_housing
from boxfit.box.outside.place import Wanted
from boxfit.box.strip_legs import hole_middle, legs_of, strip_blocks
from boxfit.box.strip_mass import strip_mass
from boxfit.sheet.checks import findings_of
from boxfit.sheet.strip_flat import strip_flat
from boxfit.solid.strip import strip_shape
from boxfit.solid.weighed import solid_properties
from boxfit.standards.cable_entry import CABLE_ACROSS, gland_for
from tests.box.samples import RULES

MAIN = Main(2, 70.0, 19.0, "inverter")
WELDED = replace(RULES, process="welded", bend_radius=0.0)
STEEL = replace(RULES, material="steel-s235", thickness=1.5, bend_radius=2.0)
PRINTED = replace(RULES, process="printed", material="petg", thickness=4.0, bend_radius=0.0)
ENDS = ("rearwards or to the right", "downwards", "forwards or to the left")
"""By the leg of the collar that the cables leave by."""


def wanted(leg: int, main: Main = MAIN, rules: BoxRules = RULES) -> Wanted:
    return next(one for one in housings_wanted(main, rules) if one.keeps[0].word.endswith(ENDS[leg]))


def placed(one: Wanted, looks: Looks) -> Bought:
    """A housing on a wall that looks a way, the middle of its slot at the origin."""
    axis, sign = (0 if looks in ("front", "rear") else 1), (1.0 if looks in ("front", "left") else -1.0)

    def block(along: tuple[float, float], up: tuple[float, float]) -> Block:
        out = sorted((0.0, sign * one.body.out[1]))
        spans = [out, along, up] if axis == 0 else [along, out, up]
        (x, a), (y, b), (z, c) = spans
        return Block((x, y, z), (a, b, c))

    body, keeps = (block(room.along, room.up) for room in (one.body, one.keeps[0]))
    return Bought(one.kind, one.name, looks, (0.0, 0.0, 0.0), body, keeps, one.about, one.mass)


def made(
    leg: int, looks: Looks = "left", rules: BoxRules = RULES, main: Main = MAIN, signal: bool = False
) -> Made:
    return made_housing("box cable housing 1", rules, placed(wanted(leg, main, rules), looks), main, signal)


def part(found: Made, kind: str) -> Strip:
    return next(strip for strip in found.strips if strip.kind == kind)


@pytest.mark.parametrize("looks", ["front", "rear", "left", "right"])
@pytest.mark.parametrize("leg", [0, 1, 2])
def test_its_parts_fill_its_body_and_meet_nowhere(leg: int, looks: Looks) -> None:
    """From the wall to the front of the cover, and all solids together weigh what they do apart."""
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Common

    found = made(leg, looks)
    blocks = [block for strip in found.strips for block in strip_blocks(strip)]
    for k in range(3):
        assert min(one.low[k] for one in blocks) == pytest.approx(found.bought.body.low[k])
        assert max(one.high[k] for one in blocks) == pytest.approx(found.bought.body.high[k])
    shapes = [strip_shape(strip) for strip in found.strips]
    assert len(shapes) == 6
    for number, one in enumerate(shapes):
        for other in shapes[number + 1 :]:
            common = BRepAlgoAPI_Common(one, other).Shape()
            assert solid_properties(common, 1.0).mass == pytest.approx(0.0, abs=1e-6)


@pytest.mark.parametrize("rules", [RULES, WELDED, STEEL], ids=["folded", "welded", "steel"])
@pytest.mark.parametrize("leg", [0, 1, 2])
def test_flats_keep_the_shops_rules_and_weigh_as_the_solid(leg: int, rules: BoxRules) -> None:
    for strip in made(leg, rules=rules, signal=True).strips:
        flat = strip_flat(strip, rules.fold_shop)
        assert findings_of(flat, rules.fold_shop) == ()
        assert len(flat.bends) == len(strip.legs) - 1
        assert all(bend.up for bend in flat.bends)
        told = strip_mass(strip)
        assert solid_properties(strip_shape(strip), told.mass / told.volume).mass == pytest.approx(told.mass)


def test_a_collar_by_hand() -> None:
    """Two glands M32, 47 across and 2 apart, clear of bends of 5: 106 high; the slot's 61 and two bends: 71.

    Its blank: 98.5 + 61 + 98.5 + 63 beyond the bends of 5 each, and three bends of 5.203.
    """
    collar = part(made(0), "cable housing")
    assert [length for _, length in collar.legs] == pytest.approx([106.0, 71.0, 106.0, 68.0])
    assert collar.width == pytest.approx(DEEP - 2.5 - PRESSED)
    flat = strip_flat(collar, RULES.fold_shop)
    straight = (106.0 - 5.0) + (71.0 - 10.0) + (106.0 - 10.0) + (68.0 - 5.0)
    assert max(flat.size) == pytest.approx(straight + 3 * 5.203, abs=2e-3)
    bends = 3 * pi / 4.0 * (25.0 - 6.25) * 65.5
    holes = 2 * pi / 4.0 * 32.5**2 * 2.5
    assert strip_mass(collar).volume == pytest.approx(straight * 2.5 * 65.5 + bends - holes)


@pytest.mark.parametrize("across", sorted(CABLE_ACROSS.values()))
@pytest.mark.parametrize("count", [2, 4])
@pytest.mark.parametrize(
    "rules", [RULES, replace(RULES, thickness=5.0, bend_radius=6.0)], ids=["thin", "thick"]
)
@pytest.mark.parametrize("leg", [0, 1, 2])
def test_nuts_of_glands_find_room(leg: int, rules: BoxRules, count: int, across: float) -> None:
    """Apart from each other, within what is flat between the bends, and behind the blocks of the cover."""
    main = Main(count, 70.0, across, "inverter")
    found = made(leg, rules=rules, main=main)
    collar, nut = part(found, "cable housing"), gland_for(across).across
    flat = legs_of(collar)[leg]
    at = sorted(hole.across for hole in collar.holes if hole.leg == leg)
    assert len(at) == count
    assert all(other - one >= nut for one, other in pairwise(at))
    assert at[0] - nut / 2.0 >= (rules.thickness + rules.bend_radius) - 1e-9
    assert flat.length - at[-1] - nut / 2.0 >= flat.after - 1e-9
    assert part(found, "housing block").start[1] >= collar.holes[0].along + nut / 2.0


@pytest.mark.parametrize("leg", [0, 1, 2])
def test_the_slot_lies_within_the_collar(leg: int) -> None:
    one = wanted(leg)
    body, thick = one.body, 2.5
    assert body.along[0] + thick <= -one.hole[0] / 2.0
    assert body.along[1] - thick >= one.hole[0] / 2.0
    assert body.up[1] - thick == pytest.approx(SLOT_HEIGHT / 2.0)
    assert body.up[0] + thick < -SLOT_HEIGHT / 2.0


@pytest.mark.parametrize("looks", ["front", "rear", "left", "right"])
@pytest.mark.parametrize("leg", [0, 1, 2])
def test_glands_are_on_the_face_before_which_room_is_kept(leg: int, looks: Looks) -> None:
    found = made(leg, looks, signal=True)
    collar, body, keeps = part(found, "cable housing"), found.bought.body, found.bought.keeps
    axis, sign = next(
        (k, s)
        for k in range(3)
        for s, more in ((1, keeps.high[k] - body.high[k]), (-1, body.low[k] - keeps.low[k]))
        if more > 1.0
    )
    face = body.high[axis] if sign > 0 else body.low[axis]
    mains = [hole for hole in collar.holes if hole.diameter > 20.0]
    assert len(mains) == 2
    assert all(hole_middle(collar, hole)[axis] == pytest.approx(face) for hole in mains)
    (monitoring,) = (hole for hole in collar.holes if hole.diameter < 20.0)
    assert hole_middle(collar, monitoring)[axis] != pytest.approx(face)


def test_screws_of_the_cover_meet_the_threads_of_its_blocks() -> None:
    for looks in ("front", "left"):
        found = made(0, looks)
        cover, axis = part(found, "housing cover"), 0 if looks == "front" else 1
        blocks = [strip for strip in found.strips if strip.kind == "housing block"]
        ends = {
            tuple(round(v, 6) for k, v in enumerate(hole_middle(cover, h)) if k != axis) for h in cover.holes
        }
        threads = {
            tuple(round(v, 6) for k, v in enumerate(hole_middle(one, one.holes[0])) if k != axis)
            for one in blocks
        }
        assert ends == threads
        assert len(ends) == sum(one.count for one in found.fasteners) == 4


def test_a_printed_box_buys_its_housing_whole() -> None:
    found = made(0, rules=PRINTED)
    assert (found.strips, found.fasteners, found.bought.kind) == ((), (), "connector")
    assert found.bought.mass == pytest.approx(made(0).bought.mass + 0.5)


def test_the_monitoring_adds_its_gland() -> None:
    assert made(0, signal=True).bought.mass == pytest.approx(made(0).bought.mass + 0.03)
    assert "monitoring" in made(0, signal=True).bought.about
