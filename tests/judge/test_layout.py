"""Each code: a clear layout, spoiled as little as possible, yields that code alone and its figure by hand."""

import ast
import re
from collections.abc import Callable
from copy import deepcopy
from dataclasses import replace
from pathlib import Path

import pytest

import boxfit.judge
from boxfit.bay import Bay, Block, Keepout, Opening, Prism, Process
from boxfit.car import Car, Limits, Target, Window
from boxfit.judge.finding import CODES, Finding
from boxfit.judge.layout import judge_layout
from boxfit.module import FaceRoom, Module
from boxfit.workshop import FoldShop
from tests.judge.samples import BAY, CAR, MODULE, ROOM, RULES, Data, box, layout
from tests.judge.test_electrics import ELECTRIC_CODES
from tests.judge.test_stepped import CASES as STEPPED_CASES

Case = tuple[Data, Car, Module]
BUILT = (
    "solid",
    "sheet",
    "print",
    "fitting",
    "cutout",
    "foot",
    "hold-down",
    "bar-",
    "doubler-",
    "lug",
    "housing",
    "breather",
    "drain",
    "disconnect",
    "retention",
)
"""How codes begin that speak of what is built, each held where its judge is tested."""


def with_bay(bay: Bay) -> Car:
    return replace(CAR, bays=(bay, *CAR.bays[1:]))


def with_keepout(low: tuple[float, float, float], high: tuple[float, float, float], distance: float) -> Car:
    return with_bay(replace(BAY, keepouts=(*BAY.keepouts, Keepout("post", Block(low, high), distance))))


def with_front_wall(x: float) -> Car:
    outline = ((x, -400.0), (x, 400.0), (-600.0, 400.0), (-600.0, -400.0))
    return with_bay(replace(BAY, room=Prism(outline, 200.0, 700.0)))


def told(**changes: object) -> Case:
    return layout() | changes, CAR, MODULE


def first_box(change: Callable[[Data], None]) -> Case:
    data = layout()
    change(data["bays"][0]["boxes"][0])
    return data, CAR, MODULE


def moved(number: int, axis: int, by: float) -> Case:
    """The layout with one module of its box moved."""

    def move(told_box: Data) -> None:
        for corner in ("low", "high"):
            told_box["modules"][number][corner][axis] += by

    return first_box(move)


def two_boxes(gap: float) -> Case:
    """A second box ahead of the first, lid edges `gap` apart, in a car that was not weighed."""
    data = layout() | {"count": 8, "parallel": 2, "energy": 8.8, "bound": 8, "proven": True}
    data["bays"][0]["boxes"] = [box(-550.0, -100.0, 330.0), box(-550.0 + 223.0 + 44.0 + gap, -100.0, 330.0)]
    data["weights"] = {"modules": 40.0, "boxes": 2.4}
    return data, replace(CAR, weighed=None), MODULE


def welded(bead: float, process: Process = "welded") -> Case:
    """The lower tier stands 5 from a liner of 3."""
    rules = replace(RULES, process=process, fold_shop=FoldShop(weld_bead=bead))
    return layout(), with_bay(replace(BAY, box=rules)), MODULE


def wide_module(told_box: Data) -> None:
    told_box["modules"][2]["high"][1] += 0.5


def low_lid(told_box: Data) -> None:
    told_box["outside"]["high"][2] -= 1.0


def on_its_side(told_box: Data) -> None:
    told_box["modules"][0]["up"] = "width"


def mirrored(told_box: Data) -> None:
    told_box["modules"][0]["faces"] = {"x": "front", "y": "right", "z": "top"}


def upside_down(told_box: Data) -> None:
    told_box["modules"][0]["faces"] = {"x": "front", "y": "right", "z": "bottom"}


def wrong_tier(told_box: Data) -> None:
    told_box["tiers"][1]["height"] = 60.0


def six_corners(told_box: Data) -> None:
    told_box["corners"] = 6


def with_weights(**changes: float) -> Case:
    return told(weights=layout()["weights"] | changes)


