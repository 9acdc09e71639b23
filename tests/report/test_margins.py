"""Margins: a block of a bay worked out by hand, and what must hold of every layout the search finds."""

import csv
import io
from dataclasses import replace
from math import dist, hypot, sqrt
from pathlib import Path
from typing import Literal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boxfit.bay import Bay, Block, Cylinder, Keepout, Prism, Vector
from boxfit.car import Car
from boxfit.files.car import read_car
from boxfit.files.module import read_module
from boxfit.judge.distance import Cuboid
from boxfit.judge.places import obstacles
from boxfit.layout import BayLayout, Layout, PlacedBox
from boxfit.module import Module
from boxfit.report.bands import bands, slab
from boxfit.report.margin_text import margin_csv, margin_table, survey_short, survey_words
from boxfit.report.margins import Margin, fails_if_out, margins, survives
from boxfit.report.parts import boxes_of
from boxfit.search.find import find_layout
from boxfit.space.distance import FACES
from tests.report.samples import bay, rectangle, roadster
from tests.report.shells import as_shell, prism_surface, with_shells
from tests.samples import write_car
from tests.search.strategies import cars, modules

BODY = PlacedBox((-300.0, -150.0, 225.0), (-42.0, 150.0, 400.0), ())
SQUARE = Prism(rectangle((-500.0, -400.0), (0.0, 400.0)), 200.0, 500.0)
ROOM = bay("block bay", SQUARE.outline, (SQUARE.floor, SQUARE.top))
"""Keeps 13 mm, 3 of them the survey's. The flange stands 22 out: 20 from the front wall."""


def of(room: Bay, *boxes: PlacedBox) -> tuple[Car, tuple[Margin, ...]]:
    """A car with this one bay, and the margins of these boxes in it."""
    car, _, layout = roadster()
    car, layout = replace(car, bays=(room,)), replace(layout, bays=(BayLayout(room.name, boxes),))
    return car, margins(car, layout)


def told(found: tuple[Margin, ...]) -> dict[tuple[str, str], tuple[str, float]]:
    """Obstacle and distance by part and face."""
    return {(one.part, one.face): (one.obstacle, round(one.distance, 3)) for one in found}


def test_a_box_by_hand() -> None:
    """The flange's underside lies at 400 - 2 - 2.5, the body's at 225."""
    _, found = of(ROOM, BODY)
    assert told(found) == {
        ("walls", "front"): ("wall", 42.0),
        ("walls", "rear"): ("wall", 200.0),
        ("walls", "left"): ("wall", 250.0),
        ("walls", "right"): ("wall", 250.0),
        ("walls", "top"): ("top", 100.0),
        ("walls", "bottom"): ("floor", 25.0),
        ("flange", "front"): ("wall", 20.0),
        ("flange", "rear"): ("wall", 178.0),
        ("flange", "left"): ("wall", 228.0),
        ("flange", "right"): ("wall", 228.0),
        ("flange", "top"): ("top", 100.0),
        ("flange", "bottom"): ("floor", 195.5),
    }
    assert [(one.part, one.face) for one in found] == [(p, f) for p in ("walls", "flange") for f in FACES]
    assert {(one.bay, one.box, one.asked) for one in found} == {("block bay", 1, 13.0)}
    assert found[6].left == 7.0


def test_the_floor_does_not_hide_what_stands_beside() -> None:
    """The floor is 25 below the box, a post 30 to the left of it, 17 below the flange and 8 beyond."""
    post = Keepout("post", Block((-200.0, 180.0, 200.0), (-180.0, 200.0, 378.5)), 13.0)
    found = told(of(replace(ROOM, keepouts=(post,)), BODY)[1])
    assert found["walls", "left"] == ("post", 30.0)
    assert found["walls", "bottom"] == ("floor", 25.0)
    assert found["flange", "left"] == ("post", round(hypot(8.0, 17.0), 3))
    assert found["flange", "bottom"] == ("post", round(hypot(8.0, 17.0), 3))


