"""Gasket and lid screws find room beside each other on the flange; pitch and corners hold for all sizes."""

from dataclasses import replace
from itertools import pairwise
from math import dist

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxfit.bay import BoxRules
from boxfit.box.notes import cannot_build
from boxfit.box_details import (
    LID_HOLE,
    TRAY_HOLE,
    flange_radius,
    screw_count,
    screw_inset,
    screw_points,
    takes_screws,
)
from boxfit.box_shape import rectangle
from boxfit.lid_details import (
    cover_past_flange,
    cover_plate_lacking,
    cover_radius,
    expects_returns,
    gasket_line,
    gasket_too_wide,
    has_gasket,
    least_gasket_flange,
    least_return,
    return_height,
)
from tests.box.samples import RULES, bay_with, workshops

WITH_GASKET = replace(RULES, gasket_width=8.0, gasket_thickness=4.0)


def test_without_a_gasket_the_screws_stay() -> None:
    """On the centre line of the flange."""
    assert screw_inset(RULES) == 11.0
    assert not has_gasket(replace(RULES, gasket_width=8.0))
    assert screw_inset(replace(RULES, gasket_width=8.0)) == 11.0


def test_a_gasket_moves_the_screws_outwards() -> None:
    """By hand: flange 22, bend to 2.5, gasket to 10.5, hole of 7 to 17.5: its middle 8 from the edge."""
    assert screw_inset(WITH_GASKET) == 8.0
    assert gasket_line(WITH_GASKET) == 6.5
    narrow = replace(WITH_GASKET, gasket_width=4.0)
    assert screw_inset(narrow) == 11.0
    assert gasket_line(narrow) == 5.0


def test_the_widest_gasket() -> None:
    """22 less bend 2.5, hole 7, edge 3.75; one that is wider stops the box and names a flange."""
    assert gasket_too_wide(RULES) == 8.75
    assert cannot_build(replace(WITH_GASKET, gasket_width=8.75)) == ()
    (told,) = cannot_build(replace(WITH_GASKET, gasket_width=10.0))
    assert told == (
        "box.gasket_width: at most 8.75 mm between bend and lid screws (got 10); box.flange = 23.25 would do"
    )
    assert gasket_too_wide(replace(RULES, flange=10.0)) == 0.0


@given(workshops(), st.floats(0.5, 20.0))
def test_the_flange_told_has_room(rules: BoxRules, width: float) -> None:
    """For gasket and screws alike, and one a little narrower has not."""
    asked = replace(rules, gasket_width=width, gasket_thickness=4.0)
    flange = least_gasket_flange(asked)
    enough = replace(asked, flange=flange)
    assert gasket_too_wide(enough) >= width - 1e-9
    assert takes_screws(enough)
    short = replace(asked, flange=flange - 0.1)
    assert gasket_too_wide(short) < width or not takes_screws(short)


@given(workshops())
def test_gasket_lies_between_bend_and_holes(rules: BoxRules) -> None:
    """And the holes keep 1.5 t from the edge, in the flange and in the lid."""
    if not takes_screws(rules):
        return
    inset = screw_inset(rules)
    assert inset - TRAY_HOLE / 2.0 >= 1.5 * rules.thickness - 1e-9
    assert inset - LID_HOLE / 2.0 >= 1.5 * rules.lid_thickness - 1e-9
    if has_gasket(rules):
        middle, half = gasket_line(rules), rules.gasket_width / 2.0
        assert middle - half >= flange_radius(rules) - 1e-9
        assert middle + half <= rules.flange - inset - TRAY_HOLE / 2.0 + 1e-9


@given(workshops(), st.tuples(st.floats(60.0, 1800.0), st.floats(60.0, 1800.0)))
def test_pitch_and_corners(rules: BoxRules, size: tuple[float, float]) -> None:
    """Every gap at most 80, and 60 or more wherever any whole number of spaces keeps both.

    None does between 80 and 120 and between 160 and 180 from the first screw to the last: there the pitch is
    shorter, which seals no worse. The first screw stands at most 15 from the flange's corner both ways.
    """
    screws = screw_points(rectangle((0.0, 0.0), size), rules)
    assert len(screws) == screw_count(size, rules) == len(set(screws))
    if not screws:
        assert not takes_screws(rules)
        return
    low, high = -rules.flange, (size[0] + rules.flange, size[1] + rules.flange)
    for axis in (0, 1):
        for edge in (min(one[1 - axis] for one in screws), max(one[1 - axis] for one in screws)):
            row = sorted(one[axis] for one in screws if abs(one[1 - axis] - edge) < 1e-6)
            gaps, length = [b - a for a, b in pairwise(row)], row[-1] - row[0]
            assert max(gaps) <= 80.0 + 1e-6
            both = any(60.0 * n <= length <= 80.0 * n for n in range(1, 40))
            assert both or length < 60.0 or 80.0 < length < 120.0 or 160.0 < length < 180.0
            assert not both or min(gaps) >= 60.0 - 1e-6
            assert row[0] - low <= 15.0 + 1e-6
            assert high[axis] - row[-1] <= 15.0 + 1e-6
    assert all(dist(one, other) >= 20.0 for k, one in enumerate(screws) for other in screws[:k])


def test_returned_edges_by_hand() -> None:
    """Plate 2, collar 4, lid 2, flange 2.5; with a gasket of 4, pressed to 2.67, so much more."""
    assert return_height(RULES) == 10.5
    assert return_height(WITH_GASKET) == pytest.approx(10.5 + 8.0 / 3.0)
    assert cover_past_flange(RULES) == 3.0
    assert least_return(RULES) == 8.5
    brake = replace(RULES, fold_shop=replace(RULES.fold_shop, least_flange=14.0))
    assert return_height(brake) == 16.0


def test_radius_suits_the_cover_plates_own_material() -> None:
    """EN 485-2 asks 1 t of 5754; 1.4301 is bent over one thickness; a box's larger radius stays."""
    sharp = replace(RULES, bend_radius=0.5)
    assert cover_radius(sharp) == 2.0
    assert cover_radius(replace(sharp, cover_material="stainless-1.4301", lid_thickness=1.5)) == 1.5
    assert cover_radius(RULES) == 2.5
    assert cover_radius(replace(RULES, process="printed")) is None
    assert cover_radius(replace(sharp, process="welded")) == 2.0


@given(workshops())
def test_the_bend_clears_the_lids_edge(rules: BoxRules) -> None:
    """Where the lid's top is, 4 below the plate, the inside of the edge is at least half a millimetre off."""
    radius, past = cover_radius(rules) or 0.0, cover_past_flange(rules) - rules.lid_thickness
    reach = radius - (radius**2 - (radius - 4.0) ** 2) ** 0.5 if radius > 4.0 else 0.0
    assert past - reach >= 0.5 - 1e-9
    assert past >= 1.0 - 1e-9
    assert return_height(rules) - rules.lid_thickness >= least_return(rules) - 1e-9


def test_boxes_beside_each_other_share_the_clearance() -> None:
    """Edges 3 past the flange: half of 6 will do, of 5 not."""
    for clearance, boxes, enough in ((3.0, 1, True), (2.9, 1, False), (6.0, 2, True), (5.9, 2, False)):
        assert expects_returns(replace(RULES, clearance=clearance, boxes=boxes)) == enough


def test_height_above_the_lid() -> None:
    """Collar 4, plate 2, low nut 3.2 above 518; less 3 of tolerance."""
    assert cover_plate_lacking(518.0, bay_with(RULES, 530.2)) == 0.0
    assert cover_plate_lacking(518.0, bay_with(RULES, 530.0)) == pytest.approx(0.2)
