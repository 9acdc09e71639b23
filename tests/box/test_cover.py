"""The cover plate where the bay leaves room for it: with returned edges, without, or not at all."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boxfit.bay import Bay, Block, BoxRules, Cylinder, Keepout, Opening, Prism
from boxfit.box.cover import Cover, cover_of
from boxfit.box_shape import grown, rectangle
from boxfit.judge.distance import Cuboid
from boxfit.judge.places import solid_measure
from boxfit.layout import PlacedBox
from tests.box.samples import LOW, RULES, bay_with, box_around, plan_by, stepped_box
from tests.surfaces import as_shell

BOX = box_around((0.0, 0.0, 260.0), (600.0, 400.0), (138.0,), RULES)
TOP = BOX.high[2]
"""410.5: the flange from 406 to 408.5, the plate from 414.5 to 416.5, its edges down to 406."""


def told(bay: Bay, box: PlacedBox = BOX) -> Cover:
    return cover_of("box", bay, box)


def note(bay: Bay, box: PlacedBox = BOX) -> str:
    """The only thing told of a cover plate that has no returned edges."""
    cover = told(bay, box)
    assert cover.plate is not None
    assert not cover.plate.returned
    assert cover.plate.plate.outline == grown(box.outlines[-1], bay.box.flange)
    (one,) = cover.notes
    return one.removeprefix("box: cover plate without returned edges, lid screws show: ")


def walls(past: float, rules: BoxRules = RULES, top: float = 900.0) -> Bay:
    """A bay whose walls stand so far [mm] from the flange of the box, its tolerance 3."""
    outline = rectangle((-22.0 - past, -22.0 - past), (622.0 + past, 422.0 + past))
    return Bay("bay", Prism(outline, 200.0, top), 3.0, 3.0 + rules.clearance, rules)


def with_block(low: tuple[float, float, float], **told: float | str) -> Bay:
    """The bay with a block of 50 mm from a corner on that stays in it."""
    high = (low[0] + 50.0, low[1] + 50.0, low[2] + 50.0)
    keepout = Keepout("block", Block(low, high), **{"distance": 13.0, **told})  # type: ignore[arg-type]
    return replace(bay_with(RULES), keepouts=(keepout,))


def test_by_hand() -> None:
    cover = told(bay_with(RULES))
    assert cover.plate is not None
    assert cover.notes == ()
    assert cover.plate.plate.outline == grown(BOX.outlines[-1], 25.0)
    assert (cover.plate.plate.bottom, cover.plate.plate.top, cover.plate.height) == (414.5, 416.5, 10.5)
    assert (cover.plate.nut, cover.plate.hole_diameter, cover.plate.holes) == ("dome nut", 6.6, cover.studs)


def test_walls() -> None:
    """Edges 3 past the flange and 3 of tolerance: walls 6 from the flange will do, 5.4 lack 0.6."""
    assert told(walls(6.0)).notes == ()
    assert note(walls(5.4)) == (
        "0.6 mm too little room where the box stands; box.clearance = 10.6 or more would make it"
    )


def test_walls_of_triangles() -> None:
    """The same of a scan."""
    assert told(as_shell(walls(6.0))).notes == ()
    assert note(as_shell(walls(5.0))).startswith("1 mm too little")


def test_plain_metal_leaves_the_clearance_but_not_the_tolerance() -> None:
    """A block 6.1 beside the flange, level with the edges; 5.9 lacks 0.1."""
    assert told(with_block((628.1, 100.0, 370.0))).notes == ()
    assert note(with_block((627.9, 100.0, 370.0))).startswith("0.1 mm too little room")
    # below the edges it does not matter: 3 of tolerance below 400
    assert told(with_block((623.0, 100.0, 346.9))).notes == ()


def test_what_is_kept_off_for_a_reason_keeps_all_of_its_distance() -> None:
    """A wheel that asks 13 and stands 13.1 from the flange leaves no 3 for the edges; at 16.1 it does."""
    assert note(with_block((635.1, 100.0, 370.0), reason="moving")).startswith("2.9 mm too little room")
    assert told(with_block((638.1, 100.0, 370.0), reason="moving")).notes == ()


def test_what_a_keepout_asks_beyond_the_box_stays() -> None:
    """20 more than the box's own 10: the edges keep 23 of the 33."""
    assert told(with_block((648.1, 100.0, 370.0), distance=33.0)).notes == ()
    assert note(with_block((647.9, 100.0, 370.0), distance=33.0)).startswith("0.1 mm too little room")


def test_it_passes_the_opening() -> None:
    """A hole that the flange passes at 5 all round, where edges and tolerance ask 6."""
    hole = rectangle((-27.0, -27.0), (627.0, 427.0))
    bay = replace(bay_with(RULES), opening=Opening("up", hole))
    assert note(bay) == (
        "straight in they pass the bay's opening 1 mm too near; box.flange = 21 or less may do"
        " where lid screws and gasket allow"
    )
    wide = rectangle((-28.0, -28.0), (628.0, 428.0))
    assert told(replace(bay, opening=Opening("up", wide))).notes == ()


def test_it_comes_in_past_what_stands_above() -> None:
    """A bracket high above the flange's edge, which the flange passes at 4."""
    bay = with_block((626.0, 100.0, 700.0))
    assert told(bay).notes == ()
    assert note(replace(bay, opening=Opening("up"))).startswith(
        "straight in they pass the bay's opening 2 mm too near"
    )