def test_a_slanting_wall_is_told_by_both_faces_that_look_at_it() -> None:
    """By hand: the wall cuts the corner ahead on the left, (100 + 100) / sqrt 2 from the body's corner."""
    body = replace(BODY, high=(-142.0, 150.0, 400.0))
    outline = ((-500.0, -400.0), (0.0, -400.0), (0.0, 208.0), (-192.0, 400.0), (-500.0, 400.0))
    found = told(of(replace(ROOM, room=Prism(outline, 200.0, 500.0)), body)[1])
    distance = round((208.0 - 150.0 + 142.0) / sqrt(2.0), 3)
    assert found["walls", "left"] == ("wall", distance)
    assert found["walls", "front"] == ("wall", min(distance, 142.0))


def test_a_face_that_looks_down_a_long_wedge() -> None:
    """Both walls slope by 1 in 20, and meet far ahead: the front answers for them, not for the floor."""
    outline = ((-400.0, -250.0), (4600.0, 0.0), (-400.0, 250.0))
    found = told(of(replace(ROOM, room=Prism(outline, 200.0, 500.0)), BODY)[1])
    beside = (250.0 - 358.0 / 20.0 - 150.0) / hypot(1.0, 1.0 / 20.0)
    assert {found["walls", face] for face in ("front", "left", "right")} == {("wall", round(beside, 3))}


def test_a_box_outside_its_room_has_no_room_at_all() -> None:
    car, found = of(ROOM, replace(BODY, low=(100.0, -150.0, 225.0), high=(358.0, 150.0, 400.0)))
    assert {(one.obstacle, one.distance) for one in found} == {("wall", 0.0)}
    assert survives(found, car) == {"block bay": 0.0}
    assert fails_if_out(found, car, 1.0) == found


def test_least_left_decides_and_not_least_distance() -> None:
    """The latch is 36 above the flange's edge and asks 33, the cable is 34 above the middle and asks 13."""
    latch = Keepout("latch", Block((-60.0, -20.0, 436.0), (-30.0, 20.0, 500.0)), 33.0)
    cable = Keepout("cable", Block((-200.0, -20.0, 434.0), (-190.0, 20.0, 440.0)), 13.0)
    _, found = of(replace(ROOM, keepouts=(cable, latch)), BODY)
    top = next(one for one in found if (one.part, one.face) == ("flange", "top"))
    assert (top.obstacle, top.distance, top.asked, top.left) == ("latch", 36.0, 33.0, 3.0)


def test_a_bar_is_measured_in_space() -> None:
    """By hand: the bar lies 30 above and 40 ahead of the flange's upper edge, 50 less its radius of 15."""
    bar = Keepout("column", Cylinder((20.0, -90.0, 430.0), (20.0, 90.0, 430.0), 30.0), 30.0)
    _, found = of(replace(ROOM, keepouts=(bar,)), BODY)
    top = next(one for one in found if (one.part, one.face) == ("flange", "top"))
    assert (top.obstacle, round(top.distance, 3), round(top.left, 3)) == ("column", 35.0, 5.0)


def test_without_a_flange_the_body_alone_is_told() -> None:
    _, found = of(replace(ROOM, box=replace(ROOM.box, flange=0.0)), BODY)
    assert [one.part for one in found] == ["walls"] * 6


def test_boxes_are_numbered_and_empty_bays_left_out() -> None:
    behind = replace(BODY, low=(-460.0, -150.0, 225.0), high=(-400.0, 150.0, 400.0))
    car, found = of(ROOM, BODY, behind)
    assert [one.box for one in found if one.surveyed] == [1] * 12 + [2] * 12
    _, none = of(ROOM)
    assert none == ()
    assert survives(none, car) == {}
    assert survey_words(none, car) == ()


def test_how_far_out_the_survey_may_be() -> None:
    """Tightest is 20 from the wall with 10 of clearance: the survey may be out by 10."""
    car, found = of(ROOM, BODY)
    assert survives(found, car) == {"block bay": 10.0}
    assert fails_if_out(found, car) == ()
    at_the_edge = 10.0 / 3.0
    assert fails_if_out(found, car, at_the_edge) == ()
    beyond = fails_if_out(found, car, at_the_edge + 0.01)
    assert [(one.part, one.face) for one in beyond] == [("flange", "front")]


