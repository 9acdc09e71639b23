"""Exact search by constraint programming, for whatever the skyline search cannot settle.

One yes/no for each footprint at each place where sums of sides can put it; no cell may be covered twice.
Deterministic: one worker, a fixed seed and a limit in the solver's own deterministic time.
"""

from collections import defaultdict

from boxfit.search.blocks import Footprint, Placement
from boxfit.search.raster import sums
from boxfit.search.skyline import Answer

MOST_PLACES = 3_000


def lay_on_grid(
    width: int,
    depth: int,
    footprints: tuple[Footprint, ...],
    count: int,
    effort: float,
    weights: tuple[int, ...] = (),
) -> tuple[Answer, list[Placement]]:
    """Whether `count` of the footprints fit width x depth [units], with their placement if so.

    A footprint counts as many as its weight, one where weights are left out. After `effort` [deterministic
    seconds of the solver] it gives up.
    """
    from ortools.sat.python import cp_model

    across = sums((a for a, _ in footprints), width)
    along = sums((b for _, b in footprints), depth)
    if len(across) * len(along) * len(footprints) > MOST_PLACES:
        return Answer.UNKNOWN, []
    model = cp_model.CpModel()
    covering = defaultdict(list)
    places: dict[Placement, cp_model.IntVar] = {}
    for kind, (a, b) in enumerate(footprints):
        for x in (x for x in across if x + a <= width):
            columns = [c for c in across if x <= c < x + a]
            for y in (y for y in along if y + b <= depth):
                chosen = places[kind, x, y] = model.new_bool_var("")
                for column in columns:
                    for row in (r for r in along if y <= r < y + b):
                        covering[column, row].append(chosen)
    for choices in covering.values():
        model.add_at_most_one(choices)
    worth = weights or (1,) * len(footprints)
    model.add(sum(worth[place[0]] * chosen for place, chosen in places.items()) >= count)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 1
    solver.parameters.max_deterministic_time = effort
    status = solver.solve(model)
    if status in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return Answer.YES, [place for place, chosen in places.items() if solver.value(chosen)]
    return (Answer.NO if status == cp_model.INFEASIBLE else Answer.UNKNOWN), []
