"""Bought parts as plain solids that fill what they fill: glands and breathers round, the rest as blocks."""

from typing import TYPE_CHECKING

from boxfit.bay import Block
from boxfit.box.fitting import DIRECTIONS, Bought
from boxfit.solid.shapes import block_shape

if TYPE_CHECKING:
    from OCP.TopoDS import TopoDS_Shape

ROUND = frozenset({"cable gland", "breather", "drain"})
"""Kinds that are round about their hole's axis; the others are square."""
INSET = 0.25
"""What is in a housing is drawn so much of its sides smaller all round (for looks only)."""


def bought_shape(bought: Bought) -> "TopoDS_Shape":
    """The solid of a bought part in the car's coordinates [mm]: within its body, touching the box."""
    if bought.kind in ROUND:
        return _round(bought)
    return block_shape(_inside(bought.body) if bought.kind == "bars and glands" else bought.body)


def _inside(body: Block) -> Block:
    """What stands in a housing that is a part of its own, its collar and cover left free."""
    low, high = (
        [one + INSET * (other - one) for one, other in zip(ends[0], ends[1], strict=True)]
        for ends in ((body.low, body.high), (body.high, body.low))
    )
    return Block((low[0], low[1], low[2]), (high[0], high[1], high[2]))


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
