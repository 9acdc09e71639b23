"""Tiers: reserves keep every allowance, and the wider model's bound holds for any arrangement at all."""

from dataclasses import replace
from itertools import combinations

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from boxfit.bay import BoxRules
from boxfit.judge.claim import ClaimedBox
from boxfit.judge.contents import judge_contents
from boxfit.layout import PlacedBox
from boxfit.module import DIMENSIONS, FaceRoom, Module, Stance, Voltage, stances
from boxfit.search.candidate import Candidate
from boxfit.search.stack import PlanSize, Stack, stacks
from boxfit.search.tier import stance_height, tier_kinds, wall_gap
from tests.box.samples import NO_BEAD, RULES

VOLTS = Voltage(33.0, 44.0, 50.4)
rooms = st.sampled_from([0, 0, 0, 2, 5])


def module_of(
    size: tuple[int, int, int], spacing: int, room: FaceRoom, up: tuple[str, ...], shared: bool = False
) -> Module:
    length, width, height = map(float, size)
    kept = tuple(one for one in DIMENSIONS[::-1] if one in up)
    return Module(
        name="Heron",
        stem="heron",
        length=length,
        width=width,
        height=height,
        mass=11.6,
        energy=2.2,
        capacity=50.0,
        voltage=VOLTS,
        up=kept,
        spacing=float(spacing),
        room=room,
        room_shared=shared,
    )


@st.composite
def modules(draw: st.DrawFn) -> Module:
    """Small modules in whole mm, with rooms at various faces and several ways up."""
    faces = ("front", "back", "left", "right", "top")
    room = FaceRoom(**{face: float(draw(rooms)) for face in faces})
    size = (draw(st.integers(4, 20)), draw(st.integers(4, 14)), draw(st.integers(4, 12)))
    up = draw(st.sampled_from([("height",), ("height", "width"), ("height", "length"), ("width", "length")]))
    return module_of(size, draw(st.integers(0, 3)), room, up, draw(st.booleans()))


@st.composite
def rules(draw: st.DrawFn) -> BoxRules:
    """A workshop's rules with other gaps, bends and liners."""
    return replace(
        RULES,
        process=draw(st.sampled_from(["folded", "welded"])),
        bend_radius=draw(st.sampled_from([2.0, 6.0])),
        liner=draw(st.sampled_from([0.0, 3.0])),
        gap=draw(st.sampled_from([0.0, 2.0])),
        headroom=draw(st.sampled_from([0.0, 5.0])),
        thickness=2.0,
    )


def claimed(box: PlacedBox) -> ClaimedBox:
    return ClaimedBox.model_validate(
        {
            "outside": {"low": box.low, "high": box.high},
            "corners": 4,
            "modules": [
                {
                    "low": one.low,
                    "high": one.high,
                    "up": one.stance.up,
                    "length_along": one.stance.length_along,
                    "faces": dict(zip("xyz", one.stance.faces, strict=True)),
                }
                for one in box.modules
            ],
            "tiers": [
                {"stands_on": tier.stands_on, "height": tier.height, "count": len(tier.modules)}
                for tier in box.tiers
            ],
        }
    )


@pytest.mark.parametrize(
    ("changes", "gaps", "least"),
    [
        ({}, (4.0, 4.0), (4.0, 4.0)),  # bend 2.5 and bead 3 lie under a liner of 3
        ({"process": "welded", "bead": 8.0}, (5.0, 4.0), (5.0, 4.0)),
        ({"process": "printed", "bead": 8.0}, (4.0, 4.0), (4.0, 4.0)),
        ({"bead": 8.0}, (5.0, 4.0), (5.0, 4.0)),  # the corners of a folded tray are welded
        ({"bend_radius": 9.0, "bead": 8.0}, (6.0, 4.0), (6.0, 4.0)),
        ({"bend_radius": 9.0, "bead": 8.0, "shape": "stepped"}, (6.0, 5.0), (5.0, 4.0)),
        ({"process": "welded", "bead": 8.0, "thickness": 0.0}, (4.0, 4.0), (4.0, 4.0)),
    ],
)
def test_gaps_by_hand(
    changes: dict[str, object], gaps: tuple[float, float], least: tuple[float, float]
) -> None:
    """Liner 3, gap 4: what fills the corner under the modules, less the liner."""
    others = {key: value for key, value in changes.items() if key != "bead"}
    shop = replace(RULES.fold_shop, weld_bead=changes.get("bead", 3.0))  # type: ignore[arg-type]
    box_rules = replace(RULES, fold_shop=shop, **others)  # type: ignore[arg-type]
    assert (wall_gap(box_rules, True), wall_gap(box_rules, False)) == gaps
    assert (wall_gap(box_rules, True, least=True), wall_gap(box_rules, False, least=True)) == least


