"""Exact filling of a stepped outline by constraint programming.

As in `grid`: one yes/no for each footprint at each place that pushing all modules down and left can leave
it at, which is a wall on that side and sums of sides from there. Deterministic: one worker, a fixed seed, a
limit in the solver's own time.
"""

from bisect import bisect_left
from collections import defaultdict

from boxfit.search.blocks import Placement
from boxfit.search.raster import sums
from boxfit.search.stepped_shape import Clad, Shape, claim

MOST_PLACES = 1_600
MOST_COVERED = 120_000
"""Places, and points they cover, that one search may have."""
EFFORT = 0.6
"""Deterministic seconds of the solver."""


def settle(shape: Shape, clad: Clad, more_than: int, most: int) -> list[Placement]:
    """The fullest filling found that holds more than so many modules, at most `most`; empty where none is."""
    places = _places(shape, clad)
    if more_than >= most or not places or len(places) > MOST_PLACES:
        return []
    covered = _covered(places, clad)
    if sum(map(len, covered)) > MOST_COVERED:
        return []
    from ortools.sat.python import cp_model

    model = cp_model.CpModel()
    chosen = [model.new_bool_var("") for _ in places]
    for choices in covered:
        model.add_at_most_one([chosen[place] for place in choices])
    model.add(sum(chosen) >= more_than + 1)
    model.add(sum(chosen) <= most)
    model.maximize(sum(chosen))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 1
    solver.parameters.max_deterministic_time = EFFORT
    if solver.solve(model) not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return []
    return sorted(place for place, one in zip(places, chosen, strict=True) if solver.value(one))


def _places(shape: Shape, clad: Clad) -> list[Placement]:
    """Everywhere a module may have been pushed to, its own walls within the outline."""
    rears = {shape.cuts[0]}
    for place in range(1, len(shape.lows)):
        wider = shape.lows[place] < shape.lows[place - 1] or shape.highs[place] > shape.highs[place - 1]
        rears |= {shape.cuts[place]} if wider else set()
    across = _reached(rears, clad, 0, shape.cuts[-1])
    along = _reached(set(shape.lows), clad, 1, max(shape.highs))
    if len(across) * len(along) * len(clad.reserves) > 4 * MOST_PLACES:
        return []
    return [
        placement
        for kind in range(len(clad.reserves))
        for x in across
        for y in along
        if shape.holds(*claim(clad, placement := (kind, x, y)))
    ]


def _reached(walls: set[int], clad: Clad, axis: int, end: int) -> list[int]:
    """Where sums of sides from the walls end along one axis."""
    sides = [reserve[axis] for reserve in clad.reserves]
    starts = [wall + clad.before[axis] for wall in walls]
    return sorted({start + total for start in starts for total in sums(sides, max(end - start, 0))})


def _covered(places: list[Placement], clad: Clad) -> list[list[int]]:
    """For each point where some module may begin, the places that cover it; each set once."""
    across = sorted({x for _, x, _ in places})
    along = sorted({y for _, _, y in places})
    covering: defaultdict[tuple[int, int], list[int]] = defaultdict(list)
    for number, (kind, x, y) in enumerate(places):
        width, depth = clad.reserves[kind]
        columns = range(bisect_left(across, x), bisect_left(across, x + width))
        rows = range(bisect_left(along, y), bisect_left(along, y + depth))
        for column in columns:
            for row in rows:
                covering[column, row].append(number)
    return [list(one) for one in dict.fromkeys(tuple(one) for one in covering.values() if len(one) > 1)]
