"""Four wheels, shares and centre in the summary and in weights.csv; findings of the parts as built."""

import csv
from dataclasses import replace

import pytest

from boxfit.box.searched_pack import searched_pack
from boxfit.car import Limits, Target
from boxfit.report.as_built import as_built, pack_words
from boxfit.report.summary import summary
from boxfit.report.wheels_text import weights_csv
from boxfit.weight.corners import states
from boxfit.weight.pack import Pack
from boxfit.weight.scales import Item
from tests.report.samples import many, roadster

CAR, MODULE, LAYOUT = roadster()
BUILT = Pack(
    (
        Item("front bay box 1", 90.0, (-220.0, -8.0, 450.0)),
        Item("rear bay box 1", 45.0, (-2300.0, -100.0, 430.0)),
    ),
    every_part=True,
)
HEAVY = replace(BUILT, boxes=(Item("front bay box 1", 300.0, (-100.0, 0.0, 450.0)),))


def found(pack: Pack) -> tuple[str, ...]:
    assert CAR.weighed is not None
    return as_built(CAR, LAYOUT, pack, states(CAR, CAR.weighed, pack.masses))


def test_the_search_weighs_boxes_with_their_modules() -> None:
    pack = searched_pack(CAR, MODULE, LAYOUT)
    assert [box.name for box in pack.boxes] == ["front bay box 1", "rear bay box 1"]
    assert not pack.every_part
    front, rear = (box.mass for box in pack.boxes)
    assert 6 * MODULE.mass < front < 6 * MODULE.mass + 20.0
    assert 3 * MODULE.mass < rear < 3 * MODULE.mass + 20.0
    low, high = LAYOUT.bays[0].boxes[0].low, LAYOUT.bays[0].boxes[0].high
    assert all(a < at < b for a, at, b in zip(low, pack.boxes[0].at, high, strict=True))


def test_the_summary_tells_every_state_wheel_by_wheel() -> None:
    words = summary(CAR, MODULE, LAYOUT, BUILT)
    assert "stripped            128.0  126.5  109.0  111.5       254.5      220.5   475.0" in words
    assert "limit                                                  480        520     950" in words
    for name in ("as converted", "with driver", "with everything", "conversion adds", "margin, all aboard"):
        assert f"\n  {name}" in words
    assert "135.0 kg in 2 boxes, every part weighed" in words
    assert max(map(len, words.splitlines())) <= 100


def test_without_a_made_pack_the_summary_says_what_is_missing() -> None:
    words = " ".join(summary(CAR, MODULE, LAYOUT).split())
    assert (
        "as the search weighs them; what is fixed to them (hold-downs, feet, fittings) is not in it" in words
    )


def test_a_car_that_was_not_weighed_has_no_loads() -> None:
    assert "loads           not known, the car was not weighed" in summary(*many())


def test_the_difference_to_the_search_is_told_with_its_way() -> None:
    searched = Pack((Item("box", 100.0, (-1000.0, 0.0, 0.0)),), every_part=False)
    made = Pack((Item("box", 104.0, (-990.0, 0.0, 0.0)),), every_part=True)
    assert "+4.0 kg on the search's own sum, its centre 10 mm further forward" in pack_words(made, searched)


def test_a_pack_as_wanted_has_no_findings() -> None:
    light = Pack((Item("box", 60.0, (-2500.0, 0.0, 400.0)),), every_part=True)
    assert found(light) == ()


def test_a_share_missed_as_built_is_a_finding_with_what_mends_it() -> None:
    share, axle, gross = found(HEAVY)
    assert share.startswith("FINDING: front share 0.6")
    assert "with driver misses the target 0.5 give or take 0.02" in share
    assert "the search, without fittings, met it" in share
    assert "front axle" in axle
    assert "over its limit of 480 kg" in axle
    assert "gross 979.0 kg with everything as built, over its limit of 950 kg by 29.0 kg" in gross


