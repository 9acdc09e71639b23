"""Bays and keep-outs of triangles: judged as the same prisms and blocks are, and past what those can say."""

from collections.abc import Iterable
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxfit.bay import Bay, Block, Keepout, Opening, Point, Prism, Shell, Surface, Way
from boxfit.judge.claim import ClaimedBox, Extent
from boxfit.judge.distance import Cuboid
from boxfit.judge.finding import Finding
from boxfit.judge.insertion import judge_insertion
from boxfit.judge.layout import judge_layout
from boxfit.judge.places import SetBox, judge_place, set_box
from tests.judge.samples import BAY, CAR, MODULE, ROOM, layout
from tests.judge.strategies import convex_outlines, quarter_blocks
from tests.judge.surfaces import as_shell, block_surface, prism_shell, together

WAYS: tuple[Way, ...] = ("up", "down", "front", "rear", "left", "right")
OFFS = st.sampled_from([0.0, 0.5, 4.0])
BARE = replace(BAY, keepouts=(), opening=None)
Told = dict[tuple[str, str], float]


def set_in(bay: Bay, block: Cuboid) -> SetBox:
    outside = Extent(low=block.low, high=block.high)
    return set_box("box", bay, ClaimedBox.model_construct(outside=outside))


def told(findings: Iterable[Finding]) -> Told:
    """The least figure of each code: triangles know no less than 0, and are told of all at once."""
    least: Told = {}
    for finding in findings:
        assert finding.figure is not None
        key = (finding.code, finding.place)
        least[key] = min(least.get(key, np.inf), max(finding.figure, 0.0))
    if ("bay-clearance", "box") in least:
        least.pop(("flange", "box"), None)
    return least


def further(bay: Bay, by: float) -> Bay:
    """The bay with every distance larger, as where the triangles are off by as much."""
    keepouts = tuple(replace(keepout, distance=keepout.distance + by) for keepout in bay.keepouts)
    return replace(bay, distance=bay.distance + by, tolerance=bay.tolerance + by, keepouts=keepouts)


@given(convex_outlines(), quarter_blocks(), OFFS, st.sampled_from([0.0, 3.0, 13.0]))
def test_a_prism_of_triangles_is_kept_clear_of_as_the_prism_is(
    outline: tuple[Point, ...], block: Cuboid, off: float, distance: float
) -> None:
    room = Prism(outline, -250.0, 310.0)
    bay = replace(BARE, room=room, distance=distance)
    shell = replace(bay, room=prism_shell(room, off=off))
    expected = told(judge_place(set_in(further(bay, off), block)))
    assert told(judge_place(set_in(shell, block))) == pytest.approx(expected, abs=1e-6)


@given(convex_outlines(), quarter_blocks(most=400), st.sampled_from(WAYS), OFFS)
def test_a_prism_of_triangles_is_left_as_the_prism_is(
    outline: tuple[Point, ...], block: Cuboid, way: Way, off: float
) -> None:
    room = Prism(outline, -250.0, 310.0)
    bay = replace(BARE, room=room)
    plain = set_in(further(bay, off), block)
    if judge_place(plain) == []:  # near wall, floor or top at rest is told of the prism only then
        found = judge_insertion(set_in(replace(bay, room=prism_shell(room, way, off)), block), Opening(way))
        assert told(found) == pytest.approx(told(judge_insertion(plain, Opening(way))), abs=1e-6)


@pytest.mark.parametrize("inward", [False, True])
@given(block=quarter_blocks(), other=quarter_blocks(), way=st.sampled_from(WAYS), off=OFFS)
def test_a_keepout_of_triangles_is_kept_clear_of_as_the_block_is(
    inward: bool, block: Cuboid, other: Cuboid, way: Way, off: float
) -> None:
    solid = Block(other.low, other.high)
    room = Prism(((900.0, -900.0), (900.0, 900.0), (-900.0, 900.0), (-900.0, -900.0)), -900.0, 900.0)
    bay = replace(BARE, room=room, keepouts=(Keepout("tank", solid, 18.0),))
    of_triangles = Keepout("tank", block_surface(solid, off, inward), 18.0)
    plain, meshed = set_in(further(bay, off), block), set_in(replace(bay, keepouts=(of_triangles,)), block)
    expected = {key: figure for key, figure in told(judge_place(plain)).items() if key[0] != "bay-clearance"}
    found = {key: figure for key, figure in told(judge_place(meshed)).items() if key[0] != "bay-clearance"}
    assert found == pytest.approx(expected, abs=1e-6)
    expected = told(judge_insertion(plain, Opening(way)))
    assert told(judge_insertion(meshed, Opening(way))) == pytest.approx(expected, abs=1e-6)


def one_box(room: Shell | Prism, keepouts: tuple[Keepout, ...] = (), lift: float = 0.0) -> SetBox:
    """A box 200 x 100 x 120 whose low corner is at (-400, -50, 300); flange 22, from 415.5 to 420 upwards."""
    bay = replace(BARE, room=room, keepouts=keepouts)
    return set_in(bay, Cuboid((-400.0, -50.0, 300.0 + lift), (-200.0, 50.0, 420.0 + lift)))


def test_a_box_in_a_hollow_closed_keepout_is_found() -> None:
    # hand: the nearest triangle is 80 away, far more than the 13 needed
    tank = Keepout("tank", block_surface(Block((-500.0, -150.0, 220.0), (-100.0, 150.0, 500.0))), 13.0)
    for way in WAYS:
        box = one_box(ROOM, (tank,))
        assert [(finding.code, finding.figure) for finding in judge_place(box)] == [
            ("keepout-clearance", 0.0)
        ]
        found = judge_insertion(box, Opening(way))
        assert [(finding.code, finding.figure) for finding in found] == [("insertion", 0.0)]


