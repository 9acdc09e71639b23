"""DXF files read back: sound, closed, to size, and always the same bytes."""

import os
import subprocess
import sys
from dataclasses import replace
from io import StringIO
from pathlib import Path
from typing import Any

import pytest
from ezdxf import units
from ezdxf.document import Drawing
from ezdxf.filemanagement import read as read_drawing
from ezdxf.path import make_path
from shapely import Point, Polygon

from boxfit.bay import BoxRules
from boxfit.box.build import box_parts
from boxfit.layout import PlacedBox
from boxfit.sheet.dxf import dxf_of, notes_of
from boxfit.sheet.flat import Flat
from boxfit.sheet.flats import flats_of
from boxfit.sheet.outline import points_of
from boxfit.sheet.write import write_flats
from boxfit.workshop import FoldedK, FoldShop
from tests.box.samples import LOW, RULES, bay_with, box_around, plan_by, stepped_box

STEPPED = replace(RULES, shape="stepped")
WELDED = replace(STEPPED, process="welded")
PLAIN_BOX = box_around(LOW, (480.3, 390.7), (138.0, 120.0), RULES)
WIDER = stepped_box((plan_by("L"), plan_by("U")), (138.0, 120.0), STEPPED)
SAMPLES: list[tuple[BoxRules, PlacedBox]] = [(RULES, PLAIN_BOX), (STEPPED, WIDER), (WELDED, WIDER)]


def flats(rules: BoxRules, box: PlacedBox) -> tuple[Flat, ...]:
    return flats_of(box_parts(bay_with(rules), 1, box), rules)


ALL = [flat for rules, box in SAMPLES for flat in flats(rules, box)]


def read(flat: Flat) -> Drawing:
    return read_drawing(StringIO(dxf_of(flat).decode("utf-8")))


def contours(document: Drawing) -> list[Any]:
    return [one for one in document.modelspace().query("LWPOLYLINE") if one.dxf.layer == "cut"]


@pytest.mark.parametrize("flat", ALL, ids=lambda flat: flat.name)
def test_sound_and_to_size(flat: Flat) -> None:
    document = read(flat)
    audit = document.audit()
    assert (audit.errors, audit.fixes) == ([], [])
    assert (document.dxfversion, document.units) == ("AC1024", units.MM)
    found = contours(document)
    assert len(found) == len(flat.contours)
    shapes = []
    for polyline in found:
        assert polyline.closed
        path = make_path(polyline)
        points = [(point.x, point.y) for point in path.flattening(0.0005)]
        assert points[0] == pytest.approx(points[-1])
        shapes.append(Polygon(points))
        assert shapes[-1].is_valid
    sheet = Polygon(shapes[0].exterior, [one.exterior for one in shapes[1:]])
    assert sheet.is_valid
    circles = list(document.modelspace().query("CIRCLE"))
    holes = [(circle.dxf.center.x, circle.dxf.center.y, 2.0 * circle.dxf.radius) for circle in circles]
    assert holes == pytest.approx([pytest.approx((*hole.at, hole.diameter)) for hole in flat.holes])
    drilled = sum(3.14159265 / 4.0 * wide**2 for _, _, wide in holes)
    assert sheet.area - drilled == pytest.approx(flat.area, abs=0.1)
    low_x, low_y, high_x, high_y = sheet.bounds
    assert (low_x, low_y, high_x, high_y) == pytest.approx((0.0, 0.0, *flat.size), abs=1e-3)


@pytest.mark.parametrize("flat", ALL, ids=lambda flat: flat.name)
def test_nothing_is_drawn_twice(flat: Flat) -> None:
    """No corner, hole or fold of a flat is there a second time."""
    corners = [(round(one.x, 4), round(one.y, 4)) for contour in flat.contours for one in contour]
    assert len(corners) == len(set(corners))
    lines = [(line.dxf.start, line.dxf.end) for line in read(flat).modelspace().query("LINE")]
    assert len(lines) == len(set(lines)) == len(flat.bends) + 2 * sum(not mark.text for mark in flat.marks)


