"""Pictures and words of stepped boxes and of several boxes in a bay, worked out by hand."""

from dataclasses import replace
from functools import cache
from itertools import combinations, pairwise

import pytest

from boxfit.bay import Vector
from boxfit.car import Car
from boxfit.layout import Layout, PlacedBox
from boxfit.report.bands import bands
from boxfit.report.drawn_box import drawn_box
from boxfit.report.faces import stepped_faces
from boxfit.report.look import FIGURE, FIGURE_SHORT
from boxfit.report.margin_views import drawn_margins
from boxfit.report.marks import figure, marks_of
from boxfit.report.panel import Panel
from boxfit.report.paper import Sheet, plain_settings
from boxfit.report.parts import covered_areas
from boxfit.report.projection import PLAN, REAR, SIDE, VIEWS, View
from boxfit.report.shape_words import outline_words, shape_words
from boxfit.report.shown_faces import shown_faces
from boxfit.report.sizes import box_spans
from boxfit.report.summary import summary
from boxfit.report.views import drawn
from boxfit.surface import Outline
from tests.report.samples import rectangle
from tests.report.stepped import (
    SAMPLES,
    STEPPED,
    cornered,
    l_below,
    l_shape,
    notched,
    paired,
    plain,
    rows,
    step_floor,
    u_shape,
)
from tests.report.test_views import boxes, texts

CORNER: Vector = (-540.0, -290.0, 265.0)
SHAPES = {"l": l_shape, "u": u_shape, "step": step_floor, "l below": l_below}
EVERY = [(name, view) for name in SAMPLES for view in VIEWS]
IDS = [f"{name}-{view.name}" for name, view in EVERY]


def test_the_outline_of_a_step_from_the_side_and_from_above() -> None:
    """Below 374 of 731 long and 323 of 476 wide, step 148.5 up; front and left of it stand out."""
    pieces = bands(step_floor((0.0, 0.0, 0.0)), STEPPED)
    side = drawn_box(SIDE, pieces)
    stairs = ((-731, 148.5), (-374, 148.5), (-374, 0), (0, 0), (0, 296), (-731, 296))
    assert side.outline == stairs
    assert (side.edges, side.hidden) == ((((0.0, 148.5), (-374.0, 148.5)),), ())
    above = drawn_box(PLAN, pieces)
    assert above.outline == ((-731, -476), (0, -476), (0, 0), (-731, 0))
    assert (above.edges, above.hidden) == ((), (((0.0, -323.0), (-374.0, -323.0), (-374.0, 0.0)),))
    behind = drawn_box(REAR, pieces)
    assert (behind.edges, len(behind.hidden)) == ((), 1)


def test_a_step_in_plan_is_seen_from_where_it_looks() -> None:
    """The notch of the L is on its left at the front: seen from the left, hidden from behind."""
    pieces = bands(l_shape((0.0, 0.0, 0.0)), STEPPED)
    assert drawn_box(SIDE, pieces).edges == (((-374.0, 150.5), (-374.0, 0.0)),)
    assert drawn_box(SIDE, pieces).hidden == ()
    assert drawn_box(REAR, pieces).edges == ()
    assert drawn_box(REAR, pieces).hidden == (((-170.0, 150.5), (-170.0, 0.0)),)
    assert len(drawn_box(PLAN, pieces).outline) == 6


def spans(box: PlacedBox, view: View) -> tuple[list[str], list[str]]:
    found = box_spans(Panel(view, 5.0, (0.0, 0.0)), (box,), STEPPED)
    return [span.words for span in found.across], [span.words for span in found.upright]


def test_every_step_is_dimensioned() -> None:
    assert spans(l_shape(CORNER), PLAN) == (["357", "374", "731"], ["306", "170", "476"])
    assert spans(u_shape(CORNER), PLAN) == (["357", "374", "731"], ["170", "136", "170", "476"])
    assert spans(step_floor(CORNER), SIDE) == (["357", "374", "731"], ["148.5", "147.5", "296"])
    assert spans(l_below(CORNER), PLAN) == (["357", "374", "731"], ["306", "170", "476"])
    assert spans(l_below(CORNER), SIDE) == (["731"], ["148.5", "147.5", "296"])
    assert spans(plain(CORNER, rows((0,), (0,))), PLAN) == (["374"], ["323"])


@pytest.mark.parametrize("name", SHAPES)
def test_every_face_is_told_in_some_view(name: str) -> None:
    box = SHAPES[name](CORNER)
    shown = [shown_faces(view, box, STEPPED) for view in VIEWS]
    assert {face for one in shown for face in one} == {
        face.name for face in stepped_faces(bands(box, STEPPED))
    }