ROOMY = replace(MODULE, room=FaceRoom(top=10.0, front=3.0))
NARROW = Opening("up", ((-153.0, -300.0), (-153.0, 300.0), (-595.0, 300.0), (-595.0, -300.0)))
SHARE = 1.0 - (445.0 + 21.2 * 288.5 / 2000.0) / 951.2
CASES: dict[str, tuple[str, Callable[[], Case], float | None]] = {
    "text for a number": ("malformed", lambda: told(count="4"), None),
    "another car": ("name", lambda: told(car="Dunlin 1000"), None),
    "another module": ("name", lambda: told(module="Wren 13"), None),
    "unknown bay": ("name", lambda: told(bays=[{"name": "roof", "boxes": []}]), None),
    "bay twice": ("name", lambda: told(bays=[*layout()["bays"], {"name": "front bay", "boxes": []}]), None),
    "six corners": ("shape", lambda: first_box(six_corners), 6.0),
    "no box allowed": (
        "boxes",
        lambda: (layout(), with_bay(replace(BAY, box=replace(RULES, boxes=0))), MODULE),
        1.0,
    ),
    "floor 10 below": (
        "bay-clearance",
        lambda: (layout(), with_bay(replace(BAY, room=replace(ROOM, floor=240.0))), MODULE),
        10.0,
    ),
    "top 10 above": (
        "bay-clearance",
        lambda: (layout(), with_bay(replace(BAY, room=replace(ROOM, top=380.0))), MODULE),
        10.0,
    ),
    "wall 12 ahead of the body": ("bay-clearance", lambda: (layout(), with_front_wall(-165.0), MODULE), 12.0),
    "wall 10 ahead of the flange": ("flange", lambda: (layout(), with_front_wall(-145.0), MODULE), 10.0),
    "corner to corner, 8 and 8": (
        "keepout-clearance",
        lambda: (layout(), with_keepout((-169.0, -11.0, 200.0), (-150.0, 0.0, 300.0), 13.0), MODULE),
        8.0 * 2.0**0.5,
    ),
    "lid edges 9 apart": ("box-clearance", lambda: two_boxes(9.0), 9.0),
    "2 beside the way up": (
        "insertion",
        lambda: (layout(), with_keepout((-153.0, -50.0, 500.0), (-100.0, 0.0, 520.0), 13.0), MODULE),
        2.0,
    ),
    "hole ends 2 ahead": ("opening", lambda: (layout(), with_bay(replace(BAY, opening=NARROW)), MODULE), 2.0),
    "module too wide": ("module-turning", lambda: first_box(wide_module), 0.5),
    "not on that face": ("module-turning", lambda: first_box(on_its_side), None),
    "mirror image": ("module-turning", lambda: first_box(mirrored), None),
    "upside down": ("module-turning", lambda: first_box(upside_down), None),
    "upper tier 3.5 from the liner": ("module-in-box", lambda: moved(2, 1, 1.5), 3.5),
    "lower tier on the bend": ("bend-fouled", lambda: moved(0, 1, 0.5), 4.5),
    "lower tier on the bead": ("bead-fouled", lambda: welded(9.0), 5.0),
    "lower tier on the bead of the corners": ("bead-fouled", lambda: welded(9.0, "folded"), 5.0),
    "3 above the floor": ("floor", lambda: moved(0, 2, 3.0), 3.0),
    "lid 1 lower": ("headroom", lambda: first_box(low_lid), 4.0),
    "one tier allowed": (
        "tiers",
        lambda: (layout(), with_bay(replace(BAY, box=replace(RULES, tiers=1))), MODULE),
        2.0,
    ),
    "tier told too high": ("tiers", lambda: first_box(wrong_tier), 313.0),
    "bodies overlap": ("module-overlap", lambda: moved(1, 0, -3.0), -1.0),
    "bodies 1 apart": ("module-spacing", lambda: moved(1, 0, -1.0), 1.0),
    "front blocked": ("module-room", lambda: (layout(), CAR, ROOMY), 1.0),
    "one told too many": ("count", lambda: told(count=5, energy=5.5), 4.0),
    "two strings, no window": (
        "count",
        lambda: (layout() | {"series": 2, "parallel": 2}, replace(CAR, windows=()), MODULE),
        4.0,
    ),
    "full over the window": (
        "string-window",
        lambda: (layout(), replace(CAR, windows=(Window("charger", 40.0, 55.0),)), MODULE),
        56.0,
    ),
    "empty under the window": (
        "string-window",
        lambda: (layout(), replace(CAR, windows=(Window("charger", 41.0, 56.0),)), MODULE),
        40.0,
    ),
    "energy": ("energy", lambda: told(energy=4.5), 4.5),
    "bound under the count": ("bound", lambda: told(bound=3), 3.0),
    "proven short of the bound": ("bound", lambda: told(proven=True), 8.0),
    "boxes too heavy": ("box-mass", lambda: with_weights(boxes=40.0), 40.0),
    "modules too light": ("weights", lambda: with_weights(modules=19.0), 19.0),
    "left and right changed over": ("weights", lambda: with_weights(left_share=0.53), 0.53),
    "plate of the front axle": (
        "axle-limit",
        lambda: (layout(), replace(CAR, limits=Limits(500.0, 500.0, 1000.0)), MODULE),
        951.2 - 445.0 - 21.2 * 288.5 / 2000.0 + 30.0 * 0.1,
    ),
    "plate of the rear axle": (
        "axle-limit",
        lambda: (layout(), replace(CAR, limits=Limits(520.0, 470.0, 1000.0)), MODULE),
        445.0 + 21.2 * 288.5 / 2000.0 + 30.0 * 0.9,
    ),
    "plate of the car": (
        "gross-limit",
        lambda: (layout(), replace(CAR, limits=Limits(520.0, 500.0, 980.0)), MODULE),
        981.2,
    ),
    "target told met": (
        "target",
        lambda: (layout(), replace(CAR, target=Target(0.5, 0.02, ("driver",))), MODULE),
        SHARE,
    ),
    "target told missed": ("target", lambda: told(target_met=False), SHARE),
}


