"""What cannot be built is told by key and figure, what can only half be built with a remedy."""

from dataclasses import replace

from boxfit.bay import BoxRules
from boxfit.box.build import box_parts
from boxfit.box.notes import cannot_build
from tests.box.samples import LOW, RULES, bay_with, box_around


def notes_of(rules: BoxRules, tiers: int) -> tuple[str, ...]:
    """The notes on a box of so many tiers."""
    box = box_around(LOW, (600.0, 400.0), (100.0,) * tiers, rules)
    return box_parts(bay_with(rules), 1, box).notes


def test_usual_rules_can_be_built_and_need_no_note() -> None:
    """The flange of 22 just takes the holes."""
    assert cannot_build(RULES) == ()
    assert notes_of(RULES, 2) == ()


def test_reasons_not_to_build() -> None:
    """Every reason names its key, what was found and what would do."""
    assert cannot_build(replace(RULES, asked=False)) == ("[box]: missing, so no box can be built",)
    assert cannot_build(replace(RULES, thickness=0.0, lid_thickness=0.0)) == (
        "box.thickness: must be above 0 to build (got 0)",
        "box.lid_thickness: must be above 0 to build (got 0)",
    )
    narrow = replace(RULES, flange=2.5)
    assert cannot_build(narrow) == ("box.flange: must be 0 or above box.bend_radius 2.5 (got 2.5)",)
    assert cannot_build(replace(narrow, process="welded")) == ()
    assert cannot_build(replace(RULES, flange=0.0)) == ()


def test_box_too_shallow_to_fold() -> None:
    """A flange's bend of 20 on a floor, in 2.5 sheet: 25 mm of wall; then the floor's joint is square."""
    rules = replace(RULES, bend_radius=20.0)
    shallow = box_around(LOW, (600.0, 400.0), (13.0,), rules)
    assert cannot_build(rules, (shallow,)) == (
        "box.bend_radius: floor and bend take 25 mm of a wall 23.5 mm high (got 20)",
    )
    assert cannot_build(rules, (box_around(LOW, (600.0, 400.0), (14.5,), rules),)) == ()
    assert cannot_build(replace(rules, process="welded"), (shallow,)) == ()


def test_narrow_flange_has_no_screws() -> None:
    """7 of hole and 2 t + r on both sides of it."""
    assert notes_of(replace(RULES, flange=21.9), 1) == (
        "front bay box 1: no lid screws: a flange of 21.9 mm is too narrow for rivet-nut holes; "
        "box.flange = 22 would do",
    )
    assert notes_of(replace(RULES, flange=17.0, process="welded"), 1) == ()


def test_shelf_without_ledge() -> None:
    """One tier needs none; the remedy is what is really missing: 1 mm by liner and half the gap."""
    rules = replace(RULES, gap=0.0, liner=0.5, headroom=0.0)
    assert notes_of(rules, 1) == ()
    assert notes_of(rules, 2) == (
        "front bay box 1: the shelves have nothing to stand on: box.gap = 1 and box.headroom = 1 or more "
        "would leave room for a ledge under them",
    )
    assert notes_of(replace(rules, gap=1.0, headroom=1.0), 2) == ()


def test_a_material_that_does_not_suit_is_noted() -> None:
    assert notes_of(replace(RULES, process="printed"), 1) == (
        'front bay box 1: box.material: aluminium-5754 is seldom printed; try "petg" or "abs", '
        'or box.process = "folded"',
    )
