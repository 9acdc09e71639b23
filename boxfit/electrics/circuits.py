"""Shortest circuits from a junction through all modules, a fixed number in each.

Node 0 is the junction, nodes from 1 the modules; strings are told by module numbers from 0.
"""

from itertools import pairwise
from typing import TYPE_CHECKING

from boxfit.electrics.improve import Strings, improved, nearest_next, total

if TYPE_CHECKING:
    import numpy
    from numpy.typing import NDArray

FAR = 2**30
"""Longer than any link, in whole units."""


def shortest(lengths: list[list[int]], series: int) -> Strings:
    """The shortest circuits, exact: dynamic programming over sets of modules (Held and Karp, from memory).

    `lengths` between nodes are whole and at least 0; time and memory grow as n^2 2^n and n 2^n.

    >>> shortest([[0, 1, 9, 2], [1, 0, 2, 9], [9, 2, 0, 1], [2, 9, 1, 0]], 3) in (((0, 1, 2),), ((2, 1, 0),))
    True
    """
    import numpy

    between = numpy.array(lengths, dtype=numpy.int32)
    count = len(lengths) - 1
    least = numpy.full((1 << count, count), FAR, dtype=numpy.int32)
    sets = numpy.arange(1 << count)
    sizes = sum((sets >> bit) & 1 for bit in range(count))
    for placed in range(count):
        of_size = sets[sizes == placed]
        if placed % series == 0:
            closed = (
                numpy.zeros(len(of_size), dtype=numpy.int32)
                if placed == 0
                else (least[of_size] + between[1:, 0]).min(axis=1)
            )
        for module in range(count):
            free = (of_size >> module) & 1 == 0
            rows = of_size[free]
            if placed % series == 0:
                found = closed[free] + between[0, module + 1]
            else:
                found = (least[rows] + between[1:, module + 1]).min(axis=1)
            least[rows | (1 << module), module] = found
    return _backwards(least, between, series)


def _backwards(least: "NDArray[numpy.int32]", between: "NDArray[numpy.int32]", series: int) -> Strings:
    """The circuits that made the least length, from the last module to the first."""
    count = least.shape[1]
    left, order = (1 << count) - 1, list[int]()
    follows = 0
    while left:
        last = int((least[left] + between[1:, follows]).argmin())
        order.append(last)
        left &= ~(1 << last)
        follows = 0 if len(order) % series == 0 else last + 1
    order.reverse()
    return tuple(tuple(order[first : first + series]) for first in range(0, count, series))


def sought(lengths: list[list[int]], series: int, effort: float) -> tuple[Strings, bool]:
    """Short circuits by moves, then by constraint programming, and whether none are shorter.

    `effort` is counted in steps of the solver, about seconds, not by the clock: the same lengths always give
    the same circuits.
    """
    from ortools.sat.python import cp_model

    model, count = cp_model.CpModel(), len(lengths) - 1
    pairs = [(one, other) for one in range(count + 1) for other in range(count + 1) if one != other]
    arcs = {pair: model.new_bool_var("") for pair in pairs}
    model.add_multiple_circuit([(one, other, used) for (one, other), used in arcs.items()])
    model.add(sum(arcs[0, other] for other in range(1, count + 1)) == count // series)
    place = [model.new_int_var(0, series - 1, "") for _ in range(count + 1)]
    for (one, other), used in arcs.items():
        if one == 0:
            model.add(place[other] == 0).only_enforce_if(used)
        elif other == 0:
            model.add(place[one] == series - 1).only_enforce_if(used)
        else:
            model.add(place[other] == place[one] + 1).only_enforce_if(used)
    model.minimize(sum(lengths[one][other] * used for (one, other), used in arcs.items()))
    plain = improved(nearest_next(lengths, series), lengths)
    for string in plain:
        way = (0, *(module + 1 for module in string), 0)
        for pair in pairwise(way):
            model.add_hint(arcs[pair], 1)
    solver = cp_model.CpSolver()
    solver.parameters.max_deterministic_time = effort
    solver.parameters.num_workers = 1
    status = solver.solve(model)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE) or solver.objective_value >= total(plain, lengths):
        return plain, status == cp_model.OPTIMAL
    after = {one: other for (one, other), used in arcs.items() if one and solver.value(used)}
    starts = [other for other in range(1, count + 1) if solver.value(arcs[0, other])]
    return tuple(_string(start, after) for start in starts), status == cp_model.OPTIMAL


def _string(start: int, after: dict[int, int]) -> tuple[int, ...]:
    """One string from its first node, as module numbers from 0."""
    found = [start]
    while after[found[-1]]:
        found.append(after[found[-1]])
    return tuple(node - 1 for node in found)
