"""Stepped boxes: where their parts lie, what stops them from being made, how they are filled."""

from dataclasses import replace
from itertools import combinations
from math import dist

import pytest
import shapely
from hypothesis import given, settings

from boxfit.bay import Bay, BoxRules, Opening
from boxfit.box.assembly import assembly
from boxfit.box.assembly_hand import OpenTier, TerminalFace, overhang, room_across
from boxfit.box.build import box_parts
from boxfit.box.notes import cannot_build
from boxfit.box.parts import BoxParts, Plate
from boxfit.box_details import screw_inset, screw_points, stud_points
from boxfit.box_shape import area, grown, rectangle
from boxfit.car import Car
from boxfit.layout import BayLayout, Layout, PlacedBox, PlacedModule, Weights
from boxfit.module import stances
from tests.box.samples import (
    HERON,
    LINES,
    LOW,
    PLANS,
    RULES,
    bay_with,
    box_around,
    plan_by,
    stepped_box,
    stepped_boxes,
)

STEPPED = replace(RULES, shape="stepped")
ANGLE = plan_by("L", low=(0.0, 0.0, 0.0))
"""190 wide along the rear, 160 along the right."""


def parts_of(rules: BoxRules, box: PlacedBox) -> BoxParts:
    return box_parts(bay_with(rules), 1, box)


def reasons(box: PlacedBox, **rules: float | str) -> tuple[str, ...]:
    """What stops the box."""
    return cannot_build(replace(STEPPED, **rules), (box,))  # type: ignore[arg-type]


def test_a_box_over_a_step_by_hand() -> None:
    """Floor 2.5, liner 3, tier 138, headroom 5: the step floor's underside is 148.5 above the box's."""
    foot, above = rectangle((-313.7, -200.1), (6.3, -40.1)), plan_by("L")
    tray = parts_of(STEPPED, stepped_box((foot, above), (138.0, 100.0), STEPPED)).tray
    assert tray.bands == (Plate(foot, 260.0, 408.5), Plate(above, 408.5, 516.0))
    (step,) = tray.step_floors
    assert (step.plate, step.hole) == (Plate(above, 408.5, 411.0), grown(foot, -2.5))
    assert tray.outside.low == LOW
    assert tray.outside.high == pytest.approx((306.3, 269.9, 516.0))
    (bar,) = tray.ledges
    assert bar.outside == Plate(grown(foot, -2.5), 403.5, 408.5)


def test_shelf_and_lid_follow_the_outlines() -> None:
    """The shelf lies within the walls below it, the lid ends with the flange."""
    foot, above = rectangle((-313.7, -200.1), (6.3, -40.1)), plan_by("L")
    parts = parts_of(STEPPED, stepped_box((foot, above), (138.0, 100.0), STEPPED))
    assert parts.shelves[0].plate == Plate(grown(foot, -3.0), 408.5, 411.0)
    assert parts.lid.plate == Plate(grown(above, 22.0), 516.0, 518.0)
    assert parts.cover_plate is not None
    assert parts.cover_plate.plate.outline == grown(above, 25.0)


def test_a_liner_sheet_for_every_wall() -> None:
    """Front and rear sheets run on at a reflex corner, left and right ones end there."""
    liner = parts_of(STEPPED, stepped_box((ANGLE,), (138.0,), STEPPED)).liner
    assert liner is not None
    found = {sheet.name: (sheet.sheet.low[:2], sheet.sheet.high[:2]) for sheet in liner.sheets}
    assert found["front wall 1 tier 1"] == ((614.5, 2.5), (617.5, 157.5))
    assert found["front wall 2 tier 1"] == ((184.5, 154.5), (187.5, 467.5))
    assert found["left wall 1 tier 1"] == ((187.5, 154.5), (614.5, 157.5))
    assert found["rear wall tier 1"] == ((2.5, 2.5), (5.5, 467.5))
    assert len(found) == 7


@given(stepped_boxes())
@settings(max_examples=60, deadline=None)
def test_parts_do_not_overlap_and_sheets_cover_the_walls(drawn: tuple[BoxRules, PlacedBox]) -> None:
    """Liner, shelves and lid; the sheets of a tier are as much as a strip along its walls."""
    rules, box = drawn
    if cannot_build(rules, (box,)):
        return
    parts = parts_of(rules, box)
    sheets = [sheet.sheet for sheet in parts.liner.sheets] if parts.liner else []
    plates = [*sheets, *(shelf.plate for shelf in parts.shelves), parts.lid.plate]
    for one, other in combinations(plates, 2):
        if min(one.top, other.top) - max(one.bottom, other.bottom) > 1e-6:
            assert shapely.Polygon(one.outline).intersection(shapely.Polygon(other.outline)).area < 1e-6
    for tier, outline in enumerate(box.outlines, start=1):
        inside = grown(outline, -rules.thickness)
        own = [one.sheet for one in parts.liner.sheets if f"tier {tier}" in one.name] if parts.liner else []
        if own:
            strip = area(inside) - area(grown(inside, -rules.liner))
            assert sum(area(sheet.outline) for sheet in own) == pytest.approx(strip)