@pytest.mark.parametrize("flat", [flat for flat in ALL if flat.bends], ids=lambda flat: flat.name)
def test_folds_run_from_edge_to_edge(flat: Flat) -> None:
    document = read(flat)
    edge = Polygon(points_of(flat.contours[0])).exterior
    ups = document.modelspace().query('LINE[layer=="fold up"]')
    downs = document.modelspace().query('LINE[layer=="fold down"]')
    assert (len(ups), len(downs)) == (
        sum(one.up for one in flat.bends),
        sum(not one.up for one in flat.bends),
    )
    for line in (*ups, *downs):
        for end in (line.dxf.start, line.dxf.end):
            assert edge.distance(Point(end.x, end.y)) < 0.02


def test_layers_and_words_of_the_trade() -> None:
    document = read(flats(*SAMPLES[0])[0])
    ours = [layer.dxf.name for layer in document.layers if layer.dxf.name not in ("0", "Defpoints")]
    assert ours == ["cut", "fold up", "fold down", "mark", "note"]
    words = [text.dxf.text for text in document.modelspace().query("TEXT")]
    told = "\n".join(words)
    for expected in (
        "front bay box 1 tray",
        "aluminium-5754, 2.5 mm, quantity 1",
        "outside once formed 524.3 x 434.7 x 276.0 mm",
        "inside radius 2.5 mm, K 0.325 by DIN 6935, none in the shop's table",
        "least inside radius 2.5 mm: EN 485-2, 5754 O/H111",
        "0.5 mm apart",
        "4 holes of 7 mm on the mitres: drill once welded and flush",
        "a working aid",
    ):
        assert expected in told
    assert words.count("up 90 R2.5") == words.count("down 90 R2.5") == 4


def test_the_shops_own_k_is_told() -> None:
    rules, box = SAMPLES[0]
    shop = FoldShop(k_table=(FoldedK(2.0, 2.5, 0.4), FoldedK(2.5, 2.5, 0.41)))
    rules = replace(rules, fold_shop=shop)
    flat = flats_of(box_parts(bay_with(rules), 1, box), rules)[0]
    told = "K 0.41 by the shop's table; DIN 6935 gives 0.325; bend lines at the bend's middle"
    assert f"inside radius 2.5 mm, {told}" in notes_of(flat)


def test_same_bytes_every_time(tmp_path: Path) -> None:
    rules, box = SAMPLES[0]
    parts = box_parts(bay_with(rules), 1, box)
    written = []
    for folder in (tmp_path / "one", tmp_path / "other"):
        folder.mkdir()
        report = write_flats(parts, rules, folder)
        assert sorted(report.files) == sorted(file.name for file in folder.iterdir())
        written.append({file.name: file.read_bytes() for file in folder.iterdir()})
    assert written[0] == written[1]
    text = written[0]["front-bay-box-1-tray-flat.dxf"].decode()
    # the first of January 2000, and identifiers of zeros
    assert text.count("$TDCREATE\n 40\n2451545.0\n") == text.count("$TDUPDATE\n 40\n2451545.0\n") == 1
    assert text.count("\n{00000000-0000-0000-0000-000000000000}\n") == 2


SEEDED = """
import sys
from tests.sheet.test_dxf import ALL
from boxfit.sheet.dxf import dxf_of
sys.stdout.buffer.write(dxf_of(ALL[0]))
"""


def test_same_bytes_whatever_order_sets_have() -> None:
    """Each process puts the members of a set in an order of its own; some agreed by chance."""
    root = Path(__file__).parents[2]
    written = {
        subprocess.run(
            [sys.executable, "-c", SEEDED],
            env={**os.environ, "PYTHONHASHSEED": str(seed), "PYTHONPATH": str(root)},
            check=True,
            capture_output=True,
        ).stdout
        for seed in (1, 5, 7)
    }
    assert written == {dxf_of(ALL[0])}


def test_printed_boxes_have_no_flats(tmp_path: Path) -> None:
    rules = replace(RULES, process="printed", material="petg")
    report = write_flats(box_parts(bay_with(rules), 1, PLAIN_BOX), rules, tmp_path)
    assert (report.files, report.findings, list(tmp_path.iterdir())) == ((), (), [])
