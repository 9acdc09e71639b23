"""Flats weigh what the box does, but for what a bend is known to be off and what weld fills."""

from dataclasses import replace
from math import pi

import pytest
from hypothesis import given, settings

from boxfit.bay import BoxRules
from boxfit.box.build import box_parts
from boxfit.box.notes import cannot_build
from boxfit.box.parts import LedgeBar, Tray
from boxfit.box_shape import area, grown, perimeter
from boxfit.layout import PlacedBox
from boxfit.sheet.flat import Flat
from boxfit.sheet.flats import flats_of
from boxfit.standards.bending import k_factor
from boxfit.weight.box_mass import PartMass, part_masses
from tests.box.samples import LOW, RULES, bay_with, box_around, boxes, height_and_levels, stepped_boxes

GAP = RULES.fold_shop.weld_gap
PLAY = 2.0 * RULES.tolerances.cut


def made(rules: BoxRules, box: PlacedBox) -> tuple[Tray, tuple[Flat, ...], dict[str, PartMass]]:
    parts = box_parts(bay_with(rules), 1, box)
    height, levels = height_and_levels(box)
    cover = parts.cover_plate
    returned = cover is not None and cover.returned
    masses = part_masses(box.outlines, height, levels, rules, cover is not None, returned)
    return parts.tray, flats_of(parts, rules), {part.part: part for part in masses}


def volume(flat: Flat) -> float:
    return flat.quantity * flat.area * flat.thickness


def stud_volume(part: str, rules: BoxRules, flat: Flat) -> float:
    """Collars of 10 x 4 and threads of 6 on the lid, one at each cross."""
    each = pi / 4.0 * (10.0**2 * 4.0 + 6.0**2 * (rules.lid_thickness + 3.2))
    return len(flat.marks) * each if part == "lid" else 0.0


def bar_volume(ledge: LedgeBar) -> float:
    outline, height = ledge.outside.outline, ledge.outside.top - ledge.outside.bottom
    return (area(outline) - area(grown(outline, -ledge.width))) * height


def welded_volume(tray: Tray) -> float:
    """At most what the welds fill: corners, reliefs, mitres, air round tabs, holes that are drilled later."""
    thick, outer = tray.thickness, tray.thickness + (tray.bend_radius or 0.0)
    rim, low = tray.bands[-1].top, tray.bands[0].bottom
    upright = (thick + 3.0 * GAP) * thick * (rim - low)
    corners = max(len(band.outline) for band in tray.bands)
    bends = 8.0 * outer**2 * thick + 2.0 * GAP * (tray.flange + outer) * thick
    tabs = sum(perimeter(band.outline) / 75.0 + 2.0 * len(band.outline) for band in tray.bands)
    air = (2.0 * PLAY * (thick + PLAY / 2.0) + 20.0 * PLAY / 2.0) * thick
    return corners * (upright + bends) + (tabs * air if tray.floor_radius is None else 0.0)


@settings(deadline=None, max_examples=60)
@given(boxes())
def test_plain_parts_weigh_alike(sample: tuple[BoxRules, PlacedBox]) -> None:
    assert_alike(*sample)


@settings(deadline=None, max_examples=60)
@given(stepped_boxes())
def test_stepped_parts_weigh_alike(sample: tuple[BoxRules, PlacedBox]) -> None:
    assert_alike(*sample)


def assert_alike(rules: BoxRules, box: PlacedBox) -> None:
    if cannot_build(rules, (box,)) or rules.process == "printed":
        return
    tray, flats, masses = made(rules, box)
    for flat in flats:
        part = flat.name.removeprefix("front bay box 1 ")
        if part in masses and part not in ("tray", "cover plate"):
            assert volume(flat) + stud_volume(part, rules, flat) == pytest.approx(masses[part].volume)
    ledges = sum(volume(flat) for flat in flats if " ledge " in flat.name)
    assert ledges == pytest.approx(sum(map(bar_volume, tray.ledges)))
    sheets = [flat for flat in flats if flat.name.startswith(tray.name) and " ledge " not in flat.name]
    cut = len(tray.holes) - sum(len(flat.holes) for flat in sheets)
    drilled = cut * pi / 4.0 * tray.hole_diameter**2 * tray.thickness
    missing = masses["tray"].volume - ledges + drilled - sum(map(volume, sheets))
    rest = missing - bend_error(tray)
    assert -1e-6 <= rest <= welded_volume(tray)


def bend_error(tray: Tray) -> float:
    """What bends hold more than the sheet they use up: the neutral fibre is not in the middle."""
    if tray.bend_radius is None:
        return 0.0
    thick, radius = tray.thickness, tray.bend_radius
    bend = pi / 2.0 * (0.5 - k_factor(radius, thick)) * thick**2
    around, round_top = perimeter(tray.bands[0].outline), perimeter(tray.bands[-1].outline)
    floor = bend * around if tray.floor_radius is not None else 0.0
    return floor + (bend * round_top if tray.flange else 0.0)


def test_the_usual_tray_is_one_percent_lighter_in_the_flat() -> None:
    tray, flats, masses = made(RULES, box_around(LOW, (480.3, 390.7), (138.0, 120.0), RULES))
    sheet = volume(flats[0])
    whole = masses["tray"].volume - sum(map(bar_volume, tray.ledges))
    assert 0.005 < 1.0 - sheet / whole < 0.01
    bends = bend_error(tray)
    assert 0.0 < 1.0 - (sheet + bends) / whole < 0.006


def test_a_bar_for_every_length() -> None:
    """3 + 4 / 2 wide inside 395 x 295: two along the whole of 295, two between them in 395 - 2 x 5."""
    _, flats, _ = made(RULES, box_around(LOW, (400.0, 300.0), (138.0, 120.0), RULES))
    bars = [flat for flat in flats if " ledge " in flat.name]
    assert [(bar.formed, bar.quantity) for bar in bars] == [
        ((385.0, 5.0, 5.0), 2),
        ((295.0, 5.0, 5.0), 2),
    ]
    bare = replace(RULES, gap=0.0, liner=0.0)
    _, flats, _ = made(bare, box_around(LOW, (400.0, 300.0), (90.0, 90.0), bare))
    assert not [flat for flat in flats if " ledge " in flat.name]
