"""The sheets of the surveyed bays: nothing overlaps or leaves the page, the lines stand where they should."""

import os
import subprocess
import sys
from dataclasses import replace
from functools import cache
from itertools import combinations
from math import cos, pi, sin
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from matplotlib.colors import to_rgb
from matplotlib.patches import PathPatch
from shapely import Point, Polygon

from boxfit.bay import Bay, Block, Cylinder, Keepout, Opening, Shell
from boxfit.car import Car
from boxfit.files.car import read_car
from boxfit.report.area import Area, area_of
from boxfit.report.bay_figures import WIDTH
from boxfit.report.bay_survey import corners, moved_outlines, moved_room
from boxfit.report.bay_views import WORK, bay_scale, drawn_bay, write_bay_views
from boxfit.report.look import HOT, KEEPOUT, MOVING, SCALES
from boxfit.report.paper import PAGE, Sheet, plain_settings
from boxfit.report.projection import PLAN, REAR, SIDE, VIEWS
from boxfit.report.room import LITRE, outline_area, usable_litres
from tests.report.samples import bay, rectangle, tiny
from tests.report.shells import ball, scanned
from tests.report.test_views import boxes, texts

ROOT = Path(__file__).parents[2]
DEMOS = {
    f"{car.folder}, {b.name}": (car, b)
    for car in map(read_car, sorted(ROOT.glob("bays/*")))
    for b in car.bays
}


def one_bay(found: Bay) -> tuple[Car, Bay]:
    """A car with nothing but this bay."""
    return Car("Stint", "stint", 1800.0, 1000.0, 1000.0, (found,)), found


def eight_keepouts() -> Bay:
    """Long names, blocks and bars, some on top of one another, some reaching out of the bay."""
    blocks = [
        Keepout(
            f"bracket {k} of the old fuel line and its long clamp",
            Block((-900.0 + 100 * k, -300.0 + 60 * k, 300.0), (-860.0 + 100 * k, -200.0 + 60 * k, 340.0)),
            13.0 + k,
            k % 2 == 0,
        )
        for k in range(5)
    ]
    bars = [
        Keepout(
            f"pipe {k}", Cylinder((-950.0, -100.0 * k, 320.0), (-300.0, 90.0, 480.0 - 40 * k), 24.0), 13.0
        )
        for k in range(3)
    ]
    return bay("bay full of things", rectangle((-900.0, -350.0), (-350.0, 350.0)), (300.0, 520.0),
               keepouts=(*blocks, *bars), opening=Opening("up"))  # fmt: skip


def round_room() -> Bay:
    """A room of any shape with more corners than can be told, in two parts in plan."""
    hull = ball((-600.0, 0.0, 500.0), 300.0)
    ring = tuple((300.0 * cos(pi * k / 20), 300.0 * sin(pi * k / 20)) for k in range(40))
    plan = tuple((x - 600.0, y) for x, y in ring)
    side, rear = tuple((x - 600.0, z + 500.0) for x, z in ring), tuple((y, z + 500.0) for y, z in ring)
    closed = np.zeros(len(hull.triangles), dtype=bool)
    room = Shell(hull, "room", hull.low, hull.high, closed, 4 / 3 * pi * 300.0**3,
                 (plan, rectangle((-280.0, -40.0), (-240.0, 40.0))), (side,), (rear,))  # fmt: skip
    return replace(scanned(), name="round room", room=room, keepouts=())


ANGLED = ((0.0, 0.0), (-600.0, 0.0), (-600.0, -300.0), (-300.0, -300.0), (-300.0, -700.0), (0.0, -700.0))
SAW = ((-700.0, 500.0), *((-50.0 * k, -90.0 * (k % 2)) for k in range(28, -1, -1)))
CASES: dict[str, tuple[Car, Bay]] = {
    **DEMOS,
    "tiny": one_bay(tiny()[0].bays[0]),
    "a finger wide": one_bay(bay("slot", rectangle((-9.0, -4.0), (3.0, 4.0)), (300.0, 307.0))),
    "eight keep-outs": one_bay(eight_keepouts()),
    "forty keep-outs": one_bay(
        replace(
            eight_keepouts(),
            keepouts=tuple(
                replace(k, name=f"{k.name}, {n}") for n in range(5) for k in eight_keepouts().keepouts
            ),
        )
    ),
    "inward corner": one_bay(bay("angle", ANGLED, (300.0, 600.0), opening=Opening("right"))),
    "thirty corners": one_bay(bay("saw", SAW, (300.0, 600.0))),
    "long and low": one_bay(bay("sill", rectangle((-2900.0, 640.0), (-300.0, 700.0)), (180.0, 240.0))),
    "larger than any scale": one_bay(
        bay("hall", rectangle((-60000.0, -9000.0), (0.0, 9000.0)), (0.0, 5000.0), opening=Opening("front"))
    ),
    "scanned": one_bay(scanned()),
    "ball": one_bay(round_room()),
    "no box rules": one_bay(
        replace(eight_keepouts(), tolerance=0.0, distance=0.0, box=replace(eight_keepouts().box, asked=False))
    ),
}


