"""How modules go into their box: orders worked by hand, what a hand lacks, filling in the car."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boxfit.bay import Bay, Block, Cylinder, Keepout, Opening, Prism, Shell, Surface, Vector, Way
from boxfit.box.assembly import Step, assembly
from boxfit.box.assembly_hand import HAND, SWING, OpenTier, TerminalFace, room_across, terminal_faces
from boxfit.box_shape import rectangle
from boxfit.car import Car
from boxfit.layout import BayLayout, Layout, PlacedBox, PlacedModule, Tier, Weights
from boxfit.module import FaceRoom, Module, Stance, Voltage, stances
from tests.box.samples import HERON, RULES, car_and_layout, filled_box

STILT = Module(
    "Stilt 37", "stilt-37", 265.0, 65.0, 100.0, 9.2, 1.7, 46.0, Voltage(30.0, 37.0, 42.0), ("height",), 4.0,
    room=FaceRoom(front=25.0),
)  # fmt: skip
WALL = RULES.thickness + RULES.liner


def looking(front: str) -> Stance:
    """The Stilt with its front to the given side."""
    axis, sign = {"front": ("x", 1), "rear": ("x", -1), "left": ("y", 1), "right": ("y", -1)}[front]
    at = "xy".index(axis)
    return next(
        one
        for one in stances(STILT)
        if one.length_along == axis and (one.room_high[at] if sign > 0 else one.room_low[at]) == 25.0
    )


def box_of(inside: tuple[float, float], *tiers: tuple[tuple[Stance, float, float], ...]) -> PlacedBox:
    """A box of free plan `inside` [mm] in its liner; modules by stance and place from its inner corner."""
    level, found = 300.0 + WALL, []
    for tier in tiers:
        height = max(stance.size[2] + stance.room_high[2] for stance, _, _ in tier)
        modules = tuple(PlacedModule(stance, (WALL + x, WALL + y, level)) for stance, x, y in tier)
        found.append(Tier(level, height, modules))
        level += height + RULES.headroom + RULES.thickness
    top = level - RULES.thickness + RULES.lid_thickness
    return PlacedBox((0.0, 0.0, 300.0), (inside[0] + 2 * WALL, inside[1] + 2 * WALL, top), tuple(found))


def steps_of(box: PlacedBox, module: Module = STILT, bay: Bay | None = None) -> tuple[Step, ...]:
    outline = ((-900.0, -900.0), (900.0, -900.0), (900.0, 900.0), (-900.0, 900.0))
    bay = bay or Bay("bay", Prism(outline, 250.0, 900.0), 3.0, 13.0, RULES, (), Opening("up"))
    car = Car("Dunlin 850", "dunlin-850", 2180.0, 1180.0, 1160.0, (bay,))
    bays = (BayLayout(bay.name, (box,)),)
    count = len(box.modules)
    weights = Weights(1.0, 1.0)
    return assembly(
        car, module, Layout(car.name, module.name, count, count, 1, 1.0, count, True, True, bays, weights)
    )


def order_of(steps: tuple[Step, ...]) -> list[int]:
    return [step.module for step in steps if step.doing == "module"]


def row(*at: float) -> tuple[tuple[Stance, float, float], ...]:
    """Modules that all look forward, their rear ends at these places."""
    return tuple((looking("front"), x, 4.0) for x in at)


def test_every_step_in_turn() -> None:
    car, layout = car_and_layout()
    steps = assembly(car, HERON, layout)
    first = [step for step in steps if step.bay == "front bay"]
    filled = [*["module"] * 3, "hold-down"]
    doing = ["tray", *filled, "shelf", *filled, "lid"]
    assert [step.doing for step in first] == doing
    assert [step.number for step in first] == list(range(1, 12))
    assert order_of(steps) == list(range(1, 11))
    assert all(step.fits and step.lacks == 0.0 for step in steps)


def test_what_is_not_held_down_has_no_step_for_it() -> None:
    car, layout = car_and_layout()
    low = tuple(replace(bay, box=replace(bay.box, gap=0.0, liner=0.0)) for bay in car.bays)
    steps = assembly(replace(car, bays=low), HERON, layout)
    assert not any(step.doing == "hold-down" for step in steps)


def test_the_drop_is_from_the_rim_to_what_the_module_stands_on() -> None:
    """108 and 30 of room above, 5 headroom: 143 to the rim; a tier lower, 143 and a 2.5 shelf more."""
    car, layout = car_and_layout()
    drops = {(step.tier, step.drop) for step in assembly(car, HERON, layout) if step.doing == "module"}
    assert {(tier, round(drop, 6)) for tier, drop in drops} == {(1, 288.5), (2, 143.0)}


def test_a_module_is_connected_before_its_neighbour_closes_its_front() -> None:
    """All look forward, 30 apart, 70 left in front: the rearmost goes first, whatever their numbers."""
    backwards = box_of((4 + 3 * 265 + 2 * 30 + 70, 73), row(594.0, 299.0, 4.0))
    steps = steps_of(backwards)
    assert order_of(steps) == [3, 2, 1]
    assert all(step.lacks == 0.0 for step in steps)
    assert order_of(steps_of(box_of((929, 73), row(4.0, 299.0, 594.0)))) == [1, 2, 3]


def test_two_that_face_each_other_leave_the_second_short() -> None:
    """40 between them: no order gives the second more; 25 are kept clear for links bolted on before."""
    faced = ((looking("front"), 4.0, 4.0), (looking("rear"), 309.0, 4.0))
    first, second = (step for step in steps_of(box_of((578, 73), faced)) if step.doing == "module")
    assert first.lacks == 0.0
    assert second.across == pytest.approx(40.0, abs=0.01)
    assert second.lacks == pytest.approx(20.0, abs=0.01)
    assert "no order serves all" in second.notes[0]
    assert "within the 25 mm free there" in second.notes[0]


def test_walls_too_near_are_told_as_walls() -> None:
    """35 to the liner: lacks 25 in any order."""
    only = next(step for step in steps_of(box_of((304, 73), row(4.0))) if step.doing == "module")
    assert (round(only.across, 2), round(only.lacks, 2)) == (35.0, 25.0)
    assert "the walls leave too little" in only.notes[0]


def test_those_without_room_anyway_wait_for_those_that_have_it() -> None:
    """The one in front has 30 to the wall whatever is done; the one behind it has room while it is out."""
    steps = steps_of(box_of((4 + 265 + 40 + 265 + 30, 73), row(309.0, 4.0)))
    assert order_of(steps) == [2, 1]
    assert [step.lacks == 0.0 for step in steps if step.doing == "module"] == [True, False]


def test_a_ledge_above_takes_from_the_hand_and_stops_what_stands_too_near() -> None:
    """Ledges reach 2 in from the liner: 35 becomes 33 below a shelf; 0.5 from the liner no longer drops."""
    below, above = (
        step for step in steps_of(box_of((304, 73), row(4.0), row(4.0))) if step.doing == "module"
    )
    assert (round(below.across, 2), round(above.across, 2)) == (33.0, 35.0)
    stuck = [step for step in steps_of(box_of((400, 73), row(0.5), row(4.0))) if step.doing == "module"]
    assert [step.fits for step in stuck] == [False, True]
    assert "1.5 mm too long or too near" in stuck[0].notes[0]


def test_what_is_too_near_or_in_kept_room_does_not_drop_free() -> None:
    near = ((looking("front"), 4.0, 4.0), (looking("front"), 4.0, 71.0), (looking("front"), 289.0, 4.0))
    steps = {step.module: step for step in steps_of(box_of((700, 140), near)) if step.doing == "module"}
    notes = " ".join(note for step in steps.values() for note in step.notes)
    assert "passes a module already in by 2.0 mm, 4.0 mm asked" in notes
    assert "keeps clear" in notes


def test_over_a_face_that_looks_up_walls_and_taller_modules_count() -> None:
    """A cell 26.5 wide, 7 to the liner each side, walls higher: from its middle 20.25, so 40.5 across."""
    wren = Module(
        "Wren 7", "wren-7", 148.0, 26.5, 91.0, 0.9, 0.15, 37.0, Voltage(3.0, 3.7, 4.2), ("height",), 1.0
    )
    stance = stances(wren)[0]
    only = next(
        step for step in steps_of(box_of((200, 40.5), ((stance, 20.0, 7.0),)), wren) if step.doing == "module"
    )
    assert only.across == pytest.approx(40.5)
    assert only.faces == (TerminalFace("top", 2, 1),)
    assert "bring its leads out above" in only.notes[0]
    tall = PlacedModule(replace(stance, size=(148.0, 26.5, 120.0)), (0.0, 30.0, 0.0))
    alone = OpenTier(rectangle((-900.0, -900.0), (900.0, 900.0)), 300.0, ())
    one = PlacedModule(stance, (0.0, 0.0, 0.0))
    assert room_across(one, only.faces[0], alone) == SWING
    # From the far edge of the face, 30 from the taller one.
    assert room_across(one, only.faces[0], replace(alone, bodies=(tall,))) == pytest.approx(60.0)


@pytest.mark.parametrize("front", ["front", "rear", "left", "right"])
def test_terminal_faces_turn_with_the_module(front: str) -> None:
    (face,) = terminal_faces(looking(front), STILT.room)
    assert (face.name, face.looks) == ("front", front)


def test_without_any_room_told_the_terminals_are_on_top_wherever_that_looks() -> None:
    lying = replace(STILT, up=("width",), room=FaceRoom())
    for stance in stances(lying):
        (face,) = terminal_faces(stance, lying.room)
        assert face.name == "top"
        assert face.axis < 2


def tray_note(**changed: object) -> str:
    """What is said of filling one box of three Herons on (0, 0, 300), 143 mm from rim to feet."""
    outline = ((-900.0, -900.0), (900.0, -900.0), (900.0, 900.0), (-900.0, 900.0))
    plain = Bay("bay", Prism(outline, 250.0, 900.0), 3.0, 13.0, RULES, (), Opening("up"))
    box = filled_box((0.0, 0.0, 300.0), 3, 1)
    steps = steps_of(box, HERON, replace(plain, **changed))  # type: ignore[arg-type]
    return "; ".join(steps[0].notes)


def test_a_box_with_nothing_above_is_filled_in_its_place() -> None:
    assert "can be filled in its place" in tray_note()
    assert "not known" in tray_note(opening=None)


@pytest.mark.parametrize("way", ["down", "front", "rear", "left", "right"])
def test_a_bay_that_opens_elsewhere_is_filled_on_the_bench_with_its_mass(way: Way) -> None:
    """Three of 11.6 kg and the box itself."""
    told = tray_note(opening=Opening(way))
    assert told.startswith("fill it on the bench")
    mass = float(told.split("weighs ")[1].split(" kg")[0])
    assert 34.8 < mass < 50.0
    assert "one person lifts 25 kg" in told


def over(low: Vector, high: Vector) -> tuple[Keepout, ...]:
    return (Keepout("scuttle", Block(low, high), 13.0),)


def test_what_stays_above_the_modules_sends_the_box_to_the_bench() -> None:
    """Over all of the box, 100 above the terminals at 413.5, less 3 of tolerance: 90 are free, in tens."""
    told = tray_note(keepouts=over((-50.0, -50.0, 513.5), (600.0, 600.0, 600.0)))
    assert "scuttle covers 3 of 3 modules, up to 151 mm of them" in told
    assert "90 mm are free above the terminals" in told
    assert "lacks 60 mm" in told


def test_a_surface_above_counts_as_a_block_does() -> None:
    """A sheet of two triangles at the same level, as a keep-out or as the bay's own surface."""
    points = np.array(
        [(x, y, 513.5) for x, y in ((-50.0, -50.0), (600.0, -50.0), (600.0, 600.0), (-50.0, 600.0))]
    )
    sheet = Surface(points, np.array([(0, 1, 2), (0, 2, 3)]))
    outline = ((-900.0, -900.0), (900.0, -900.0), (900.0, 900.0), (-900.0, 900.0))
    views = ((outline,), (outline,), (outline,))
    low, high = (-900.0, -900.0, 250.0), (900.0, 900.0, 900.0)
    closed, opens = np.array([False, False]), np.array([True, True])
    told = tray_note(keepouts=(Keepout("scuttle", sheet, 13.0),))
    assert "scuttle covers 3 of 3 modules" in told
    assert "90 mm are free above the terminals" in told
    assert "the surveyed surface covers 3 of 3" in tray_note(
        room=Shell(sheet, "room", low, high, closed, 1e9, *views)
    )
    assert "filled in its place" in tray_note(room=Shell(sheet, "room", low, high, opens, 1e9, *views))