def judged(case: Case) -> tuple[Finding, ...]:
    return judge_layout(*case)


def test_sample_is_clear() -> None:
    assert judged((layout(), CAR, MODULE)) == ()


@pytest.mark.parametrize("name", CASES)
def test_spoiled_layout_yields_its_code_alone(name: str) -> None:
    code, case, figure = CASES[name]
    findings = judged(case())
    assert {finding.code for finding in findings} == {code}
    if figure is None:
        assert findings[0].figure is None
    else:
        assert findings[0].figure == pytest.approx(figure, abs=2e-4)


def test_every_code_of_a_layout_has_a_case() -> None:
    found = {code for cases in (CASES, STEPPED_CASES) for code, _, _ in cases.values()}
    assert found | ELECTRIC_CODES == {code for code in CODES if not code.startswith(BUILT)}


def test_every_code_used_is_in_the_table() -> None:
    used = set()
    for path in Path(boxfit.judge.__file__).parent.glob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "Finding":
                first = node.args[0]
                used |= {first.value} if isinstance(first, ast.Constant) else set()
    assert used <= set(CODES)
    assert all(re.fullmatch(r"[a-z]+(-[a-z]+)*", code) for code in CODES)


@pytest.mark.parametrize(
    "case",
    [
        pytest.param((layout(), with_front_wall(-142.0), MODULE), id="flange 13 from the wall"),
        pytest.param(
            (layout(), with_keepout((-169.0, -11.0, 200.0), (-150.0, 0.0, 300.0), 11.3), MODULE),
            id="corner to corner 11.31 where 11.3 is needed, though 8 per axis",
        ),
        pytest.param(
            (layout(), with_keepout((-152.0, -50.0, 500.0), (-100.0, 0.0, 520.0), 13.0), MODULE),
            id="3 beside the way up, clearance not asked there",
        ),
        pytest.param(two_boxes(10.0), id="lid edges 10 apart"),
        pytest.param(moved(0, 1, 0.0005), id="half a micrometre off"),
        pytest.param(welded(8.0), id="bead just reached"),
        pytest.param((layout(), replace(CAR, target=None, weighed=None), MODULE), id="target not asked"),
    ],
)
def test_just_enough_is_clear(case: Case) -> None:
    findings = judged(case)
    assert [finding for finding in findings if finding.code != "weights"] == []


