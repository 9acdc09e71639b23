"""Single-line diagram and plan of strings: readable, complete, the same in every symbol's place."""

from dataclasses import replace
from itertools import pairwise

import pytest

from boxfit.box.wiring.figures import Electrics
from boxfit.sheet.cable_orders import cable_orders
from boxfit.sheet.drawing.marks import Circle, Drawing, Page
from boxfit.sheet.drawing.overlap import outside_frame, overlaps
from boxfit.sheet.drawing.pdf import pdf_of
from boxfit.sheet.line_columns import crossings_of, frames_of
from boxfit.sheet.single_line import single_line_drawing
from boxfit.sheet.strings_plan import strings_drawing
from tests.box.wiring.samples import electrics

MARGINS = (15.0, 5.0, 5.0, 5.0)
DRAWINGS = (single_line_drawing, strings_drawing)


def words_of(page: Page) -> list[str]:
    return [text.words for text in page.texts]


def with_strings(found: Electrics, *strings: tuple[int, ...]) -> Electrics:
    """The same pack with its strings another way round."""
    return replace(found, wiring=replace(found.wiring, pack=replace(found.wiring.pack, strings=strings)))


@pytest.mark.parametrize("draw", DRAWINGS)
@pytest.mark.parametrize(
    "strings",
    [(), ((1, 7, 2, 8, 3), (4, 9, 5, 10, 6)), ((1, 2, 3, 4, 5), (6, 7, 8, 9, 10))],
    ids=["as laid", "to and fro", "in turn"],
)
def test_nothing_overlaps_and_all_is_in_the_frame(draw: object, strings: tuple[tuple[int, ...], ...]) -> None:
    found = with_strings(electrics(), *strings) if strings else electrics()
    drawing = draw(found)  # type: ignore[operator]
    assert isinstance(drawing, Drawing)
    (page,) = drawing.pages
    assert overlaps(page) == ()
    assert outside_frame(page, MARGINS) == ()
    assert pdf_of(drawing) == pdf_of(drawing)
    assert any("High voltage kills" in words for words in words_of(page))


def test_long_names_of_bays_are_cut_short_over_the_tiers() -> None:
    """So that the plan takes no larger sheet for them, and box and tier are still told."""
    found = electrics()
    long = "the long compartment behind the seats where once the tank and the spare wheel were"
    boxes = tuple(replace(box, name=f"{long} box {place}") for place, box in enumerate(found.boxes, start=1))
    (page,) = strings_drawing(replace(found, boxes=boxes)).pages
    assert page.size == strings_drawing(found).pages[0].size
    assert overlaps(page) == ()
    heads = [words for words in words_of(page) if words.startswith("the long")]
    assert heads
    assert all("… box" in words and ", tier" in words for words in heads)


def test_the_diagram_names_every_box_module_and_cable_that_is_there() -> None:
    found = electrics()
    (page,) = single_line_drawing(found).pages
    words = words_of(page)
    for box in found.boxes:
        assert box.name in words
        assert f"{box.modules} modules, {box.energy:.3g} kWh" in words
    for name in ("K1", "K2", "K3", "R1", "F0", "F1", "F2", "inverter", "charger", "R iso"):
        assert name in words
    numbered = sorted(int(number) for line in words for number in line.split(", ") if number.isdigit())
    assert numbered[:1] == [1]
    assert set(range(1, 11)) <= set(numbered)
    assert f"+ {found.volts.full:.1f} V full" in words


def test_columns_hold_every_module_once_and_strings_run_on_in_order() -> None:
    found = with_strings(electrics(), (1, 7, 2, 8, 3), (4, 5, 6, 9, 10))
    frames = frames_of(found, 200.0)
    columns = [column for frame in frames for column in frame.columns]
    assert sorted(n for column in columns for group in column.groups for n in group) == list(range(1, 11))
    assert all(one.right < other.left for one, other in pairwise(frames))
    on = [(one.start.groups[-1][-1], one.end.groups[0][0]) for one in crossings_of(frames)]
    assert on == [(1, 7), (7, 2), (2, 8), (8, 3), (6, 9)]
    assert sum(column.is_first for column in columns) == sum(column.is_last for column in columns) == 2


def test_a_disconnect_opens_every_string_once() -> None:
    """After the third of five: within a stay in a box, or between two stays."""
    for strings in (((1, 2, 3, 4, 5), (6, 7, 8, 9, 10)), ((1, 2, 3, 7, 8), (4, 5, 6, 9, 10))):
        found = with_strings(electrics(), *strings)
        (page,) = single_line_drawing(found).pages
        opened = [words for words in words_of(page) if words.startswith(("S1", "S2"))]
        assert sorted(words[:2] for words in opened) == ["S1", "S2"]


def test_the_plan_shows_each_module_with_its_place_and_its_terminals() -> None:
    found = electrics()
    (page,) = strings_drawing(found).pages
    words = words_of(page)
    for number, string in enumerate(found.wiring.pack.strings, start=1):
        for place, module in enumerate(string, start=1):
            assert f"{module}: {number}.{place}" in words
    assert (words.count("− minus"), words.count("+ plus")) == (2, 2)
    dots = [mark for mark in page.marks if isinstance(mark, Circle) and mark.filled]
    assert len(dots) == 10


def test_cable_is_ordered_by_length_with_a_tenth_spare() -> None:
    found = electrics()
    orders = {one.what: one for one in cable_orders(found)}
    length = sum(route.length for _, route in found.wiring.routed) * 1.1 / 1000.0
    assert 0.0 <= float(orders["link cable"].quantity) - length < 0.5
    assert int(orders["cable lug"].quantity) == 2 * len(found.wiring.routed)
    crossing = {cable.conductor.between for cable in found.wiring.cables if cable.conductor.between}
    assert int(orders["module link"].quantity) == 8 - len(crossing)
    assert "16 mm2" in orders["module link"].about
