"""Several boxes in a bay: named alike in its own panel and in the table; words leave lines in sight."""

from dataclasses import replace
from functools import cache
from re import fullmatch

import numpy as np
import pytest
from matplotlib.colors import to_hex, to_rgba
from matplotlib.patches import PathPatch
from shapely import LineString, Polygon

from boxfit.bay import Block, Keepout
from boxfit.report.area import Area
from boxfit.report.balloons import draw_balloons
from boxfit.report.dimension import Span, draw_across
from boxfit.report.look import MARK_TIGHTEST
from boxfit.report.margin_views import drawn_margins
from boxfit.report.panel import fitted_panel
from boxfit.report.paper import Sheet, plain_settings
from boxfit.report.parts import boxes_of, outside, step_legend
from boxfit.report.projection import PLAN, VIEWS, View, bay_points
from boxfit.report.views import drawn
from tests.report import samples, stepped
from tests.report.test_views import boxes, texts

MADE = {**samples.SAMPLES, **stepped.SAMPLES}


@cache
def page(name: str, view: View) -> Sheet:
    car, _, layout = MADE[name]()
    with plain_settings():
        return drawn(car, layout, view)


def names(sheet: Sheet) -> list[str]:
    """The names of boxes on a page, brackets left out."""
    found = [text.get_text().strip("()") for text in texts(sheet)]
    return sorted(words for words in found if fullmatch(r"box \d+(, \d+)*", words))


@pytest.mark.parametrize("view", VIEWS, ids=lambda view: view.name)
@pytest.mark.parametrize("name", ["van", "paired"])
def test_every_box_of_several_is_named_in_its_bays_panel(name: str, view: View) -> None:
    assert names(page(name, view)) in (["box 1", "box 2"], ["box 1, 2"])


def test_one_box_in_a_bay_needs_no_name() -> None:
    assert names(page("roadster", PLAN)) == []


def test_the_table_calls_boxes_by_the_same_names() -> None:
    told = [text.get_text() for text in texts(page("van", PLAN))]
    assert [words[-7:] for words in told if words.startswith("under the load") and "box" in words] == [
        ", box 1",
        ", box 2",
    ]
    assert "engine bay" in told


def test_words_of_a_dimension_stand_beside_lines_of_the_next() -> None:
    """The inner span's right end at 70 runs through the middle of the outer's words."""
    sheet = Sheet()
    draw_across(sheet, (Span(40.0, 100.0, "476"), Span(45.0, 70.0, "170")), 100.0)
    (left, right), *_ = [(box.x0, box.x1) for words, box in boxes(sheet) if words == "476"]
    dots = sheet.figure.dpi / 25.4
    assert not left < 70.0 * dots < right
    assert 70.0 * dots - right > 0.5 or left - 70.0 * dots > 0.5
    assert 60.0 * dots < left
    assert right < 80.0 * dots


def test_hidden_steps_stand_in_the_legend_only_where_they_are_drawn() -> None:
    for car, _, layout in (make() for make in stepped.SAMPLES.values()):
        for view in VIEWS:
            dashed = any(outside(view, b, bay.box).hidden for bay in car.bays for b in boxes_of(layout, bay))
            assert bool(step_legend((view,), car.bays, layout)) == dashed


def test_letters_keep_off_what_is_taken() -> None:
    """An arrow runs over the middle of a keep-out: its letter stands beside it."""
    car, _, _ = samples.roadster()
    low, high = (-300.0, -100.0, 300.0), (-100.0, 100.0, 400.0)
    bay = replace(car.bays[0], keepouts=(Keepout("bracket", Block(low, high), 20.0),))
    panel = fitted_panel(PLAN, bay_points(PLAN, bay), Area(50.0, 50.0, 150.0, 150.0))
    x, y = panel.at((-200.0, 0.0, 350.0))
    arrow = Area(x - 0.5, y - 5.0, x + 0.5, y + 5.0)
    sheet = Sheet()
    sheet.taken.append(arrow)
    draw_balloons(sheet, panel, bay, Area(0.0, 0.0, 420.0, 297.0), ())
    assert not sheet.taken[-1].meets(arrow)


@pytest.mark.parametrize("name", MADE)
def test_grounds_of_the_margins_hide_no_outline(name: str) -> None:
    """Whatever lies under the solid white of a figure is no outline of bay, keep-out, opening or box."""
    car, _, layout = MADE[name]()
    with plain_settings():
        sheet = drawn_margins(car, layout)[0]
    patches = [patch for patch in sheet.figure.findobj(PathPatch) if isinstance(patch, PathPatch)]
    corners = [np.asarray(patch.get_path().vertices).tolist() for patch in patches]
    edged = (MARK_TIGHTEST.colour, "#000000")
    grounds = [
        Polygon(points)
        for patch, points in zip(patches, corners, strict=True)
        if to_hex(patch.get_facecolor(), keep_alpha=True) == "#ffffffff"
        and (to_rgba(patch.get_edgecolor())[3] == 0.0 or to_hex(patch.get_edgecolor()) in edged)
    ]
    lines = [
        LineString(points)
        for patch, points in zip(patches, corners, strict=True)
        if patch.get_linewidth() >= 0.8
        and to_rgba(patch.get_edgecolor())[3] > 0.0
        and to_hex(patch.get_edgecolor()) not in edged
    ]
    assert len(grounds) > 3
    assert len(lines) > 10
    assert [line.wkt for ground in grounds for line in lines if line.intersects(ground)] == []
