"""The most modules by the plain model: in one bay, or in a car's bays under strings, limits and target."""

from dataclasses import dataclass

from ortools.sat.python import cp_model

from boxfit.bay import Bay
from boxfit.car import Car
from boxfit.module import Module
from tests.reference.box import Slot, add_box
from tests.reference.walls import NOISE, whole

SHARE_STEPS = 1000
"""Front shares are whole thousandths here."""


@dataclass(frozen=True)
class Effort:
    """How long [s] the solver may take, and on how many cores."""

    limit: float
    workers: int = 2


@dataclass(frozen=True)
class Answer:
    """Modules placed, the most the solver leaves possible, and whether it settled the matter in time.

    `best_after` [s] is when the count was first found.
    """

    count: int
    bound: int
    settled: bool
    best_after: float


class _FirstFound(cp_model.CpSolverSolutionCallback):
    """Remembers when the last better solution came."""

    def __init__(self) -> None:
        super().__init__()
        self.after = 0.0

    def on_solution_callback(self) -> None:
        self.after = self.wall_time


def count_in_bay(bay: Bay, module: Module, effort: Effort) -> Answer:
    """The most modules one box of the bay holds."""
    model = cp_model.CpModel()
    slots = add_box(model, bay, module)
    model.maximize(sum(slot.here for slot in slots))
    return _solved(model, len(slots), effort)


def count_in_car(car: Car, module: Module, effort: Effort) -> Answer:
    """The most modules in whole strings with one box in each bay, every limit and the target met.

    Boxes weigh nothing here: sheets, lids and liners are 0 mm thick. Masses are whole kilograms.
    """
    model = cp_model.CpModel()
    slots = [slot for bay in car.bays for slot in add_box(model, bay, module)]
    count = model.new_int_var_from_domain(
        cp_model.Domain.from_values(_whole_strings(car, module, len(slots))), ""
    )
    model.add(count == sum(slot.here for slot in slots))
    if car.weighed is not None:
        _keep_balance(model, (car, module), count, _twice_the_centres(model, slots))
    model.maximize(count)
    return _solved(model, len(slots), effort)


def _whole_strings(car: Car, module: Module, most: int) -> list[int]:
    """None, or series x parallel with every window kept, empty to full."""
    found = {0}
    for series in range(1, most + 1):
        empty, full = series * module.voltage.empty, series * module.voltage.full
        if all(window.low <= empty + NOISE and full <= window.high + NOISE for window in car.windows):
            found |= {series} if not car.windows else set(range(0, most + 1, series))
    return sorted(found)


def _twice_the_centres(model: cp_model.CpModel, slots: list[Slot]) -> cp_model.LinearExpr:
    """Twice the sum of x [mm] of the middles of all placed modules."""
    parts = []
    for slot in slots:
        part = model.new_int_var(-20_000, 20_000, "")
        model.add(part == 0).only_enforce_if([~stand.chosen for stand in slot.stands])
        for stand in slot.stands:
            model.add(part == 2 * slot.x + stand.size[0]).only_enforce_if(stand.chosen)
        parts.append(part)
    return cp_model.LinearExpr.sum(parts)


def _keep_balance(
    model: cp_model.CpModel,
    asked: tuple[Car, Module],
    count: cp_model.IntVar,
    centres: cp_model.LinearExpr,
) -> None:
    """Front share within the target's tolerance, gross within its limit: levers about the front axle."""
    car, module = asked
    assert car.weighed is not None
    shell = car.weighed
    empty = whole(shell.front_left + shell.front_right + shell.rear_left + shell.rear_right)
    pull = -whole(car.wheelbase) * whole(shell.rear_left + shell.rear_right)
    laden = empty + whole(sum(one.mass for one in (*car.fitted, *car.carried)))
    if car.limits.gross is not None:
        model.add(laden + whole(module.mass) * count <= whole(car.limits.gross))
    if car.target is None:
        return
    aboard = [*car.fitted, *(one for one in car.carried if one.name in car.target.aboard)]
    judged = empty + whole(sum(one.mass for one in aboard))
    pull += whole(sum(one.mass * one.at[0] for one in aboard))
    twice = 2 * pull + whole(module.mass) * centres
    mass = judged + whole(module.mass) * count
    low, high = (
        whole((car.target.front_share + aside) * SHARE_STEPS) - SHARE_STEPS
        for aside in (-car.target.tolerance, car.target.tolerance)
    )
    some = model.new_bool_var("")
    model.add(count == 0).only_enforce_if(~some)
    model.add(SHARE_STEPS * twice >= low * 2 * whole(car.wheelbase) * mass).only_enforce_if(some)
    model.add(SHARE_STEPS * twice <= high * 2 * whole(car.wheelbase) * mass).only_enforce_if(some)


def _solved(model: cp_model.CpModel, most: int, effort: Effort) -> Answer:
    """What the solver makes of it; `most` modules are possible where it finds nothing in time."""
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = effort.workers
    solver.parameters.max_time_in_seconds = effort.limit
    solver.parameters.random_seed = 1
    found = _FirstFound()
    status = solver.solve(model, found)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return Answer(0, most, False, 0.0)
    bound = int(solver.best_objective_bound + NOISE)
    return Answer(round(solver.objective_value), bound, status == cp_model.OPTIMAL, found.after)
