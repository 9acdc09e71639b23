"""A plain exact model of one box in one prism bay: free corners on a grid of 1 mm, every module optional.

Written from the allowances alone. Whatever a solver finds for it keeps every allowance. It misses only what
needs fractions of a millimetre; the bays it is used for are whole numbers throughout.

Holds for one rectangular box of any number of tiers, no opening, walls and blocks as in `walls`, and modules
that need no room, or only at the top where they stand on their height alone.
"""

from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

import shapely
from ortools.sat.python import cp_model

from boxfit.bay import Bay, BoxRules
from boxfit.module import Module
from tests.reference.walls import Cuboid, keep_inside, keep_off, whole

LARGE = 5_000
"""Longer than any tray here [mm]."""
Size = tuple[int, int, int]


@dataclass(frozen=True)
class Stand:
    """A module standing one way round on one tier: chosen or not, and its size [mm] with room on top."""

    chosen: cp_model.IntVar
    tier: int
    size: Size


@dataclass(frozen=True)
class Slot:
    """A module that may be placed: low corner [mm] in plan and every way it may stand."""

    x: cp_model.IntVar
    y: cp_model.IntVar
    stands: tuple[Stand, ...]

    @cached_property
    def here(self) -> cp_model.LinearExpr:
        """1 where the module is placed, else 0."""
        return cp_model.LinearExpr.sum([stand.chosen for stand in self.stands])


@dataclass(frozen=True)
class Tray:
    """What a tier offers in plan: from gap to gap [mm], with the spacing the last module keeps added."""

    rules: BoxRules
    box: Cuboid
    tier: int
    spacing: int

    @property
    def x(self) -> tuple[cp_model.LinearExpr, cp_model.LinearExpr]:
        """From where to where along x [mm]."""
        return (self.box.x0 + self._wall, self.box.x1 - self._wall + self.spacing)

    @property
    def y(self) -> tuple[cp_model.LinearExpr, cp_model.LinearExpr]:
        """From where to where along y [mm]."""
        return (self.box.y0 + self._wall, self.box.y1 - self._wall + self.spacing)

    @property
    def _wall(self) -> int:
        """From the box's outside to the modules [mm]; on the floor off its bend or bead too."""
        rules = self.rules
        filled = rules.fold_shop.weld_bead if rules.thickness else 0.0
        if rules.process == "folded":
            filled = max(filled, rules.bend_radius)
        off_joint = filled - rules.liner if self.tier == 0 else 0.0
        return whole(rules.thickness + rules.liner + max(rules.gap, off_joint))


def sizes_standing(module: Module) -> list[Size]:
    """Sizes [mm] along x, y, z of every way the module may stand, room on top included."""
    sides = {"length": whole(module.length), "width": whole(module.width), "height": whole(module.height)}
    found: set[Size] = set()
    for upright in module.up:
        one, other = (size for name, size in sides.items() if name != upright)
        tall = sides[upright] + whole(module.room.top)
        found |= {(one, other, tall), (other, one, tall)}
    return sorted(found)


def add_box(model: cp_model.CpModel, bay: Bay, module: Module) -> list[Slot]:
    """One box in the bay with as many modules as could ever lie in it, each placed or not."""
    x0, y0, x1, y1 = (whole(bound) for bound in shapely.Polygon(bay.room.outline).bounds)
    near, far = (model.new_int_var(x0, x1, "") for _ in range(2))
    right, left = (model.new_int_var(y0, y1, "") for _ in range(2))
    low, high = (model.new_int_var(whole(bay.room.floor), whole(bay.room.top), "") for _ in range(2))
    box = Cuboid(near, far, right, left, low, high, model.new_bool_var(""))
    solids = [box]
    if bay.box.flange:
        solids.append(box.rim(whole(bay.box.flange), whole(bay.box.thickness + bay.box.lid_thickness)))
    for solid in solids:
        keep_inside(model, bay, solid)
        for keepout in bay.keepouts:
            keep_off(model, keepout, solid)
    sizes = sizes_standing(module)
    area = shapely.Polygon(bay.room.outline).area
    slots = []
    for _ in range(bay.box.tiers * int(area / min(x * y for x, y, _ in sizes))):
        stands = tuple(
            Stand(model.new_bool_var(""), tier, size) for tier in range(bay.box.tiers) for size in sizes
        )
        slots.append(Slot(model.new_int_var(x0, x1, ""), model.new_int_var(y0, y1, ""), stands))
        model.add(slots[-1].here <= box.real)
    for tier in range(bay.box.tiers):
        _lay_tier(model, Tray(bay.box, box, tier, whole(module.spacing)), slots)
    _keep_height(model, bay.box, box, slots)
    for slot, following in pairwise(slots):
        model.add(slot.here >= following.here)
        model.add(slot.x <= following.x)
    return slots


def _lay_tier(model: cp_model.CpModel, tray: Tray, slots: list[Slot]) -> None:
    """Modules of one tier stand in the tray and, each with the spacing added, do not overlap.

    That their rows and columns fit in the tray's depth, width and area follows; said aloud it helps.
    """
    across, along, widths, depths, area = [], [], [], [], []
    for slot in slots:
        for stand in (stand for stand in slot.stands if stand.tier == tray.tier):
            width, depth = (side + tray.spacing for side in stand.size[:2])
            for place, side, (low, high) in ((slot.x, width, tray.x), (slot.y, depth, tray.y)):
                model.add(place >= low).only_enforce_if(stand.chosen)
                model.add(place + side <= high).only_enforce_if(stand.chosen)
            across.append(model.new_optional_fixed_size_interval_var(slot.x, width, stand.chosen, ""))
            along.append(model.new_optional_fixed_size_interval_var(slot.y, depth, stand.chosen, ""))
            widths.append(width)
            depths.append(depth)
            area.append(width * depth * stand.chosen)
    model.add_no_overlap_2d(across, along)
    tray_width, tray_depth, tray_area = (model.new_int_var(0, most, "") for most in (LARGE, LARGE, LARGE**2))
    model.add(tray_width == tray.x[1] - tray.x[0]).only_enforce_if(tray.box.real)
    model.add(tray_depth == tray.y[1] - tray.y[0]).only_enforce_if(tray.box.real)
    model.add_multiplication_equality(tray_area, [tray_width, tray_depth])
    model.add(sum(area) <= tray_area)
    model.add_cumulative(across, depths, tray_depth)
    model.add_cumulative(along, widths, tray_width)


def _keep_height(model: cp_model.CpModel, rules: BoxRules, box: Cuboid, slots: list[Slot]) -> None:
    """The box is as high as its tiers with floor, liner, shelves, headroom and lid; no tier is empty."""
    tallest = max(stand.size[2] for slot in slots for stand in slot.stands) if slots else 0
    heights = [model.new_int_var(0, tallest, "") for _ in range(rules.tiers)]
    used = [model.new_bool_var("") for _ in range(rules.tiers)]
    for stand in (stand for slot in slots for stand in slot.stands):
        model.add(heights[stand.tier] >= stand.size[2]).only_enforce_if(stand.chosen)
        model.add_implication(stand.chosen, used[stand.tier])
    for tier, is_used in enumerate(used):
        model.add_bool_or(
            [stand.chosen for slot in slots for stand in slot.stands if stand.tier == tier] + [~is_used]
        )
    for lower, upper in pairwise(used):
        model.add_implication(upper, lower)
    each = whole(rules.thickness + rules.headroom) * sum(used)
    height = sum(heights) + each + whole(rules.liner + rules.lid_thickness)
    model.add(box.z1 - box.z0 == height).only_enforce_if(box.real)
