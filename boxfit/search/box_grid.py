"""Three and more boxes in one bay by constraint programming, where setting them down in turn may fall short.

Boxes stand where sums of box sizes, clearance and flange included, put them from an end of what is free. One
yes/no for each box at each such place, nothing may overlap, at most the allowed number of boxes.
Deterministic: one worker, a fixed seed and a limit in the solver's own deterministic time.
"""

from bisect import bisect_left
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise, product
from typing import TYPE_CHECKING

import shapely

from boxfit.bay import BoxRules
from boxfit.layout import PlacedBox
from boxfit.search.candidate import Candidate
from boxfit.search.cuboids import Standing, cuboids
from boxfit.search.floors import Rooms, height_for_boxes, lowest
from boxfit.search.raster import UNITS_PER_MILLIMETRE, sums, units
from boxfit.space.plan import SLACK

if TYPE_CHECKING:
    from ortools.sat.python import cp_model

    from boxfit.search.bay import BaySearch

Span = tuple[int, int]

MOST_PLACES = 3000
"""Boxes at places looked at; with more of them this way is too slow."""
MOST_ALONG = 40
"""Places along one axis; with more of them this way is too slow."""
MOST_CELLS = 2500
"""Cells of a plan that are kept from being covered twice one by one; the solver finds more so."""
EFFORT = 6.0
"""After so much work [seconds of the solver's own count] it gives what it has."""


def on_grid(
    search: "BaySearch", forms: tuple[Candidate, ...], above: float, beaten: int
) -> tuple[Standing, ...]:
    """Boxes that hold more than `beaten` modules together; none where none are found.

    `above` [mm] is what parts a lid from the underside of a box over it.
    """
    levels = _levels(search, forms, above)
    if not levels:
        return ()
    places: list[Standing] = []
    for level in levels:
        for form in forms:
            if level + form.stack.height <= levels[0] + height_for_boxes(search.bay) + SLACK:
                places += _places(search.rooms, replace(form, bottom=level), forms)
        if len(places) > MOST_PLACES:
            return ()
    return _chosen(places, search, above, beaten)


def _levels(search: "BaySearch", forms: tuple[Candidate, ...], above: float) -> list[float]:
    """Undersides [mm] that boxes standing over boxes may have; none where they are too many."""
    heights = {units(form.stack.height + above) for form in forms}
    found = sums(heights, units(height_for_boxes(search.bay)))
    if len(found) > MOST_ALONG:
        return []
    return [lowest(search.bay) + total / UNITS_PER_MILLIMETRE for total in found]


def _places(rooms: Rooms, form: Candidate, forms: tuple[Candidate, ...]) -> Iterator[Standing]:
    free = form.places(rooms)
    if free.is_empty:
        return
    left, right, ahead, far = free.bounds
    rules = form.stack.rules
    beside = 2 * rules.reach + rules.clearance
    xs = _along(left, ahead, {units(one.size.width + beside) for one in forms})
    ys = _along(right, far, {units(one.size.depth + beside) for one in forms})
    shapely.prepare(free)
    near = free.buffer(SLACK)
    for x in xs:
        for y in ys:
            if shapely.intersects_xy(near, x, y):
                yield Standing(form, (x, y), cuboids(form.placed(x, y), rules))


def _along(low: float, high: float, steps: set[int]) -> list[float]:
    """Places [mm] from either end by sums of steps; the ends alone where there are too many."""
    totals = sums(steps, units(high - low + SLACK))
    if len(totals) > MOST_ALONG:
        totals = [0]
    from_low = (low + total / UNITS_PER_MILLIMETRE for total in totals)
    from_high = (high - total / UNITS_PER_MILLIMETRE for total in totals)
    return sorted({round(place, 3) for place in (*from_low, *from_high)})


def _chosen(places: list[Standing], search: "BaySearch", above: float, beaten: int) -> tuple[Standing, ...]:
    """The places that hold the most modules without meeting."""
    from ortools.sat.python import cp_model

    rules = search.bay.box
    model = cp_model.CpModel()
    stands = [model.new_bool_var("") for _ in places]
    model.add(sum(stands) <= rules.boxes)
    held = sum(place.form.count * chosen for place, chosen in zip(places, stands, strict=True))
    model.add(held > beaten)
    model.add(held <= search.bound)
    levels = sorted({z for place in places for one in place.fills for z in (one.low[2], one.high[2] + above)})
    for low, high in pairwise(levels):
        _apart(model, places, stands, (low, high), above)
    model.maximize(held)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 1
    solver.parameters.max_deterministic_time = EFFORT
    if solver.solve(model) not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return ()
    return tuple(place for place, chosen in zip(places, stands, strict=True) if solver.value(chosen))


def _apart(
    model: "cp_model.CpModel",
    places: list[Standing],
    stands: list["cp_model.IntVar"],
    between: tuple[float, float],
    above: float,
) -> None:
    """Boxes that share the height between two levels [mm] do not meet in plan."""
    spans: list[tuple[Span, Span]] = []
    there: list[cp_model.IntVar] = []
    for place, chosen in zip(places, stands, strict=True):
        box = place.form.placed(*place.corner)
        if box.low[2] < between[1] - SLACK and box.high[2] + above > between[0] + SLACK:
            spans.append((_span(box, place.form.stack.rules, 0), _span(box, place.form.stack.rules, 1)))
            there.append(chosen)
    xs, ys = (sorted({end for span in along for end in span}) for along in zip(*spans, strict=True))
    if len(xs) * len(ys) > MOST_CELLS:
        intervals = (
            [
                model.new_optional_fixed_size_interval_var(span[0], span[1] - span[0], chosen, "")
                for span, chosen in zip(along, there, strict=True)
            ]
            for along in zip(*spans, strict=True)
        )
        model.add_no_overlap_2d(*intervals)
        return
    covering: dict[tuple[int, int], list[cp_model.IntVar]] = defaultdict(list)
    for (x, y), chosen in zip(spans, there, strict=True):
        for cell in product(_cells(xs, x), _cells(ys, y)):
            covering[cell].append(chosen)
    for choices in covering.values():
        model.add_at_most_one(choices)


def _span(box: PlacedBox, rules: BoxRules, axis: int) -> Span:
    """From where to where [units] a box keeps others off: flange or bars, and clearance, included."""
    low = round((box.low[axis] - rules.reach) * UNITS_PER_MILLIMETRE)
    size = round((box.high[axis] - box.low[axis] + 2 * rules.reach) * UNITS_PER_MILLIMETRE)
    return low, low + size + units(rules.clearance)


def _cells(ends: list[int], span: Span) -> list[int]:
    """The low ends of the cells within a span."""
    return ends[bisect_left(ends, span[0]) : bisect_left(ends, span[1])]
