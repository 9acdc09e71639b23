"""Every weld of a box, against sums by hand."""

from dataclasses import replace
from math import atan, dist, sin, sqrt

import pytest

from boxfit.bay import BoxRules
from boxfit.box.build import box_parts
from boxfit.box.fitting import Fittings, Looks, Strip, StripHole, StripKind
from boxfit.box.welds import Weld, length_of, welds_of
from boxfit.box_shape import perimeter, rectangle
from boxfit.layout import PlacedBox
from boxfit.sheet.flats import tray_flats
from tests.box.samples import LOW, RULES, bay_with, box_around, plan_by, stepped_box

BOX = box_around(LOW, (480.0, 390.0), (138.0, 120.0), RULES)
HEIGHT = 2.5 + 3.0 + 138.0 + 5.0 + 2.5 + 120.0 + 5.0
"""Outside of the floor to the rim: floor, liner, tier, headroom, shelf, tier, headroom."""


def welds(rules: BoxRules, box: PlacedBox = BOX) -> tuple[Weld, ...]:
    return welds_of(box_parts(bay_with(rules), 1, box), rules)


def by_name(found: tuple[Weld, ...]) -> dict[str, tuple[int, float]]:
    """How many of each name, and their length [mm] in all."""
    names = dict.fromkeys(weld.name for weld in found)
    return {
        name: (
            sum(weld.quantity for weld in found if weld.name == name),
            sum(weld.whole for weld in found if weld.name == name),
        )
        for name in names
    }


def test_one_blank_has_corners_reliefs_and_mitres() -> None:
    """Bends of 2.5 + 2.5; reliefs are as long as their arcs in the blank. The ledge lies within the walls."""
    found = by_name(welds(RULES))
    assert list(found) == ["corner relief", "corner seam", "flange mitre", "ledge seam"]
    assert found["corner seam"] == pytest.approx((4, 4 * (HEIGHT - 5.0)))
    assert found["flange mitre"] == pytest.approx((4, 4 * sqrt(2.0) * 22.0))
    assert found["ledge seam"] == pytest.approx((4, 2 * (475.0 + 385.0)))
    (flat,) = tray_flats(box_parts(bay_with(RULES), 1, BOX).tray, RULES)
    pairs = zip(flat.contours[0], flat.contours[0][1:] + flat.contours[0][:1], strict=True)
    arcs = [
        (4.0 * atan(abs(one.bulge)), dist((one.x, one.y), (other.x, other.y)))
        for one, other in pairs
        if one.bulge
    ]
    around = sum(angle * chord / (2.0 * sin(angle / 2.0)) for angle, chord in arcs)
    assert found["corner relief"] == pytest.approx((4, around))


@pytest.mark.parametrize("process", ["folded", "welded"])
def test_panels_have_floor_seams(process: str) -> None:
    """Walls stand on a floor of 2.5; strips for a flange only where nothing is folded."""
    shop = replace(RULES.fold_shop, sheet=(900.0, 900.0))
    rules = replace(RULES, fold_shop=shop, process=process)  # type: ignore[arg-type]
    found = by_name(welds(rules))
    assert found["floor seam"] == pytest.approx((4, 2 * (480.0 + 390.0)))
    assert found["corner seam"] == pytest.approx((4, 4 * (HEIGHT - 2.5)))
    assert found["flange mitre"] == pytest.approx((4, 4 * sqrt(2.0) * 22.0))
    strips = (4, 1740.0) if process == "welded" else (0, 0.0)
    assert found.get("flange seam", (0, 0.0)) == pytest.approx(strips)
    assert "corner relief" not in found


def test_a_step_is_welded_on_both_sides() -> None:
    """Under the step floor all round the walls below, on it all round the walls above."""
    rules = replace(RULES, shape="stepped", gap=0.0, liner=0.0)
    foot, above = rectangle((-303.7, 99.9), (-133.7, 249.9)), plan_by("L")
    found = by_name(welds(rules, stepped_box((foot, above), (138.0, 110.0), rules)))
    assert found["floor seam"] == pytest.approx((4, 2 * (170.0 + 150.0)))
    assert found["under the step floor"] == pytest.approx((4, 640.0))
    assert found["step floor seam"] == pytest.approx((6, perimeter(above)))
    # below: floor, tier, headroom; above: the tier and its headroom
    assert found["corner seam"] == pytest.approx((10, 4 * (138.0 + 5.0) + 6 * (110.0 + 5.0)))
    assert found["flange mitre"] == pytest.approx((6, 6 * sqrt(2.0) * 22.0))


