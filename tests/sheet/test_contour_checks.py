"""Lines that cannot be cut and folds that would tear are told; what the program lays flat has none."""

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, assume, given, settings

from boxfit.bay import BoxRules, Point
from boxfit.box.build import box_parts
from boxfit.box.notes import cannot_build
from boxfit.layout import PlacedBox
from boxfit.sheet.checks import findings_of
from boxfit.sheet.contour_checks import contour_findings
from boxfit.sheet.finding import Finding, told_once
from boxfit.sheet.flat import Bend, Corner, Flat, Hole, straight
from boxfit.sheet.flats import flats_of
from boxfit.workshop import FoldShop
from tests.box.samples import bay_with, boxes, stepped_boxes

SQUARE = [(0.0, 0.0), (200.0, 0.0), (200.0, 100.0), (0.0, 100.0)]
PLATE = Flat("plate", "aluminium-5754", 2.0, (straight(SQUARE),), (200.0, 100.0, 2.0))
WINDOW = straight([(50.0, 40.0), (90.0, 40.0), (90.0, 60.0), (50.0, 60.0)])
FOLD = Bend((0.0, 30.0), (200.0, 30.0), True, 90.0, 2.0, 0.33, 4.0, 27.0)


def codes(flat: Flat) -> list[tuple[str, str]]:
    return [(one.code, one.place) for one in contour_findings(flat)]


def of_points(*points: Point) -> Flat:
    return replace(PLATE, contours=(straight(list(points)),))


def test_a_sound_plate() -> None:
    assert codes(replace(PLATE, contours=(*PLATE.contours, WINDOW), holes=(Hole((20.0, 20.0), 5.0),))) == []


@pytest.mark.parametrize(
    ("points", "code"),
    [
        (((0.0, 0.0), (200.0, 0.0)), "contour not closed"),
        (((0.0, 0.0), (200.0, 0.0), (100.0, 0.0)), "contour not closed"),
        (((0.0, 0.0), (200.0, 0.0), (200.0, 0.0), (200.0, 100.0)), "contour not closed"),
        ((*SQUARE, (0.0, 0.0)), "contour not closed"),
        (((0.0, 0.0), (200.0, 0.0), (50.0, 80.0), (200.0, 100.0)), "contour crosses itself"),
    ],
)
def test_lines_round_no_area(points: tuple[Point, ...], code: str) -> None:
    assert [found for found, _ in codes(of_points(*points))] == [code]


def test_where_a_contour_crosses_itself() -> None:
    crossed = of_points((0.0, 0.0), (200.0, 100.0), (200.0, 0.0), (0.0, 100.0), (-50.0, 50.0))
    assert codes(crossed) == [("contour crosses itself", "contour at 100.0, 50.0")]


def test_an_arc_that_crosses_a_side() -> None:
    """A half round of 50 that bulges in over a plate 40 high."""
    arc = (
        Corner(0.0, 0.0),
        Corner(150.0, 0.0),
        Corner(150.0, 40.0),
        Corner(125.0, 40.0, -1.0),
        Corner(25.0, 40.0),
    )
    assert [code for code, _ in codes(replace(PLATE, contours=((*arc, Corner(0.0, 40.0)),)))] == [
        "contour crosses itself"
    ]
    higher = tuple(replace(one, y=60.0) if one.y else one for one in (*arc, Corner(0.0, 40.0)))
    assert codes(replace(PLATE, contours=(higher,))) == []


def test_what_is_there_twice() -> None:
    turned = (*WINDOW[2:], *WINDOW[:2])
    twice = replace(PLATE, contours=(*PLATE.contours, WINDOW, turned))
    assert codes(twice) == [("contour cut twice", "contour at 50.0, 40.0")]
    hole = Hole((20.0, 20.0), 5.0)
    assert codes(replace(PLATE, holes=(hole, replace(hole, diameter=7.0)))) == [
        ("hole cut twice", "hole at 20.0, 20.0")
    ]


def test_openings_past_the_edge() -> None:
    outside = straight([(150.0, 40.0), (210.0, 40.0), (210.0, 60.0), (150.0, 60.0)])
    found = codes(replace(PLATE, contours=(*PLATE.contours, outside), holes=(Hole((1.0, 50.0), 5.0),)))
    assert found == [
        ("opening past the edge", "opening at 180.0, 50.0"),
        ("opening past the edge", "hole at 1.0, 50.0"),
    ]


