"""The rebuilt car: hand figures, and what a wrong weight may not get past."""

from dataclasses import replace

import pytest

from boxfit.judge.balance import BoxLoad, box_loads, boxes_sum, left_part, without_boxes
from boxfit.judge.box_mass import Bracket, box_mass
from boxfit.judge.claim import Claim, read_claim
from boxfit.judge.distance import Cuboid
from boxfit.judge.layout import judge_layout
from boxfit.judge.places import set_box
from boxfit.judge.shape import Band
from tests.judge.samples import CAR, MODULE, RULES, WEIGHED, layout


def claim() -> Claim:
    found = read_claim(layout())
    assert isinstance(found, Claim)
    return found


def test_car_without_boxes_by_hand() -> None:
    known = without_boxes(claim(), CAR, WEIGHED, MODULE)
    assert known.mass == 950.0
    assert known.along == pytest.approx(-400 * 2000 - 50 * 200 - 80 * 1000 - 20 * 288.5)
    assert known.sideways == pytest.approx(-80 * 300 - 20 * 59.5)
    assert known.upwards == pytest.approx(800 * 450 + 50 * 300 + 80 * 500 + 20 * 304.25)


def test_each_axle_has_its_own_track() -> None:
    assert left_part(CAR, (0.0, 120.0, 0.0)) == pytest.approx(0.6)  # hand: 120 / 1200 beyond half
    assert left_part(CAR, (-2000.0, -116.0, 0.0)) == pytest.approx(0.4)


def test_uneven_readings_with_two_tracks() -> None:
    # facts: 1050 kg car, track 1.8 m both, centre 0.0429 m to the right (inputs published, y recomputed)
    readings = replace(WEIGHED, front_left=290.0, front_right=330.0, rear_left=210.0, rear_right=220.0)
    car = replace(
        CAR, wheelbase=2550.0, track_front=1800.0, track_rear=1800.0, fitted=(), carried=(), target=None
    )
    known = without_boxes(claim().model_copy(update={"bays": ()}), car, readings, MODULE)
    assert known.along / known.mass == pytest.approx(-1044.3, abs=0.05)
    assert known.sideways / known.mass == pytest.approx(-42.9, abs=0.05)


def test_two_boxes_share_their_mass_within_their_brackets() -> None:
    near = BoxLoad(Cuboid((-100.0, 0.0, 0.0), (-90.0, 1.0, 1.0)), Bracket(2.0, 6.0))
    far = BoxLoad(Cuboid((-1000.0, 0.0, 0.0), (-900.0, 1.0, 1.0)), Bracket(2.0, 6.0))
    found = boxes_sum([near, far], 9.0, lambda at: at[0])
    assert (found.low, found.high) == (-3.0 * 100 - 6.0 * 1000, -6.0 * 90 - 3.0 * 900)  # hand


def test_box_mass_brackets_a_plain_case() -> None:
    # hand: a closed case of 2 mm sheet 500 x 400 x 300, 2660 kg/m3, areas only: 4.9 kg
    rules = replace(RULES, thickness=2.0, flange=0.0, liner=0.0)
    found = box_mass([Band(((0, 0), (500, 0), (500, 400), (0, 400)), 0.0, 300.0)], rules, 1)
    mass = 2660e-9 * 2.0 * 2 * (500 * 400 + 500 * 300 + 400 * 300)
    assert found.low == pytest.approx(0.8 * mass)
    assert found.low < mass < found.high < 3.5 * mass


@pytest.mark.parametrize(
    "key", ["front_axle", "rear_axle", "gross", "front_share", "left_share", "centre_of_mass"]
)
def test_a_weight_left_out_is_told(key: str) -> None:
    data = layout()
    data["weights"][key] = None
    assert "weights" in {finding.code for finding in judge_layout(data, CAR, MODULE)}


@pytest.mark.parametrize("axis", [0, 1, 2])
def test_centre_of_mass_is_rebuilt(axis: int) -> None:
    data = layout()
    data["weights"]["centre_of_mass"][axis] += 1.0
    findings = judge_layout(data, CAR, MODULE)
    assert [(finding.code, finding.place[-1]) for finding in findings] == [("weights", "xyz"[axis])]


def test_mass_moved_between_the_axles_is_told() -> None:
    data = layout()
    data["weights"]["front_axle"] += 1.0
    data["weights"]["rear_axle"] -= 1.0
    assert {finding.code for finding in judge_layout(data, CAR, MODULE)} == {"weights"}


def test_height_is_told_only_where_it_is_known() -> None:
    car = replace(CAR, weighed=replace(WEIGHED, height_of_mass=None))
    data = layout()
    assert {finding.place for finding in judge_layout(data, car, MODULE)} == {"centre_of_mass z"}
    data["weights"]["centre_of_mass"][2] = None
    assert judge_layout(data, car, MODULE) == ()


def test_mass_of_a_box_lies_in_the_middle_of_its_plan() -> None:
    told = claim()
    (load,) = box_loads(told, [set_box("box", CAR.bays[0], told.bays[0].boxes[0])])
    # hand: 223 x 81 x 120 from (-400, -100, 250), a quarter off each side of the plan
    assert load.extent == Cuboid((-344.25, -79.75, 250.0), (-232.75, -39.25, 370.0))


def kept(mass: float) -> dict[str, object]:
    return {"name": "link cables", "mass": mass, "at": [-1000.0, 0.0, 310.0]}


def test_what_is_kept_is_counted_in_all_loads() -> None:
    data = layout()
    data["reserve"] = [kept(10.0)]
    assert {finding.place for finding in judge_layout(data, CAR, MODULE)} >= {
        "gross",
        "rear_axle",
        "front_axle",
    }
    told = data["weights"]
    before = told["gross"]
    told["front_axle"], told["rear_axle"], told["gross"] = (
        told["front_axle"] + 5.0,
        told["rear_axle"] + 5.0,
        before + 10.0,
    )  # hand: half way between the axles
    told["front_share"] = told["front_axle"] / told["gross"]
    told["left_share"] = (told["left_share"] * before + 5.0) / told["gross"]
    places = zip(told["centre_of_mass"], (-1000.0, 0.0, 310.0), strict=True)
    told["centre_of_mass"] = [(before * own + 10.0 * other) / told["gross"] for own, other in places]
    assert judge_layout(data, CAR, MODULE) == ()


@pytest.mark.parametrize("mass", [0.0, -5.0, float("nan"), "5"])
def test_nothing_is_kept_that_weighs_nothing(mass: float) -> None:
    """A mass below 0 would lighten the car under its plate."""
    data = layout()
    data["reserve"] = [kept(mass)]
    (finding,) = judge_layout(data, CAR, MODULE)
    assert finding.code == "malformed"
    assert finding.place.startswith("reserve.0.mass")
