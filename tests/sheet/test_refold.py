"""Flats folded up again are the tray: its outside, its holes, its corners."""

from dataclasses import replace
from math import dist, sqrt

import pytest
from hypothesis import given, settings
from shapely import Point as ShapelyPoint
from shapely import Polygon
from shapely import box as box_between
from shapely.ops import unary_union

from boxfit.bay import BoxRules, Point
from boxfit.box.build import box_parts
from boxfit.box.notes import cannot_build
from boxfit.box.parts import Tray
from boxfit.box.sides import Side, sides_of
from boxfit.box_shape import grown
from boxfit.layout import PlacedBox
from boxfit.sheet.flat import Flat
from boxfit.sheet.flats import tray_flats
from boxfit.sheet.outline import points_of
from boxfit.sheet.sides import from_mitre
from boxfit.workshop import FoldedK, FoldShop
from tests.box.samples import LOW, RULES, bay_with, box_around, boxes, plan_by, stepped_box, stepped_boxes
from tests.sheet.refold import arm_of, folded, folded_points, size_of, within_a_bend

BOX = box_around(LOW, (480.3, 390.7), (138.0, 120.0), RULES)
GAP = RULES.fold_shop.weld_gap


def tray_of(rules: BoxRules, box: PlacedBox) -> Tray:
    return box_parts(bay_with(rules), 1, box).tray


def whole(tray: Tray, rules: BoxRules = RULES) -> Flat:
    """The only flat of a tray made of one blank."""
    (flat,) = tray_flats(tray, rules)
    return flat


def middle(flat: Flat) -> Point:
    """Of the blank; that of a tray in one blank is that of its floor."""
    return (flat.size[0] / 2.0, flat.size[1] / 2.0)


def outside(tray: Tray) -> tuple[float, float, float]:
    low, high = tray.outside.low, tray.outside.high
    return (high[0] - low[0] + 2 * tray.flange, high[1] - low[1] + 2 * tray.flange, high[2] - low[2])


def assert_folds_to_the_tray(tray: Tray, flat: Flat) -> None:
    size = size_of(folded_points(flat, middle(flat)))
    # mitres stand back half the weld gap at the flange's corners, the edges along the walls do not
    assert size == pytest.approx(outside(tray), abs=1e-6)
    assert flat.formed == pytest.approx(outside(tray))
    at = centre(tray)
    found = sorted(
        (round(at[0] + x, 6), round(at[1] + y, 6))
        for x, y, _ in (folded(flat, middle(flat), hole.at)[0] for hole in flat.holes)
    )
    wanted = {(round(x, 6), round(y, 6)) for x, y in tray.holes}
    assert len(found) == len(set(found))
    assert set(found) <= wanted
    for hole in wanted - set(found):
        nearest = min(abs(from_mitre(side, hole)) for side in sides_of(tray.bands[-1].outline))
        assert nearest <= tray.hole_diameter / 2.0 + GAP


def test_one_blank() -> None:
    tray = tray_of(RULES, BOX)
    flat = whole(tray)
    assert_folds_to_the_tray(tray, flat)
    assert len(flat.holes) == len(tray.holes) - 4
    assert [bend.up for bend in flat.bends] == [True, False] * 4


def test_another_k_changes_the_blank_and_not_the_tray() -> None:
    tray = tray_of(RULES, BOX)
    other = whole(tray, replace(RULES, fold_shop=FoldShop(k_table=(FoldedK(2.5, 2.5, 0.44),))))
    assert other.size[0] > whole(tray).size[0] + 1.0
    assert size_of(folded_points(other, middle(other))) == pytest.approx(outside(tray), abs=1e-6)


def test_walls_and_flanges_meet_a_gap_apart() -> None:
    """Inside edges of neighbouring walls, and the mitred ends of their flanges."""
    flat = whole(tray_of(RULES, BOX))
    base = middle(flat)
    ends: dict[str, list[tuple[float, float, float]]] = {"x": [], "y": []}
    for point in points_of(flat.contours[0]):
        x, y = point[0] - base[0], point[1] - base[1]
        far = max(abs(x), abs(y))
        if x > 0.0 and y > 0.0 and far > 260.0 and not within_a_bend(flat, base, point):
            ends["x" if abs(x) > abs(y) else "y"] += folded(flat, base, point)
    least = min(dist(one, other) for one in ends["x"] for other in ends["y"])
    assert least == pytest.approx(GAP, abs=1e-6)


@settings(deadline=None, max_examples=60)
@given(boxes())
def test_any_plain_tray(made: tuple[BoxRules, PlacedBox]) -> None:
    rules, box = made
    if cannot_build(rules, (box,)) or rules.process == "printed":
        return
    tray = tray_of(rules, box)
    flats = tray_flats(tray, rules)
    assert_sound(flats)
    assert_flanges_meet(tray, flats)
    if len(flats) == 1:
        assert_folds_to_the_tray(tray, flats[0])
        assert_no_sheet_is_bent_twice(flats[0])
    else:
        assert_panels_make_the_tray(tray, flats)


