"""Stepped boxes and several in a bay: their bands, faces, margins and masses, worked out by hand."""

import csv
import io
from dataclasses import replace

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from boxfit.bay import Block, Keepout, Vector
from boxfit.box_shape import area
from boxfit.judge.distance import Cuboid
from boxfit.judge.places import obstacles
from boxfit.layout import BayLayout, PlacedBox
from boxfit.report.bands import Band, bands, beyond, slab
from boxfit.report.cautions import laden_mass
from boxfit.report.faces import part_faces, stepped_faces
from boxfit.report.margin_text import margin_csv, margin_table, survey_words
from boxfit.report.margins import Margin, margins
from boxfit.report.parts import flange_block
from boxfit.space.distance import FACES, block_distance
from tests.report.samples import HERON, bay, rectangle
from tests.report.shells import with_shells
from tests.report.stepped import (
    STEPPED,
    car_with,
    l_below,
    l_shape,
    notched,
    plain,
    rows,
    step_floor,
    u_shape,
)

CORNER: Vector = (-540.0, -290.0, 265.0)
ROOM = bay("bay", rectangle((-650.0, -380.0), (320.0, 330.0)), (250.0, 650.0), box=STEPPED)
SHAPES = {"l": l_shape, "u": u_shape, "step": step_floor, "l below": l_below}


def margins_of(room: Keepout | None, *placed: PlacedBox) -> tuple[Margin, ...]:
    """The margins of boxes in the room, with one keep-out."""
    own = replace(ROOM, keepouts=(room,) if room else ())
    car, _, layout = notched()
    rear = replace(car.bays[1], name="other")
    return margins(car_with(own, rear), replace(layout, bays=(BayLayout(own.name, placed),)))


def told(found: tuple[Margin, ...], box: int = 1) -> dict[tuple[str, str], tuple[str, float]]:
    """Obstacle and distance by part and name of the face."""
    return {(one.part, one.called): (one.obstacle, round(one.distance, 3)) for one in found if one.box == box}


def test_a_plain_box_is_one_band_with_six_faces() -> None:
    box = plain(CORNER, rows((0,), (0,)))
    assert bands(box, STEPPED) == (Band(box.outlines[0], box.low[2], box.high[2], (1,)),)
    assert [(part, face.name) for part, face in part_faces(box, STEPPED)] == [
        (part, face) for part in ("walls", "flange") for face in FACES
    ]
    lid = flange_block(box, STEPPED)
    assert slab(box, STEPPED).blocks == (Block(lid.low, lid.high),)


def test_the_bands_of_a_step() -> None:
    """The step lies a sheet below what the second tier stands on: 265 + 5.5 + 138 + 5."""
    low, high = bands(step_floor(CORNER), STEPPED)
    assert (low.bottom, low.top, high.bottom, high.top) == (265.0, 413.5, 413.5, 561.0)
    assert (low.tiers, high.tiers) == ((1,), (2,))
    assert low.outline == rectangle((-540.0, -290.0), (-166.0, 33.0))
    assert slab(step_floor(CORNER), STEPPED).outline == rectangle((-562.0, -312.0), (213.0, 208.0))


def test_tiers_with_the_same_walls_are_one_band() -> None:
    box = l_below(CORNER)
    high = box.tiers[1].outline
    same = replace(box, tiers=(replace(box.tiers[0], outline=high[1:] + high[:1]), box.tiers[1]))
    assert [(band.bottom, band.top, band.tiers) for band in bands(same, STEPPED)] == [(265.0, 561.0, (1, 2))]


def test_a_step_all_round_is_one_piece_with_a_hole() -> None:
    (ring,) = beyond(rectangle((0, 0), (9, 9)), [rectangle((2, 3), (4, 5))])
    assert sum(area(rectangle(*one)) for one in ring) == 81.0 - 4.0


def names(box: PlacedBox) -> list[str]:
    return [face.name for face in stepped_faces(bands(box, STEPPED))]


