"""Counts of rectangles against an exhaustive search and against a solver's plain no-overlap model."""

from functools import cache
from itertools import pairwise, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boxfit.search.blocks import Footprint
from boxfit.search.raster import units, units_within
from boxfit.search.rectangle import Filling, bound, fill, quick_fill

Footprints = tuple[Footprint, ...]
sides = st.integers(1, 5)


@st.composite
def footprint_sets(draw: st.DrawFn) -> Footprints:
    """One kind, a square, one kind in both turns, or two different kinds."""
    a, b, c, d = (draw(sides) for _ in range(4))
    made = draw(st.sampled_from([((a, b),), ((a, a),), ((a, b), (b, a)), ((a, b), (c, d))]))
    return tuple(dict.fromkeys(made))


def exhaustive(width: int, depth: int, footprints: Footprints) -> int:
    """The most of the footprints on a board of unit squares: everything tried on the first free square."""

    def mask(a: int, b: int) -> int:
        return sum(((1 << a) - 1) << (row * width) for row in range(b))

    shapes = [(a, b, mask(a, b)) for a, b in footprints if a <= width and b <= depth]

    @cache
    def most(square: int, ahead: int) -> int:
        """`ahead` holds the taken squares, this one in its lowest bit."""
        while square < width * depth and ahead & 1:
            square, ahead = square + 1, ahead >> 1
        if square == width * depth:
            return 0
        y, x = divmod(square, width)
        best = most(square + 1, ahead >> 1)
        for a, b, shape in shapes:
            if x + a <= width and y + b <= depth and not ahead & shape:
                best = max(best, 1 + most(square + 1, (ahead | shape) >> 1))
        return best

    return most(0, 0)


