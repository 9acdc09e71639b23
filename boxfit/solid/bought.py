"""Bought parts as plain solids that fill what they fill: glands and breathers round, the rest as blocks."""

from typing import TYPE_CHECKING

from boxfit.bay import Block
from boxfit.box.fitting import DIRECTIONS, Bought
from boxfit.solid.shapes import block_shape

if TYPE_CHECKING:
    from OCP.TopoDS import TopoDS_Shape

ROUND = frozenset({"cable gland", "breather", "drain"})
"""Kinds that are round about their hole's axis; the others are square."""


def bought_shape(bought: Bought) -> "TopoDS_Shape":
    """The solid of a bought part in the car's coordinates [mm]: within its body, touching the box."""
    if bought.kind in ROUND:
        return _round(bought)
    return block_shape(bought.body)


def _round(bought: Bought) -> "TopoDS_Shape":
    """A round bar about the axis of the hole, as long as the body and as wide as its narrower side."""
    low, high = bought.body.low, bought.body.high
    axis = next(k for k in range(3) if DIRECTIONS[bought.looks][k])
    across = min(high[k] - low[k] for k in range(3) if k != axis)
    return _bar(bought.body, axis, across, high[axis] - low[axis])


def _bar(around: Block, axis: int, across: float, length: float) -> "TopoDS_Shape":
    """A round bar along an axis through the middle of a block."""
    from OCP.BRepPrimAPI import BRepPrimAPI_MakeCylinder
    from OCP.gp import gp_Ax2, gp_Dir, gp_Pnt

    start = [(a + b) / 2.0 for a, b in zip(around.low, around.high, strict=True)]
    start[axis] -= length / 2.0
    way = [1.0 if k == axis else 0.0 for k in range(3)]
    return BRepPrimAPI_MakeCylinder(gp_Ax2(gp_Pnt(*start), gp_Dir(*way)), across / 2.0, length).Solid()