def test_every_wall_has_a_name_of_its_own() -> None:
    assert names(l_shape(CORNER)) == [
        "front wall, right part", "front wall, left part", "rear wall",
        "left wall, rear part", "left wall, front part", "right wall", "top", "bottom",
    ]  # fmt: skip
    assert names(u_shape(CORNER)) == [
        "front wall, right part", "front wall, middle part", "front wall, left part", "rear wall",
        "left wall", "left wall, in the recess", "right wall", "right wall, in the recess", "top", "bottom",
    ]  # fmt: skip
    assert names(l_below(CORNER)) == [
        "front wall, tier 2", "front wall, right part, tier 1", "front wall, left part, tier 1", "rear wall",
        "left wall, tier 2", "left wall, rear part, tier 1", "left wall, front part, tier 1", "right wall",
        "top", "bottom", "step floor",
    ]  # fmt: skip


def test_steps_on_two_sides_are_told_apart() -> None:
    low = Band(rectangle((100.0, 0.0), (200.0, 90.0)), 0.0, 50.0, (1,))
    high = Band(rectangle((0.0, 0.0), (350.0, 90.0)), 50.0, 99.0, (2,))
    steps = [face.name for face in stepped_faces((low, high)) if face.name.startswith("step")]
    assert steps == ["step floor, rear part", "step floor, front part"]
    stem = ((0.0, 0.0), (9.0, 0.0), (9.0, 3.0), (20.0, 3.0), (20.0, 6.0), (9.0, 6.0), (9.0, 9.0), (0.0, 9.0))
    shapes = (Band(stem, 0.0, 5.0, (1,)), Band(rectangle((0.0, 0.0), (20.0, 9.0)), 5.0, 9.0, (2,)))
    steps = [face.name for face in stepped_faces(shapes) if face.name.startswith("step")]
    assert steps == ["step floor, front right part", "step floor, front left part"]


@pytest.mark.parametrize("name", SHAPES)
def test_the_faces_close_the_box(name: str) -> None:
    """What looks one way is as large as what looks the other way, and covers the outlines."""
    sizes = {way: 0.0 for way in FACES}
    pieces = bands(SHAPES[name](CORNER), STEPPED)
    for face in stepped_faces(pieces):
        for block in face.blocks:
            a, b = (high - low for low, high in zip(block.low, block.high, strict=True) if high > low)
            sizes[face.way] += a * b
    assert sizes["front"] == pytest.approx(sizes["rear"])
    assert sizes["left"] == pytest.approx(sizes["right"])
    assert sizes["top"] == pytest.approx(sizes["bottom"]) == pytest.approx(area(pieces[-1].outline))
    called = [face.name for face in stepped_faces(pieces)]
    assert len(set(called)) == len(called)


def test_the_margins_of_an_l_by_hand() -> None:
    """A post in the notch: 20 ahead of the recessed front wall, 40 to the left of the arm's left wall."""
    post = Keepout("post", Block((-146.0, -80.0, 250.0), (-100.0, -40.0, 650.0)), 13.0)
    found = told(margins_of(post, l_shape(CORNER)))
    assert found["walls", "front wall, left part"] == ("post", 20.0)
    assert found["walls", "left wall, front part"] == ("post", 40.0)
    assert found["walls", "left wall, rear part"] == ("wall", 144.0)
    assert found["walls", "front wall, right part"] == ("wall", 129.0)
    assert found["flange", "left wall, front part"] == ("post", 18.0)
    assert found["flange", "front wall, left part"][0] == "post"
    assert found["walls", "bottom"] == ("floor", 15.0)


def test_a_recess_is_looked_into_and_never_through_the_box() -> None:
    """A column midway between the arms, 136 apart; without it those walls look at nothing but the box."""
    post = Keepout("column", Block((0.0, -77.0, 250.0), (50.0, -27.0, 650.0)), 13.0)
    found = told(margins_of(post, u_shape(CORNER)))
    assert found["walls", "left wall, in the recess"] == ("column", 43.0)
    assert found["walls", "right wall, in the recess"] == ("column", 43.0)
    assert found["walls", "front wall, middle part"] == ("column", 166.0)
    alone = told(margins_of(None, u_shape(CORNER)))
    assert not any(name.endswith("recess") for _, name in alone)


