"""Every sheet can be read: no words over words or lines, nothing past the frame."""

from dataclasses import replace

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from boxfit.bay import Process
from boxfit.box_shape import rectangle
from boxfit.car import Car
from boxfit.layout import BayLayout, Layout, PlacedBox
from boxfit.module import Module
from boxfit.sheet.drawing.board import crossed, crossing
from boxfit.sheet.drawing.marks import Arrow, Circle, Line, Page, Text
from boxfit.sheet.drawing.overlap import outside_frame, overlaps
from boxfit.sheet.drawing.paper import A0, A1, A2, A3, A4
from tests.box.samples import HERON, RULES, bay_with, box_around, car_and_layout, plan_by, stepped_box
from tests.sheet.drawing.samples import Drawn, drawn, sample
from tests.test_demos import demo, laid_out

BORDERS = (15.0, 5.0, 5.0, 5.0)
"""What the frame with its border of grid references leaves at left, bottom, right and top [mm]."""
PAPERS = {(paper.width, paper.height) for paper in (A4, A3, A2, A1, A0)}


def assert_readable(found: Drawn) -> None:
    assert found.drawings
    for drawing in found.drawings:
        for number, page in enumerate(drawing.pages, start=1):
            assert page.size in PAPERS
            assert page.texts
            assert (drawing.stem, number, overlaps(page)) == (drawing.stem, number, ())
            assert outside_frame(page, BORDERS) == ()


def test_two_plain_boxes() -> None:
    assert_readable(sample())
    sizes = {page.size for one in sample().drawings if one.stem != "arrangement" for page in one.pages}
    assert sizes == {(420.0, 297.0)}


@pytest.mark.parametrize(("car", "module"), [("dunlin-850", "heron-44"), ("petrel-van", "heron-44")])
def test_both_demo_cars(car: str, module: str) -> None:
    read, made = demo(car, module)
    assert_readable(drawn(read, made, laid_out(read, made)))


@pytest.mark.parametrize("process", ["welded", "printed"])
def test_other_ways_of_making(process: Process) -> None:
    car, layout = car_and_layout()
    front, _ = car.bays
    bays = (replace(front, box=replace(front.box, process=process)),)
    one = replace(layout, bays=layout.bays[:1], count=6)
    assert_readable(drawn(replace(car, bays=bays), HERON, one))


def one_bay(boxes: tuple[PlacedBox, ...]) -> tuple[Car, Layout]:
    """A car with one bay of these boxes, no modules in them."""
    car, layout = car_and_layout()
    rules = replace(RULES, shape="stepped", boxes=3, tiers=3)
    bay = bay_with(rules)
    return replace(car, bays=(bay,)), replace(layout, count=0, bays=(BayLayout(bay.name, boxes),))


@pytest.mark.parametrize("plan", ["U", "T"])
def test_stepped_boxes(plan: str) -> None:
    rules = replace(RULES, shape="stepped")
    narrow = rectangle((-313.7, -200.1), (86.3, -40.1)) if plan == "U" else plan_by(plan)
    assert_readable(
        drawn(*with_heron(one_bay((stepped_box((narrow, plan_by(plan)), (138.0, 120.0), rules),))))
    )


def test_two_boxes_side_by_side() -> None:
    boxes = tuple(
        box_around((-450.0, -450.0 + 280.0 * place, 260.0), (300.0 + 90.0 * place, 190.0), (138.0,), RULES)
        for place in range(2)
    )
    assert_readable(drawn(*with_heron(one_bay(boxes))))


def with_heron(pair: tuple[Car, Layout]) -> tuple[Car, Module, Layout]:
    """Car, module and layout."""
    return pair[0], HERON, pair[1]


SPOT = (100.0, 100.0)


@pytest.mark.parametrize(
    "mark",
    [
        Text("other", (102.0, 101.0)),
        Text("turned", (103.0, 98.0), turn=90.0),
        Line((90.0, 101.0), (130.0, 101.0), "visible"),
        Circle((100.0, 100.0), 2.0, "dimension"),
        Arrow((104.0, 101.0), 0.0),
    ],
)
def test_words_over_something_are_found(mark: Text | Line | Circle | Arrow) -> None:
    assert len(overlaps(Page((420.0, 297.0), (Text("words", SPOT), mark)))) == 1


@pytest.mark.parametrize(
    "mark",
    [
        Text("other", (100.0, 104.0)),
        Text("turned", (99.0, 98.0), turn=90.0),
        Line((90.0, 99.0), (130.0, 99.0), "visible"),
        Circle((100.0, 101.0), 30.0, "dimension"),
    ],
)
def test_words_beside_something_are_not(mark: Text | Line | Circle) -> None:
    assert overlaps(Page((420.0, 297.0), (Text("more", SPOT), mark))) == ()


def test_what_reaches_past_the_frame_is_found() -> None:
    inside, past = Text("words", SPOT), Line((400.0, 50.0), (416.0, 50.0), "visible")
    assert outside_frame(Page((420.0, 297.0), (inside, past)), BORDERS) == (past,)


numbers = st.floats(-50.0, 50.0).map(lambda value: round(value, 2))


@given(st.tuples(numbers, numbers, numbers, numbers), st.tuples(numbers, numbers, numbers, numbers))
def test_crossing_agrees_with_another_library(
    segment: tuple[float, float, float, float], area: tuple[float, float, float, float]
) -> None:
    left, right = sorted((area[0], area[2]))
    low, high = sorted((area[1], area[3]))
    line = shapely.LineString([segment[:2], segment[2:]])
    gap = shapely.box(left, low, right, high).distance(line)
    depth = shapely.box(left, low, right, high).buffer(-1e-6).distance(line)
    found = bool(crossing((left, low, right, high), np.array([segment]))[0])
    other = bool(crossed(segment, np.array([[left, low, right, high]]), 0.0)[0])
    if gap > 1e-6:
        assert (found, other) == (False, False)
    elif depth < 1e-9:
        assert (found, other) == (True, True)


def test_a_long_name_of_a_bay_stays_beside_its_outline() -> None:
    """It is cut short where it would run over axle lines and the other bay."""
    car, layout = car_and_layout()
    long = "the long compartment behind the seats where once the tank and the spare wheel used to be"
    first = replace(car.bays[0], name=long)
    named = replace(layout, bays=(replace(layout.bays[0], name=long), *layout.bays[1:]))
    found = drawn(replace(car, bays=(first, *car.bays[1:])), HERON, named)
    assert_readable(found)
    words = [mark.words for mark in found.drawing("arrangement").pages[0].marks if isinstance(mark, Text)]
    assert [one for one in words if one.startswith("the long") and one.endswith("…")]