def test_a_box_outside_a_closed_room_is_found() -> None:
    # hand: 80 above the top, clear of all triangles
    found = judge_place(one_box(prism_shell(ROOM), lift=480.0))
    assert [(finding.code, finding.figure) for finding in found] == [("bay-clearance", 0.0)]


def lid(x: float) -> Surface:
    """A triangle across the way up, reaching from x = -600 to x at y = 0, 600 up."""
    points = np.array([(-600.0, -200.0, 600.0), (-600.0, 200.0, 600.0), (x, 0.0, 600.0)])
    return Surface(points, np.array([[0, 1, 2]]))


@pytest.mark.parametrize(
    ("x", "off", "figure"),
    [
        (-425.0, 0.0, None),  # hand: the flange begins at -422, 3 needed
        (-424.0, 0.0, 2.0),
        (-426.0, 1.0, None),
        (-425.0, 1.0, 3.0),
        (-300.0, 0.0, 0.0),
    ],
)
def test_a_triangle_on_the_way_that_the_opening_does_not_take(
    x: float, off: float, figure: float | None
) -> None:
    room = prism_shell(ROOM, "up", off)
    surface = together(room.surface, lid(x))
    shut = replace(room, surface=surface, opens=np.append(room.opens, False))
    findings = judge_insertion(one_box(shut), Opening("up"))
    assert [finding.figure for finding in findings] == ([] if figure is None else [figure])
    taken = replace(room, surface=surface, opens=np.append(room.opens, True))
    assert judge_insertion(one_box(taken), Opening("up")) == []


def test_no_way_out_through_a_side_that_is_not_the_opening() -> None:
    for way in WAYS:
        for other in WAYS:
            found = judge_insertion(one_box(prism_shell(ROOM, way)), Opening(other))
            assert [finding.figure for finding in found] == ([] if way == other else [0.0])


def tub() -> Shell:
    """Metal round the sample room, open above, and a deck beyond the end of the room."""
    surface = block_surface(Block((-600.0, -400.0, 200.0), (0.0, 400.0, 700.0)))
    tray = Surface(surface.points, surface.triangles[surface.corners[:, :, 2].min(axis=1) < 700.0])
    deck = block_surface(Block((-600.0, -400.0, 900.0), (0.0, 400.0, 910.0)))
    return replace(
        as_shell(together(tray, deck), "body"), low=(-600.0, -400.0, 150.0), high=(0.0, 400.0, 700.0)
    )


@pytest.mark.parametrize(
    ("lift", "code", "figure"),
    [
        (267.0, None, None),  # hand: 13 below the end of the room at 700
        (268.0, "bay-clearance", 12.0),
        (290.0, "bay-clearance", -10.0),
        (-87.0, None, None),  # hand: 13 above the floor at 200
        (-88.0, "bay-clearance", 12.0),
    ],
)
def test_a_body_is_kept_clear_of_and_its_room_ends(
    lift: float, code: str | None, figure: float | None
) -> None:
    found = judge_place(one_box(tub(), lift=lift))
    assert [(finding.code, finding.figure) for finding in found] == ([] if code is None else [(code, figure)])


def test_the_end_of_the_room_is_kept_clear_of_by_the_flange_too() -> None:
    short = replace(tub(), high=(0.0, 80.0, 700.0))  # hand: body to y = 50, flange to 72
    found = judge_place(one_box(short))
    assert [(finding.code, finding.figure) for finding in found] == [("flange", 8.0)]


def test_a_box_leaves_a_body_as_far_as_the_end_of_its_room() -> None:
    # hand: the box ends up on 700, its lid at 820, the deck at 900; with the deck as the end it is met
    assert judge_insertion(one_box(tub()), Opening("up")) == []
    higher = replace(tub(), high=(0.0, 400.0, 910.0))
    assert [finding.figure for finding in judge_insertion(one_box(higher), Opening("up"))] == [0.0]
    for way in WAYS[1:]:
        assert [finding.figure for finding in judge_insertion(one_box(tub()), Opening(way))] == [0.0]


def test_a_box_in_closed_metal_has_no_way_out() -> None:
    metal = as_shell(block_surface(Block((-600.0, -400.0, 200.0), (0.0, 400.0, 700.0))), "body")
    assert judge_place(one_box(metal)) == []
    assert [finding.figure for finding in judge_insertion(one_box(metal), Opening("up"))] == [0.0]


def test_the_outline_of_the_opening_is_asked_as_ever() -> None:
    # hand: flange from (-422, -72) to (-178, 72)
    hole = ((-425.0, -75.0), (-176.0, -75.0), (-176.0, 75.0), (-425.0, 75.0))
    found = judge_insertion(one_box(prism_shell(ROOM, "up")), Opening("up", hole))
    assert [(finding.code, finding.figure) for finding in found] == [("opening", 2.0)]


@pytest.mark.parametrize("off", [0.0, 2.0])
def test_a_whole_layout_in_a_bay_of_triangles(off: float) -> None:
    post = Keepout("post", block_surface(Block((-150.0, -11.0, 200.0), (-140.0, 0.0, 300.0)), off), 28.0)
    bay = replace(BAY, room=prism_shell(ROOM, "up", off), keepouts=(*BAY.keepouts, post))
    findings = judge_layout(layout(), replace(CAR, bays=(bay, *CAR.bays[1:])), MODULE)
    # hand: the body ends at x = -177 and y = -19, the post begins at -150 and -11
    too_near = ("keepout-clearance", "28.160 mm from post, 30 mm needed")
    assert [(finding.code, finding.text) for finding in findings] == ([] if off == 0.0 else [too_near])
