"""A plain exact model of one box in one prism bay, given to CP-SAT as it stands.

Written from the allowances alone, without the search's ideas: box and modules have free corners on a grid of
1 mm, each module may be left out, and as many as possible are kept. Whatever it finds keeps every allowance.
It misses only what needs fractions of a millimetre; the bays it is used for are whole numbers throughout.

Holds for one rectangular box of one or two tiers, no opening, walls and keep-outs as in `reference_walls`, and
modules that need no room, or only at the top where they stand on their height alone.
"""

from dataclasses import dataclass
from itertools import pairwise

import shapely
from ortools.sat.python import cp_model

from boxfit.bay import Bay
from boxfit.module import Module
from tests.benchmarks.reference_walls import NOISE, Plan, keep_plan, whole

WORKERS = 2
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
    for slot in slots:
        _stand_in_box(model, bay, box, slot)
    _stand_apart(model, slots, whole(module.spacing))
    _keep_height(model, bay, slots)
    import os
    opts=os.environ.get("OPT","")
    tiers=range(bay.box.tiers)
    if "a" in opts:
        sp=whole(module.spacing); wall=whole(bay.box.thickness+bay.box.liner+bay.box.gap)
        w=box.x1-box.x0-2*wall+sp; d=box.y1-box.y0-2*wall+sp
        wv=model.new_int_var(0,x1-x0,""); dv=model.new_int_var(0,y1-y0,"")
        model.add(wv==w); model.add(dv==d)
        av=model.new_int_var(0,(x1-x0)*(y1-y0),""); model.add_multiplication_equality(av,[wv,dv])
        for tier in tiers:
            model.add(sum((st.size[0]+sp)*(st.size[1]+sp)*st.chosen for sl in slots for st in sl.stands if st.tier==tier)<=av)
    if "c" in opts:
        for tier in tiers:
            xs=[];ys=[];dx=[];dy=[]
            for sl in slots:
                for st in sl.stands:
                    if st.tier==tier:
                        xs.append(model.new_optional_fixed_size_interval_var(sl.x,st.size[0]+sp,st.chosen,"")); dx.append(st.size[1]+sp)
                        ys.append(model.new_optional_fixed_size_interval_var(sl.y,st.size[1]+sp,st.chosen,"")); dy.append(st.size[0]+sp)
            model.add_cumulative(xs,dx,dv); model.add_cumulative(ys,dy,wv)
    if "x" in opts:
        for one, two in pairwise(slots): model.add(one.x<=two.x)
    present = [sum(stand.chosen for stand in slot.stands) for slot in slots]
    for one, following in pairwise(present):
        model.add(one >= following)
    model.maximize(sum(present))
    return _solved(model, limit)


def _stand_in_box(model: cp_model.CpModel, bay: Bay, box: Plan, slot: Slot) -> None:
    """At most one way to stand, each with wall, liner and gap between module and the box's outside."""
    rules = bay.box
    model.add_at_most_one(stand.chosen for stand in slot.stands)
    for stand in slot.stands:
        off_bend = rules.bend_radius - rules.liner if stand.tier == 0 and rules.process == "folded" else 0.0
        wall = whole(rules.thickness + rules.liner + max(rules.gap, off_bend))
        for axis, low, high in ((0, box.x0, box.x1), (1, box.y0, box.y1)):
            place = (slot.x, slot.y)[axis]
            model.add(place >= low + wall).only_enforce_if(stand.chosen)
            model.add(place + stand.size[axis] + wall <= high).only_enforce_if(stand.chosen)


def _stand_apart(model: cp_model.CpModel, slots: list[Slot], spacing: int) -> None:
    """Modules of one tier, each with the spacing added, do not overlap."""
    for tier in {stand.tier for slot in slots for stand in slot.stands}:
        across, along = [], []
        for slot in slots:
            for stand in (stand for stand in slot.stands if stand.tier == tier):
                width, depth, _ = stand.size
                chosen = stand.chosen
                across.append(model.new_optional_fixed_size_interval_var(slot.x, width + spacing, chosen, ""))
                along.append(model.new_optional_fixed_size_interval_var(slot.y, depth + spacing, chosen, ""))
        model.add_no_overlap_2d(across, along)


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
    import os
    if "p" in os.environ.get("OPT",""):
        solver.parameters.use_energetic_reasoning_in_no_overlap_2d=True
        solver.parameters.use_area_energetic_reasoning_in_no_overlap_2d=True
        solver.parameters.use_timetabling_in_no_overlap_2d=True
    status = solver.solve(model)
    found = status in (cp_model.OPTIMAL, cp_model.FEASIBLE)
    count = round(solver.objective_value) if found else 0
    return Answer(count, int(solver.best_objective_bound + NOISE), status == cp_model.OPTIMAL)
