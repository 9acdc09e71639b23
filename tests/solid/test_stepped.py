"""Stepped boxes as solids: as large as the closed form says, closed, and passed by the judge of solids."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import assume, given, settings

from boxfit.bay import BoxRules, Process
from boxfit.box.build import box_parts
from boxfit.box.notes import cannot_build
from boxfit.box.whole import built_boxes
from boxfit.box_shape import rectangle
from boxfit.judge.solids import judge_solids
from boxfit.layout import BayLayout, PlacedBox
from boxfit.lid_details import has_gasket
from boxfit.solid.made import MadePart, made_parts
from boxfit.solid.weighed import solid_properties
from boxfit.solid.write import write_solids
from boxfit.surface import Outline
from boxfit.weight.box_mass import box_mass
from tests.box.samples import (
    HERON,
    PLANS,
    RULES,
    bay_with,
    car_and_layout,
    height_and_levels,
    plan_by,
    stepped_box,
    stepped_boxes,
)

FOOT = rectangle((-303.7, 99.9), (-133.7, 249.9))
"""Within the plan of the L, 10 to 20 mm from its walls."""
PROCESSES: tuple[Process, ...] = ("folded", "welded", "printed")
HEIGHTS = (138.0, 110.0, 95.0)


def liner(process: Process) -> list[str]:
    """A printed box has ribs in its place."""
    return [] if process == "printed" else ["liner"]


def parts_of(rules: BoxRules, box: PlacedBox) -> tuple[MadePart, ...]:
    """The parts of a box as bodies."""
    bay = bay_with(rules, top=box.high[2] + 50.0)
    return made_parts(bay, box, box_parts(bay, 1, box))


def agree(rules: BoxRules, box: PlacedBox) -> Iterator[str]:
    """The kinds of part, each held against its closed form and seen to be closed."""
    import trimesh
    from OCP.BRepCheck import BRepCheck_Analyzer

    for part in parts_of(rules, box):
        form, closed = part.body.form, part.closed_form
        assert BRepCheck_Analyzer(form.shape).IsValid()
        solid = solid_properties(form.shape, 1.0)
        assert solid.mass == pytest.approx(closed.volume, rel=1e-6)
        where = tuple(low + own for low, own in zip(box.low, closed.centre, strict=True))
        assert solid.centre == pytest.approx(where, abs=1e-3)
        assert form.mesh.volume == pytest.approx(closed.volume, rel=5e-3)
        if part.kind != "liner":
            mesh = trimesh.Trimesh(form.mesh.corners, form.mesh.triangles)
            assert mesh.is_watertight
            assert mesh.is_winding_consistent
        yield part.kind


@pytest.mark.parametrize("process", PROCESSES)
@pytest.mark.parametrize("plan", sorted(PLANS))
def test_stepped_plans(plan: str, process: Process) -> None:
    """L, U, T and Z of one tier."""
    rules = replace(RULES, process=process, shape="stepped")
    box = stepped_box((plan_by(plan),), HEIGHTS[:1], rules)
    assert cannot_build(rules, (box,)) == ()
    assert list(agree(rules, box)) == ["tray", "lid", "cover plate", *liner(process)]


@pytest.mark.parametrize("process", PROCESSES)
@pytest.mark.parametrize("foot", [rectangle((-313.7, -200.1), (306.3, -40.1)), FOOT])
def test_step_floors(foot: Outline, process: Process) -> None:
    """A rectangle with walls in common with the L above it, and one with none; a third tier on top."""
    rules = replace(RULES, process=process, shape="stepped", tiers=3)
    above = plan_by("L")
    box = stepped_box((foot, above, above), HEIGHTS, rules)
    assert cannot_build(rules, (box,)) == ()
    assert list(agree(rules, box)) == ["tray", "lid", "cover plate", "shelf", "shelf", *liner(process)]


@settings(max_examples=10, deadline=None)
@given(stepped_boxes())
def test_any_stepped_box(drawn: tuple[BoxRules, PlacedBox]) -> None:
    """What can be built is built as weighed; the parts' sum is the box."""
    rules, box = drawn
    assume(not cannot_build(rules, (box,)))
    gasket = ["gasket"] if has_gasket(rules) else []
    assert list(agree(rules, box))[: 3 + len(gasket)] == ["tray", "lid", *gasket, "cover plate"]
    parts = [part.closed_form for part in parts_of(rules, box)]
    cover = box_parts(bay_with(rules, top=box.high[2] + 50.0), 1, box).cover_plate
    assert cover is not None
    whole = box_mass(box.outlines, *height_and_levels(box), rules, True, cover.returned)
    assert whole.mass == pytest.approx(sum(part.mass for part in parts))


def test_the_judge_of_solids_passes_stepped_boxes(tmp_path: Path) -> None:
    """Every file of a car with a folded box over a step, a welded U and a printed Z.

    Nothing is noted but what the sample does not tell: where boxes may be bolted to, and the current.
    """
    car, layout = car_and_layout()
    made: tuple[tuple[Process, tuple[Outline, ...]], ...] = (
        ("folded", (FOOT, plan_by("L"))),
        ("welded", (plan_by("U"),)),
        ("printed", (plan_by("Z"), plan_by("Z"))),
    )
    bays, filled = [], []
    for process, outlines in made:
        material = "petg" if process == "printed" else RULES.material
        rules = replace(RULES, process=process, shape="stepped", material=material)
        box = stepped_box(outlines, HEIGHTS[: len(outlines)], rules)
        bays.append(replace(bay_with(rules), name=process))
        filled.append(BayLayout(process, (box,)))
    car, layout = replace(car, bays=tuple(bays)), replace(layout, bays=tuple(filled))
    report = write_solids(car, HERON, layout, built_boxes(car, HERON, layout), tmp_path)
    assert judge_solids(tmp_path) == ()
    feet = "feet are not drawn; give the places it may be bolted to"
    assert report.notes == (
        f"folded box 1: no [[mount]] given for folded: {feet}",
        "the module file tells no current: main cable taken as 50 mm2 (common practice)",
        f"welded box 1: no [[mount]] given for welded: {feet}",
        f"printed box 1: no [[mount]] given for printed: {feet}",
    )
    assert len([name for name in report.files if name.endswith(".stl")]) == 3 * 3 + 2