@settings(deadline=None, max_examples=60)
@given(stepped_boxes())
def test_any_stepped_tray(made: tuple[BoxRules, PlacedBox]) -> None:
    rules, box = made
    if cannot_build(rules, (box,)) or rules.process == "printed":
        return
    tray = tray_of(rules, box)
    flats = tray_flats(tray, rules)
    assert_sound(flats)
    assert_flanges_meet(tray, flats)
    assert_panels_make_the_tray(tray, flats)


def assert_no_sheet_is_bent_twice(flat: Flat) -> None:
    """The reliefs take away what two bends at the floor would both use."""
    sheet, (x, y) = Polygon(points_of(flat.contours[0])), middle(flat)
    floor = [bend for bend in flat.bends if bend.up]
    half = floor[0].allowance / 2.0
    out_x, out_y = (
        max(abs(bend.start[axis] - at) for bend in floor if abs(bend.start[axis] - bend.end[axis]) < 1e-6)
        for axis, at in ((0, x), (1, y))
    )
    for corner in (
        (x + out_x, y + out_y),
        (x - out_x, y + out_y),
        (x - out_x, y - out_y),
        (x + out_x, y - out_y),
    ):
        both = box_between(corner[0] - half, corner[1] - half, corner[0] + half, corner[1] + half)
        assert sheet.intersection(both).area < 0.002 * both.area + 1e-6


def assert_sound(flats: tuple[Flat, ...]) -> None:
    """Contours that do not cross themselves, holes and openings wholly in the sheet."""
    for flat in flats:
        sheet = Polygon(points_of(flat.contours[0]))
        assert sheet.is_valid
        cuts = [Polygon(points_of(one)) for one in flat.contours[1:]]
        cuts += [ShapelyPoint(hole.at).buffer(hole.diameter / 2.0) for hole in flat.holes]
        assert all(sheet.contains(cut) for cut in cuts)
        assert sum(cut.area for cut in cuts) == pytest.approx(unary_union(cuts).area)
        assert flat.area > 0.0


def assert_flanges_meet(tray: Tray, flats: tuple[Flat, ...]) -> None:
    """In plan the flanges fill the ring round the tray, none over another, but for the gaps at the mitres."""
    if not tray.flange:
        return
    top = tray.bands[-1].outline
    plans = [Polygon(plan) for plan in flange_plans(tray, flats)]
    bent = tray.bend_radius or 0.0
    ring = Polygon(grown(top, tray.flange)).difference(Polygon(grown(top, bent)))
    together = unary_union(plans)
    assert together.area == pytest.approx(sum(plan.area for plan in plans))
    assert together.difference(ring.buffer(1e-6)).area < 1e-6
    gaps = len(top) * GAP * sqrt(2.0) * (tray.flange - bent)
    assert together.area == pytest.approx(ring.area - gaps, abs=1e-3)


def flange_plans(tray: Tray, flats: tuple[Flat, ...]) -> list[list[Point]]:
    """What lies beyond the bend of every flange, and every flange strip, in plan."""
    if len(flats) == 1:
        flat, (base, at) = flats[0], (middle(flats[0]), centre(tray))
        plans: dict[tuple[int, int] | None, list[Point]] = {}
        for point in points_of(flat.contours[0]):
            if within_a_bend(flat, base, point):
                continue
            x, y, up = folded(flat, base, point)[1]
            if up > flat.formed[2] - tray.thickness / 2.0:
                plans.setdefault(arm_of(flat, base, point), []).append((at[0] + x, at[1] + y))
        return list(plans.values())
    found = []
    for side in sides_of(tray.bands[-1].outline):
        for flat in flats:
            if flat.name == f"{tray.name} flange {side.name}":
                found.append([on_strip(side, tray, flat, point) for point in points_of(flat.contours[0])])
            if flat.bends and flat.name.endswith(f" {side.name}"):
                bend = flat.bends[0]
                ends = [point for point in points_of(flat.contours[0]) if point[1] > bend.start[1]]
                ends = [point for point in ends if not within_a_bend(flat, panel_base(flat), point)]
                found.append([in_car(side, flat, point) for point in ends])
    return found


def centre(tray: Tray) -> Point:
    low, high = tray.outside.low, tray.outside.high
    return ((low[0] + high[0]) / 2.0, (low[1] + high[1]) / 2.0)


def on_strip(side: Side, tray: Tray, strip: Flat, at: Point) -> Point:
    """Where a point of a flange strip is in plan."""
    base = panel_base(strip)
    return on_side(side, side.length / 2.0 + at[0] - base[0], tray.flange / 2.0 - at[1] + base[1])