@cache
def page(name: str) -> Sheet:
    """A drawn sheet."""
    with plain_settings():
        return drawn_bay(*CASES[name])


def words(name: str) -> list[str]:
    return [text.get_text() for text in texts(page(name))]


def test_demo_cars_have_eleven_bays() -> None:
    assert len(DEMOS) == 11


@pytest.mark.parametrize("name", CASES)
def test_no_two_words_overlap(name: str) -> None:
    placed = boxes(page(name))
    assert len(placed) > 30
    clashes = [
        (first, second)
        for (first, a), (second, b) in combinations(placed, 2)
        if a.x0 < b.x1 and b.x0 < a.x1 and a.y0 < b.y1 and b.y0 < a.y1
    ]
    assert clashes == []


@pytest.mark.parametrize("name", CASES)
def test_nothing_leaves_the_page(name: str) -> None:
    sheet = page(name)
    whole = sheet.figure.bbox
    assert [
        found
        for found, box in boxes(sheet)
        if box.x0 < whole.x0 or box.x1 > whole.x1 or box.y0 < whole.y0 or box.y1 > whole.y1
    ] == []
    for shape in sheet.figure.findobj(PathPatch):
        assert isinstance(shape, PathPatch)
        (left, bottom), (right, top) = shape.get_path().get_extents().get_points()
        assert PAGE.holds(Area(left, bottom, right, top))


@pytest.mark.parametrize("name", CASES)
def test_every_sheet_tells_what_a_workshop_looks_for(name: str) -> None:
    car, found = CASES[name]
    told = "\n".join(words(name))
    usable = usable_litres(found)
    within = "not worked out" if usable is None else f"{usable:.1f} litres"
    for expected in (
        f"{found.name}, {car.name}",
        "Working aid, not an approval",
        "Measure again before cutting",
        f"mm, all views 1:{bay_scale(found):g} on A3",
        f"{found.distance - found.tolerance:g} clearance",
        f"{within} within the allowance",
        "x forward from the front axle, y left of the centre line, z up from the ground",
    ):
        assert expected in told
    for view in ("Plan", "Side", "Rear"):
        assert words(name).count(f"{view}   1:{bay_scale(found):g}") == 1


@pytest.mark.parametrize("name", [*DEMOS, "tiny", "eight keep-outs"])
def test_keepouts_are_lettered_in_every_view(name: str) -> None:
    _, found = CASES[name]
    lines = words(name)
    for place, keepout in enumerate(found.keepouts):
        letter = "ABCDEFGH"[place]
        assert lines.count(letter) == 3
        row = next(k for k, line in enumerate(lines) if line.startswith(f"{letter}  {keepout.name[:25]}"))
        assert lines[row + 1] == f"{keepout.distance:g} mm"


@pytest.mark.parametrize("name", [*DEMOS, "eight keep-outs", "inward corner"])
def test_every_corner_and_size_is_written(name: str) -> None:
    _, found = CASES[name]
    lines = words(name)
    for view in VIEWS:
        assert {told for _, told in corners(view, found)} <= set(lines)
    assert not any("only in the bay's file" in line for line in lines)


def test_figures_of_a_demo_bay() -> None:
    lines = words("dunlin-850, front bay")
    assert "length 670 (x), width 800 (y), height 340 (z)" in lines
    assert "168.6 litres as surveyed; 144.4 litres within the allowance, keep-outs not taken off" in lines
    assert "opening: up, 640 × 760 over all (x -490 to 150, y -380 to 380)" in lines
    assert lines.count("centre line") == 2
    assert lines.count("670") == lines.count("800") == lines.count("340") == 2
    start = lines.index("A  steering column")
    assert lines[start : start + 3] == ["A  steering column", "18 mm", "2.0"]


def test_what_is_missing_is_told() -> None:
    assert "opening: none given; how a box goes in is not checked" in words("a finger wide")
    assert "THE ALLOWANCE LEAVES NO ROOM FOR A BOX" in words("a finger wide")
    assert "no [box] rules given: clearance taken as nothing" in words("no box rules")
    assert "and 26 more: see the check" in words("forty keep-outs")
    assert any("only in the bay's file" in line for line in words("thirty corners"))
    assert "centre line" not in words("long and low")


def test_lines_stand_where_they_should() -> None:
    found = bay("plain", rectangle((-600.0, -250.0), (0.0, 250.0)), (300.0, 500.0))
    (plan,), (side,), (rear,) = (moved_room(view, found, -13.0) for view in (PLAN, SIDE, REAR))
    assert area_of(plan).corners == ((13.0, -237.0), (587.0, -237.0), (587.0, 237.0), (13.0, 237.0))
    assert area_of(side).corners == ((13.0, 313.0), (587.0, 313.0), (587.0, 487.0), (13.0, 487.0))
    assert area_of(rear).corners == ((-237.0, 313.0), (237.0, 313.0), (237.0, 487.0), (-237.0, 487.0))