@cache
def pages(name: str) -> dict[str, Sheet]:
    car, _, layout = SAMPLES[name]()
    with plain_settings():
        found = {view.name: drawn(car, layout, view) for view in VIEWS}
        return {**found, "margins": drawn_margins(car, layout)[0]}


@pytest.mark.parametrize("page", ["plan", "side", "rear", "margins"])
@pytest.mark.parametrize("name", SAMPLES)
def test_no_two_words_overlap(name: str, page: str) -> None:
    placed = boxes(pages(name)[page])
    clashes = [
        (first, second)
        for (first, a), (second, b) in combinations(placed, 2)
        if a.x0 < b.x1 and b.x0 < a.x1 and a.y0 < b.y1 and b.y0 < a.y1
    ]
    assert clashes == []


@pytest.mark.parametrize(("name", "view"), EVERY, ids=IDS)
def test_every_mark_is_told(name: str, view: View) -> None:
    car, _, layout = SAMPLES[name]()
    for page in (view.name, "margins"):
        said = [
            text.get_text()
            for text in texts(pages(name)[page])
            if text.get_color() in (FIGURE.colour, FIGURE_SHORT.colour)
        ]
        for own in car.bays:
            for mark in marks_of(view, own, car, layout):
                assert any(figure(mark.margin) in words for words in said)


def of(make: tuple[Car, object, Layout], page: str) -> list[str]:
    name = next(name for name, other in SAMPLES.items() if other()[2] == make[2])
    return [text.get_text() for text in texts(pages(name)[page])]


def test_between_two_boxes_one_of_them_tells() -> None:
    said = of(paired(), "margins")
    assert sum(words == "+1.0 box 2" for words in said) == 1
    assert "+1.0 box 1" not in said[: said.index("+1.0 box 2")]


def test_boxes_of_a_bay_are_told_apart() -> None:
    assert "box 1: modules 11-13; box 2: modules 14, 15   1:6" in of(cornered(), "plan")
    assert "(box 2)" in of(cornered(), "margins")
    assert {"box 1", "box 2"} <= set(of(paired(), "margins"))


def test_the_legend_tells_of_steps_only_where_there_are() -> None:
    assert "step, hidden" in of(notched(), "plan")
    car, _, layout = cornered()
    flat = replace(layout, bays=layout.bays[1:])
    with plain_settings():
        assert "step, hidden" not in [text.get_text() for text in texts(drawn(car, flat, PLAN))]


def test_what_stands_in_a_notch_is_not_covered() -> None:
    panel = Panel(PLAN, 1.0, (0.0, 0.0))
    covered = covered_areas(panel, l_shape((0.0, 0.0, 0.0)), STEPPED)
    assert sum(one.width * one.height for one in covered) == 731 * 170 + 374 * 306
    assert all(not a.meets(b) for a, b in combinations(covered, 2))


@pytest.mark.parametrize(
    ("outline", "words"),
    [
        (((0, 0), (3, 0), (3, 1), (2, 1), (2, 2), (1, 2), (1, 1), (0, 1)), "T-shaped"),
        (((0, 0), (2, 0), (2, 1), (3, 1), (3, 2), (1, 2), (1, 1), (0, 1)), "Z-shaped"),
        (((0, 0), (3, 0), (3, 1), (2, 1), (2, 2), (1, 2), (1, 3), (0, 3)), "stair-shaped"),
        (((0, 0), (3, 0), (3, 2), (2, 2), (2, 1), (1, 1), (1, 2), (0, 2)), "U-shaped"),
        (rectangle((0, 0), (1, 1)), "rectangular"),
    ],
)
def test_outlines_by_name(outline: Outline, words: str) -> None:
    assert {outline_words(outline[k:] + outline[:k]) for k in range(len(outline))} == {words}
    assert all(a[0] == b[0] or a[1] == b[1] for a, b in pairwise(outline))


def test_the_summary_tells_shapes_and_alternatives() -> None:
    car, module, layout = notched()
    text = summary(car, module, layout)
    lines = text.split("\n")
    assert max(map(len, lines)) <= 100
    start = lines.index("alternatives")
    assert lines[start + 1].startswith("  - fewest box corners: 2 modules fewer (4.4 kWh less), every box")
    assert lines[start + 2 : start + 5] == [
        "    instead of 0.502, lowest centre of mass 12 mm higher",
        "  - plain boxes only: 3 modules fewer",
        "",
    ]
    for expected in (
        "731 x 476 x 150.5 mm outside, 775 x 520 over the flange\n",
        "                  L-shaped, 6 corners\n",
        "                  stepped floor, step 148.5 mm above the lowest, 8 corners\n",
        "2: modules 5, 6, height up, length fore and aft; rectangular, 374 x 323 mm outside\n",
    ):
        assert expected in text
    assert shape_words(plain(CORNER, rows((0,))), STEPPED) == ""
