"""Bought parts as solids: closed, within their body, of the volume worked out by hand."""

from math import pi

import pytest

from boxfit.bay import Block
from boxfit.box.fitting import Bought
from boxfit.solid.bought import bought_shape


def volume_and_extent(bought: Bought) -> tuple[float, list[float]]:
    from OCP.Bnd import Bnd_Box
    from OCP.BRepBndLib import BRepBndLib
    from OCP.BRepGProp import BRepGProp
    from OCP.GProp import GProp_GProps

    shape, found, around = bought_shape(bought), GProp_GProps(), Bnd_Box()
    BRepGProp.VolumeProperties_s(shape, found)
    BRepBndLib.AddOptimal_s(shape, around, False, False)
    return found.Mass(), list(around.Get())


@pytest.mark.parametrize(
    ("kind", "looks", "volume"),
    [
        ("cable gland", "left", pi / 4.0 * 20.0**2 * 30.0),
        ("drain", "down", pi / 4.0 * 30.0**2 * 20.0),
        ("breather", "rear", pi / 4.0 * 20.0**2 * 40.0),
        ("service disconnect", "front", 40.0 * 30.0 * 20.0),
    ],
)
def test_bought_part_fills_its_body(kind: str, looks: str, volume: float) -> None:
    body = Block((10.0, 20.0, 30.0), (50.0, 50.0, 50.0))
    part = Bought(kind, "thing", looks, (0.0, 0.0, 0.0), body, body, "", 0.1)  # type: ignore[arg-type]
    found, extent = volume_and_extent(part)
    assert found == pytest.approx(volume, rel=1e-9)
    assert all(a >= b - 1e-6 for a, b in zip(extent[:3], body.low, strict=True))
    assert all(a <= b + 1e-6 for a, b in zip(extent[3:], body.high, strict=True))