def test_a_bar_off_to_the_side_leaves_the_hand_its_place() -> None:
    """Over the walls only, nothing is in the way; as a round bar it is the same."""
    beside = Cylinder((-40.0, -50.0, 500.0), (-40.0, 600.0, 500.0), 40.0)
    assert "can be filled in its place" in tray_note(keepouts=(Keepout("pipe", beside, 13.0),))
    assert "can be filled in its place" in tray_note(keepouts=over((-50.0, 0.0, 500.0), (5.0, 600.0, 520.0)))


def test_a_hole_smaller_than_the_box_stops_modules_under_its_edge() -> None:
    hole = ((100.0, -50.0), (600.0, -50.0), (600.0, 600.0), (100.0, 600.0))
    told = tray_note(opening=Opening("up", hole))
    assert "the edge of the opening covers 1 of 3 modules" in told


@settings(max_examples=40, deadline=None)
@given(st.lists(st.tuples(st.integers(0, 40), st.integers(0, 40)), max_size=5), st.sampled_from(range(6)))
def test_a_further_module_never_gives_a_hand_more_room(others: list[tuple[int, int]], which: int) -> None:
    """On this the search for an order rests."""
    one = PlacedModule(looking("front"), (200.0, 200.0, 0.0))
    bodies = tuple(
        body
        for x, y in others
        if (body := PlacedModule(looking("left"), (20.0 * x, 20.0 * y, 0.0)))
        and not (135.0 < body.low[0] < 465.0 and -65.0 < body.low[1] < 265.0)
    )
    face = TerminalFace("front", 0, 1)
    tier = OpenTier(rectangle((0.0, 0.0), (1200.0, 1200.0)), 200.0, bodies)
    fewer = replace(tier, bodies=tuple(body for k, body in enumerate(bodies) if k != which))
    assert room_across(one, face, fewer) >= room_across(one, face, tier) - 1e-6
    assert HAND < SWING