def test_a_layout_too_near_survives_nothing() -> None:
    car, found = of(ROOM, replace(BODY, low=(-300.0, -150.0, 205.0)))
    assert survives(found, car) == {"block bay": 0.0}
    assert [(one.part, one.face) for one in fails_if_out(found, car, 1.0)] == [("walls", "bottom")]


def test_table_is_aligned_and_narrow() -> None:
    long = "the bay behind the seats where the tank once was"
    latch = Keepout(
        "latch of the bonnet with all that hangs on it", Block((-9.0, -9.0, 430.0), (0.0, 9.0, 500.0)), 33.0
    )
    _, found = of(replace(ROOM, name=long, keepouts=(latch,)), BODY)
    lines = margin_table(found).splitlines()
    assert len(lines) == 13
    assert {len(line) for line in lines} == {len(lines[0])}
    assert len(lines[0]) <= 100
    assert " ".join(lines[0].split()) == "bay box part face nearest mm away mm asked mm left"
    assert lines[1] == (
        "  the bay behind th…  1    walls   front   latch of the bonnet with …     44.5      33.0     11.5"
    )
    assert lines[12].endswith("bottom  floor                         195.5      13.0    182.5")


def test_csv_holds_names_whole_and_figures_to_a_tenth() -> None:
    _, found = of(replace(ROOM, name='front, "low"'), BODY)
    rows = list(csv.reader(io.StringIO(margin_csv(found))))
    assert rows[0] == ["bay", "box", "part", "face", "obstacle", "distance", "asked", "left"]
    assert rows[7] == ['front, "low"', "1", "flange", "front", "wall", "20.0", "13.0", "7.0"]
    assert margin_csv(found).count("\n") == 13


def test_words_tell_the_tightest_face_and_what_doubling_does() -> None:
    car, found = of(ROOM, BODY)
    words, limits = survey_words(found, car)
    assert words == (
        "block bay: survives a survey error of up to 10.0 mm; tightest is box 1 flange front, 7.0 mm beyond "
        "its allowance from wall. Out by ± 3.0 mm, the tolerance, every face keeps its clearance. Out by "
        "± 6.0 mm, twice that, every face keeps its clearance."
    )
    assert "working aid" in limits


def test_words_name_the_faces_that_fall_short() -> None:
    nearer = replace(BODY, low=(-300.0, -150.0, 214.0), high=(-36.5, 150.0, 400.0))
    car, found = of(ROOM, nearer)
    words = survey_words(found, car)[0]
    assert "survives a survey error of up to 4.0 mm; " in words
    assert "Out by ± 3.0 mm, the tolerance, every face keeps its clearance." in words
    assert words.endswith("2 of 12 faces fall short: box 1 walls bottom; box 1 flange front.")
    car, found = of(ROOM, replace(nearer, high=BODY.high))
    assert survey_words(found, car)[0].endswith("1 of 12 faces falls short: box 1 walls bottom.")


def test_words_without_a_tolerance() -> None:
    car, found = of(replace(ROOM, tolerance=0.0, distance=10.0), BODY)
    assert survey_words(found, car)[0].endswith("10.0 mm beyond its allowance from wall.")


def test_words_of_a_layout_too_near() -> None:
    car, found = of(ROOM, replace(BODY, low=(-300.0, -150.0, 212.0)))
    words = survey_words(found, car)[0]
    assert "Out by ± 3.0 mm, the tolerance, 1 of 12 faces falls short: box 1 walls bottom." in words


def test_short_words_for_a_picture() -> None:
    car, found = of(ROOM, BODY)
    assert survey_short(found, car, ROOM) == (
        "survives a survey error of up to 10.0 mm (tolerance ± 3.0); tightest: box 1 flange front, 7.0 left "
        "to wall"
    )


