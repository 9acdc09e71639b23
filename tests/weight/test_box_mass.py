"""The closed-form mass against sums by hand; tests/solid holds it against the solids."""

from dataclasses import replace
from math import pi

import pytest
from hypothesis import given

from boxfit.bay import BoxRules
from boxfit.box_shape import rectangle
from boxfit.layout import PlacedBox
from boxfit.weight.box_mass import box_mass, part_masses
from tests.box.samples import RULES, boxes, height_and_levels

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
