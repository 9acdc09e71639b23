"""The blank of a cover plate folds up to its outside; lid and gasket are marked where they are."""

from dataclasses import replace
from itertools import combinations
from math import dist, pi

import pytest
import shapely
from hypothesis import given, settings

from boxfit.bay import BoxRules
from boxfit.box.build import box_parts
from boxfit.box.notes import cannot_build
from boxfit.box.parts import CoverPlate
from boxfit.box_shape import grown, perimeter
from boxfit.layout import PlacedBox
from boxfit.lid_details import cover_reach
from boxfit.sheet.checks import findings_of
from boxfit.sheet.cover_blank import cover_blank
from boxfit.sheet.dxf import dxf_of
from boxfit.sheet.flat import Bend, Flat
from boxfit.sheet.outline import points_of
from boxfit.sheet.plates import cover_plate_flat, lid_flat
from boxfit.standards.bending import k_factor
from boxfit.weight.lid_mass import cover_profile
from boxfit.weight.swept import plan_of
from boxfit.workshop import FoldedK
from tests.box.samples import (
    LOW,
    PLANS,
    RULES,
    bay_with,
    box_around,
    boxes,
    plan_by,
    stepped_box,
    stepped_boxes,
)
from tests.sheet.refold import folded, folded_points, size_of

BOX = box_around(LOW, (480.3, 390.7), (138.0,), RULES)
SHOP = RULES.fold_shop


def cover_of(rules: BoxRules, box: PlacedBox) -> CoverPlate:
    cover = box_parts(bay_with(rules, box.high[2] + 50.0), 1, box).cover_plate
    assert cover is not None
    return cover


def middle(flat: Flat) -> tuple[float, float]:
    return (flat.size[0] / 2.0, flat.size[1] / 2.0)


def test_folds_to_its_outside() -> None:
    """480.3 + 2 x 25 by 390.7 + 2 x 25, 10.5 high; holes of 6.6 over the studs, seen from below."""
    cover = cover_of(RULES, BOX)
    flat = cover_blank(cover, SHOP)
    assert size_of(folded_points(flat, middle(flat))) == pytest.approx((530.3, 440.7, 10.5), abs=1e-6)
    assert flat.formed == pytest.approx((530.3, 440.7, 10.5))
    assert [(bend.up, bend.angle, bend.radius, bend.leg) for bend in flat.bends] == [
        (True, 90.0, 2.5, 8.5)
    ] * 4
    (x, y, _), (a, b, _) = cover.plate.low, cover.plate.high
    found = {
        (round((x + a) / 2.0 - far[0], 6), round((y + b) / 2.0 + far[1], 6))
        for far, _ in (folded(flat, middle(flat), hole.at) for hole in flat.holes)
    }
    assert found == {(round(at[0], 6), round(at[1], 6)) for at in cover.holes}
    assert {hole.diameter for hole in flat.holes} == {6.6}
    assert findings_of(flat, SHOP) == ()


def test_the_shops_own_k_changes_the_blank_and_not_the_plate() -> None:
    cover = cover_of(RULES, BOX)
    own = replace(SHOP, k_table=(FoldedK(2.0, 2.5, 0.45),))
    flat = cover_blank(cover, own)
    assert flat.size[0] > cover_blank(cover, SHOP).size[0] + 0.5
    assert size_of(folded_points(flat, middle(flat))) == pytest.approx((530.3, 440.7, 10.5), abs=1e-6)
    assert all(bend.by_table and bend.k == 0.45 for bend in flat.bends)


def test_another_material_has_its_own_radius_and_k() -> None:
    steel = replace(RULES, cover_material="stainless-1.4301", lid_thickness=3.0, bend_radius=1.0)
    flat = cover_plate_flat(cover_of(steel, BOX), SHOP)
    assert flat.material == "stainless-1.4301"
    assert {(bend.radius, bend.k) for bend in flat.bends} == {(3.0, k_factor(3.0, 3.0))}
    assert findings_of(flat, SHOP) == ()


@settings(deadline=None, max_examples=60)
@given(boxes())
def test_any_plain_cover_plate(drawn: tuple[BoxRules, PlacedBox]) -> None:
    assert_sound(*drawn)


@settings(deadline=None, max_examples=60)
@given(stepped_boxes())
def test_any_stepped_cover_plate(drawn: tuple[BoxRules, PlacedBox]) -> None:
    assert_sound(*drawn)


@pytest.mark.parametrize("plan", sorted(PLANS))
def test_stepped_plans(plan: str) -> None:
    """Every corner that turns inwards is told of."""
    rules = replace(RULES, shape="stepped")
    box = stepped_box((plan_by(plan),), (138.0,), rules)
    assert_sound(rules, box)
    flat = cover_plate_flat(cover_of(rules, box), SHOP)
    assert len(flat.bends) == len(PLANS[plan])
    inwards = (len(PLANS[plan]) - 4) // 2
    assert any(note.endswith(f"with a piece welded in: {inwards}") for note in flat.notes)