def test_all_allowances_may_be_zero() -> None:
    rules = replace(
        RULES, thickness=0, bend_radius=0, flange=0, lid_thickness=0, clearance=0, liner=0, gap=0, headroom=0
    )
    tight = Bay(
        "bay", Prism(((0, 0), (200, 0), (200, 60), (0, 60)), 0, 80), 0, 0, replace(rules, asked=False)
    )
    car = replace(CAR, bays=(tight,), weighed=None, windows=(), target=None)
    module = replace(MODULE, spacing=0.0, room=FaceRoom())
    bodies = [(x, z) for z in (0, 40) for x in (0, 100)]
    modules = [
        {"low": [x, 0, z], "high": [x + 100, 60, z + 40], "up": "height", "length_along": "x"}
        for x, z in bodies
    ]
    data = layout() | {
        "bays": [
            {
                "name": "bay",
                "boxes": [{"outside": {"low": [0, 0, 0], "high": [200, 60, 80]}, "modules": modules}],
            }
        ],
        "weights": {"modules": 20.0, "boxes": 0.0},
    }
    assert judge_layout(data, car, module) == ()
    modules[3]["low"], modules[3]["high"] = [100.01, 0, 40], [200.01, 60, 80]
    assert {finding.code for finding in judge_layout(data, car, module)} == {"module-in-box"}


def test_through_a_wall_without_clearance_is_told() -> None:
    bay = replace(BAY, distance=0.0, tolerance=0.0, keepouts=(), opening=None)
    outline = ((-200.0, -400.0), (0.0, 0.0), (-200.0, 400.0), (-600.0, 400.0), (-600.0, -400.0))
    assert judge_layout(layout(), with_bay(replace(bay, room=Prism(outline, 200, 700))), MODULE) == ()
    spike = ((-200.0, -400.0), (-200.0, -70.0), (-390.0, -60.0), (-200.0, -50.0), *outline[2:])
    findings = judge_layout(layout(), with_bay(replace(bay, room=Prism(spike, 200, 700))), MODULE)
    assert [(finding.code, finding.figure) for finding in findings] == [("bay-clearance", 0.0)]


def test_a_way_round_is_found_where_no_faces_are_told() -> None:
    data = layout()
    for module in data["bays"][0]["boxes"][0]["modules"]:
        del module["faces"]
    assert judge_layout(data, CAR, ROOMY) == ()
    both_ends = replace(MODULE, room=FaceRoom(top=10.0, front=3.0, back=3.0))
    assert {finding.code for finding in judge_layout(data, CAR, both_ends)} == {"module-room"}


def test_shelf_higher_than_the_tier_needs_is_told() -> None:
    data = layout()
    told_box = data["bays"][0]["boxes"][0]
    del told_box["tiers"]
    told_box["outside"]["high"][2] += 2.0
    for module in told_box["modules"][2:]:
        module["low"][2] += 2.0
        module["high"][2] += 2.0
    findings = judge_layout(data, CAR, MODULE)
    assert [(finding.code, finding.figure) for finding in findings] == [("floor", 59.5)]


def test_modules_that_all_stand_on_nothing_are_told_one_by_one() -> None:
    def sunk_floor(told_box: Data) -> None:
        told_box["outside"]["low"][2] -= 4.0

    findings = judged(first_box(sunk_floor))
    assert [(finding.code, finding.figure) for finding in findings][:2] == [("floor", 4.0), ("floor", 4.0)]


def test_boxes_of_two_bays_may_not_meet() -> None:
    data, car, module = two_boxes(10.0)
    one, other = data["bays"][0]["boxes"]
    other = box(-560.0, -90.0, 330.0)
    data["bays"] = [{"name": "front bay", "boxes": [one]}, {"name": "rear bay", "boxes": [other]}]
    car = replace(car, bays=(car.bays[0], replace(car.bays[0], name="rear bay")))
    assert {finding.code for finding in judge_layout(data, car, module)} == {"box-clearance"}


def test_the_layout_is_left_as_it_was() -> None:
    data = layout()
    before = deepcopy(data)
    judge_layout(data, CAR, MODULE)
    assert data == before