def test_the_way_leads_from_the_face_to_the_obstacle() -> None:
    """By hand: straight out of the middle of each face; from the flange's edge at an angle to a post."""
    post = Keepout("post", Block((-200.0, 180.0, 200.0), (-180.0, 200.0, 378.5)), 13.0)
    _, found = of(replace(ROOM, keepouts=(post,)), BODY)
    ways = {(one.part, one.face): (one.at, one.to) for one in found}
    assert ways["walls", "front"] == ((-42.0, 0.0, 312.5), (0.0, 0.0, 312.5))
    assert ways["walls", "bottom"] == ((-171.0, 0.0, 225.0), (-171.0, 0.0, 200.0))
    assert ways["walls", "left"] == ((-190.0, 150.0, 301.75), (-190.0, 180.0, 301.75))
    assert ways["flange", "left"] == ((-190.0, 172.0, 395.5), (-190.0, 180.0, 378.5))
    assert all(dist(one.at, one.to) == pytest.approx(one.distance, abs=0.01) for one in found)


def test_the_way_to_a_bar() -> None:
    bar = Keepout("column", Cylinder((20.0, -90.0, 430.0), (20.0, 90.0, 430.0), 30.0), 30.0)
    _, found = of(replace(ROOM, keepouts=(bar,)), BODY)
    top = next(one for one in found if (one.part, one.face) == ("flange", "top"))
    assert top.at == pytest.approx((-20.0, top.at[1], 400.0))
    assert dist(top.at, top.to) == pytest.approx(35.0, abs=0.1)


def test_another_box_is_an_obstacle_that_hangs_on_no_survey() -> None:
    """Its flange is 14 behind the first one's, and the bay's boxes keep 10 from each other."""
    behind = replace(BODY, low=(-400.0, -150.0, 225.0), high=(-358.0, 150.0, 400.0))
    car, found = of(ROOM, BODY, behind)
    between = [one for one in found if not one.surveyed]
    assert {(one.box, one.part, one.face, one.obstacle, one.distance, one.asked) for one in between} == {
        (1, "walls", "rear", "box 2", 36.0, 10.0),
        (1, "flange", "rear", "box 2", 14.0, 10.0),
        (2, "walls", "front", "box 1", 36.0, 10.0),
        (2, "flange", "front", "box 1", 14.0, 10.0),
    }
    alone = tuple(one for one in found if one.surveyed)
    assert survives(found, car) == survives(alone, car)
    assert fails_if_out(found, car, 99.0) == fails_if_out(alone, car, 99.0)
    assert "box 2,box 1" not in margin_csv(found)


# Of triangles a face looks at what lies 30 degrees out of its plane, of a prism at 9 already: no wall of
# these outlines slants by an angle between.
OUTLINES = {
    "square": SQUARE.outline,
    "slanting": ((-500.0, -400.0), (0.0, -400.0), (0.0, 208.0), (-192.0, 400.0), (-500.0, 400.0)),
    "five corners": ((-490.0, -340.0), (20.0, -300.0), (320.0, 0.0), (20.0, 300.0), (-490.0, 340.0)),
}


@pytest.mark.parametrize("reads", ["room", "body"])
@pytest.mark.parametrize("pieces", [1, 3])
@pytest.mark.parametrize("name", OUTLINES)
def test_a_prism_and_its_triangles_give_the_same(
    name: str, pieces: int, reads: Literal["room", "body"]
) -> None:
    prism = Prism(OUTLINES[name], 200.0, 500.0)
    _, plain = of(replace(ROOM, room=prism), BODY)
    _, found = of(replace(ROOM, room=as_shell(prism, reads, pieces)), BODY)
    assert told(found) == told(plain)
    assert [one.asked for one in found] == [one.asked for one in plain]


@settings(max_examples=40)
@given(
    st.tuples(st.integers(-470, -100), st.integers(-370, 200), st.integers(205, 400)),
    st.tuples(st.integers(10, 200), st.integers(10, 250), st.integers(20, 200)),
)
def test_wherever_the_box_stands_triangles_give_the_same(low: Vector, size: Vector) -> None:
    x, y, z = (min(a + b, most) for a, b, most in zip(low, size, (-25.0, 370.0, 499.0), strict=True))
    box = replace(BODY, low=low, high=(x, y, z))
    _, plain = of(ROOM, box)
    _, found = of(with_shells(ROOM, 2), box)
    assert told(found) == told(plain)