@settings(max_examples=150)
@given(modules(), rules(), st.integers(20, 60), st.integers(20, 45), st.integers(1, 3), st.data())
def test_what_a_stack_lays_out_keeps_every_allowance(
    module: Module, box_rules: BoxRules, width: int, depth: int, tiers: int, data: st.DataObject
) -> None:
    kinds = tier_kinds(stances(module))
    assume(kinds)
    box_rules = replace(box_rules, tiers=tiers)
    stack = Stack(tuple(data.draw(st.sampled_from(kinds)) for _ in range(tiers)), module, box_rules)
    size = PlanSize(float(width), float(depth))
    assume(stack.bound(size) <= 30)  # the judge looks at every pair
    for exactly in (False, True) if stack.bound(size) <= 10 else (False,):
        candidate = Candidate(stack, size, 100.0, stack.fillings(size, exactly))
        assert candidate.count <= stack.bound(size)
        if not candidate.fills_its_height:
            continue
        for box in (candidate, candidate.trimmed(), *candidate.trimmed().turned_over()):
            found = judge_contents(claimed(box.placed(-300.0, 40.0)), box_rules, module, "box")
            assert found == []
            assert box.count == candidate.count
        assert candidate.trimmed().size.width <= size.width + 1e-6
        assert candidate.trimmed().size.depth <= size.depth + 1e-6


def can_stand(count: int, module: Module, tray: tuple[int, int], gap: int, ways: list[Stance]) -> bool:
    """Whether so many modules can stand on a liner-to-liner tray by the rules themselves, told to a solver.

    All in whole mm. Every module is a body and four slabs of room; bodies are `spacing` apart along an
    axis, rooms meet neither bodies nor rooms, walls are the gap or the room away.
    """
    from ortools.sat.python import cp_model

    model = cp_model.CpModel()
    spacing = round(module.spacing)
    solids = []
    for _ in range(count):
        turned = [model.new_bool_var("") for _ in ways]
        model.add_exactly_one(turned)

        def told(figures: list[float], turned: list[cp_model.IntVar] = turned) -> cp_model.LinearExpr:
            return cp_model.LinearExpr.weighted_sum(turned, [round(figure) for figure in figures])

        spans = []
        for axis in (0, 1):
            low = model.new_int_var(0, tray[axis], "")
            before, after = (told([way[axis] for way in side]) for side in _rooms(ways))
            high = low + told([way.size[axis] for way in ways])
            model.add(low >= gap)
            model.add(low >= before)
            model.add(high <= tray[axis] - gap)
            model.add(high <= tray[axis] - after)
            spans.append((low - before, low, high, high + after))
        (a, b, c, d), (p, q, r, s) = spans
        solids.append([(b, q, c, r), (a, q, b, r), (c, q, d, r), (b, p, c, q), (b, r, c, s)])
    for one, other in combinations(solids, 2):
        for place, (x, y, e, f) in enumerate(one):
            for following, (u, v, g, h) in enumerate(other):
                if module.room_shared and {place, following} in ({1, 2}, {3, 4}):
                    continue  # rooms that look at each other
                apart = spacing if place == following == 0 else 0
                sides = [model.new_bool_var("") for _ in range(4)]
                model.add_bool_or(sides)
                for side, (behind, ahead) in zip(sides, ((u, e), (x, g), (v, f), (y, h)), strict=True):
                    model.add(behind - ahead >= apart).only_enforce_if(side)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 1
    answer = solver.solve(model)
    assert answer in (cp_model.OPTIMAL, cp_model.FEASIBLE, cp_model.INFEASIBLE)
    return bool(answer != cp_model.INFEASIBLE)