def test_the_margins_of_a_step_by_hand() -> None:
    """A beam under the step: 13.5 below it, 16 ahead of the lower wall."""
    beam = Keepout("beam", Block((-150.0, -380.0, 250.0), (-60.0, 330.0, 400.0)), 13.0)
    found = told(margins_of(beam, step_floor(CORNER)))
    assert found["walls", "step floor"] == ("beam", 13.5)
    assert found["walls", "front wall, tier 1"] == ("beam", 16.0)
    assert found["walls", "front wall, tier 2"] == ("wall", 129.0)
    assert found["flange", "front wall, tier 2"] == ("wall", 107.0)


def test_another_box_in_the_notch_is_an_obstacle_by_its_own_clearance() -> None:
    """Flange to flange 11 ahead of the notch and 12 beside it; the bay's boxes keep 10 from each other."""
    corner, inner = CORNER, (CORNER[0] + 374.0 + 44.0 + 12.0, CORNER[1] + 170.0 + 44.0 + 11.0, CORNER[2])
    found = margins_of(None, l_shape(corner), plain(inner, rows((0,))))
    between = {(one.box, one.part, one.called): one for one in found if not one.surveyed}
    front = between[1, "flange", "front wall, left part"]
    side = between[1, "flange", "left wall, front part"]
    assert (front.obstacle, front.distance, front.asked) == ("box 2", 12.0, 10.0)
    assert (side.obstacle, side.distance, side.asked) == ("box 2", 11.0, 10.0)
    assert between[2, "flange", "right"].distance == 11.0


def judged(pieces: tuple[Band, ...], room: Keepout | None) -> float:
    """The least that is left to what was surveyed, as the judge measures the blocks of the bands."""
    own = replace(ROOM, keepouts=(room,) if room else ())
    blocks = [Cuboid(block.low, block.high) for band in pieces for block in band.blocks]
    return min(one.measure(block) - one.needed for one in obstacles(own) for block in blocks)


@settings(max_examples=60)
@given(
    st.sampled_from(sorted(SHAPES)),
    st.tuples(st.integers(-640, 300), st.integers(-370, 310), st.integers(250, 630)),
    st.tuples(st.integers(5, 300), st.integers(5, 300), st.integers(5, 300)),
)
def test_the_tightest_is_always_told(name: str, low: Vector, size: Vector) -> None:
    box = SHAPES[name](CORNER)
    x, y, z = (float(a + b) for a, b in zip(low, size, strict=True))
    post = Keepout("post", Block(low, (x, y, z)), 13.0)
    for part, pieces in (("walls", bands(box, STEPPED)), ("flange", (slab(box, STEPPED),))):
        blocks = [block for band in pieces for block in band.blocks]
        assume(min(block_distance(block, Block(low, (x, y, z))) for block in blocks) > 0.0)
        least = min(one.left for one in margins_of(post, box) if one.part == part)
        assert least == pytest.approx(judged(pieces, post), abs=0.003)


@pytest.mark.parametrize("name", SHAPES)
def test_a_prism_and_its_triangles_give_the_same(name: str) -> None:
    car, _, layout = notched()
    placed = replace(layout, bays=(BayLayout(ROOM.name, (SHAPES[name](CORNER),)),))
    found = (margins(car_with(own, car.bays[1]), placed) for own in (ROOM, with_shells(ROOM)))
    one, other = (told(each) for each in found)
    assert one == other


def test_margins_as_text_name_the_walls() -> None:
    car, _, layout = notched()
    found = margins(car, layout)
    text = list(csv.DictReader(io.StringIO(margin_csv(found))))
    assert text[1]["face"] == "front wall, left part"
    assert (text[1]["part"], text[9]["part"], text[9]["face"]) == ("walls", "flange", "front wall, left part")
    assert max(map(len, margin_table(found).splitlines())) <= 110
    stuck = replace(car, bays=tuple(replace(one, tolerance=30.0, distance=40.0) for one in car.bays))
    words = " ".join(survey_words(margins(stuck, layout), stuck))
    assert "; box 1 right wall; box 1 walls bottom; box 1 flange at front wall, right part; " in words


def test_a_stepped_box_weighs_less_than_the_block_round_it() -> None:
    own = replace(ROOM, box=STEPPED)
    box = l_below(CORNER)
    whole = replace(box, tiers=tuple(replace(tier, outline=()) for tier in box.tiers))
    assert laden_mass(HERON, own, box) < laden_mass(HERON, own, whole)
    assert laden_mass(HERON, own, box) > len(box.modules) * HERON.mass