@pytest.mark.parametrize(("clearance", "boxes", "lacks"), [(2.5, 1, "0.5 mm"), (5.0, 2, "0.5 mm")])
def test_neighbours(clearance: float, boxes: int, lacks: str) -> None:
    """Edges stay in the clearance, where several boxes may stand in half of it."""
    bay = replace(bay_with(RULES), box=replace(RULES, clearance=clearance, boxes=boxes))
    share = 3.0 * boxes
    assert note(bay) == (
        f"{lacks} too little room beside the flange; box.clearance = {share:g} or more would do"
    )


def test_low_nuts_where_dome_nuts_find_no_room() -> None:
    """Dome nuts end at 428.5, 3 of tolerance above them; low nuts at 419.7."""
    high, low, none = (told(walls(50.0, top=top)) for top in (431.5, 431.0, 422.6))
    assert high.plate is not None
    assert high.plate.nut == "dome nut"
    assert low.plate is not None
    assert low.plate.nut == "low nut"
    assert low.notes == (
        "box: cover plate held by low nuts: dome nuts want 12 mm above it"
        " and the survey's tolerance above that",
    )
    assert none.plate is None
    assert none.lacking == pytest.approx(0.1)
    assert none.studs == ()
    assert none.stud is None


def test_left_out_under_what_stands_close_above() -> None:
    """With a clearance of 5 a block 8 above the lid, 3 of tolerance kept, lacks 4.2 of 9.2."""
    bay = with_block((200.0, 100.0, TOP + 8.0), distance=8.0)
    bay = replace(bay, box=replace(RULES, clearance=5.0))
    cover = told(bay)
    assert cover.plate is None
    assert cover.lacking == pytest.approx(4.2, abs=0.01)
    assert cover.notes == ("box: cover plate left out: 4.2 mm too little above the lid",)


def test_facing_flanges_too_near_for_edges() -> None:
    """A U whose flanges stand 4 apart, as edges of 3 do not go between."""
    lines = ((0.0, 190.0, 238.0, 620.0), (0.0, 160.0, 285.0, 470.0))
    rules = replace(RULES, shape="stepped")
    box = stepped_box((plan_by("U", lines),), (138.0,), rules)
    assert note(replace(bay_with(rules), box=rules), box) == "facing flanges stand less than 8 mm apart"


def test_a_side_too_short_for_an_edge() -> None:
    """A jog of 12 between a convex and a reflex corner: relief 7.75, mitre 12.5 and a cut of 1 ask 21.25."""
    lines = ((0.0, 190.0, 400.0, 620.0), (0.0, 160.0, 160.0, 172.0))
    rules = replace(RULES, shape="stepped")
    box = stepped_box((plan_by("L", lines),), (138.0,), rules)
    assert note(bay_with(rules), box) == "a side of the lid is 9.25 mm too short for one"


def test_studs_do_not_depend_on_the_place() -> None:
    moved = box_around(LOW, (600.0, 400.0), (138.0,), RULES)
    found = zip(told(bay_with(RULES)).studs, told(bay_with(RULES), moved).studs, strict=True)
    for one, other in found:
        assert (other[0] - LOW[0], other[1] - LOW[1]) == pytest.approx(one)


@st.composite
def bays_round_the_box(draw: st.DrawFn) -> Bay:
    """Walls, a block and a bar somewhere about the flange's edge, the way in from above open."""
    near = st.integers(-40, 120).map(lambda tenths: tenths / 10.0)
    bay = walls(3.0 + draw(near.filter(lambda past: past >= 0.0)))
    at, height = 622.0 + draw(near), draw(st.integers(3000, 4400)) / 10.0
    block = Block((at, 100.0, height), (at + 40.0, 140.0, height + 20.0))
    level, lean = draw(st.integers(3000, 4400)) / 10.0, draw(st.integers(-60, 60))
    bar = Cylinder((-30.0, 430.0 + draw(near), level), (650.0, 430.0 + draw(near), level + lean), 8.0)
    reasons = st.sampled_from(["", "hot"])
    keepouts = tuple(
        Keepout(name, solid, 3.0 + draw(st.sampled_from([0.0, 10.0, 12.0])), False, draw(reasons))
        for name, solid in (("block", block), ("bar", bar))
    )
    opening = draw(st.sampled_from([None, Opening("up")]))
    return replace(bay, keepouts=keepouts, opening=opening)


def shortfalls(bay: Bay, by: float) -> float:
    """How much [mm] the plate, its edges `by` past the flange, is too near, as the judge measures.

    All the way up where it comes in from there, the survey's tolerance kept.
    """
    low, high = (-22.0 - by, -22.0 - by, 406.0), (622.0 + by, 422.0 + by, 416.5)
    body, way = Cuboid(low, high), Cuboid(low, (*high[:2], 900.0))
    assert isinstance(bay.room, Prism)
    (x, y), (a, b) = min(bay.room.outline), max(bay.room.outline)
    lacking = [3.0 - gap for gap in (low[0] - x, low[1] - y, a - high[0], b - high[1])]
    for keepout in bay.keepouts:
        asked = keepout.distance if keepout.reason else max(3.0, keepout.distance - 10.0)
        lacking.append(asked - solid_measure(keepout.solid, 99.0)(body))
        if bay.opening is not None:
            lacking.append(3.0 - solid_measure(keepout.solid, 99.0)(way))
    return max(lacking)


@settings(deadline=None, max_examples=50)
@given(bays_round_the_box())
def test_the_judge_measures_the_same(bay: Bay) -> None:
    """Edges that are made keep what they must; those that are not would be too near, by what is told."""
    cover = told(bay)
    assert cover.plate is not None
    if cover.plate.returned:
        assert shortfalls(bay, 3.0) <= 1e-3
    else:
        assert shortfalls(bay, 3.0) > -0.05
