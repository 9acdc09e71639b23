"""Cutouts of a tray weigh nothing by all three ways, and its solid stays sound."""

from dataclasses import replace
from math import pi

import pytest

from boxfit.bay import BoxRules, Process
from boxfit.box.build import box_parts
from boxfit.box.fitting import Cutout
from boxfit.box.parts import BoxParts
from boxfit.layout import PlacedBox
from boxfit.solid.made import made_parts
from boxfit.solid.weighed import solid_properties
from tests.box.samples import LOW, RULES, bay_with, box_around

BOX = box_around(LOW, (480.3, 390.7), (138.0,), RULES)
X, Y, Z = LOW
CUTOUTS = (
    Cutout("cable gland", "front", (X + 480.3, Y + 100.0, Z + 90.0), diameter=25.5),
    Cutout("service disconnect", "left", (X + 150.0, Y + 390.7, Z + 80.0), size=(80.0, 60.0), corner=5.0),
    Cutout("drain", "down", (X + 60.0, Y + 60.0, Z), diameter=12.0),
    Cutout("inspection opening", "rear", (X, Y + 200.0, Z + 70.0), size=(40.0, 30.0)),
)
AREA = pi / 4.0 * (25.5**2 + 12.0**2) + 80.0 * 60.0 - (4.0 - pi) * 25.0 + 40.0 * 30.0


def parts(rules: BoxRules, box: PlacedBox) -> BoxParts:
    plain = box_parts(bay_with(rules), 1, box)
    return replace(plain, tray=replace(plain.tray, cutouts=CUTOUTS))


@pytest.mark.parametrize("process", ["folded", "welded", "printed"])
def test_closed_form_solid_and_mesh_agree(process: Process) -> None:
    from OCP.BRepCheck import BRepCheck_Analyzer

    rules = replace(RULES, process=process)
    bay = bay_with(rules)
    whole = made_parts(bay, BOX, box_parts(bay, 1, BOX))[0]
    tray = made_parts(bay, BOX, parts(rules, BOX))[0]
    assert BRepCheck_Analyzer(tray.body.form.shape).IsValid()
    assert whole.closed_form.volume - tray.closed_form.volume == pytest.approx(AREA * rules.thickness)
    assert tray.closed_form.mass == pytest.approx(tray.closed_form.volume * 2660e-9)
    solid = solid_properties(tray.body.form.shape, 1.0)
    assert solid.mass == pytest.approx(tray.closed_form.volume, rel=1e-6)
    where = tuple(low + own for low, own in zip(BOX.low, tray.closed_form.centre, strict=True))
    assert solid.centre == pytest.approx(where, abs=1e-3)
    assert tray.body.form.mesh.volume == pytest.approx(tray.closed_form.volume, rel=5e-3)