@pytest.mark.parametrize(("mass", "at"), [(60.0, -1500.0), (65.0, -2750.0)])
def test_what_is_said_to_mend_the_share_mends_it(mass: float, at: float) -> None:
    """The mass over the axle, and the move, each put into the sums bring the share to its edge."""
    assert CAR.weighed is not None
    pack = Pack((Item("box", mass, (at, 0.0, 400.0)),), every_part=True)
    (words, *_) = found(pack)
    more = float(words.split("Try: ")[1].split(" kg")[0])
    move = float(words.split("(54 kg) ")[1].split(" mm")[0])
    rear, target = at > -2000.0, CAR.target
    assert target is not None
    edge = target.front_share + (target.tolerance if rear else -target.tolerance)
    helped = (*pack.masses, (more, (-CAR.wheelbase if rear else 0.0, 0.0, 300.0)))
    assert states(CAR, CAR.weighed, helped)[2].front_share == pytest.approx(edge, abs=1e-4)
    motor = CAR.fitted[0]
    moved = replace(motor, at=(motor.at[0] + (-move if rear else move), *motor.at[1:]))
    other = states(replace(CAR, fitted=(moved,)), CAR.weighed, pack.masses)
    assert other[2].front_share == pytest.approx(edge, abs=1e-4)


def test_a_move_beyond_reason_is_no_advice() -> None:
    share, *_ = found(HEAVY)
    assert "further back" not in share
    assert "kg more over the rear axle, or a wider tolerance" in share


def test_long_names_leave_room_for_the_figures() -> None:
    assert CAR.target is not None
    name = "a very tall driver with a hat, two coats and all his tools and spare parts for the way"
    crowd = tuple(replace(one, name=f"{name} {place}") for place, one in enumerate(CAR.carried))
    car = replace(CAR, carried=crowd, target=replace(CAR.target, aboard=(crowd[0].name,)))
    assert max(map(len, summary(car, MODULE, LAYOUT, HEAVY).splitlines())) <= 100


def test_findings_come_with_the_summary() -> None:
    assert "FINDING: front share" in summary(CAR, MODULE, LAYOUT, HEAVY)
    words = summary(CAR, MODULE, LAYOUT, HEAVY)
    assert "OVER " in words[words.index("on the wheels") :]


def test_weights_csv_has_a_row_for_each_state() -> None:
    assert CAR.weighed is not None
    rows = list(csv.DictReader(weights_csv(CAR, CAR.weighed, BUILT).splitlines()))
    assert [row["state"] for row in rows] == ["stripped", "as converted", "with driver", "with everything"]
    assert all(len(row) == len(rows[0]) and None not in row for row in rows)
    wheels = ("front left", "front right", "rear left", "rear right")
    for row in rows:
        loads = [float(row[f"{wheel} [kg]"]) for wheel in wheels]
        assert sum(loads) == pytest.approx(float(row["gross [kg]"]), abs=0.03)
        assert float(row["gross margin [kg]"]) == pytest.approx(950.0 - float(row["gross [kg]"]), abs=0.011)
        changes = [float(row[f"change {wheel} [kg]"]) for wheel in wheels]
        before = [float(rows[0][f"{wheel} [kg]"]) for wheel in wheels]
        assert changes == pytest.approx([a - b for a, b in zip(loads, before, strict=True)], abs=0.011)
    assert rows[0]["centre z [mm]"] == "420.0"
    assert "working aid" in rows[0]["note"]


def test_limits_and_heights_not_known_stay_empty() -> None:
    assert CAR.weighed is not None
    weighed = replace(CAR.weighed, height_of_mass=None)
    car = replace(CAR, limits=Limits(gross=950.0), target=Target(0.5, 0.02))
    row, *_ = csv.DictReader(weights_csv(car, weighed, BUILT).splitlines())
    assert (row["front axle limit [kg]"], row["front axle margin [kg]"], row["centre z [mm]"]) == ("", "", "")
    assert row["gross limit [kg]"] == "950.00"