def assert_sound(rules: BoxRules, box: PlacedBox) -> None:
    """One sheet that does not cross itself, every bend in it and where the outside asks for it."""
    if cannot_build(rules, (box,)) or rules.process == "printed":
        return
    cover = cover_of(rules, box)
    flat = cover_plate_flat(cover, SHOP)
    sheet = shapely.Polygon(points_of(flat.contours[0]))
    assert sheet.is_valid
    assert flat.formed[2] == pytest.approx(cover.height)
    assert all(sheet.contains(shapely.Point(hole.at).buffer(hole.diameter / 2.0)) for hole in flat.holes)
    if not cover.returned:
        assert flat.bends == ()
        return
    assert len(flat.bends) == len(cover.plate.outline)
    for bend in flat.bends:
        assert sheet.buffer(0.05).contains(shapely.LineString((bend.start, bend.end)))
        assert bend.leg >= 3.0 * flat.thickness + bend.radius - 1e-6
    assert_bends_lie_right(cover, flat)
    assert_weighs_alike(rules, box, flat)
    used = [strip_of(bend) for bend in flat.bends]
    twice = shapely.union_all([one.intersection(other) for one, other in combinations(used, 2)])
    corner = flat.bends[0].allowance ** 2
    assert sheet.intersection(twice).area <= 0.1 * corner * len(used)


def strip_of(bend: Bend) -> shapely.Polygon:
    """The sheet that a bend uses up."""
    line = shapely.LineString((bend.start, bend.end))
    return line.buffer(bend.allowance / 2.0, cap_style="flat")


def assert_bends_lie_right(cover: CoverPlate, flat: Flat) -> None:
    """Outside planes of the folded edges run along the sides of the outline, mirrored, in order."""
    wide = cover.plate.low[0] + cover.plate.high[0]
    outline = [(wide - x, y) for x, y in reversed(cover.plate.outline)]
    out = flat.bends[0].radius + flat.thickness - flat.bends[0].allowance / 2.0
    grow = (flat.size[0] - flat.formed[0]) / 2.0
    shift = (min(x for x, _ in outline) - grow, min(y for _, y in outline) - grow)
    for bend, start, end in zip(flat.bends, outline, outline[1:] + outline[:1], strict=True):
        long = dist(start, end)
        ways = ((end[0] - start[0]) / long, (end[1] - start[1]) / long)
        for place in (bend.start, bend.end):
            x, y = place[0] + shift[0] - start[0], place[1] + shift[1] - start[1]
            assert x * ways[1] - y * ways[0] == pytest.approx(-out, abs=1e-6)
            assert -cover.height < x * ways[0] + y * ways[1] < long + cover.height


def assert_weighs_alike(rules: BoxRules, box: PlacedBox, flat: Flat) -> None:
    """Less than the solid by what bends are known to be off, reliefs, corners and mitres, and no more."""
    profile = cover_profile(box.high[2] - box.low[2], rules, True)
    holes = len(flat.holes) * pi / 4.0 * 6.6**2 * flat.thickness
    solid = plan_of(box.outlines[-1]).swept(profile).volume - holes
    bend, around = flat.bends[0], perimeter(grown(box.outlines[-1], cover_reach(rules)))
    thick, outer, high = flat.thickness, bend.radius + flat.thickness, flat.formed[2]
    off = pi / 2.0 * (0.5 - bend.k) * thick**2
    missing = solid - flat.area * thick - off * around
    reflex = (len(flat.bends) - 4) / 2.0
    corner = 8.0 * outer**2 * thick + (thick + 1.5) * thick * high
    mitre = (high + 2.0) ** 2 * thick
    assert -8.0 * outer * abs(off) - 1e-6 <= missing
    assert missing <= len(flat.bends) * corner + reflex * mitre


def test_lid_tells_studs_and_gasket() -> None:
    """A cross for every stud, and the gasket's line, on the layer that is marked."""
    rules = replace(RULES, gasket_width=8.0, gasket_thickness=4.0)
    parts = box_parts(bay_with(rules), 1, box_around(LOW, (480.3, 390.7), (138.0,), rules))
    flat = lid_flat(parts.lid, parts.gasket)
    assert len(flat.marks) == len(parts.lid.studs) == 9
    (line,) = flat.lines
    # hand: the lid ends 22 outside of the walls, the gasket's middle runs 6.5 outside of them
    assert min(line) == pytest.approx((15.5, 15.5))
    assert max(line) == pytest.approx((480.3 + 44.0 - 15.5, 390.7 + 44.0 - 15.5))
    assert lid_flat(parts.lid).lines == ()
    assert lines_marked(dxf_of(flat)) == lines_marked(dxf_of(lid_flat(parts.lid))) + 1


def lines_marked(text: bytes) -> int:
    """Closed lines on the layer "mark" of a DXF file."""
    from io import StringIO

    import ezdxf
    from ezdxf.entities.lwpolyline import LWPolyline

    space = ezdxf.read(StringIO(text.decode())).modelspace()  # type: ignore[attr-defined]
    lines = [one for one in space.query("LWPOLYLINE") if isinstance(one, LWPolyline)]
    return len([one for one in lines if one.dxf.layer == "mark" and one.closed])