@given(stepped_boxes())
@settings(max_examples=60, deadline=None)
def test_screws_keep_their_rules(drawn: tuple[BoxRules, PlacedBox]) -> None:
    """On the flange's own line, none too near another, no longer way than 80 mm without one."""
    rules, box = drawn
    outline = box.outlines[-1]
    screws = screw_points(outline, rules)
    if not screws or cannot_build(rules, (box,)):
        return
    line = shapely.LinearRing(grown(outline, rules.flange - screw_inset(rules)))
    assert all(line.distance(shapely.Point(screw)) < 1e-6 for screw in screws)
    assert all(dist(one, other) >= 20.0 for one, other in combinations(screws, 2))
    at = sorted(line.project(shapely.Point(screw)) for screw in screws)
    ways = [after - before for before, after in zip(at, (*at[1:], at[0] + line.length), strict=True)]
    assert max(ways) <= 80.0 + 1e-6
    plan = shapely.Polygon(outline)
    assert all(plan.contains(shapely.Point(stud).buffer(5.0)) for stud in stud_points(outline))


@pytest.mark.parametrize("plan", sorted(PLANS))
def test_every_corner_has_a_screw(plan: str) -> None:
    """Convex ones and reflex ones, where they stand far enough apart; the corners come first."""
    outline = plan_by(plan)
    corners = grown(outline, 11.0)
    assert set(screw_points(outline, STEPPED)[: len(corners)]) == set(corners)


def test_screws_do_not_depend_on_where_an_outline_begins() -> None:
    """A rectangle on top of a stepped box, told from any corner on."""
    plain = rectangle((0.0, 0.0), (600.0, 300.0))
    turned = (*plain[2:], *plain[:2])
    assert screw_points(turned, STEPPED) == screw_points(plain, STEPPED)


def test_a_jog_has_one_screw_not_two() -> None:
    """12 mm between a convex and a reflex corner: the convex one keeps its screw."""
    lines = ((0.0, 190.0, 400.0, 620.0), (0.0, 160.0, 160.0, 172.0))
    line = grown(plan_by("L", lines), 11.0)
    screws = screw_points(plan_by("L", lines), STEPPED)
    assert line[4] in screws
    assert line[3] not in screws


def test_studs_keep_apart_where_an_outline_is_narrow() -> None:
    """Two arms that overlap by 10.5 mm leave a rectangle too narrow for rows of its own."""
    studs = stud_points(plan_by("Z", ((0.0, 190.0, 200.5, 620.0), LINES[1])))
    assert min(dist(one, other) for one, other in combinations(studs, 2)) >= 60.0


def test_what_can_be_built_has_no_reason_against_it() -> None:
    """All four plans, and a plain box asked for as a stepped one."""
    for plan in PLANS:
        assert reasons(stepped_box((plan_by(plan),), (138.0,), STEPPED)) == ()
    assert reasons(box_around(LOW, (30.0, 400.0), (138.0,), RULES)) == ()


def test_a_flange_does_not_run_into_itself() -> None:
    """A gap of 44 in a U with flanges of 22; 45 will do."""
    for gap, told in ((44.0, 1), (45.0, 0)):
        lines = ((0.0, 190.0, 190.0 + gap, 620.0), LINES[1])
        found = reasons(stepped_box((plan_by("U", lines),), (138.0,), STEPPED))
        assert len(found) == told
        assert all("box.flange: facing walls must stand more than 44 mm apart" in one for one in found)


def test_arms_take_ledges_and_liner() -> None:
    """An arm of 15 mm is filled by two walls of 2.5 and two ledges of 5, one of 15.5 is not."""
    for arm, told in ((15.0, 1), (15.5, 0)):
        lines = ((0.0, arm, 400.0, 620.0), LINES[1])
        found = reasons(stepped_box((plan_by("L", lines),) * 2, (138.0, 100.0), STEPPED))
        assert len(found) == told
        assert all(
            one.startswith("box.gap: the walls round tier 1 must stand more than 15 mm") for one in found
        )


def test_a_side_takes_its_bends() -> None:
    """9 mm of side where two bends take 10; welded it will do."""
    lines = (LINES[0], (0.0, 160.0, 165.0, 169.0))
    box = stepped_box((plan_by("L", lines),), (138.0,), STEPPED)
    assert reasons(box) == (
        "box.bend_radius: a side between two corners must be 10 mm or longer (got a side of 9 mm)",
    )
    assert reasons(box, process="welded") == ()


