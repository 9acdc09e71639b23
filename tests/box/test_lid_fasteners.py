"""What holds lid and cover plate is counted, long enough, and of a size that is sold."""

from dataclasses import replace

import pytest
from hypothesis import given

from boxfit.bay import BoxRules
from boxfit.box.build import box_parts
from boxfit.box.fitting import Fastener
from boxfit.box.lid_fasteners import LENGTHS, lid_fasteners, rivet_nut, screw_length
from tests.box.samples import LOW, RULES, bay_with, box_around, workshops

BOX = box_around(LOW, (600.0, 400.0), (138.0,), RULES)


def rows(rules: BoxRules, top: float = 900.0) -> tuple[Fastener, ...]:
    return lid_fasteners(box_parts(bay_with(rules, top), 1, BOX), rules)


def test_by_hand() -> None:
    """Washer 1, lid 2, rivet-nut 13: M5 x 16. 8 spaces of 77.75 and 6 of 70.3: 28 screws. Nine studs."""
    screw, washer, nut, stud, dome = rows(RULES)
    assert (screw.what, screw.thread, screw.count) == ("button head screw, stainless", "M5 x 16", 28)
    assert screw.where == "front bay box 1, lid"
    assert (washer.thread, washer.count, nut.count) == ("M5", 28, 28)
    assert nut.what == "rivet-nut, grip 0.5 to 3 mm"
    assert (stud.thread, stud.count, dome.what, dome.count) == ("M6 x 14", 9, "dome nut", 9)


def test_a_gasket_asks_for_longer_screws() -> None:
    """2.67 more is 18.67: M5 x 20."""
    assert rows(replace(RULES, gasket_width=8.0, gasket_thickness=4.0))[0].thread == "M5 x 20"


def test_low_nuts_where_it_is_low() -> None:
    """Room for low nuts alone: the studs end flush with them."""
    *_, stud, nut = rows(RULES, BOX.high[2] + 9.2 + 3.0)
    assert (stud.thread, nut.what) == ("M6 x 9.2", "low nut")


def test_no_cover_plate_no_studs() -> None:
    assert len(rows(RULES, BOX.high[2] + 3.0)) == 3
    assert rows(replace(RULES, flange=0.0), BOX.high[2] + 3.0) == ()


@pytest.mark.parametrize(("sheet", "grip"), [(0.5, (0.5, 3.0)), (3.0, (0.5, 3.0)), (3.5, (3.0, 5.5))])
def test_rivet_nut_by_grip(sheet: float, grip: tuple[float, float]) -> None:
    found = rivet_nut(sheet)
    assert found is not None
    assert found[:2] == grip


def test_too_thick_for_rivet_nuts() -> None:
    """A nut and a washer under the flange instead."""
    assert rivet_nut(6.0) is None
    thick = replace(RULES, thickness=6.0, flange=60.0)
    assert [one.what for one in rows(thick)[2:4]] == ["nut", "washer under the flange"]


@given(workshops())
def test_screws_reach_through_their_nut(rules: BoxRules) -> None:
    """And are no longer than the next length sold."""
    nut = rivet_nut(rules.thickness)
    assert nut is not None
    asked = 1.0 + rules.rim_below_top + nut[2]
    length = screw_length(rules)
    assert length >= asked - 1e-9
    assert all(shorter < asked for shorter in LENGTHS if shorter < length)