def test_what_meets_what_is_named() -> None:
    joins = [weld.joins for weld in welds(replace(RULES, process="welded", flange=0.0, tiers=1))]
    assert joins[:5] == [
        "floor and wall right",
        "floor and wall front",
        "floor and wall left",
        "floor and wall rear",
        "wall and wall",
    ]
    assert joins[5:] == [f"ledge 1 and wall {side}" for side in ("right", "front", "left", "rear")]


@pytest.mark.parametrize(
    ("material", "thickness", "words"),
    [
        ("aluminium-5754", 4.0, "square edges, no bevel (ISO 9692-3, from memory)"),
        ("aluminium-5754", 4.5, "bevel one edge 45 degrees, root face 1 to 2 mm (ISO 9692-3, from memory)"),
        ("stainless-1.4301", 2.0, "square edges, no bevel (ISO 9692-1, from memory)"),
        ("steel-s235", 3.5, "bevel one edge 45 degrees, root face 1 to 2 mm (ISO 9692-1, from memory)"),
        ("petg", 3.0, "bevel both edges 30 degrees for the filler rod (common practice, no source)"),
    ],
)
def test_edges_are_prepared_by_material_and_thickness(material: str, thickness: float, words: str) -> None:
    rules = replace(RULES, process="welded", material=material, thickness=thickness)
    box = box_around(LOW, (480.0, 390.0), (138.0,), rules)
    assert {weld.preparation for weld in welds(rules, box) if weld.name == "floor seam"} == {words}


def test_what_is_welded_on_is_counted() -> None:
    """A block 30 x 14 on three sides; a channel of 25, 26 and 25 to two plates; feet unless screwed; a lug.

    The lug is 8 thick and 40 high under a flange of 22: two faces of 40 + 22, and its lower end.
    """
    parts = box_parts(bay_with(RULES), 1, BOX)

    def strip(kind: StripKind, legs: tuple[float, ...], width: float, holes: tuple[int, ...]) -> Strip:
        turns: tuple[Looks, ...] = ("up", "left", "down")
        drilled = tuple(StripHole(leg, 5.0, 5.0, 5.0) for leg in holes)
        ways = tuple(zip(turns, legs, strict=False))
        is_bar = kind == "hold-down bracket"
        steel = ("steel-s235", 6.0, 6.0)
        return Strip(kind, kind, *steel, (0.0, 0.0, 0.0), "front", width, ways, "left", drilled, (), is_bar)

    hole = (StripHole(0, 20.0, 36.0, 14.0),)
    lug_at = ((0.0, 0.0, 600.0), "down", 40.0, (("left", 52.0),), "front")
    lug = Strip("lifting lug", "lug", "steel-s235", 8.0, 0.0, *lug_at, hole, rounded=16.0)  # type: ignore[arg-type]
    strips = (
        strip("hold-down bracket", (14.0,), 30.0, (0,)),
        strip("hold-down bracket", (14.0,), 30.0, (0,)),
        strip("hold-down", (25.0, 26.0, 25.0), 400.0, ()),
        strip("hold-down", (25.0, 13.0), 300.0, (0, 0)),
        strip("foot", (44.0, 63.0), 60.0, (0,)),
        strip("foot", (44.0, 63.0), 60.0, (0, 1, 1)),
    )
    fitted = replace(parts, fittings=Fittings((*strips, lug)))
    added = welds_of(fitted, RULES)[len(welds_of(parts, RULES)) :]
    assert by_name(added) == {
        "block seam": (2, 2 * (30.0 + 2 * 14.0)),
        "end plate seam": (2, 2 * 76.0),
        "foot seam": (2, 2 * 45.0),
        "lug seam": (1, 2 * (40.0 + 22.0) + 8.0),
    }
    assert len(added) == 4


def test_a_printed_box_has_none_and_all_add_up() -> None:
    assert welds(replace(RULES, process="printed", material="petg")) == ()
    found = welds(RULES)
    assert length_of(found) == pytest.approx(sum(length for _, length in by_name(found).values()))