def test_a_step_carries_its_wall() -> None:
    """As wide as the sheet, and outwards only."""
    above = rectangle((0.0, 0.0), (600.0, 300.0))
    for step, told in ((2.0, 1), (2.5, 0)):
        below = rectangle((0.0, 0.0), (600.0 - step, 300.0))
        found = reasons(stepped_box((below, above), (138.0, 100.0), STEPPED))
        assert found == ("box.thickness: the step at tier 2 must be 2.5 mm or wider",) * told
    upside_down = stepped_box((above, rectangle((0.0, 0.0), (500.0, 300.0))), (138.0, 100.0), STEPPED)
    assert reasons(upside_down) == ("box.shape: the walls round tier 2 must enclose those of the tier below",)


def test_walls_by_a_step_take_their_bends() -> None:
    """A bend of 50 in sheet of 2.5 takes 52.5 of wall; the highest band is 45 high, the step is square."""
    foot, above = rectangle((0.0, 0.0), (300.0, 300.0)), rectangle((0.0, 0.0), (600.0, 300.0))
    box = stepped_box((foot, above), (18.0, 40.0), STEPPED)
    assert reasons(box, bend_radius=50.0, flange=60.0) == (
        "box.bend_radius: the bend takes 52.5 mm of a wall 45 mm high (got 50)",
    )
    assert reasons(box, bend_radius=50.0, flange=0.0) == ()


def test_a_module_across_a_reflex_corner_does_not_drop() -> None:
    """It stands 10 mm into the wall one way and far the other; the lesser is told."""
    stance = next(one for one in stances(HERON) if one.length_along == "x")
    assert overhang(PlacedModule(stance, (20.0, 5.0, 0.0)), ANGLE) == pytest.approx(-4.0)
    assert overhang(PlacedModule(stance, (20.0, 19.0, 0.0)), ANGLE) == pytest.approx(10.0)
    assert overhang(PlacedModule(stance, (230.0, 300.0, 0.0)), ANGLE) > 100.0


def test_a_hand_finds_the_walls_of_its_tier() -> None:
    """A module that looks front in the rear arm has 40 to its wall, one in the right arm has the swing."""
    stance = next(one for one in stances(HERON) if one.length_along == "y")
    tier = OpenTier(
        plan_by("L", ((0.0, 191.0, 400.0, 620.0), (0.0, 370.0, 500.0, 740.0)), (0.0, 0.0, 0.0)), 300.0, ()
    )
    front = TerminalFace("front", 0, 1)
    assert room_across(PlacedModule(stance, (0.0, 0.0, 0.0)), front, tier) == 150.0
    assert room_across(PlacedModule(stance, (0.0, 385.0, 0.0)), front, tier) == pytest.approx(40.0, abs=0.01)


def test_filling_a_box_over_a_step() -> None:
    """Two modules below, the shelf, then two more of which one stands on the step floor."""
    stance = next(one for one in stances(HERON) if one.length_along == "y")
    wall, pitch = 9.5, 153.0
    plans = [(2 * wall + count * pitch - 2.0, 2 * wall + 355.0) for count in (2, 3)]
    outlines = tuple(rectangle((0.0, 0.0), plan) for plan in plans)
    empty = stepped_box(outlines, (138.0, 138.0), STEPPED)
    tiers = tuple(
        replace(
            tier,
            modules=tuple(
                PlacedModule(stance, (wall + place * pitch, wall, tier.stands_on)) for place in places
            ),
        )
        for tier, places in zip(empty.tiers, ((0, 1), (0, 2)), strict=True)
    )
    box = replace(empty, tiers=tiers)
    bay: Bay = replace(bay_with(STEPPED), opening=Opening("up"))
    car = Car("Dunlin 850", "dunlin-850", 2180.0, 1180.0, 1160.0, (bay,))
    layout = Layout(
        car.name, HERON.name, 4, 4, 1, 8.8, 4, True, True, (BayLayout(bay.name, (box,)),), Weights(1.0, 1.0)
    )
    steps = assembly(car, HERON, layout)
    tier = ["module", "module", "hold-down"]
    assert [step.doing for step in steps] == ["tray", *tier, "shelf", *tier, "lid"]
    assert all(step.fits for step in steps)
    too_far = replace(tiers[0], modules=(PlacedModule(stance, (wall + 2 * pitch, wall, tiers[0].stands_on)),))
    box = replace(box, tiers=(too_far, tiers[1]))
    layout = replace(layout, bays=(BayLayout(bay.name, (box,)),))
    assert [step.fits for step in assembly(car, HERON, layout) if step.module == 1] == [False]
