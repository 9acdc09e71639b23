"""A plain exact model of one box in one prism bay, given to CP-SAT as it stands.

Written from the allowances alone, without the search's ideas: box and modules have free corners on a grid of
1 mm, each module may be left out, and as many as possible are kept. Whatever it finds keeps every allowance.
It misses only what needs fractions of a millimetre; the bays it is used for are whole numbers throughout.

Holds for one rectangular box of one or two tiers, no opening, walls and keep-outs as in `reference_walls`,
and modules that need no room, or only at the top where they stand on their height alone.
"""

from dataclasses import dataclass
from itertools import pairwise

import shapely
from ortools.sat.python import cp_model

from boxfit.bay import Bay, BoxRules
from boxfit.module import Module
from tests.benchmarks.reference_walls import NOISE, Plan, keep_plan, whole

WORKERS = 2
LARGE = 5_000
"""Longer than any tray here [mm]."""
Size = tuple[int, int, int]


@dataclass(frozen=True)
class Answer:
    """Modules placed, the most the solver leaves possible, and whether it settled the matter in time."""

    count: int
    bound: int
    settled: bool


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


@dataclass(frozen=True)
class Tray:
    """What a tier offers in plan: from gap to gap [mm], with the spacing the last module keeps added."""

    rules: BoxRules
    box: Plan
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
        """From the box's outside to the modules [mm]; on the floor of a folded tray off its bend too."""
        rules = self.rules
        off_bend = rules.bend_radius - rules.liner if self.tier == 0 and rules.process == "folded" else 0.0
        return whole(rules.thickness + rules.liner + max(rules.gap, off_bend))


def sizes_standing(module: Module) -> list[Size]:
    """Sizes [mm] along x, y, z of every way the module may stand, room on top included."""
    sides = {"length": whole(module.length), "width": whole(module.width), "height": whole(module.height)}
    found: set[Size] = set()
    for upright in module.up:
        one, other = (size for name, size in sides.items() if name != upright)
        tall = sides[upright] + whole(module.room.top)
        found |= {(one, other, tall), (other, one, tall)}
    return sorted(found)


def count_by_model(bay: Bay, module: Module, limit: float) -> Answer:
    """The most modules by the plain model, the solver stopped after `limit` [s]."""
    model = cp_model.CpModel()
    x0, y0, x1, y1 = (whole(bound) for bound in shapely.Polygon(bay.room.outline).bounds)
    box = Plan(*(model.new_int_var(*span, "") for span in ((x0, x1), (x0, x1), (y0, y1), (y0, y1))))
    keep_plan(model, bay, box.grown(whole(bay.box.flange)))
    sizes = sizes_standing(module)
    most = bay.box.tiers * int(shapely.Polygon(bay.room.outline).area / min(x * y for x, y, _ in sizes))
    slots = []
    for _ in range(most):
        stands = tuple(
            Stand(model.new_bool_var(""), tier, size) for tier in range(bay.box.tiers) for size in sizes
        )
        slots.append(Slot(model.new_int_var(x0, x1, ""), model.new_int_var(y0, y1, ""), stands))
    for tier in range(bay.box.tiers):
        _lay_tier(model, Tray(bay.box, box, tier, whole(module.spacing)), slots)
    _keep_height(model, bay, slots)
    present = [sum(stand.chosen for stand in slot.stands) for slot in slots]
    for (slot, here), (following, here_too) in pairwise(zip(slots, present, strict=True)):
        model.add(here >= here_too)
        model.add(slot.x <= following.x)
    model.maximize(sum(present))
    return _solved(model, limit)


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
    model.add(tray_width == tray.x[1] - tray.x[0])
    model.add(tray_depth == tray.y[1] - tray.y[0])
    model.add_multiplication_equality(tray_area, [tray_width, tray_depth])
    model.add(sum(area) <= tray_area)
    model.add_cumulative(across, depths, tray_depth)
    model.add_cumulative(along, widths, tray_width)


def _keep_height(model: cp_model.CpModel, bay: Bay, slots: list[Slot]) -> None:
    """Tiers with floor, liner, shelves, headroom and lid are no taller than the bay within its distances."""
    rules = bay.box
    room = whole(bay.room.top - bay.room.floor - 2 * bay.distance)
    heights = [model.new_int_var(0, room, "") for _ in range(rules.tiers)]
    used = [model.new_bool_var("") for _ in range(rules.tiers)]
    for stand in (stand for slot in slots for stand in slot.stands):
        model.add(heights[stand.tier] >= stand.size[2]).only_enforce_if(stand.chosen)
        model.add_implication(stand.chosen, used[stand.tier])
    each = whole(rules.thickness + rules.headroom) * sum(used)
    model.add(sum(heights) + each + whole(rules.liner + rules.lid_thickness) <= room)


def _solved(model: cp_model.CpModel, limit: float) -> Answer:
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = WORKERS
    solver.parameters.max_time_in_seconds = limit
    status = solver.solve(model)
    found = status in (cp_model.OPTIMAL, cp_model.FEASIBLE)
    count = round(solver.objective_value) if found else 0
    return Answer(count, int(solver.best_objective_bound + NOISE), status == cp_model.OPTIMAL)
