"""The closed-form mass against sums by hand; tests/solid holds it against the solids."""

from dataclasses import replace
from math import pi

import pytest
from hypothesis import given

from boxfit.bay import BoxRules
from boxfit.box_shape import rectangle
from boxfit.layout import PlacedBox
from boxfit.weight.box_mass import box_mass, part_masses
from tests.box.samples import RULES, boxes, height_and_levels, plan_by

SQUARE = replace(RULES, process="welded", thickness=2.0, flange=0.0, lid_thickness=2.0, liner=0.0)
PLAN = (rectangle((0.0, 0.0), (600.0, 400.0)),)


def test_square_tray_and_lid_by_hand() -> None:
    """A block less its cavity, and a plate; 2660 kg/m3."""
    tray, lid = part_masses(PLAN, 200.0, (2.0,), SQUARE)
    assert tray.volume == pytest.approx(600 * 400 * 198 - 596 * 396 * 196)
    assert lid.volume == pytest.approx(600 * 400 * 2)
    assert lid.mass == pytest.approx(0.48 * 2.66)
    assert lid.centre == (300.0, 200.0, 199.0)


def test_bend_saves_sheet_by_hand() -> None:
    """A quarter ring for a square corner along four mitred sides; r 3, t 2, no flange.

    What is saved has the profile of a square less its quarter, 4 - pi of a radius squared over 4, with its
    centre 2 / (12 - 3 pi) of the radius from the rounding's own centre (textbook).
    """
    folded = replace(SQUARE, process="folded", bend_radius=3.0)
    saved = 0.0
    for radius, sign in ((5.0, 1.0), (3.0, -1.0)):
        area = radius**2 * (1 - pi / 4)
        middle = -5.0 + radius * 2 / (12 - 3 * pi)
        saved += sign * area * (2 * (600 + 400) + 8 * middle)
    square, bent = part_masses(PLAN, 200.0, (2.0,), SQUARE)[0], part_masses(PLAN, 200.0, (2.0,), folded)[0]
    assert square.volume - bent.volume == pytest.approx(saved)


def test_an_angle_by_hand() -> None:
    """A floor and walls of 2 round an L, 198 high under its lid: the L less its cavity."""
    angle = ((5.0, 7.0), (605.0, 7.0), (605.0, 107.0), (105.0, 107.0), (105.0, 407.0), (5.0, 407.0))
    tray, lid = part_masses((angle,), 200.0, (2.0,), SQUARE)
    floor, cavity = 600 * 100 + 100 * 300, 596 * 96 + 96 * 300
    assert tray.volume == pytest.approx(floor * 198 - cavity * 196)
    across = 600 * 100 * 300 + 100 * 300 * 50
    within = 596 * 96 * 300 + 96 * 300 * 50
    assert tray.centre[0] == pytest.approx((across * 198 - within * 196) / tray.volume)
    assert lid.centre == pytest.approx((across / floor, (600 * 100 * 50 + 100 * 300 * 250) / floor, 199.0))


def test_a_step_floor_by_hand() -> None:
    """Walls of 2 round 300 x 400 below and 600 x 400 above; the step floor's underside 100 up.

    A ledge of 2 x 5 runs round the inside below the shelf.
    """
    below, above = rectangle((0.0, 0.0), (300.0, 400.0)), rectangle((0.0, 0.0), (600.0, 400.0))
    tray, _, shelf = part_masses((below, above), 200.0, (2.0, 102.0), SQUARE)
    hole = 296 * 396
    outside, bar = 300 * 400 * 100 + 600 * 400 * 98, (hole - 292 * 392) * 5
    assert tray.volume == pytest.approx(outside - hole * (98 + 2) - 596 * 396 * 96 + bar)
    assert shelf.volume == pytest.approx(295 * 395 * 2)
    assert tray.centre[1] == pytest.approx(200.0)
    assert tray.centre[0] > shelf.centre[0]


def test_outlines_may_be_told_in_any_coordinates() -> None:
    """And from any corner on; the centre counts from the low corner of the extent."""
    angle = plan_by("L")
    turned = (*angle[2:], *angle[:2])
    moved = tuple((x + 1234.5, y - 77.0) for x, y in turned)
    one, other = (box_mass((plan,), 200.0, (5.5,), RULES, True) for plan in (angle, moved))
    assert one.centre == pytest.approx(other.centre)
    assert one.mass == pytest.approx(other.mass)


def test_liner_is_weighed_as_polyethylene() -> None:
    """Floor sheet and four walls up to 0.5 below the lid; 950 kg/m3."""
    *_, liner = part_masses(PLAN, 200.0, (5.0,), replace(SQUARE, liner=3.0))
    inside = 596 * 396
    assert liner.volume == pytest.approx(3 * inside + (inside - 590 * 390) * (197.5 - 5.0))
    assert liner.mass == pytest.approx(liner.volume * 950e-9)


def test_cover_plate_counts_when_made() -> None:
    """It lies above the box, and its studs between."""
    without, with_plate = (box_mass(PLAN, 200.0, (5.5,), RULES, made) for made in (False, True))
    assert with_plate.mass > without.mass + 2.0 * 644 * 444 * 2660e-9
    assert with_plate.centre[2] > without.centre[2]


def test_a_box_of_nothing_weighs_nothing() -> None:
    """Where no box is asked for."""
    nothing = replace(
        SQUARE, material="", thickness=0.0, lid_thickness=0.0, headroom=0.0, gap=0.0, asked=False
    )
    box = box_mass(PLAN, 200.0, (0.0,), nothing)
    assert (box.mass, box.centre) == (0.0, (300.0, 200.0, 100.0))


@given(boxes())
def test_parts_add_up_to_the_box(drawn: tuple[BoxRules, PlacedBox]) -> None:
    """Mass and first moment."""
    rules, box = drawn
    height, levels = height_and_levels(box)
    whole = box_mass(box.outlines, height, levels, rules, True)
    parts = part_masses(box.outlines, height, levels, rules, True)
    assert whole.mass == pytest.approx(sum(part.mass for part in parts))
    assert whole.mass * whole.centre[2] == pytest.approx(sum(part.mass * part.centre[2] for part in parts))
    assert all(part.mass > 0.0 for part in parts)
    assert 0.0 < whole.centre[2] < height
