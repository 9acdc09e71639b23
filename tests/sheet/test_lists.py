"""The lists: figures of one, quantities, and that nothing is missing or there twice."""

import csv
from dataclasses import replace
from pathlib import Path

import pytest

from boxfit.bay import Block, BoxRules
from boxfit.box.build import box_parts
from boxfit.box.fitting import Bought, Fastener
from boxfit.box.lid_fasteners import lid_fasteners
from boxfit.box.welds import welds_of
from boxfit.box.whole import BuiltBox
from boxfit.judge.nesting import judge_nesting
from boxfit.sheet.cut_list import cut_list_csv
from boxfit.sheet.drawing.overlap import overlaps
from boxfit.sheet.fastener_list import merged
from boxfit.sheet.nesting import nested
from boxfit.sheet.order_list import orders_of
from boxfit.sheet.stock import Nesting
from boxfit.sheet.stock_pages import scale_of, stock_drawing
from boxfit.sheet.wanted import wanted_of
from boxfit.sheet.weld_list import weld_list_csv
from boxfit.sheet.write_lists import write_lists
from tests.box.samples import LOW, RULES, bay_with, box_around, plan_by, stepped_box
from tests.sheet.nesting_samples import plate, rounded, wanted

GASKETED = replace(RULES, gasket_width=8.0, gasket_thickness=4.0)
WELDED = replace(RULES, shape="stepped", process="welded")


def built(rules: BoxRules = GASKETED) -> tuple[BuiltBox, ...]:
    bay = bay_with(rules)
    boxes = [
        box_around(LOW, (480.3, 390.7), (138.0, 120.0), rules),
        box_around(LOW, (300.0, 250.0), (138.0,), rules),
    ]
    return tuple(
        BuiltBox(bay, number, box, box_parts(bay, number, box)) for number, box in enumerate(boxes, start=1)
    )


BUILT = built()


def rows(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(text.splitlines()))


def test_cut_list_of_a_plate_by_hand() -> None:
    """300 x 200 of 2.5 mm sheet of 2660 kg/m3, with round corners of 40, an opening and two holes of 5.5."""
    flat = rounded("plate", 300.0, 200.0, 40.0)
    row = rows(cut_list_csv(wanted(replace(flat, quantity=3))))[0]
    edge = 2.0 * (220.0 + 120.0) + 2.0 * 3.141593 * 40.0 + 2.0 * (60.0 + 40.0) + 2.0 * 3.141593 * 5.5
    area = 300.0 * 200.0 - (4.0 - 3.141593) * 1600.0 - 60.0 * 40.0 - 2.0 * 3.141593 / 4.0 * 5.5**2
    assert float(row["cut length [mm]"]) == pytest.approx(edge, abs=0.06)
    assert float(row["area [mm2]"]) == pytest.approx(area, abs=0.6)
    assert float(row["mass [kg]"]) == pytest.approx(area * 2.5 * 2660.0e-9, abs=6e-4)
    told = ("quantity", "blank long [mm]", "blank short [mm]", "bends", "holes", "cut from")
    assert [row[key] for key in told] == ["3", "300.0", "200.0", "0", "2", "sheet"]


def test_cut_list_tells_bars_and_blanks_too_large() -> None:
    flats = (replace(plate("bar", 400.0, 10.0), bar=True), plate("huge", 2490.0, 300.0))
    assert [row["cut from"] for row in rows(cut_list_csv(wanted(*flats)))] == ["bar", "larger than the sheet"]


def test_every_part_has_its_number_once() -> None:
    numbers = [one.number for one in wanted_of(BUILT)]
    assert len(set(numbers)) == len(numbers)
    assert numbers[0] == "F1-01"
    assert {number[:3] for number in numbers} == {"F1-", "F2-"}


def test_fasteners_of_one_sort_are_counted_together() -> None:
    found = merged(fastener for one in BUILT for fastener in lid_fasteners(one.parts, GASKETED))
    sorts = [(one.what, one.thread) for one in found]
    assert len(set(sorts)) == len(sorts)
    screws = next(one for one in found if "screw" in one.what)
    assert screws.count == sum(len(one.parts.lid.holes) for one in BUILT)
    assert all(one.parts.name in screws.where for one in BUILT)


def test_weld_list_adds_up() -> None:
    bay = bay_with(WELDED)
    box = stepped_box((plan_by("L"), plan_by("U")), (138.0, 120.0), WELDED)
    welded = (BuiltBox(bay, 1, box, box_parts(bay, 1, box)),)
    found = rows(weld_list_csv(welded))
    *seams, whole = found
    assert len(seams) == len(welds_of(welded[0].parts, WELDED)) > 10
    assert float(whole["all alike [mm]"]) == pytest.approx(
        sum(float(row["all alike [mm]"]) for row in seams), abs=1.0
    )
    for row in seams:
        assert float(row["all alike [mm]"]) == pytest.approx(
            int(row["quantity"]) * float(row["length [mm]"]), abs=0.06 * int(row["quantity"])
        )


