"""The margins on the pictures: every face has its figure, nothing overlaps, the tightest stands out."""

from dataclasses import replace
from functools import cache
from itertools import combinations

import pytest

from boxfit.bay import Bay, Block, Keepout
from boxfit.car import Car
from boxfit.layout import BayLayout, Layout
from boxfit.report.look import FIGURE, FIGURE_SHORT
from boxfit.report.margin_views import ROWS, drawn_margins
from boxfit.report.margins import Margin, margins
from boxfit.report.marks import figure, marks_of
from boxfit.report.paper import Sheet, plain_settings
from boxfit.report.parts import boxes_of
from boxfit.report.projection import PLAN, REAR, SIDE, VIEWS, View
from boxfit.report.views import drawn
from tests.report.samples import HERON, SAMPLES, box, roadster
from tests.report.shells import scanned
from tests.report.test_views import boxes, texts

FACES = {
    "plan": {"front", "rear", "left", "right"},
    "side": {"front", "rear", "top", "bottom"},
    "rear": {"left", "right", "top", "bottom"},
}


def with_scan() -> tuple[Car, Layout]:
    """The roadster with a scanned boot and one box in it."""
    car, _, layout = roadster()
    boot = scanned()
    placed = box(HERON, (-2440.0, -250.0, 345.0), (1, 3, 1), ("height", "x"))
    return (
        replace(car, bays=(car.bays[0], boot)),
        replace(layout, bays=(layout.bays[0], BayLayout(boot.name, (placed,)))),
    )


CASES: dict[str, tuple[Car, Layout]] = {name: make()[::2] for name, make in SAMPLES.items()}
CASES["scan"] = with_scan()


@cache
def sheet(name: str) -> Sheet:
    with plain_settings():
        return drawn_margins(*CASES[name])[0]


@pytest.mark.parametrize("name", CASES)
def test_no_two_words_overlap_nor_leave_the_page(name: str) -> None:
    placed = boxes(sheet(name))
    clashes = [
        (first, second)
        for (first, a), (second, b) in combinations(placed, 2)
        if a.x0 < b.x1 and b.x0 < a.x1 and a.y0 < b.y1 and b.y0 < a.y1
    ]
    assert clashes == []
    whole = sheet(name).figure.bbox
    assert all(whole.x0 < b.x0 and b.x1 < whole.x1 and whole.y0 < b.y0 and b.y1 < whole.y1 for _, b in placed)


@pytest.mark.parametrize("view", VIEWS, ids=lambda view: view.name)
@pytest.mark.parametrize("name", CASES)
def test_every_face_seen_edge_on_has_a_mark_the_least_of_its_parts(name: str, view: View) -> None:
    car, layout = CASES[name]
    for bay in car.bays:
        marks = marks_of(view, bay, car, layout)
        own = [one for one in margins(car, layout) if one.bay == bay.name]
        assert {(m.margin.box, m.margin.face) for m in marks} == {
            (number, face) for number, _ in enumerate(boxes_of(layout, bay), 1) for face in FACES[view.name]
        }
        for mark in marks:
            here = [one for one in own if (one.box, one.face) == (mark.margin.box, mark.margin.face)]
            assert mark.margin.left == pytest.approx(min(one.left for one in here), abs=1e-5)
            assert mark.tightest == (mark.margin.left <= min(one.left for one in own) + 1e-6)


def figures(page: Sheet) -> list[str]:
    """The figures of the margins on a page."""
    colours = (FIGURE.colour, FIGURE_SHORT.colour)
    return [text.get_text() for text in texts(page) if text.get_color() in colours]


@pytest.mark.parametrize("name", CASES)
def test_every_mark_of_the_margin_sheet_is_told(name: str) -> None:
    car, layout = CASES[name]
    told = figures(sheet(name))
    assert len(told) > 3
    for bay in car.bays:
        for view in VIEWS:
            for mark in marks_of(view, bay, car, layout):
                assert any(figure(mark.margin) in words for words in told)


@pytest.mark.parametrize("name", ["roadster", "scan", "crossed"])
@pytest.mark.parametrize("view", VIEWS, ids=lambda view: view.name)
def test_the_views_of_the_layout_carry_the_figures(name: str, view: View) -> None:
    car, layout = CASES[name]
    with plain_settings():
        told = figures(drawn(car, layout, view))
    for bay in car.bays:
        assert {figure(mark.margin) for mark in marks_of(view, bay, car, layout)} <= set(told)


def test_words_on_the_sheet() -> None:
    told = [text.get_text() for text in texts(sheet("scan"))]
    for expected in (
        "A boot hinge (moving);  B exhaust (hot, negotiable);  C bracket (sharp edge);  "
        "opening: up, the whole side",
        "moving part",
        "hot part",
        "+5.0 wall",
        "+2.0 floor",
        "survives a survey error of up to 5.0 mm (tolerance ± 3.0); "
        "tightest: box 1 walls bottom, 2.0 left to floor",
    ):
        assert expected in told


def test_boxes_behind_one_another_are_told_once() -> None:
    told = [text.get_text() for text in texts(sheet("van"))]
    assert "box 1, 2" in told
    assert told.count("+58.5 top") == 3  # once in the side view, twice side by side in the rear view


def test_boxes_behind_one_another_that_differ_are_told_by_number() -> None:
    """From the side both boxes reach as far to the rear; on the wall behind the second is a post."""
    car, layout = CASES["van"]
    post = Keepout("post", Block((-2150.0, -400.0, 240.0), (-2100.0, -300.0, 480.0)), 20.0)
    bays = (car.bays[0], replace(car.bays[1], keepouts=(post,)), car.bays[2])
    with plain_settings():
        told = figures(drawn_margins(replace(car, bays=bays), layout)[0])
    assert {"box 1: +505.0 wall", "box 2: +498.0 post"} <= set(told)


def test_many_bays_take_several_sheets() -> None:
    car, layout = CASES["roadster"]
    names = [f"bay {k}" for k in range(ROWS + 1)]
    bays = tuple(replace(car.bays[0], name=name) for name in names)
    placed = tuple(BayLayout(name, layout.bays[0].boxes) for name in names)
    with plain_settings():
        sheets = drawn_margins(replace(car, bays=bays), replace(layout, bays=placed))
        assert len(sheets) == 2
        assert drawn_margins(car, replace(layout, bays=())) == ()


def test_a_figure_has_its_sign() -> None:
    at = (0.0, 0.0, 0.0)
    for distance, words in ((13.0, "+0.0"), (20.27, "+7.2"), (12.0, "-1.0")):
        assert figure(Margin("b", 1, "walls", "front", "wall", distance, 13.0, at, at)) == words


def test_an_empty_bay_has_no_marks() -> None:
    car, layout = CASES["roadster"]
    empty: Bay = replace(car.bays[0], name="empty")
    for view in (PLAN, SIDE, REAR):
        assert marks_of(view, empty, car, layout) == ()