@pytest.mark.parametrize(("apart", "told"), [(9.0, False), (8.9, True)])
def test_holes_near_one_another(apart: float, told: bool) -> None:
    """Two of 5 mm in sheet 2 mm thick: 4 mm between their edges."""
    holes = (Hole((50.0, 50.0), 5.0), Hole((50.0 + apart, 50.0), 5.0))
    found = findings_of(replace(PLATE, holes=holes), FoldShop())
    assert [(one.code, round(one.figure, 6), one.limit) for one in found] == (
        [("hole to hole", 3.9, 4.0)] if told else []
    )


def flange_on(*notched: Point) -> Flat:
    """A plate with a flange narrower than it along its lower side, the corners of the right end as given."""
    points = [(40.0, 0.0), (160.0, 0.0), *notched, (200.0, 100.0), (0.0, 100.0), (0.0, 20.0), (40.0, 20.0)]
    fold = Bend((40.0, 28.0), (160.0, 28.0), True, 90.0, 2.0, 0.33, 4.0, 27.0)
    return replace(PLATE, contours=(straight(points),), bends=(fold,))


def test_a_fold_that_ends_in_the_sheet_has_no_relief() -> None:
    """The bend takes 26 to 30; without a cut beside it the sheet tears at either end."""
    assert codes(flange_on((160.0, 20.0), (200.0, 20.0))) == [
        ("no relief", "end of the fold at 40.0, 28.0"),
        ("no relief", "end of the fold at 160.0, 28.0"),
    ]


@pytest.mark.parametrize(("depth", "told"), [(30.5, False), (29.0, True), (25.0, True)])
def test_a_relief_past_the_bend(depth: float, told: bool) -> None:
    """A cut 3 wide beside the right end, as deep as given; the bend ends at 30."""
    flat = flange_on((160.0, depth), (163.0, depth), (163.0, 20.0), (200.0, 20.0))
    assert ("no relief", "end of the fold at 160.0, 28.0") in codes(flat) or not told
    assert ("no relief", "end of the fold at 160.0, 28.0") not in codes(flat) or told


def test_a_fold_from_edge_to_edge_needs_none() -> None:
    assert codes(replace(PLATE, bends=(FOLD,))) == []


def test_what_is_alike_is_told_once() -> None:
    one = Finding("flange too short", "tray", "fold at 0, 0", 9.0, 10.0)
    others = [replace(one, place=f"fold at {x}, 0") for x in (1, 2)]
    assert told_once((one, *others, replace(one, part="lid"))) == (
        "tray: flange too short: fold at 0, 0 and 2 more: 9 mm, 10 asked for; "
        "try: 1 mm more of it (box.flange for a tray's), or a shop with a smaller die",
        "lid: flange too short: fold at 0, 0: 9 mm, 10 asked for; "
        "try: 1 mm more of it (box.flange for a tray's), or a shop with a smaller die",
    )
    assert told_once(()) == ()


def lines_of(rules: BoxRules, box: PlacedBox) -> list[str]:
    flats = flats_of(box_parts(bay_with(rules), 1, box), rules)
    return [one.text for flat in flats for one in contour_findings(flat)]


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.filter_too_much])
@given(sample=boxes())
def test_no_box_has_lines_that_cannot_be_cut(sample: tuple[BoxRules, PlacedBox]) -> None:
    rules, box = sample
    # the returned edge of a cover plate is too low for the relief of a wider bend, which is told
    assume(not cannot_build(rules, (box,)) and rules.bend_radius <= 4.0 * rules.lid_thickness)
    assert lines_of(rules, box) == []


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.filter_too_much])
@given(sample=stepped_boxes())
def test_no_stepped_box_has_lines_that_cannot_be_cut(sample: tuple[BoxRules, PlacedBox]) -> None:
    rules, box = sample
    # the returned edge of a cover plate is too low for the relief of a wider bend, which is told
    assume(not cannot_build(rules, (box,)) and rules.bend_radius <= 4.0 * rules.lid_thickness)
    assert lines_of(rules, box) == []