def test_lines_of_a_room_of_any_shape_follow_its_outlines() -> None:
    """Moved in by 13 for tolerance and clearance, and 0.4 for what the triangles leave out."""
    boot = scanned()
    (side,) = moved_room(SIDE, boot, -13.4)
    area = area_of(side)
    assert (area.left, area.bottom, area.top) == pytest.approx((2003.4, 343.4, 686.6))
    slope = Polygon(side).exterior.distance(Point(2550.0 - 75.0, 330.0 + 185.0))
    assert slope == pytest.approx(13.4, abs=0.01)
    assert (
        "allowance at every surface: 3 tolerance + 10 clearance + 0.4 for what triangles leave out = 13.4"
        in words("scanned")
    )


def test_corners_of_a_room_of_any_shape() -> None:
    assert {told for _, told in corners(SIDE, scanned())} == {
        "x -2550, z 330", "x -1990, z 330", "x -1990, z 700", "x -2400, z 700",
    }  # fmt: skip
    assert [told for _, told in corners(REAR, round_room())] == [
        "y 300, z 500", "y -300, z 500", "y 0, z 200", "y 0, z 800",
    ]  # fmt: skip
    assert len(moved_room(PLAN, round_room(), -10.0)) == 2


def test_keep_outs_that_move_or_get_hot_are_told_apart() -> None:
    told = words("scanned")
    for expected in (
        "A  boot hinge (moving)",
        "B  exhaust (hot, negotiable)",
        "moving part, stays in the bay",
    ):
        assert expected in told
    fills = {shape.get_facecolor()[:3] for shape in page("scanned").figure.findobj(PathPatch)}
    assert len({to_rgb(str(ink.fill)) for ink in (KEEPOUT, MOVING, HOT)} & fills) == 3


def test_room_may_fall_into_parts_or_vanish() -> None:
    waist = ((0.0, 0.0), (200.0, 90.0), (400.0, 0.0), (400.0, 200.0), (200.0, 110.0), (0.0, 200.0))
    found = bay("waist", waist, (300.0, 500.0))
    assert len(moved_outlines((found.room.outline,), -13.0)) == 2
    assert moved_outlines((found.room.outline,), -200.0) == ()
    assert moved_room(SIDE, found, -100.0) == ()


SIZES = st.floats(5.0, 20000.0)


@given(SIZES, SIZES, SIZES)
@settings(max_examples=40)
def test_scale_is_the_largest_that_fits(length: float, width: float, height: float) -> None:
    found = bay("any", rectangle((-length, 0.0), (0.0, width)), (100.0, 100.0 + height))
    scale = bay_scale(found)
    assert scale in SCALES or scale > SCALES[-1]
    assert (length + width) / scale < WORK.width
    assert (width + height) / scale < WORK.height
    larger = [other for other in SCALES if other < scale]
    if larger:
        assert (length + max(width, WIDTH * larger[-1])) / larger[-1] > 0.3 * WORK.width or (
            (width + height) / larger[-1] > 0.3 * WORK.height
        )


@given(st.floats(1.0, 100.0))
@settings(max_examples=20)
def test_dashed_line_holds_the_usable_litres(distance: float) -> None:
    found = replace(bay("angle", ANGLED, (300.0, 600.0)), distance=distance)
    drawn = sum(abs(outline_area(part)) for part in moved_outlines((found.room.outline,), -distance))
    assert drawn * (300.0 - 2 * distance) / LITRE == pytest.approx(usable_litres(found), rel=2e-3)


def test_files_are_named_by_the_bays(tmp_path: Path) -> None:
    car = read_car(ROOT / "bays" / "dunlin-850")
    written = write_bay_views(car, tmp_path)
    assert [path.name for path in written] == [
        "front-bay.svg",
        "front-bay.png",
        "rear-bay.svg",
        "rear-bay.png",
    ]
    assert sorted(tmp_path.iterdir()) == sorted(written)
    assert b"date" not in written[0].read_bytes()
    assert b"tEXt" not in written[1].read_bytes()


def test_missing_folder_is_an_error(tmp_path: Path) -> None:
    with pytest.raises(OSError, match="nowhere"):
        write_bay_views(CASES["tiny"][0], tmp_path / "nowhere")


WRITE = """
import sys
from pathlib import Path
import matplotlib
matplotlib.rcParams.update({"font.size": 30, "lines.linewidth": float(sys.argv[2])})
from boxfit.report.bay_views import write_bay_views
from tests.report.test_bay_views import CASES
write_bay_views(CASES["eight keep-outs"][0], Path(sys.argv[1]))
"""


def test_two_processes_write_the_same_bytes(tmp_path: Path) -> None:
    found = []
    for seed in ("1", "2"):
        folder = tmp_path / seed
        folder.mkdir()
        subprocess.run(
            [sys.executable, "-c", WRITE, str(folder), seed],
            check=True,
            cwd=ROOT,
            env={**os.environ, "PYTHONHASHSEED": seed},
        )
        found.append({path.name: path.read_bytes() for path in folder.iterdir()})
    assert len(found[0]) == 2
    assert found[0] == found[1]
