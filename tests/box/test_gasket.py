"""The gasket lies on the flange under the lid, closed round the box."""

from dataclasses import replace

import pytest
import shapely
from hypothesis import given, settings

from boxfit.bay import BoxRules
from boxfit.box.build import box_parts
from boxfit.box.gasket import gasket_of
from boxfit.box.notes import cannot_build
from boxfit.box_shape import grown, perimeter
from boxfit.layout import PlacedBox
from tests.box.samples import LOW, RULES, bay_with, box_around, stepped_boxes

WITH_GASKET = replace(RULES, gasket_width=8.0, gasket_thickness=4.5)
BOX = box_around(LOW, (600.0, 400.0), (138.0,), WITH_GASKET)


def test_by_hand() -> None:
    """4.5 pressed to 3; its line 6.5 outside of the walls: 2052 mm, 2154.6 with what is spare."""
    gasket = gasket_of("box", BOX, WITH_GASKET)
    assert gasket is not None
    top = BOX.high[2] - 2.0
    assert (gasket.bottom, gasket.top, gasket.pressed) == (top - 3.0, top, 3.0)
    assert perimeter(gasket.path) == pytest.approx(2052.0)
    assert gasket.order == 2200.0
    assert (gasket.width, gasket.thickness, gasket.material) == (8.0, 4.5, "epdm-foam")
    assert gasket_of("box", BOX, RULES) is None


@settings(deadline=None, max_examples=50)
@given(stepped_boxes())
def test_it_lies_on_the_flange_inside_the_screws(drawn: tuple[BoxRules, PlacedBox]) -> None:
    """Between rim and lid; wholly on the flange's flat; no hole in it."""
    rules, box = drawn
    if cannot_build(rules, (box,)):
        return
    parts = box_parts(bay_with(rules), 1, box)
    gasket = parts.gasket
    assert (gasket is None) == (rules.gasket_pressed == 0.0)
    if gasket is None:
        return
    assert gasket.bottom == pytest.approx(parts.tray.bands[-1].top)
    assert gasket.top == parts.lid.plate.bottom
    outer, inner = (shapely.Polygon(grown(gasket.path, sign * gasket.width / 2.0)) for sign in (1, -1))
    band = outer.difference(inner)
    flat = shapely.Polygon(parts.lid.plate.outline).difference(shapely.Polygon(box.outlines[-1]))
    assert band.difference(flat.buffer(1e-6)).area < 1e-6
    holes = shapely.MultiPoint(parts.tray.holes).buffer(parts.tray.hole_diameter / 2.0 - 1e-6)
    assert band.intersection(holes).area < 1e-6
    assert inner.intersection(holes).area < 1e-6
