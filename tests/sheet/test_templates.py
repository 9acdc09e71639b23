"""Templates: true to scale on paper, every line on some page, register marks that meet."""

import re
import zlib
from dataclasses import replace
from itertools import pairwise
from math import prod

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from boxfit.box.build import box_parts
from boxfit.box.fitting import Cutout
from boxfit.box.whole import BuiltBox
from boxfit.sheet.drawing.marks import Circle, Line, Page
from boxfit.sheet.drawing.overlap import outside_frame, overlaps
from boxfit.sheet.drawing.paper import A3, A4, Paper
from boxfit.sheet.drawing.pdf import POINT, pdf_of
from boxfit.sheet.template import Template, templates_of
from boxfit.sheet.tiles import FOOT, MARGIN, OVERLAP, label, pages_of, template_drawings, tiling_of
from tests.box.samples import LOW, RULES, bay_with, box_around, plan_by, stepped_box

STEPPED = replace(RULES, shape="stepped")


def built(drilled: tuple[Cutout, ...] = ()) -> BuiltBox:
    bay, box = bay_with(RULES), box_around(LOW, (480.3, 390.7), (138.0, 120.0), RULES)
    parts = box_parts(bay, 1, box)
    return BuiltBox(bay, 1, box, replace(parts, tray=replace(parts.tray, cutouts=drilled)))


def stepped() -> BuiltBox:
    bay, box = bay_with(STEPPED), stepped_box((plan_by("L"), plan_by("U")), (138.0, 120.0), STEPPED)
    return BuiltBox(bay, 1, box, box_parts(bay, 1, box))


PLAIN, WIDER = built(), stepped()


def lines_of(page: Page, style: str) -> list[Line]:
    return [mark for mark in page.marks if isinstance(mark, Line) and mark.style == style]


def test_a_plan_and_two_pairs_of_walls() -> None:
    found = templates_of((PLAIN,))
    assert [(one.side, one.cut) for one in found] == [
        ("plan with floor", 1),
        ("wall right and left", 2),
        ("wall front and rear", 2),
    ]
    tray, lid = PLAIN.parts.tray.outside, PLAIN.parts.lid.plate
    plan, right, front = found
    full = [line.start for line in plan.lines if line.style == "visible"]
    assert (min(full), max(full)) == (lid.low[:2], lid.high[:2])
    dashed = [line.start for line in plan.lines if line.style == "hidden"]
    assert (min(dashed), max(dashed)) == (tray.low[:2], tray.high[:2])
    cover = PLAIN.parts.cover_plate
    assert cover is not None
    for one, axis in ((right, 0), (front, 1)):
        low, high = one.extent
        assert high[0] - low[0] == pytest.approx(cover.plate.high[axis] - cover.plate.low[axis])
        assert high[1] - low[1] == pytest.approx(cover.plate.top - tray.low[2])
        foot = [line for line in one.lines if line.start[1] == line.end[1] == 0.0]
        assert abs(foot[0].end[0] - foot[0].start[0]) == pytest.approx(tray.high[axis] - tray.low[axis])


def test_every_wall_of_a_stepped_box_is_there_once() -> None:
    found = templates_of((WIDER,))
    assert [one.side for one in found[:2]] == ["plan with floor", "plan with step floor"]
    assert sum(one.cut for one in found[2:]) == sum(len(band.outline) for band in WIDER.parts.tray.bands)


def test_a_cutout_parts_a_pair_and_is_seen_where_it_is() -> None:
    tray = PLAIN.parts.tray.outside
    gland = Cutout("cable", "left", (tray.low[0] + 100.0, tray.high[1], tray.low[2] + 60.0), diameter=25.0)
    drain = Cutout("drain", "down", (tray.low[0] + 50.0, tray.low[1] + 50.0, tray.low[2]), size=(20.0, 10.0))
    found = {one.side: one for one in templates_of((built((gland, drain)),))}
    assert set(found) == {"plan with floor", "wall right", "wall left", "wall front and rear"}
    # seen from the left of the car its front is at the left: the wall begins there
    wide = tray.high[0] - tray.low[0]
    ring = [line.start for line in found["wall left"].lines]
    near = [
        point for point in ring if shapely.Point(point).distance(shapely.Point(wide - 100.0, 60.0)) < 12.6
    ]
    assert len(near) >= 36
    corner = (tray.low[0] + 40.0, tray.low[1] + 45.0)
    assert any(line.start == pytest.approx(corner) for line in found["plan with floor"].lines)


