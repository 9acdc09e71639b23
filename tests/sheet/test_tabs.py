"""Tabs on the walls stand in notches of the floors, with air all round, and locate the plates."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from shapely import MultiPoint, Polygon

from boxfit.bay import BoxRules
from boxfit.box.build import box_parts
from boxfit.box.notes import cannot_build
from boxfit.box.parts import Plate, Tray
from boxfit.box.sides import Side, sides_of
from boxfit.layout import PlacedBox
from boxfit.sheet.flat import Flat
from boxfit.sheet.flats import tray_flats
from boxfit.sheet.outline import points_of
from tests.box.samples import LOW, RULES, bay_with, box_around, boxes, plan_by, stepped_box, stepped_boxes
from tests.sheet.stood import panels_of, wall_stood

WELDED = replace(RULES, process="welded")
BOX = box_around(LOW, (480.3, 390.7), (138.0, 120.0), WELDED)


def made(rules: BoxRules, box: PlacedBox) -> tuple[Tray, tuple[Flat, ...]]:
    tray = box_parts(bay_with(rules), 1, box).tray
    return tray, tray_flats(tray, rules)


def tabs_in_car(band: Plate, side: Side, wall: Flat) -> list[Polygon]:
    """Each tab of a wall in plan, by its two lowest corners."""
    low = [one for one in wall.contours[0] if one.y < 1e-6]
    if wall.formed[2] < band.top - band.bottom - 1e-6:
        return []  # ends on the floor
    found = []
    for one, other in zip(low[::2], low[1::2], strict=True):
        pairs = wall_stood(band, side, wall, [(one.x, one.y), (other.x, other.y)])
        for far, _ in pairs:
            assert far[2] == pytest.approx(band.bottom)
        found.append(MultiPoint([point[:2] for pair in pairs for point in pair]).convex_hull)
    return found


def floor_in_car(plate: Plate, floor: Flat) -> Polygon:
    outer, *others = (
        [(x + plate.low[0], y + plate.low[1]) for x, y in points_of(one)] for one in floor.contours
    )
    return Polygon(outer, others)


def assert_tabs_fit(tray: Tray, flats: tuple[Flat, ...], play: float) -> int:
    """How many tabs there are; each has air at both ends and at its back, and none is without a notch."""
    panels = list(panels_of(tray, flats))
    floors = [(plate, floor_in_car(plate, flat)) for flat, plate, side in panels if side is None]
    count = 0
    for plate, floor in floors:
        band = next(band for band in tray.bands if band.bottom == plate.bottom)
        tabs = [
            tab
            for flat, its, side in panels
            if side is not None and its is band
            for tab in tabs_in_car(band, side, flat)
        ]
        air = Polygon(plate.outline).difference(Polygon(floor.exterior))
        for tab in tabs:
            assert tab.area > 0.0
            assert floor.distance(tab) == pytest.approx(play / 2.0)
            assert air.buffer(1e-6).contains(tab)
        depth = tray.thickness + play / 2.0
        long = sum(tab.area / tray.thickness + 2.0 * play for tab in tabs)
        assert air.area == pytest.approx(long * depth, abs=1e-6)
        count += len(tabs)
    return count


def test_tabs_by_hand() -> None:
    """480 long: four at most 150 apart; 386 between the side walls' inside edges: three."""
    tray, flats = made(WELDED, BOX)
    assert assert_tabs_fit(tray, flats, 0.4) == 4 + 3 + 4 + 3
    (front,) = [flat for flat in flats if flat.name.endswith("wall front")]
    low = sorted(one.x for one in front.contours[0] if one.y < 1e-6)
    edge = 390.7 - 2.0 * (2.5 + 0.5 / 2.0**0.5)
    middles = [edge / 3.0 * (place + 0.5) for place in range(3)]
    assert low == pytest.approx([middle + half for middle in middles for half in (-10.0, 10.0)])


def test_a_coarser_cut_needs_more_play() -> None:
    rules = replace(WELDED, tolerances=replace(WELDED.tolerances, cut=0.5))
    tray, flats = made(rules, BOX)
    assert assert_tabs_fit(tray, flats, 1.0) == 14
    assert "tabs of the walls stand in the notches, 1 mm of play at both ends of each" in flats[0].notes


def test_no_tabs_where_a_floor_is_a_narrow_rim() -> None:
    """The step floor over walls in common is as wide as the sheet there."""
    rules = replace(WELDED, shape="stepped")
    above = plan_by("L")
    (x, y), (a, _) = above[0], above[1]
    below = ((x, y), (a, y), (a, y + 160.0), (x, y + 160.0))
    tray, flats = made(rules, stepped_box((below, above), (138.0, 110.0), rules))
    assert assert_tabs_fit(tray, flats, 0.4) > 10
    walls = {side.name: flat for flat, band, side in panels_of(tray, flats) if side and band is tray.bands[1]}
    right = next(side for side in sides_of(above) if side.name == "right")
    assert tabs_in_car(tray.bands[1], right, walls["right"]) == []
    assert walls["right"].formed[2] == pytest.approx(tray.bands[1].top - tray.bands[1].bottom - 2.5)


@settings(deadline=None, max_examples=40)
@given(boxes() | stepped_boxes())
def test_any_tray_of_panels(drawn: tuple[BoxRules, PlacedBox]) -> None:
    rules, box = drawn
    if cannot_build(rules, (box,)) or rules.process == "printed":
        return
    tray, flats = made(rules, box)
    if tray.floor_radius is None:
        assert_tabs_fit(tray, flats, 0.4)
