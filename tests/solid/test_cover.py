"""Cover plate, lid with studs and gasket as solids: where they are told to be, clear of one another."""

from dataclasses import replace

import pytest

from boxfit.bay import BoxRules
from boxfit.box.build import box_parts
from boxfit.box.parts import BoxParts
from boxfit.layout import PlacedBox
from boxfit.solid.cover import cover_plate_shape, gasket_shape
from boxfit.solid.shapes import lid_shape
from boxfit.solid.tray import tray_shape
from tests.box.samples import LOW, RULES, bay_with, box_around, plan_by, stepped_box

WITH_GASKET = replace(RULES, gasket_width=8.0, gasket_thickness=4.5, cover_material="stainless-1.4301")
PLAIN = box_around(LOW, (600.0, 400.0), (138.0,), WITH_GASKET)
ANGLE = stepped_box((plan_by("L"),), (138.0,), replace(WITH_GASKET, shape="stepped"))


def made(rules: BoxRules, box: PlacedBox) -> BoxParts:
    return box_parts(bay_with(rules), 1, box)


@pytest.mark.parametrize("process", ["folded", "printed"])
def test_cover_plate_fills_its_outside(process: str) -> None:
    """From the underside of the flange to the top of its sheet, 25 outside of the walls."""
    from OCP.Bnd import Bnd_Box
    from OCP.BRepBndLib import BRepBndLib

    rules = replace(WITH_GASKET, process=process)  # type: ignore[arg-type]
    cover = made(rules, PLAIN).cover_plate
    assert cover is not None
    bounds = Bnd_Box()
    BRepBndLib.AddOptimal_s(cover_plate_shape(cover), bounds)
    low, high = bounds.CornerMin(), bounds.CornerMax()
    # hand: lid's top 410.5; plate's top 6 above, gasket 3, lid 2 and flange 2.5 below
    assert (low.X(), low.Y(), low.Z()) == pytest.approx((LOW[0] - 25.0, LOW[1] - 25.0, 403.0), abs=1e-5)
    assert (high.X(), high.Y(), high.Z()) == pytest.approx((311.3, 224.9, 416.5), abs=1e-5)


@pytest.mark.parametrize("box", [PLAIN, ANGLE])
def test_nothing_is_where_something_else_is(box: PlacedBox) -> None:
    """Tray, gasket, lid with its studs and cover plate share no room; the studs go through the plate."""
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Common
    from OCP.BRepGProp import BRepGProp
    from OCP.GProp import GProp_GProps

    parts = made(WITH_GASKET, box)
    assert parts.cover_plate is not None
    assert parts.gasket is not None
    shapes = [
        tray_shape(parts.tray),
        gasket_shape(parts.gasket),
        lid_shape(parts.lid),
        cover_plate_shape(parts.cover_plate),
    ]
    for number, one in enumerate(shapes):
        for other in shapes[:number]:
            shared = GProp_GProps()
            BRepGProp.VolumeProperties_s(BRepAlgoAPI_Common(one, other).Shape(), shared)
            assert shared.Mass() == pytest.approx(0.0, abs=1e-3)
    stud = parts.lid.stud
    assert stud is not None
    assert parts.lid.plate.top + stud.collar_height == pytest.approx(parts.cover_plate.plate.bottom)
    assert stud.thread_height > parts.cover_plate.thickness
    assert parts.cover_plate.holes == parts.lid.studs
