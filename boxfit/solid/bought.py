"""Bought parts as plain solids that fill what they fill: glands and breathers round, the rest as blocks."""

from typing import TYPE_CHECKING

from boxfit.bay import Block
from boxfit.box.fitting import DIRECTIONS, Bought
from boxfit.solid.shapes import block_shape

if TYPE_CHECKING:
    from OCP.TopoDS import TopoDS_Shape

ROUND = frozenset({"cable gland", "breather", "drain"})
"""Kinds that are round about their hole's axis; the others are square."""
LUG_HOLE = 14.0
"""Hole [mm] of a lifting lug, as its description tells."""
LUG_HOLE_FROM_EDGE = 15.0


def bought_shape(bought: Bought) -> "TopoDS_Shape":
    """The solid of a bought part in the car's coordinates [mm]: within its body, touching the box."""
    if bought.kind in ROUND:
        return _round(bought)
    if bought.kind == "lifting eye":
        return _lug(bought)
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


def _lug(bought: Bought) -> "TopoDS_Shape":
    """A plate with the hole for a shackle near its outer edge."""
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Cut

    from boxfit.solid.shapes import only_solid

    low, high = list(bought.body.low), list(bought.body.high)
    out = next(k for k in range(3) if DIRECTIONS[bought.looks][k])
    thin = next(k for k in range(2) if k != out)
    edge = high[out] if DIRECTIONS[bought.looks][out] > 0 else low[out]
    inwards = -1.0 if DIRECTIONS[bought.looks][out] > 0 else 1.0
    middle = edge + inwards * LUG_HOLE_FROM_EDGE
    low[out], high[out] = middle - LUG_HOLE, middle + LUG_HOLE
    around = Block((low[0], low[1], low[2]), (high[0], high[1], high[2]))
    drill = _bar(around, thin, LUG_HOLE, high[thin] - low[thin] + 2.0)
    return only_solid(BRepAlgoAPI_Cut(block_shape(bought.body), drill).Shape())
