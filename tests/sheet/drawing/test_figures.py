"""What is written on a drawing is what the solid is."""

from collections import Counter
from dataclasses import replace

import pytest

from boxfit.box.names import file_stem
from boxfit.box.numbers import part_numbers
from boxfit.sheet.drawing.dimension import figure
from boxfit.sheet.drawing.flat_page import bend_table, hole_table
from boxfit.sheet.drawing.marks import Page
from boxfit.sheet.drawing.section_page import plane_of
from boxfit.sheet.drawing.three_views import extent_of
from boxfit.sheet.drawing.write import drawings_of
from boxfit.sheet.flats import flats_of
from tests.box.samples import HERON
from tests.sheet.drawing.samples import sample


def words_of(page: Page) -> list[str]:
    return [text.words for text in page.texts]


@pytest.mark.parametrize("box", ["front bay box 1", "rear bay box 1"])
def test_a_trays_overall_sizes_are_those_of_its_solid(box: str) -> None:
    page = sample().drawing(f"{box.replace(' ', '-')}-tray-drawing").pages[0]
    low, high = extent_of((sample().shapes[f"{box} tray"],))
    written = words_of(page)
    for one, other in zip(low, high, strict=True):
        assert figure(other - one) in written


def test_every_formed_part_tells_the_extent_of_its_solid() -> None:
    found = 0
    for one in sample().built:
        for name in (one.parts.tray.name, *(strip.name for strip in one.parts.fittings.strips)):
            stem = f"{file_stem(name)}-drawing"
            drawing = next((made for made in sample().drawings if made.stem == stem), None)
            if drawing and len(drawing.pages) > 1:
                low, high = extent_of((sample().shapes[name],))
                sizes = {figure(b - a) for a, b in zip(low, high, strict=True)}
                assert sizes <= set(words_of(drawing.pages[0]))
                found += 1
    assert found >= 3


def test_another_solid_gives_other_figures() -> None:
    """The figures come from the solid handed in, not from the description."""
    shapes = dict(sample().shapes)
    shapes["front bay box 1 tray"] = shapes["front bay box 1 shelf 1"]
    drawings = drawings_of(sample().car, HERON, sample().layout, sample().built, shapes)
    page = next(one for one in drawings if one.stem == "front-bay-box-1-tray-drawing").pages[0]
    low, high = extent_of((shapes["front bay box 1 tray"],))
    assert figure(high[0] - low[0]) in words_of(page)


def test_tables_hold_every_hole_and_every_bend() -> None:
    one = sample().built[0]
    page = sample().drawing("front-bay-box-1-tray-drawing").pages[1]
    flat = flats_of(one.parts, one.bay.box)[0]
    written = words_of(page)
    for table in (hole_table(flat), bend_table(flat)):
        assert len(table.rows) == len(flat.holes if table.columns[0] == "no." else flat.bends)
        for row in table.rows:
            assert all(words in written for words in row)
    assert {figure(side) for side in flat.size} <= set(written)


def test_the_parts_list_has_every_number_and_a_ring_for_each() -> None:
    first, second, _ = sample().drawing("front-bay-box-1-drawing").pages
    own = {number for number in part_numbers(sample().built).values() if number.startswith("F1-")}
    assert own <= set(words_of(first))
    rings = Counter(words_of(first) + words_of(second))
    assert all(rings[str(item)] >= 2 for item in range(1, len(own) + 1) if item not in (2, 3))


def test_the_section_goes_through_a_lid_screw_and_no_cutout() -> None:
    for one in sample().built:
        tray, y = one.parts.tray, plane_of(one.parts.tray)
        assert any(abs(hole[1] - y) < 1e-6 and hole[0] > tray.outside.high[0] for hole in tray.holes)
        ends = [cut for cut in tray.cutouts if cut.looks in ("front", "rear")]
        assert all(abs(cut.at[1] - y) > max(cut.diameter, cut.size[0]) / 2.0 for cut in ends)


def test_positions_in_the_car_are_told_from_axle_and_ground() -> None:
    written = words_of(sample().drawing("arrangement").pages[0])
    for one in sample().built:
        low, high = one.box.low, one.box.high
        assert {figure(low[2]), figure(high[2] - low[2])} <= set(written)
        assert figure(min(abs(low[0]), abs(high[0]))) in written
    assert "wheelbase 2180" in written


def test_a_box_further_forward_is_told_so() -> None:
    one = sample().built[0]
    moved = replace(one, box=replace(one.box, low=(one.box.low[0] + 7.0, *one.box.low[1:])))
    shapes = sample().shapes
    drawings = drawings_of(sample().car, HERON, sample().layout, (moved, *sample().built[1:]), shapes)
    arrangement = next(made for made in drawings if made.stem == "arrangement")
    assert figure(abs(moved.box.low[0])) in words_of(arrangement.pages[0])