def sums_of(lengths: list[int], most: int) -> list[int]:
    """Sums of the lengths, each any number of times, up to `most`."""
    found = {0}
    for _ in range(most // min(lengths)):
        found |= {start + length for start in found for length in lengths if start + length <= most}
    return sorted(found)


def can_lay(count: int, width: int, depth: int, footprints: Footprints) -> bool:
    """Whether so many of the footprints can be laid, by a plain no-overlap model of a constraint solver.

    Any layout can be pushed down and left, so places are sums of sides.
    """
    from ortools.sat.python import cp_model

    model = cp_model.CpModel()
    pushed = [
        cp_model.Domain.from_values(sums_of([one[axis] for one in footprints], room))
        for axis, room in enumerate((width, depth))
    ]
    lows, spans_x, spans_y = [], [], []
    for _ in range(count):
        kinds = [model.new_bool_var("") for _ in footprints]
        model.add_exactly_one(kinds)
        low_x, low_y = (model.new_int_var_from_domain(places, "") for places in pushed)
        for kind, (a, b) in zip(kinds, footprints, strict=True):
            spans_x.append(model.new_optional_fixed_size_interval_var(low_x, a, kind, ""))
            spans_y.append(model.new_optional_fixed_size_interval_var(low_y, b, kind, ""))
            model.add(low_x + a <= width).only_enforce_if(kind)
            model.add(low_y + b <= depth).only_enforce_if(kind)
        lows.append(low_x)
    for one, following in pairwise(lows):
        model.add(one <= following)
    model.add_no_overlap_2d(spans_x, spans_y)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 1
    answer = solver.solve(model)
    assert answer in (cp_model.OPTIMAL, cp_model.FEASIBLE, cp_model.INFEASIBLE)
    return bool(answer != cp_model.INFEASIBLE)


def assert_sound(filling: Filling, width: int, depth: int, footprints: Footprints) -> None:
    """All inside, nothing overlaps, the count is what is placed and no more than the bound."""
    pieces = [(x, y, x + footprints[kind][0], y + footprints[kind][1]) for kind, x, y in filling.placements]
    assert len(pieces) == filling.count <= filling.bound
    assert all(x >= 0 and y >= 0 and a <= width and b <= depth for x, y, a, b in pieces)
    for place, (x, y, a, b) in enumerate(pieces):
        for p, q, r, s in pieces[:place]:
            assert a <= p or r <= x or b <= q or s <= y


@settings(max_examples=400)
@given(st.integers(1, 6), st.integers(1, 7), footprint_sets())
def test_exhaustive_search_finds_no_other_count(width: int, depth: int, footprints: Footprints) -> None:
    found = fill(width, depth, footprints)
    most = exhaustive(width, depth, footprints)
    assert (found.count, found.bound) == (most, most)
    assert bound(width, depth, footprints) >= most >= quick_fill(width, depth, footprints).count
    assert_sound(found, width, depth, footprints)
    assert_sound(quick_fill(width, depth, footprints), width, depth, footprints)


MIXED = [
    ((61.5, 44.25), (47.3, 33.1)),
    ((88.8, 41.0), (41.0, 52.6)),
    ((35.5, 35.5), (71.0, 20.2)),
]
"""Sides [mm] of footprints of two kinds."""
CASES = [
    (width, depth, kinds)
    for (width, depth), kinds in product(
        [(157.2, 131.9), (190.0, 120.5), (223.3, 101.01)],
        [
            ((71.25, 30.5), (30.5, 71.25)),
            ((60.1, 44.4), (44.4, 60.1)),
            ((90.0, 25.125), (25.125, 90.0)),
            ((52.75, 52.75),),
            ((65.5, 32.2),),
            ((47.9, 41.3), (41.3, 47.9)),
            ((55.0, 33.0), (33.0, 55.0)),
            *MIXED,
        ],
    )
]


@pytest.mark.parametrize(("width", "depth", "kinds"), CASES)
def test_a_solver_finds_no_other_count(
    width: float, depth: float, kinds: tuple[tuple[float, float], ...]
) -> None:
    """Lengths in mm that are not whole, as units of a thousandth."""
    room = (units_within(width), units_within(depth))
    footprints = tuple((units(a), units(b)) for a, b in kinds)
    found = fill(*room, footprints)
    assert found.count == found.bound
    assert can_lay(found.count, *room, footprints)
    assert not can_lay(found.count + 1, *room, footprints)
    assert_sound(found, *room, footprints)


@settings(max_examples=60)
@given(st.integers(5, 90), st.integers(5, 90), st.integers(2, 14), st.integers(2, 14))
def test_turning_everything_changes_nothing(width: int, depth: int, long: int, short: int) -> None:
    turns = tuple(dict.fromkeys(((long, short), (short, long))))
    one, other = quick_fill(width, depth, turns), quick_fill(depth, width, turns)
    assert one.count <= other.bound
    assert one.bound == other.bound
    single = fill(width, depth, ((long, short),))
    assert single.count == fill(depth, width, ((short, long),)).count


@settings(max_examples=60)
@given(st.integers(5, 40), st.integers(5, 40), footprint_sets(), st.integers(1, 4), st.booleans())
def test_more_room_never_holds_less(
    width: int, depth: int, footprints: Footprints, more: int, across: bool
) -> None:
    larger = (width + more, depth) if across else (width, depth + more)
    small, large = quick_fill(width, depth, footprints), quick_fill(*larger, footprints)
    assert small.bound <= large.bound
    assert small.count <= large.bound
    assert_sound(large, *larger, footprints)


@settings(max_examples=40)
@given(st.integers(5, 14), st.integers(5, 14), footprint_sets(), st.integers(1, 3))
def test_exact_counts_grow_with_the_room_and_turn_with_it(
    width: int, depth: int, footprints: Footprints, more: int
) -> None:
    found = fill(width, depth, footprints)
    assert found.count <= fill(width + more, depth, footprints).bound
    assert found.count <= fill(width, depth + more, footprints).bound
    turned = fill(depth, width, tuple((b, a) for a, b in footprints))
    assert found.count <= turned.bound
    assert turned.count <= found.bound
    if found.count == found.bound and turned.count == turned.bound:
        assert found.count == turned.count


def test_nothing_fits_nothing() -> None:
    for width, depth in ((0, 5), (5, 0), (-3, 5), (1, 1)):
        assert fill(width, depth, ((2, 3), (3, 2))) == Filling(0, 0, ())
    assert fill(5, 5, ()) == Filling(0, 0, ())
