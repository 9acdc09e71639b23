"""What is fixed outside of a box keeps clear of what is round it, also where no distance is asked."""

from dataclasses import replace

import pytest

from boxfit.bay import Block, Cylinder, Keepout
from boxfit.box.outside.around import Around
from boxfit.surface import Surface
from tests.box.samples import RULES, bay_with
from tests.surfaces import block_surface

BOX = Block((-300.0, -200.0, 300.0), (-200.0, -100.0, 400.0))


def clear(keepout: Block | Cylinder | Surface, block: Block, distance: float) -> bool:
    bay = replace(bay_with(RULES), keepouts=(Keepout("column", keepout, distance=0.0),))
    return Around(bay, BOX, (BOX,)).clear_of_keepouts(block, distance)


@pytest.mark.parametrize("distance", [0.0, 3.0])
@pytest.mark.parametrize(
    "keepout",
    [
        Cylinder((-100.0, 0.0, 350.0), (100.0, 0.0, 350.0), 60.0),
        Block((-100.0, -30.0, 320.0), (100.0, 30.0, 380.0)),
        block_surface(Block((-100.0, -30.0, 320.0), (100.0, 30.0, 380.0))),
    ],
    ids=["bar", "block", "mesh"],
)
def test_nothing_goes_into_a_keep_out(keepout: Block | Cylinder | Surface, distance: float) -> None:
    inside = Block((-10.0, 20.0, 340.0), (10.0, 40.0, 360.0))
    beside = Block((-10.0, 40.0, 340.0), (10.0, 60.0, 360.0))
    assert not clear(keepout, inside, distance)
    assert clear(keepout, beside, distance)
