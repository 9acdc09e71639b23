"""Printed aids: sizes by hand, closed as two programs see them, and the same bytes every time."""

import csv
from dataclasses import replace
from pathlib import Path

import pytest

from boxfit.bay import BoxRules
from boxfit.box.build import box_parts
from boxfit.box.gauges import corner_gauge, dummy_module, gauge_notes, gauges, terminal_gauge
from boxfit.box.whole import BuiltBox
from boxfit.judge.printed import judge_printed
from boxfit.module import FaceRoom, Module
from boxfit.solid.gauges import gauge_solid, write_gauges
from boxfit.workshop import PrintShop
from tests.box.samples import HERON, LOW, RULES, bay_with, box_around

SHOP = PrintShop()
SIDEWAYS = replace(HERON, room=FaceRoom(front=25.0, right=10.0, bottom=5.0))
TALL = replace(HERON, length=590.0, width=265.0, height=300.0)


def built(rules: BoxRules = RULES, bay: str = "front bay") -> BuiltBox:
    box = box_around(LOW, (600.0, 400.0), (110.0,), rules)
    own = replace(bay_with(rules), name=bay)
    return BuiltBox(own, 1, box, box_parts(own, 1, box))


@pytest.mark.parametrize("module", [HERON, SIDEWAYS, TALL], ids=["top", "sides", "tall"])
def test_every_file_is_closed_and_fits_the_bed(module: Module, tmp_path: Path) -> None:
    import trimesh

    files = write_gauges(module, (built(),), tmp_path)
    assert sorted(path.name for path in tmp_path.iterdir()) == sorted(files)
    wholes = ["dummy-module", "corner-gauge", "terminal-gauge"]
    assert judge_printed(tmp_path, dict.fromkeys(wholes, SHOP)) == ()
    assert all(trimesh.load_mesh(path).is_watertight for path in tmp_path.glob("*.stl"))
    with (tmp_path / "gauges.csv").open(encoding="utf-8", newline="") as table:
        rows = list(csv.DictReader(table))
    assert [row["file"] for row in rows] == list(files[:-1])
    assert [row["quantity"] for row in rows if row["file"] == "dummy-module.stl"] == ["0"]


def test_dummy_module_is_the_largest_such_module_with_its_room() -> None:
    """355 x 151 x 108, 0.5 out at each side; 30 of room above, or 25, 10 and 5 at other faces."""
    low, high = gauge_bounds(HERON)
    assert (low, high) == ((0.0, 0.0, 0.0), (356.0, 152.0, 109.0 + 30.0))
    low, high = gauge_bounds(SIDEWAYS)
    assert (low, high) == ((0.0, -10.0, -5.0), (356.0 + 25.0, 152.0, 109.0))


def gauge_bounds(module: Module) -> tuple[tuple[float, ...], tuple[float, ...]]:
    bounds = [round(side, 6) + 0.0 for side in gauge_solid(dummy_module(module, RULES)).bounding_box()]
    return tuple(bounds[:3]), tuple(bounds[3:])


def test_dummy_module_is_a_shell_open_below() -> None:
    """Hand: four walls and a frame of 2.6 round it, 139 high in all, and the plate of 2.6 between them."""
    round_it = 356.0 * 152.0 - 350.8 * 146.8
    volume = gauge_solid(dummy_module(HERON, RULES)).volume()
    assert volume == pytest.approx(round_it * 139.0 + 350.8 * 146.8 * 2.6)


def test_corner_gauge_stands_off_walls_and_floor_by_liner_and_gap() -> None:
    """The module's corner is the origin: liner 3 below it, liner and gap 7 beside it."""
    low = gauge_solid(corner_gauge(RULES)).bounding_box()[:3]
    assert low == pytest.approx((-7.0, -7.0, -3.0))
    ribbed = corner_gauge(replace(RULES, process="printed"))
    assert gauge_solid(ribbed).bounding_box()[:3] == pytest.approx((-4.0, -4.0, 0.0))
    bare = replace(RULES, liner=0.0, gap=0.0)
    assert gauge_solid(corner_gauge(bare)).bounding_box()[:3] == pytest.approx((0.0, 0.0, 0.0))


@pytest.mark.parametrize("radius", [0.0, 2.5, 6.9, 15.0, 40.0])
def test_corner_gauge_meets_the_bend_just_where_a_module_would(radius: float) -> None:
    """Feet and pads stay off the bend, so that only the module's own edge can meet it."""
    rules = replace(RULES, bend_radius=radius)
    corner = corner_gauge(rules)
    for block in corner.filled[3:]:
        for axis in (0, 1):
            if block.low[axis] < 0.0:
                # a pad touches the wall above the bend
                assert block.low[2] + 3.0 >= radius
                assert block.low[1 - axis] + 7.0 >= radius
        if block.low[2] < 0.0:
            # a foot stands on the flat
            assert min(block.low[:2]) + 7.0 >= radius


def test_terminal_gauge_is_a_hand_wide_and_a_spanner_long() -> None:
    """60 x 150, as high as the module's room, its plate 150 high; hand: ring and plate of 4."""
    body = gauge_solid(terminal_gauge(HERON, RULES))
    assert body.bounding_box() == pytest.approx((0.0, 0.0, 0.0, 150.0, 60.0, 150.0))
    assert body.volume() == pytest.approx((150.0 * 60.0 - 142.0 * 52.0) * 30.0 + 4.0 * 60.0 * 120.0)
    roomless = terminal_gauge(replace(HERON, room=FaceRoom()), RULES)
    assert roomless.filled[0].high[2] == 10.0


def test_a_corner_gauge_for_each_different_corner() -> None:
    wide = replace(RULES, gap=6.0)
    one = gauges(HERON, (built(), built(bay="rear bay")))
    several = gauges(HERON, (built(), built(wide, "rear bay"), built(bay="tail")))
    assert [gauge.name for gauge in one] == ["dummy module", "corner gauge", "terminal gauge"]
    assert [gauge.name for gauge in several][1:3] == ["corner gauge front bay", "corner gauge rear bay"]
    assert gauges(HERON, ()) == ()


def test_what_no_shop_could_cut_is_left_out_and_told(tmp_path: Path) -> None:
    one = built(replace(RULES, print_shop=PrintShop(joint=1.5)))
    assert write_gauges(HERON, (one,), tmp_path) == ()
    assert gauge_notes(HERON, (one,)) == (
        "no dummy module and gauges to print: print_shop.joint: dovetails go together with 0.05 mm of "
        "air at least, hold with 1 at most (got 1.5)",
    )
    assert gauge_notes(HERON, (built(),)) == ()


@pytest.mark.parametrize("joint", [0.05, 1.0])
def test_the_tightest_and_the_loosest_joint(joint: float, tmp_path: Path) -> None:
    shop = PrintShop(joint=joint)
    write_gauges(TALL, (built(replace(RULES, print_shop=shop)),), tmp_path)
    assert judge_printed(tmp_path, {"dummy-module": shop}) == ()


def test_same_bytes_again(tmp_path: Path) -> None:
    first, second = tmp_path / "first", tmp_path / "second"
    for folder in (first, second):
        folder.mkdir()
        write_gauges(TALL, (built(),), folder)
    for path in first.iterdir():
        assert path.read_bytes() == (second / path.name).read_bytes()
