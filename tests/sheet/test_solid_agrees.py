"""Flats folded up and stood where they belong are the tray's solid: its outside, its corners, its cutouts."""

from dataclasses import replace
from math import pi
from typing import TYPE_CHECKING

import pytest
from shapely import Polygon

from boxfit.bay import BoxRules, Vector
from boxfit.box.build import box_parts
from boxfit.box.fitting import DIRECTIONS, Cutout, Looks
from boxfit.box.parts import Tray
from boxfit.box_shape import rectangle
from boxfit.layout import PlacedBox
from boxfit.sheet.checks import findings_of
from boxfit.sheet.flat import Flat, contour_area
from boxfit.sheet.flats import tray_flats
from boxfit.sheet.outline import points_of
from boxfit.solid.tray import tray_shape
from boxfit.workshop import FoldedK, FoldShop
from tests.box.samples import LOW, RULES, bay_with, box_around, plan_by, stepped_box
from tests.sheet.stood import all_stood, blank_stood, floor_stood, panels_of, wall_stood

if TYPE_CHECKING:
    from OCP.TopoDS import TopoDS_Shape

BOX = box_around(LOW, (480.3, 390.7), (138.0, 120.0), RULES)
STEPPED = replace(RULES, shape="stepped")
OVER_A_STEP = stepped_box((rectangle((-303.7, 99.9), (-133.7, 249.9)), plan_by("L")), (138.0, 110.0), STEPPED)
SAMPLES: dict[str, tuple[BoxRules, PlacedBox, bool]] = {
    "one blank": (RULES, BOX, True),
    "one blank by the shop's K": (
        replace(RULES, fold_shop=FoldShop(k_table=(FoldedK(2.5, 2.5, 0.44),))),
        BOX,
        True,
    ),
    "too large for the sheet": (replace(RULES, fold_shop=FoldShop(sheet=(1000.0, 900.0))), BOX, False),
    "too long for the brake": (replace(RULES, fold_shop=FoldShop(brake=470.0)), BOX, False),
    "walls lower than their bends": (
        replace(RULES, bend_radius=20.0, flange=25.0),
        box_around(LOW, (480.3, 390.7), (30.0,), RULES),
        False,
    ),
    "an angle": (STEPPED, stepped_box((plan_by("L"),), (138.0,), STEPPED), False),
    "over a step": (STEPPED, OVER_A_STEP, False),
}


def tray_of(rules: BoxRules, box: PlacedBox) -> Tray:
    return box_parts(bay_with(rules), 1, box).tray


def bounds(shape: "TopoDS_Shape") -> tuple[float, ...]:
    from OCP.Bnd import Bnd_Box
    from OCP.BRepBndLib import BRepBndLib

    box = Bnd_Box()
    BRepBndLib.AddOptimal_s(shape, box)
    return tuple(value for at in (box.CornerMin(), box.CornerMax()) for value in (at.X(), at.Y(), at.Z()))


def is_solid(shape: "TopoDS_Shape", point: Vector) -> bool:
    from OCP.BRepClass3d import BRepClass3d_SolidClassifier
    from OCP.gp import gp_Pnt
    from OCP.TopAbs import TopAbs_IN

    return bool(BRepClass3d_SolidClassifier(shape, gp_Pnt(*point), 1e-6).State() == TopAbs_IN)


@pytest.mark.parametrize("name", SAMPLES)
def test_folded_up_the_flats_have_the_outside_of_the_solid(name: str) -> None:
    rules, box, one_blank = SAMPLES[name]
    tray = tray_of(rules, box)
    assert (tray.floor_radius is not None) == one_blank
    flats, shape = tray_flats(tray, rules), tray_shape(tray)
    assert (len(flats) == 1) == one_blank
    points = [point for pair in all_stood(tray, flats) for point in pair]
    found = [edge(values) for edge in (min, max) for values in zip(*points, strict=True)]
    # mitres of the flanges stand back half the weld gap at their tips, their edges do not
    assert bounds(shape) == pytest.approx(tuple(found), abs=0.01)


@pytest.mark.parametrize("name", SAMPLES)
def test_the_floor_joint_is_what_the_flats_make(name: str) -> None:
    """A bend leaves the outside corner free and fills the inside one; a square joint the other way round."""
    rules, box, one_blank = SAMPLES[name]
    tray = tray_of(rules, box)
    shape = tray_shape(tray)
    (x, y), (a, b) = tray.bands[0].outline[:2]
    assert y == b
    middle, low, thick = (x + a) / 2.0, tray.bands[0].bottom, tray.thickness
    assert is_solid(shape, (middle, y + 0.1, low + 0.1)) != one_blank
    assert is_solid(shape, (middle, y + thick + 0.1, low + thick + 0.1)) == one_blank


def round_hole(looks: Looks, at: Vector) -> Cutout:
    return Cutout("cable gland", looks, at, diameter=20.5)


def window(looks: Looks, at: Vector) -> Cutout:
    return Cutout("service disconnect", looks, at, size=(50.0, 30.0), corner=4.0)