def panel_base(flat: Flat) -> Point:
    """Where a panel is marked: half way along its side."""
    return flat.marks[0].at


def assert_panels_make_the_tray(tray: Tray, flats: tuple[Flat, ...]) -> None:
    """Each wall stands on its floor up to its top; holes in the flanges are where the tray has them."""
    found: list[Point] = []
    for place, band in enumerate(tray.bands):
        tier = f" {place + 1}" if len(tray.bands) > 1 else ""
        for side in sides_of(band.outline):
            for wall in (one for one in flats if one.name == f"{tray.name} wall{tier} {side.name}"):
                assert_stands(tray, wall, band.top - band.bottom)
                found += [in_car(side, wall, hole.at) for hole in wall.holes]
    for side in sides_of(tray.bands[-1].outline):
        for strip in (one for one in flats if one.name == f"{tray.name} flange {side.name}"):
            found += [on_strip(side, tray, strip, hole.at) for hole in strip.holes]
    wanted = {(round(x, 6), round(y, 6)) for x, y in tray.holes}
    made = [(round(x, 6), round(y, 6)) for x, y in found]
    assert len(made) == len(set(made))
    assert set(made) <= wanted


def assert_stands(tray: Tray, wall: Flat, height: float) -> None:
    """Up to the top from the floor's outside where it has tabs, else from its inside."""
    size = size_of(folded_points(wall, panel_base(wall)))
    assert size[1] + (0.0 if has_tabs(wall) else tray.thickness) == pytest.approx(height, abs=1e-6)
    assert size[2] == pytest.approx(tray.thickness + (tray.flange if wall.bends else 0.0), abs=1e-6)
    assert (size[0], size[2], size[1]) == pytest.approx(wall.formed, abs=1e-6)


def has_tabs(wall: Flat) -> bool:
    """Whether the lower edge, two corners without tabs, has more."""
    return sum(one.y < wall.thickness + 1e-6 for one in wall.contours[0]) > 2


def in_car(side: Side, wall: Flat, at: Point) -> Point:
    """Where a hole of a wall is in plan; the wall's far face is the outside of the tray."""
    x, _, depth = folded(wall, panel_base(wall), at)[0]
    # far from the eye is outwards of the wall
    return on_side(side, side.length / 2.0 - x, -depth)


def on_side(side: Side, along: float, out: float) -> Point:
    return (
        side.start[0] + along * side.along[0] + out * side.outwards[0],
        side.start[1] + along * side.along[1] + out * side.outwards[1],
    )


def test_stepped_trays_and_large_ones_are_panels() -> None:
    stepped = replace(RULES, shape="stepped")
    tray = tray_of(stepped, stepped_box((plan_by("L"), plan_by("L")), (138.0, 120.0), stepped))
    flats = tray_flats(tray, stepped)
    assert len(flats) == 7
    assert_panels_make_the_tray(tray, flats)
    # two of the eight or so holes nearest each mitre aside, all are drilled in the flat
    assert sum(len(flat.holes) for flat in flats) >= len(tray.holes) - 6
    small = replace(RULES, fold_shop=FoldShop(sheet=(1000.0, 900.0)))
    panels = tray_flats(tray_of(small, BOX), small)
    assert [flat.name.removeprefix("front bay box 1 tray ") for flat in panels] == [
        "floor",
        "wall right",
        "wall front",
        "wall left",
        "wall rear",
    ]
    assert_panels_make_the_tray(tray_of(small, BOX), panels)


def test_welded_trays_have_flange_strips() -> None:
    welded = replace(RULES, process="welded")
    tray = tray_of(welded, BOX)
    flats = tray_flats(tray, welded)
    assert [bend for flat in flats for bend in flat.bends] == []
    assert sum(" flange " in flat.name for flat in flats) == 4
    assert sum(len(flat.holes) for flat in flats) == len(tray.holes) - 4
    assert_panels_make_the_tray(tray, flats)


def test_a_side_too_short_for_a_wall_is_told() -> None:
    """A jog of 3 mm: less than two thicknesses and the gaps."""
    welded = replace(RULES, process="welded", shape="stepped")
    outline = ((0.0, 0.0), (400.0, 0.0), (400.0, 150.0), (397.0, 150.0), (397.0, 300.0), (0.0, 300.0))
    box = stepped_box((outline,), (138.0,), welded)
    assert cannot_build(welded, (box,)) == ()
    flats = tray_flats(tray_of(welded, box), welded)
    assert_sound(flats)
    assert sum(" wall " in flat.name for flat in flats) == 5
    assert "sides too short for a wall of their own, closed with weld: 1" in flats[0].notes