def _rooms(ways: list[Stance]) -> tuple[list[tuple[float, ...]], list[tuple[float, ...]]]:
    return [way.room_low for way in ways], [way.room_high for way in ways]


@settings(max_examples=60)
@given(modules(), st.integers(15, 40), st.integers(12, 30), st.integers(0, 3))
def test_no_arrangement_of_a_tier_exceeds_its_bound(module: Module, width: int, depth: int, gap: int) -> None:
    box_rules = replace(RULES, process="welded", liner=0.0, thickness=1.0, gap=float(gap), fold_shop=NO_BEAD)
    size = PlanSize(width + 2.0, depth + 2.0)
    kinds = tier_kinds(stances(module))
    for height in sorted({kind.height for kind in kinds}):
        bound = max(Stack((k,), module, box_rules).bound(size) for k in kinds if k.height == height)
        if bound <= 5:
            ways = [way for way in stances(module) if stance_height(way) <= height]
            assert not can_stand(bound + 1, module, (width, depth), gap, ways)


@pytest.mark.parametrize(
    ("size", "room", "tray", "fits"),
    [
        ((10, 10, 5), FaceRoom(), (22, 10), 2),
        ((10, 10, 5), FaceRoom(), (21, 10), 1),  # hand: two bodies and 2 of spacing need 22
        ((10, 4, 5), FaceRoom(front=5.0), (29, 4), 1),
        ((10, 4, 5), FaceRoom(front=5.0), (30, 4), 2),  # hand: 10 + 5 + 10 + 5
        ((10, 10, 5), FaceRoom(front=3.0, back=3.0), (31, 10), 1),
        ((10, 10, 5), FaceRoom(front=3.0, back=3.0), (32, 10), 2),  # hand: 3 + 10 + 6 + 10 + 3
    ],
)
def test_hand_figures_of_a_row(
    size: tuple[int, int, int], room: FaceRoom, tray: tuple[int, int], fits: int
) -> None:
    """A bare tray without gap, spacing 2: some stack holds exactly what the solver says fits."""
    module = module_of(size, 2, room, ("height",))
    box_rules = replace(
        RULES, process="welded", liner=0.0, thickness=1.0, gap=0.0, tiers=1, fold_shop=NO_BEAD
    )
    size_of_box = PlanSize(tray[0] + 2.0, tray[1] + 2.0)
    assert most_in(module, box_rules, size_of_box) == fits


def most_in(module: Module, box_rules: BoxRules, size: PlanSize) -> int:
    """Modules in the fullest box of one tier, which no bound is below."""
    filled = [stack.fillings(size, exactly=True)[0] for stack in stacks(module, box_rules, 1000.0)]
    most = max(filling.count for filling in filled)
    assert most <= max(filling.bound for filling in filled)
    return most


@pytest.mark.parametrize(
    ("tray", "fits"),
    [
        ((24, 4), 1),
        ((25, 4), 2),  # hand: 10 + 5 between + 10
        ((51, 4), 3),
        ((52, 4), 4),  # hand: two pairs and 2 of spacing
        ((25, 10), 4),  # hand: two pairs beside each other, 4 + 2 + 4
    ],
)
def test_modules_that_look_at_each_other_share_a_room_where_allowed(tray: tuple[int, int], fits: int) -> None:
    module = module_of((10, 4, 5), 2, FaceRoom(front=5.0), ("height",), shared=True)
    box_rules = replace(
        RULES, process="welded", liner=0.0, thickness=1.0, gap=0.0, tiers=1, fold_shop=NO_BEAD
    )
    size = PlanSize(tray[0] + 2.0, tray[1] + 2.0)
    assert most_in(module, box_rules, size) == fits
    apart = replace(module, room_shared=False)
    assert most_in(apart, box_rules, size) < fits or fits % 2 == 1
    assert can_stand(fits, module, tray, 0, list(stances(module)))
    assert not can_stand(fits + 1, module, tray, 0, list(stances(module)))
