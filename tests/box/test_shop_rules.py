"""What no shop makes is told with what would do. The tables: see tests/published/test_bending.py."""

from dataclasses import replace
from typing import Any

import pytest

from boxfit.bay import BoxRules, Process
from boxfit.box.shop_rules import least_fold_leg, shop_faults, unsuited
from boxfit.standards.materials import MATERIALS
from boxfit.workshop import FoldShop, PrintShop
from tests.box.samples import RULES

PRINTED = replace(RULES, process="printed", material="petg")


def told(rules: BoxRules) -> list[str]:
    return [fault.text for fault in shop_faults(rules)]


def test_usual_rules_are_made_by_every_process() -> None:
    assert told(RULES) == told(replace(RULES, process="welded")) == told(PRINTED) == []


def test_a_radius_tighter_than_the_alloy_allows() -> None:
    assert told(replace(RULES, bend_radius=2.4)) == [
        "box.bend_radius: must not be below 2.5, the tightest for aluminium-5754 2.5 mm thick "
        "(EN 485-2, 5754 O/H111, a dealer's copy) (got 2.4); try: box.bend_radius = 2.5"
    ]
    (fault,) = shop_faults(replace(RULES, material="aluminium-6082", bend_radius=2.5))
    assert fault.remedy.startswith("box.bend_radius = 8.75, or ")
    assert '"aluminium-5754"' in fault.remedy


def test_nothing_is_said_of_a_radius_that_no_bend_has() -> None:
    for process in ("welded", "printed"):
        assert told(replace(RULES, process=process, bend_radius=0.0)) == []


def test_nothing_is_said_where_no_table_tells() -> None:
    assert told(replace(RULES, material="petg", bend_radius=0.0, flange=22.0)) == []


@pytest.mark.parametrize(
    ("flange", "own", "expected"),
    [
        (0.0, None, []),
        (10.0, None, []),
        (9.9, None, ["box.flange = 10"]),
        (9.9, 8.0, []),
        (22.0, 25.0, ["box.flange = 25"]),
        (0.0, 25.0, []),
    ],
)
def test_a_flange_under_the_least_of_the_brake(flange: float, own: float | None, expected: list[str]) -> None:
    """3 x 2.5 + 2.5 = 10 unless the shop says."""
    rules = replace(RULES, flange=flange, fold_shop=FoldShop(least_flange=own))
    assert [fault.remedy for fault in shop_faults(rules)] == expected
    assert least_fold_leg(rules) == (10.0 if own is None else own)


def test_a_printed_wall_thinner_than_the_shop_prints() -> None:
    rules = replace(PRINTED, thickness=1.1, lid_thickness=1.5, print_shop=PrintShop(least_wall=1.6))
    assert told(rules) == [
        "box.thickness: must not be below print_shop.least_wall 1.6 to be printed (got 1.1); "
        "try: box.thickness = 1.6",
        "box.lid_thickness: must not be below print_shop.least_wall 1.6 to be printed (got 1.5); "
        "try: box.lid_thickness = 1.6",
    ]
    assert told(replace(rules, process="welded")) == []


def test_without_a_box_nothing_is_asked() -> None:
    assert told(replace(RULES, asked=False, bend_radius=0.0)) == []
    assert told(replace(RULES, thickness=0.0, bend_radius=0.0)) == []


@pytest.mark.parametrize("material", sorted(MATERIALS))
def test_every_remedy_does(material: str) -> None:
    rules = replace(RULES, material=material, bend_radius=0.0, flange=1.0)
    for _ in range(2):
        for fault in shop_faults(rules):
            value = float(fault.remedy.split(" = ")[1].split(",")[0])
            changed: dict[str, Any] = {fault.key.removeprefix("box."): value}
            rules = replace(rules, **changed)
    assert told(rules) == []


@pytest.mark.parametrize(
    ("process", "material", "odd"),
    [
        ("folded", "aluminium-5754", False),
        ("folded", "abs", True),
        ("folded", "hdpe", True),
        ("welded", "steel-s235", False),
        ("welded", "hdpe", False),
        ("welded", "pla", True),
        ("printed", "petg", False),
        ("printed", "steel-s235", True),
        ("printed", "stainless-1.4301", True),
    ],
)
def test_a_material_that_does_not_suit_is_told(process: Process, material: str, odd: bool) -> None:
    found = unsuited(replace(RULES, process=process, material=material))
    assert bool(found) == odd
    assert all(words.startswith(f"box.material: {material} ") for words in found)