@settings(max_examples=40)
@given(
    st.tuples(st.floats(-900.0, 900.0), st.floats(-900.0, 900.0)),
    st.tuples(st.floats(5.0, 900.0), st.floats(5.0, 900.0)),
    st.sampled_from([A4, A3]),
)
def test_every_line_is_on_some_page(
    low: tuple[float, float], size: tuple[float, float], paper: Paper
) -> None:
    points = [low, (low[0] + size[0], low[1]), (low[0] + size[0], low[1] + size[1]), low]
    lines = tuple(Line(one, other, "hidden") for one, other in pairwise(points))
    template = Template("box", "side", lines, "")
    tiling = tiling_of(template, paper)
    places = {
        label((row, column)): (row, column) for row in range(tiling.rows) for column in range(tiling.columns)
    }
    seen = []
    for page in pages_of(template, paper):
        assert sorted(page.size) == sorted((paper.width, paper.height))
        name = next(text.words for text in page.texts if text.words in places)
        x, y = tiling.low(*places[name])
        for line in lines_of(page, "hidden"):
            ends = (line.start, line.end)
            seen.append(shapely.LineString([(a - MARGIN + x, b - MARGIN - FOOT + y) for a, b in ends]))
    shown, asked = shapely.union_all(seen), shapely.LineString(points)
    assert shown.hausdorff_distance(asked) < 1e-6
    assert shapely.buffer(shown, 1e-6).covers(asked)


def test_register_marks_meet() -> None:
    """Laid on one another by their place in the template, marks of neighbours fall together."""
    template = templates_of((PLAIN,))[0]
    tiling = tiling_of(template, A4)
    places = [(row, column) for row in range(tiling.rows) for column in range(tiling.columns)]
    pages = list(pages_of(template, A4))
    assert len(pages) == len(places) > 4
    marks: dict[tuple[float, float], int] = {}
    for place, page in zip(places, pages, strict=True):
        x, y = tiling.low(*place)
        for mark in page.marks:
            if isinstance(mark, Circle) and not mark.filled:
                at = (round(mark.centre[0] - MARGIN + x, 4), round(mark.centre[1] - MARGIN - FOOT + y, 4))
                marks[at] = marks.get(at, 0) + 1
    assert set(marks.values()) == {2}
    neighbours = tiling.rows * (tiling.columns - 1) + tiling.columns * (tiling.rows - 1)
    assert len(marks) == 2 * neighbours
    assert tiling.low(0, 1)[0] - tiling.low(0, 0)[0] == pytest.approx(tiling.window[0] - OVERLAP)


def test_words_are_clear_and_on_the_paper() -> None:
    for drawing in template_drawings(templates_of((PLAIN, WIDER))):
        for page in drawing.pages:
            assert overlaps(page) == ()
            assert outside_frame(page, (5.0, 5.0, 5.0, 5.0)) == ()


def content(pdf: bytes) -> list[str]:
    """What is drawn on each page: of all streams in the file, those that set a scale for the pen."""
    streams = re.findall(rb"stream\r?\n(x.*?)endstream", pdf, re.DOTALL)
    texts = [zlib.decompressobj().decompress(stream).decode("latin-1") for stream in streams]
    return [text for text in texts if re.search(SCALE, text, re.MULTILINE)]


def test_bars_are_a_hundred_millimetres_on_paper() -> None:
    """Read from the file itself: the pen's path, scaled as the page says, is 100 mm both ways."""
    drawing = template_drawings(templates_of((PLAIN,)))[0]
    pdf = pdf_of(drawing)
    assert pdf == pdf_of(drawing)
    pages = content(pdf)
    assert len(pages) == len(drawing.pages)
    for text in pages:
        scale = prod(float(one) for one in re.findall(SCALE, text, re.MULTILINE))
        assert scale == pytest.approx(POINT, abs=1e-5)
        path = [(float(a), float(b), float(c), float(d)) for a, b, c, d in re.findall(PATH, text)]
        millimetres = scale / 72.0 * 25.4
        across = [(c - a) * millimetres for a, b, c, d in path if b == d and b < MARGIN + FOOT]
        upwards = [(d - b) * millimetres for a, b, c, d in path if a == c and b >= MARGIN + FOOT - 0.01]
        assert any(long == pytest.approx(100.0, abs=0.01) for long in across)
        assert any(long == pytest.approx(100.0, abs=0.01) for long in upwards)


SCALE = r"^([\d.]+) 0 0 \1 0 0 cm"
NUMBER = r"(-?[\d.]+)"
PATH = rf"{NUMBER} {NUMBER} m {NUMBER} {NUMBER} l"
