"""The papers as a whole: readable, numbered, complete, the same for the same car."""

import re
from dataclasses import replace

import pytest

from boxfit.module import Voltage
from boxfit.papers.boxes import boxes
from boxfit.papers.case import WORKING_AID, missing
from boxfit.papers.cover import against
from boxfit.papers.electrics import electrics
from boxfit.papers.fixings import failing, fixings, percent
from boxfit.papers.flow import SIZE, pages_of
from boxfit.papers.labels import labels, torque
from boxfit.papers.masses import masses
from boxfit.papers.whole import arrangement, numbered, papers, section_part
from boxfit.sheet.drawing.marks import Drawing, Page
from boxfit.sheet.drawing.overlap import outside_frame, overlaps
from boxfit.sheet.drawing.paper import A0, A1, A2, A3, A4
from boxfit.sheet.drawing.pdf import pdf_of
from boxfit.weight.corners import margins
from tests.box.samples import HERON, RULES, car_and_layout
from tests.papers.samples import (
    DEMOS,
    demo_case,
    demo_papers,
    made,
    silent_case,
    silent_papers,
    words_of,
)

PAPERS = {(paper.width, paper.height) for paper in (A4, A3, A2, A1, A0)}
SECTIONS = (
    "Masses and limits",
    "Arrangement",
    "Boxes",
    "Boxes and fixings under load factors",
    "Electrics",
    "Holes in the body, vent and drain",
    "Labels to fix",
    "Torque record",
    "Cautions and assumptions",
    "Sources of every borrowed figure",
)


def assert_readable(found: Drawing) -> None:
    for number, page in enumerate(found.pages, start=1):
        assert page.size in PAPERS
        assert (number, overlaps(page)) == (number, ())
        edge = 5.0 if page.size[0] > A4.width else 10.0
        assert (number, outside_frame(page, (edge, edge, edge, edge))) == (number, ())


@pytest.mark.parametrize("car", DEMOS)
def test_every_page_of_both_demo_cars_can_be_read(car: str) -> None:
    assert_readable(demo_papers(car))


def test_every_page_can_be_read_where_little_is_told() -> None:
    assert_readable(silent_papers())


@pytest.mark.parametrize("car", DEMOS)
def test_every_page_tells_car_module_number_and_caution(car: str) -> None:
    pages = demo_papers(car).pages
    for number, page in enumerate(pages, start=1):
        words = words_of((page,))
        assert f"page {number} of {len(pages)}" in words
        assert WORKING_AID in words
        assert demo_case(car).title in words


@pytest.mark.parametrize("car", DEMOS)
def test_the_contents_tell_the_page_where_each_section_begins(car: str) -> None:
    pages = demo_papers(car).pages
    listed = [text.words for text in pages[0].texts]
    for title in SECTIONS:
        page = int(listed[listed.index(title) + 1])
        first = next(
            number
            for number, one in enumerate(pages[1:], start=2)
            if title in [text.words for text in one.texts]
        )
        assert (title, page) == (title, first)


@pytest.mark.parametrize("car", DEMOS)
def test_every_margin_is_that_of_the_sums(car: str) -> None:
    case, words = demo_case(car), words_of(demo_papers(car).pages)
    figures = [f"{one.left:+.1f}" for state in case.states for one in margins(state, case.car.limits)]
    assert len(figures) == 12
    left = words.partition("what is left of them")[2]
    for figure in figures:
        assert figure in left.partition("Change of each wheel")[0]


@pytest.mark.parametrize("car", DEMOS)
def test_every_wheel_of_every_state_is_that_of_the_sums(car: str) -> None:
    case, words = demo_case(car), words_of(demo_papers(car).pages)
    loads = words.partition("Loads in kg")[2].partition("Limits of the maker")[0]
    for state in case.states:
        row = " ".join(f"{load:.1f}" for load in state.corners.each)
        assert f"{state.name} {row}" in loads


@pytest.mark.parametrize("car", DEMOS)
def test_every_failing_check_is_marked_and_has_its_remedy(car: str) -> None:
    case, words = demo_case(car), words_of(demo_papers(car).pages)
    failed = failing(case)
    assert failed  # else this test shows nothing
    assert words.count("FAILS") == len(failed)
    table = words.partition("What does not pass, and what would")[2].partition("Every check")[0]
    for use in failed:
        assert percent(use) in table
        for word in use.remedy.split():
            assert word in table
    assert f"{len(failed)} of {len(case.retention.uses)} checks do not pass" in words