def with_cutouts(tray: Tray) -> Tray:
    """A round one and a window in every side of the lowest band, off its middle, and in the floor."""
    (x, y, low), (a, b, top) = tray.bands[0].low, tray.bands[0].high
    up, far = (low + top) / 2.0 + 7.0, (low + top) / 2.0 - 9.0
    found = [round_hole("down", (x + 55.0, y + 47.0, low)), window("down", (a - 60.0, b - 55.0, low))]
    for looks, across, first, last in (("front", a, y, b), ("rear", x, y, b)):
        found.append(round_hole(looks, (across, first + 35.0, up)))  # type: ignore[arg-type]
        found.append(window(looks, (across, last - 40.0, far)))  # type: ignore[arg-type]
    for looks, across, first, last in (("left", b, x, a), ("right", y, x, a)):
        found.append(round_hole(looks, (first + 35.0, across, up)))  # type: ignore[arg-type]
        found.append(window(looks, (last - 40.0, across, far)))  # type: ignore[arg-type]
    return replace(tray, cutouts=tuple(found))


@pytest.mark.parametrize("name", ["one blank", "too large for the sheet", "over a step"])
def test_cutouts_come_to_lie_where_they_are_wanted(name: str) -> None:
    """Middle and area of every hole and window of the flats, once folded, and air there in the solid."""
    rules, box, _ = SAMPLES[name]
    plain = tray_of(rules, box)
    tray = with_cutouts(plain)
    flats, shape, whole = tray_flats(tray, rules), tray_shape(tray), tray_shape(plain)
    assert sum(flat.area for flat in tray_flats(plain, rules)) - sum(flat.area for flat in flats) == (
        pytest.approx(5 * pi / 4.0 * 20.5**2 + 5 * (50.0 * 30.0 - (4.0 - pi) * 4.0**2))
    )
    wanted = sorted((round_to(one.at), one.diameter) for one in tray.cutouts)
    assert sorted(cut_in(tray, flats)) == wanted
    for cutout in tray.cutouts:
        x, y, z = (
            at - way * tray.thickness / 2.0
            for at, way in zip(cutout.at, DIRECTIONS[cutout.looks], strict=True)
        )
        assert not is_solid(shape, (x, y, z))
        assert is_solid(whole, (x, y, z))
    assert [one.text for flat in flats for one in findings_of(flat, rules.fold_shop)] == []


def round_to(point: Vector) -> tuple[float, float, float]:
    x, y, z = (round(value, 5) + 0.0 for value in point)
    return (x, y, z)


def cut_in(tray: Tray, flats: tuple[Flat, ...]) -> list[tuple[Vector, float]]:
    """Middles, on the outside, of all holes of the cutouts' size and of the windows, of diameter 0."""
    found: list[tuple[Vector, float]] = []
    placed = [(flats[0], None, None)] if len(flats) == 1 else list(panels_of(tray, flats))
    for flat, plate, side in placed:
        # the first opening of a step floor is that over the walls below
        windows = [Polygon(points_of(one)).centroid.coords[0] for one in flat.contours[1:] if is_window(one)]
        holes = [hole for hole in flat.holes if hole.diameter == 20.5]
        points = [*(hole.at for hole in holes), *windows]
        if plate is None:
            stood = blank_stood(tray, flat, points)
        elif side is None:
            stood = floor_stood(tray, plate, flat, points)
        else:
            stood = wall_stood(plate, side, flat, points)
        wide = [*(hole.diameter for hole in holes), *(0.0 for _ in windows)]
        found += [(round_to(far), diameter) for (far, _), diameter in zip(stood, wide, strict=True)]
    return found


def is_window(contour: tuple[object, ...]) -> bool:
    return abs(abs(contour_area(contour)) - 1500.0) < 20.0  # type: ignore[arg-type]


def test_a_window_lies_the_right_way_round() -> None:
    """50 along the wall and 30 up, its corners true arcs of 4, in a blank and in a panel."""
    for name in ("one blank", "too large for the sheet"):
        rules, box, _ = SAMPLES[name]
        tray = with_cutouts(tray_of(rules, box))
        for flat in tray_flats(tray, rules):
            for contour in (one for one in flat.contours[1:] if is_window(one)):
                assert len(contour) == 8
                assert len({abs(corner.bulge) for corner in contour}) == 2
                turned = contour_area(contour)
                assert all(corner.bulge * turned >= 0.0 for corner in contour)
                assert abs(turned) == pytest.approx(50.0 * 30.0 - (4.0 - pi) * 16.0)


def test_a_cutout_in_the_air_is_refused() -> None:
    tray = tray_of(RULES, BOX)
    astray = replace(tray, cutouts=(round_hole("front", (0.0, 0.0, 0.0)),))
    with pytest.raises(ValueError, match="on no wall or floor: cable gland"):
        tray_flats(astray, RULES)


def test_cutouts_too_near_an_edge_or_a_bend_are_told() -> None:
    """A window 3 mm off another hole, and one that begins where the bend ends."""
    tray = tray_of(RULES, BOX)
    x, y, low = tray.outside.low
    near = (
        window("right", (x + 100.0, y, low + 5.0 + 15.0)),
        round_hole("right", (x + 100.0 + 25.0 + 3.0 + 10.25, y, low + 40.0)),
    )
    (flat,) = tray_flats(replace(tray, cutouts=near), RULES)
    told = {(one.code, round(one.figure, 3)) for one in findings_of(flat, RULES.fold_shop)}
    assert ("hole to bend", 2.5) in told
