"""Solids are valid, closed, and as large as the closed form says."""

from dataclasses import replace

import pytest
from hypothesis import example, given, settings

from boxfit.bay import Bay, BoxRules
from boxfit.box.build import box_parts
from boxfit.layout import PlacedBox
from boxfit.solid.made import MadePart, made_parts
from boxfit.solid.weighed import solid_properties
from tests.box.samples import LOW, RULES, bay_with, box_around, boxes

USUAL = box_around(LOW, (600.0, 400.0), (138.0, 100.0), RULES)
SHARP = replace(RULES, bend_radius=0.0)
BARE = replace(SHARP, process="welded", flange=0.0, liner=0.0)


def parts_of(rules: BoxRules, box: PlacedBox) -> tuple[MadePart, ...]:
    """The parts of a box as bodies."""
    bay: Bay = bay_with(rules, top=box.high[2] + 50.0)
    return made_parts(bay, box, box_parts(bay, 1, box))


@settings(max_examples=12, deadline=None)
@given(boxes())
@example((RULES, USUAL))
@example((SHARP, box_around(LOW, (600.0, 400.0), (138.0,), SHARP)))
@example((BARE, box_around(LOW, (600.0, 400.0), (138.0,), BARE)))
def test_solids_agree_with_the_closed_form(drawn: tuple[BoxRules, PlacedBox]) -> None:
    """Volume to 0.01 %, centre to 0.01 mm; and the mesh to 0.5 %, closed by two judges of meshes.

    The liner's sheets touch, so that its mesh is closed sheet by sheet only; it gets no STL file.
    """
    import manifold3d
    import numpy
    import trimesh
    from OCP.BRepCheck import BRepCheck_Analyzer

    rules, box = drawn
    for part in parts_of(rules, box):
        form, closed = part.body.form, part.closed_form
        assert BRepCheck_Analyzer(form.shape).IsValid()
        solid = solid_properties(form.shape, 1.0)
        assert solid.mass == pytest.approx(closed.volume, rel=1e-4)
        where = tuple(low + own for low, own in zip(box.low, closed.centre, strict=True))
        assert solid.centre == pytest.approx(where, abs=0.01)
        assert form.mesh.volume == pytest.approx(closed.volume, rel=5e-3)
        if part.kind == "liner":
            continue
        mesh = trimesh.Trimesh(form.mesh.corners, form.mesh.triangles)
        assert mesh.is_watertight
        assert mesh.is_winding_consistent
        merged = manifold3d.Mesh(mesh.vertices.astype(numpy.float32), mesh.faces.astype(numpy.uint32))
        body = manifold3d.Manifold(merged)
        assert body.status() == manifold3d.Error.NoError
        assert body.volume() == pytest.approx(closed.volume, rel=5e-3)


def test_each_part_is_one_solid_but_the_liner() -> None:
    """The liner has a solid for every sheet."""
    from OCP.TopAbs import TopAbs_SOLID
    from OCP.TopExp import TopExp_Explorer

    counts: dict[str, int] = {}
    for part in parts_of(RULES, USUAL):
        solids = TopExp_Explorer(part.body.form.shape, TopAbs_SOLID)
        while solids.More():
            counts[part.kind] = counts.get(part.kind, 0) + 1
            solids.Next()
    assert counts == {"tray": 1, "lid": 1, "cover plate": 1, "shelf": 1, "liner": 9}


def test_tray_fills_its_outside_and_flange() -> None:
    """From the floor to the rim, and the flange all round."""
    from OCP.Bnd import Bnd_Box
    from OCP.BRepBndLib import BRepBndLib

    bounds = Bnd_Box()
    BRepBndLib.AddOptimal_s(parts_of(RULES, USUAL)[0].body.form.shape, bounds)
    low, high = bounds.CornerMin(), bounds.CornerMax()
    assert (low.X(), low.Y(), low.Z()) == pytest.approx((LOW[0] - 22.0, LOW[1] - 22.0, LOW[2]), abs=1e-5)
    assert (high.X(), high.Y(), high.Z()) == pytest.approx((308.3, 221.9, 516.0), abs=1e-5)