def test_a_limit_that_is_broken_stands_on_the_cover() -> None:
    case = demo_case("dunlin-850")
    assert not any("over its limit" in words for words in against(case))
    tight = replace(case, car=replace(case.car, limits=replace(case.car.limits, gross=800.0)))
    assert [words for words in against(tight) if "gross over its limit" in words]
    loads = pages_of(masses(tight))
    assert "OVER BY" in words_of(tuple(Page(SIZE, marks) for marks in loads))


def test_what_is_not_told_is_named_with_its_key_and_no_page_is_empty() -> None:
    case, found = silent_case(), silent_papers()
    words = words_of(found.pages)
    keys = ("[weighed]", "[limits]", "[electrics]", "[[mount]]", "[[carried]]", "current = {")
    told = " ".join(missing(case))
    for key in keys:
        assert key in told
        assert key in words
    for page in found.pages:
        assert len(page.texts) > 6


def test_the_same_car_gives_the_same_bytes() -> None:
    assert pdf_of(papers(silent_case())) == pdf_of(silent_papers())


def test_holes_drilled_are_those_of_the_mounts() -> None:
    case = demo_case("dunlin-850")
    words = (
        words_of(demo_papers("dunlin-850").pages).partition("Holes for the feet")[2].partition("Cables")[0]
    )
    for bay in case.car.bays:
        for mount in bay.mounts:
            assert mount.name in words
    new = sum(mount.drilled for bay in case.car.bays for mount in bay.mounts)
    assert f"{new} new holes in the body" in words


def test_the_highest_voltage_is_on_labels_and_in_the_isolation_to_reach() -> None:
    words = words_of(demo_papers("dunlin-850").pages)
    assert "151 V d.c." in words
    assert re.search(r"15\.1 kilohm", words)  # 151.2 V times 100 ohm for each volt, UNECE R100


def test_strings_run_from_minus_to_plus_through_every_module_once() -> None:
    words = words_of(demo_papers("petrel-van").pages)
    strings = re.findall(r"minus((?: - \d+)+) - plus", words)
    numbers = [int(number) for string in strings for number in re.findall(r"\d+", string)]
    assert sorted(numbers) == list(range(1, demo_case("petrel-van").layout.count + 1))


def test_long_names_and_words_without_a_space_find_room() -> None:
    car, layout = car_and_layout()
    name = "a car whose name is as long as the files allow, " + "x" * 50
    bays = tuple(
        replace(bay, name=f"{bay.name} of the exceptionally long-named part {'y' * 40}") for bay in car.bays
    )
    filled = tuple(replace(one, name=bay.name) for one, bay in zip(layout.bays, bays, strict=True))
    carried = (replace(car.carried[0], name="n" * 100),)
    named = replace(car, name=name, bays=bays, carried=carried)
    case = made(named, replace(HERON, name="Heron " + "z" * 60), replace(layout, car=name, bays=filled))
    assert arrangement(case).texts
    for section in (masses(case), boxes(case), fixings(case), electrics(case), labels(case), torque(case)):
        part = section_part(section)
        assert_readable(Drawing("papers", tuple(numbered(case, (part,)))))


def test_a_printed_box_is_told_to_be_without_strength() -> None:
    car, layout = car_and_layout()
    front = replace(car.bays[0], box=replace(RULES, process="printed", material="petg", thickness=4.0))
    one = replace(layout, bays=layout.bays[:1], count=6, series=3)
    case = made(replace(car, bays=(front,)), HERON, one)
    words = words_of(section_part(fixings(case)).pages)
    assert "nothing bears it" in words
    assert "no strength is known for petg" in words
    assert "the box is printed" in words_of(section_part(boxes(case)).pages)


def test_above_the_table_of_creepage_no_distance_is_told() -> None:
    case = silent_case()
    high = replace(HERON, voltage=Voltage(200.0, 300.0, 400.0))
    words = words_of(section_part(electrics(made(case.car, high, case.layout))).pages)
    assert "2000.0 V full" in words
    assert "no distance is told" in words


def test_the_drawing_of_the_arrangement_tells_the_loads_as_built() -> None:
    case = demo_case("dunlin-850")
    state = next(one for one in case.states if one.name == "with driver")
    words = words_of((arrangement(case),))
    for load in (state.corners.front, state.corners.rear, state.corners.gross):
        assert f" {load:.0f} " in words
    assert f"front share {state.front_share:.3f}" in words
