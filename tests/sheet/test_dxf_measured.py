"""What is cut, measured from the DXF by other programs: arcs as arcs, no edge twice, lengths and areas."""

from io import StringIO
from math import hypot, pi

import pytest
import shapely
from ezdxf import units
from ezdxf.document import Drawing
from ezdxf.entities.arc import Arc
from ezdxf.entities.lwpolyline import LWPolyline
from ezdxf.filemanagement import read as read_drawing

from boxfit.sheet.cut_list import cut_length, mass_of
from boxfit.sheet.dxf import stock_dxf
from boxfit.sheet.flat import Flat
from boxfit.sheet.nesting import nested
from boxfit.sheet.stock import Sheet
from tests.sheet.nesting_samples import rounded, wanted
from tests.sheet.test_dxf import ALL, read

FLATS = [*ALL, rounded("rounded", 300.0, 200.0, 40.0)]
NESTING = nested(wanted(*FLATS))


def cut(document: Drawing) -> list[LWPolyline]:
    found = document.modelspace().query('LWPOLYLINE[layer=="cut"]')
    return [one for one in found if isinstance(one, LWPolyline)]


def rings(document: Drawing) -> list[shapely.LinearRing]:
    """Every contour, its arcs as very short lines."""
    return [shapely.LinearRing(points_along(one)) for one in cut(document)]


def points_along(polyline: LWPolyline) -> list[tuple[float, float]]:
    """The true arcs of the file, not curves that come near them."""
    found: list[tuple[float, float]] = []
    for (x, y, bulge), edge in zip(polyline.get_points("xyb"), polyline.virtual_entities(), strict=True):
        found.append((x, y))
        if isinstance(edge, Arc):
            along = [(point.x, point.y) for point in edge.flattening(1e-5)]
            found += along[1:-1] if bulge > 0.0 else along[-2:0:-1]
    return found


def bored(document: Drawing) -> list[float]:
    return [2.0 * circle.dxf.radius for circle in document.modelspace().query('CIRCLE[layer=="cut"]')]


@pytest.mark.parametrize("flat", FLATS, ids=lambda flat: flat.name)
def test_arcs_are_arcs(flat: Flat) -> None:
    """As many bulges as the flat has; nowhere a row of short lines that stands for an arc."""
    polylines = cut(read(flat))
    bulges = [bulge for one in polylines for *_, bulge in one.get_points("xyb")]
    assert [round(bulge, 9) for bulge in bulges] == [
        round(corner.bulge, 9) for contour in flat.contours for corner in contour
    ]
    for ring in rings(read(flat)):
        assert ring.is_simple
    for polyline in polylines:
        assert longest_row_of_short_lines(polyline) < 3


def longest_row_of_short_lines(polyline: LWPolyline) -> int:
    """How many straight lines of less than 1 mm follow one another at most."""
    longest = row = 0
    corners = polyline.get_points("xyb")
    for one, other in zip(corners, corners[1:] + corners[:1], strict=True):
        straight = one[2] == 0.0 and hypot(other[0] - one[0], other[1] - one[1]) < 1.0
        row = row + 1 if straight else 0
        longest = max(longest, row)
    return longest


def test_blanks_and_round_corners_have_arcs() -> None:
    """So that the test above has something to look at: four reliefs of a blank, four round corners."""
    trays = [flat for flat in ALL if flat.name.endswith(" tray")]
    counts = [sum(one.bulge != 0.0 for contour in flat.contours for one in contour) for flat in trays]
    assert max(counts) >= 4


@pytest.mark.parametrize("flat", FLATS, ids=lambda flat: flat.name)
def test_lengths_and_masses(flat: Flat) -> None:
    """No edge lies on another: drawn over one another they are as long as one by one. Mass by EN density."""
    document = read(flat)
    lines = rings(document)
    apart = sum(line.length for line in lines)
    assert shapely.union_all(lines).length == pytest.approx(apart, abs=1e-3)
    diameters = bored(document)
    assert apart + sum(pi * wide for wide in diameters) == pytest.approx(cut_length(flat), abs=0.05)
    outer, *openings = sorted((shapely.Polygon(line).area for line in lines), reverse=True)
    left = outer - sum(openings) - sum(pi / 4.0 * wide**2 for wide in diameters)
    density = {"aluminium-5754": 2660.0}[flat.material]
    assert mass_of(flat) == pytest.approx(left * flat.thickness * density * 1e-9, rel=1e-5)


@pytest.mark.parametrize("sheet", NESTING.sheets, ids=lambda sheet: sheet.name)
def test_stock_sheets_read_back(sheet: Sheet) -> None:
    flats = [one.flat for one in sheet.placed]
    written = stock_dxf(sheet.stock.size, flats, [one.part.number for one in sheet.placed])
    assert written == stock_dxf(sheet.stock.size, flats, [one.part.number for one in sheet.placed])
    document = read_drawing(StringIO(written.decode("utf-8")))
    audit = document.audit()
    assert (audit.errors, audit.fixes) == ([], [])
    assert (document.dxfversion, document.units) == ("AC1024", units.MM)
    shapes = [shapely.Polygon(ring) for ring in rings(document)]
    assert len(shapes) == sum(len(flat.contours) for flat in flats)
    metal = shapes[0]
    for shape in shapes[1:]:
        metal = metal.symmetric_difference(shape)
    drilled = sum(pi / 4.0 * wide**2 for wide in bored(document))
    assert metal.area - drilled == pytest.approx(sum(flat.area for flat in flats), abs=1.0)
    edges = document.modelspace().query('LWPOLYLINE[layer=="sheet"]')
    assert [tuple(point) for point in edges[0].get_points("xy")][2] == sheet.stock.size
    told = [text.dxf.text for text in document.modelspace().query('TEXT[layer=="note"]')]
    assert {one.part.number for one in sheet.placed} <= set(told)
