"""A container with identical items given to a general solver of three-dimensional packing.

The solver knows neither boxes nor bays. What it can be given is the inside of one box of known size: every
module grown by its spacing, and in height by its room on top, the headroom and the shelf above it, so that
one module upon another stands as on a shelf. Equal counts are right where all modules stand equally high:
planes a height apart meet every module once, and each holds no more than one tier does.
"""

from dataclasses import dataclass
from math import inf

from packingsolver3d import BinType, Instance, ItemType, Objective, ProgressEvent, Rotation, box

from boxfit.bay import BoxRules, Vector
from boxfit.module import Module
from tests.reference.box import sizes_standing
from tests.reference.walls import whole


@dataclass(frozen=True)
class Packed:
    """Modules packed, whether proven, and when the number was first found and the solver done [s]."""

    count: int
    proven: bool
    best_after: float
    done_after: float


def packed(outside: Vector, rules: BoxRules, module: Module, limit: float) -> Packed:
    """Modules in a box of this outside size [mm], the solver stopped after `limit` [s].

    Raises ValueError where the floor's bend or bead asks for more than the gap: tiers would then differ.
    """
    filled = max(rules.fold_shop.weld_bead, rules.bend_radius if rules.process == "folded" else 0.0)
    if filled - rules.liner > rules.gap and rules.tiers > 1:
        raise ValueError("the lowest tier is narrower than the others")
    wall = rules.thickness + rules.liner + max(rules.gap, filled - rules.liner)
    spacing = module.spacing
    x, y = (int(side - 2 * wall + spacing + 1e-6) for side in outside[:2])
    height = int(outside[2] - rules.liner - rules.lid_thickness + 1e-6)
    above = whole(rules.headroom + rules.thickness)
    standing = {(*sorted(size[:2]), size[2]) for size in sizes_standing(module)}
    items = []
    for one, other, tall in sorted(standing):
        sides = (one + whole(spacing), other + whole(spacing), tall + above)
        most = (x * y // (sides[0] * sides[1])) * (height // sides[2])
        if most:
            turns = (Rotation.XYZ, Rotation.YXZ)
            items.append(ItemType(*sides, profit=1.0, copies=most, rotations=turns))
    bins = (BinType(x=x, y=y, z=height),)
    seen: list[ProgressEvent] = []
    instance = Instance(bins, tuple(items), Objective.KNAPSACK)
    found = box.solve(instance, time_limit=limit, progress_callback=seen.append)
    count = len(found.placements)
    first = min((event.time for event in seen if event.number_of_items >= count), default=inf)
    return Packed(count, found.is_proven_optimal, first, found.run.wall_time)