def test_a_keep_out_of_triangles_is_as_one_of_its_shape() -> None:
    """The post stands 30 beside the body, 8 beside the flange and 12 under it."""
    post = Block((-200.0, 180.0, 200.0), (-180.0, 200.0, 383.5))
    cut = prism_surface(rectangle(post.low[:2], post.high[:2]), post.low[2], post.high[2])
    _, plain = of(replace(ROOM, keepouts=(Keepout("post", post, 13.0),)), BODY)
    _, found = of(replace(ROOM, keepouts=(Keepout("post", cut, 13.0),)), BODY)
    assert told(found) == told(plain)


def test_what_the_triangles_are_off_is_asked_besides() -> None:
    _, found = of(replace(ROOM, room=as_shell(SQUARE, off=0.5)), BODY)
    assert {one.asked for one in found} == {13.5}
    post = replace(prism_surface(rectangle((-200.0, 180.0), (-180.0, 200.0)), 210.0, 400.0), off=0.25)
    _, found = of(replace(ROOM, keepouts=(Keepout("post", post, 20.0),)), BODY)
    assert {one.asked for one in found if one.obstacle == "post"} == {20.25}


def test_a_box_outside_a_room_of_triangles_or_inside_a_keep_out_has_none() -> None:
    out = replace(BODY, low=(100.0, -150.0, 225.0), high=(358.0, 150.0, 400.0))
    _, found = of(with_shells(ROOM), out)
    assert {(one.obstacle, one.distance) for one in found} == {("wall", 0.0)}
    around = prism_surface(rectangle((-400.0, -300.0), (-10.0, 300.0)), 205.0, 490.0)
    _, found = of(replace(ROOM, keepouts=(Keepout("tank", around, 13.0),)), BODY)
    assert {(one.obstacle, one.distance) for one in found} == {("tank", 0.0)}


def test_a_body_ends_at_its_block() -> None:
    """Of the metal only the floor was scanned; the rest of the room ends where it is said to."""
    shell = as_shell(SQUARE, "body")
    floor = [k for k, corners in enumerate(shell.surface.corners) if (corners[:, 2] == 200.0).all()]
    open_top = replace(shell, surface=replace(shell.surface, triangles=shell.surface.triangles[floor]))
    _, plain = of(ROOM, BODY)
    assert told(of(replace(ROOM, room=open_top), BODY)[1]) == told(plain)


def assert_sound(car: Car, layout: Layout) -> None:
    """No face short of its allowance, and the least over all faces of body and slab as the judge has it."""
    found = margins(car, layout)
    assert min((one.left for one in found), default=0.0) >= -0.01
    assert fails_if_out(found, car, 1.0) == ()
    for room in car.bays:
        for number, box in enumerate(boxes_of(layout, room), 1):
            for part, pieces in (("walls", bands(box, room.box)), ("flange", (slab(box, room.box),))):
                own = [one for one in found if (one.bay, one.box, one.part) == (room.name, number, part)]
                bodies = [Cuboid(block.low, block.high) for piece in pieces for block in piece.blocks]
                judged = min(one.measure(body) - one.needed for one in obstacles(room) for body in bodies)
                assert (part == "flange" and room.box.flange == 0.0) == (own == [])
                assert min((one.left for one in own), default=judged) == pytest.approx(judged, abs=0.003)
            assert survives(found, car)[room.name] >= room.tolerance - 0.01


def test_the_sample_car(tmp_path: Path) -> None:
    car = read_car(write_car(tmp_path))
    layout = find_layout(car, read_module(tmp_path / "modules" / "heron-44.toml"))
    assert isinstance(layout, Layout)
    assert_sound(car, layout)
    found = margins(car, layout)
    assert {one.bay for one in found} == {room.name for room in layout.bays if room.boxes}
    assert max(map(len, margin_table(found).splitlines())) <= 100


@settings(max_examples=20)
@given(cars(), modules())
def test_every_layout_found_keeps_what_it_is_asked(car: Car, module: Module) -> None:
    layout = find_layout(car, module)
    if isinstance(layout, Layout):
        assert_sound(car, layout)