def test_order_list_by_hand() -> None:
    here = Block((0.0, 0.0, 0.0), (20.0, 20.0, 20.0))
    gland = Bought("cable gland", "gland 1", "left", (0.0, 0.0, 0.0), here, here, "M25, for 16 mm", 0.1)
    first = BUILT[0]
    parts = replace(
        first.parts, fittings=replace(first.parts.fittings, bought=(gland, replace(gland, name="gland 2")))
    )
    boxes = (replace(first, parts=parts), BUILT[1])
    asked = wanted_of(boxes)
    rivets = Fastener("rivet-nut", "M5", 12, "lid")
    orders = {(one.what, one.about): one for one in orders_of(boxes, asked, nested(asked), (rivets, rivets))}
    glands = orders[("cable gland", "M25, for 16 mm")]
    assert (glands.quantity, glands.unit, glands.used_for) == ("2", "pc", "front bay box 1")
    assert orders[("rivet-nut", "M5")].quantity == "24"
    (gasket,) = (one for one in orders.values() if one.what == "gasket")
    line = sum(2.0 * (x + y) for x, y in map(plan_of_gasket, boxes))
    assert 1.05 * line <= float(gasket.quantity) * 1000.0 <= 1.05 * line + 200.0 + 1e-6
    (liner,) = (one for one in orders.values() if one.what == "liner")
    assert float(liner.quantity) == pytest.approx(liner_by_hand(boxes) * 1e-6, abs=0.006)
    (bar,) = (one for one in orders.values() if one.what == "flat bar")
    length = sum((max(one.flat.size) + 3.0) * one.flat.quantity for one in asked if one.flat.bar)
    assert length <= float(bar.quantity) * 1000.0 < length + 100.0
    sheets = [one for one in orders.values() if one.what == "sheet"]
    assert sorted(one.about.split(",")[1] for one in sheets) == [" 2 mm", " 2.5 mm"]


def plan_of_gasket(one: BuiltBox) -> tuple[float, float]:
    assert one.parts.gasket is not None
    xs, ys = zip(*one.parts.gasket.path, strict=True)
    return (max(xs) - min(xs), max(ys) - min(ys))


def liner_by_hand(boxes: tuple[BuiltBox, ...]) -> float:
    """The two larger sides of every sheet of liner, all of which are blocks here [mm2]."""
    total = 0.0
    for one in boxes:
        assert one.parts.liner is not None
        for part in one.parts.liner.sheets:
            sides = sorted(b - a for a, b in zip(part.sheet.low, part.sheet.high, strict=True))
            total += sides[1] * sides[2]
    return total


def test_a_blank_too_large_is_ordered_for_itself() -> None:
    asked = wanted(plate("huge", 2490.3, 300.0))
    (order,) = orders_of((), asked, nested(asked), ())
    assert (order.what, order.about) == ("larger sheet", "aluminium-5754, 2.5 mm, at least 2491 x 300 mm")


def test_an_offcut_is_asked_for_where_little_is_needed() -> None:
    asked = wanted(plate("foot", 60.0, 40.0, 4))
    (order,) = orders_of((), asked, nested(asked), ())
    assert order.used_for.endswith("; an offcut of 60 x 1250 mm would do")


def test_all_files_are_written_alike_every_time_and_judged_clear(tmp_path: Path) -> None:
    written = []
    for name in ("one", "other"):
        folder = tmp_path / name
        folder.mkdir()
        report = write_lists(BUILT, folder)
        assert sorted(report.files) == sorted(path.name for path in folder.iterdir())
        written.append({path.name: path.read_bytes() for path in folder.iterdir()})
    assert written[0] == written[1]
    assert {"cut-list.csv", "weld-list.csv", "order-list.csv", "fastener-list.csv", "sheets.pdf"} <= set(
        written[0]
    )
    assert judge_nesting(tmp_path / "one") == ()


def test_printed_boxes_without_metal_have_no_cut_list(tmp_path: Path) -> None:
    printed = replace(RULES, process="printed", material="petg", thickness=4.0, lid_thickness=4.0)
    report = write_lists(built(printed), tmp_path)
    assert report.nesting == Nesting(())
    assert set(report.files) == {
        "fastener-list.csv",
        "order-list.csv",
        "templates-a3.pdf",
        "templates-a4.pdf",
    }


def test_pages_of_sheets_can_be_read() -> None:
    """Every part's number stands on it or its place is told; a long list goes on on a page of its own."""
    feet = [plate(f"foot {place}", 25.0 + place, 20.0) for place in range(120)]
    nesting = nested(wanted(rounded("lid", 600.0, 400.0, 30.0), *feet))
    drawing = stock_drawing(nesting)
    assert scale_of(nesting.sheets[0]) == 7
    assert len(drawing.pages) == 2
    for page in drawing.pages:
        assert overlaps(page) == ()
    words = [text.words for page in drawing.pages for text in page.texts]
    assert sum(word.endswith(" off") for word in words) == 121
    for one in nesting.sheets[0].placed:
        told = words.count(one.part.number)
        place = "at {:.0f}, {:.0f}".format(*one.at)
        assert told == 2 or (told == 1 and any(place in word for word in words))
