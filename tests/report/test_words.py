"""The summary, the cautions and the balance in words."""

from dataclasses import replace

import pytest

from boxfit.module import Current
from boxfit.report.balance import ahead_of_driver, all_aboard, balance_words
from boxfit.report.cautions import cautions, laden_mass
from boxfit.report.summary import summary
from tests.report.samples import SAMPLES, many, roadster, tiny, van


@pytest.mark.parametrize("name", SAMPLES)
def test_summary_is_narrow_and_plain(name: str) -> None:
    car, module, layout = SAMPLES[name]()
    lines = summary(car, module, layout).split("\n")
    assert max(map(len, lines)) <= 100
    assert lines[-1] == ""
    assert all(line == line.rstrip() for line in lines)
    assert not any("[/" in line or "\x1b" in line or "None" in line for line in lines)


def test_summary_of_a_known_car() -> None:
    car, module, layout = roadster()
    words = summary(car, replace(module, current=Current(100.0, 250.0)), layout)
    for expected in (
        "9 modules, 3 in series x 3 parallel",
        "19.8 kWh, 150 Ah",
        "99.0 empty, 132.0 nominal, 151.2 full (class B)",
        "300 all the time, 750 peak",
        "proven: no layout within the hard rules holds more than 9",
        "374 x 476 x 296 mm outside, 418 x 520 over the flange, 4 corners",
        "3: modules 4-6, height up, length fore and aft",
        "3: modules 7-9, height up, length across the car",
        "front axle              371         404    480     +76",
        "0.508, target 0.500 give or take 0.020: met",
        "168 mm ahead of the driver",
    ):
        assert expected in words


def test_summary_says_what_is_not_known() -> None:
    words = summary(*many())
    assert "axles           not known, the car was not weighed" in words
    assert "balance point   not known, the car was not weighed" in words


def test_summary_says_when_the_target_is_missed() -> None:
    words = summary(*van())
    assert "target 0.520 give or take 0.010: MISSED" in words
    assert "no layout found meets the target; of those that meet all else this is the nearest" in words
    assert "  - nearest to the target" in words
    assert "tail\n  stays empty" in words
    assert "height not known (height_of_mass missing)" in words


def test_all_aboard_adds_those_the_target_leaves_out() -> None:
    """By hand: passenger 75 kg at x = -1240 of 2180: front part 940 / 2180, so 32.34 and 42.66 kg."""
    car, _, layout = roadster()
    loads = all_aboard(car, layout)
    assert loads is not None
    assert loads.front == pytest.approx(371.4 + 32.339, abs=0.001)
    assert loads.rear == pytest.approx(359.0 + 42.661, abs=0.001)
    unweighed, _, plain = many()
    assert all_aboard(unweighed, plain) is None


def test_balance_point_from_front_axle_and_driver() -> None:
    car, _, layout = roadster()
    assert balance_words(car, layout)[0] == "1072 mm behind the front axle, 9 mm right of the centre line"
    assert ahead_of_driver(car, layout) == 168.5
    assert ahead_of_driver(replace(car, carried=()), layout) is None
    assert balance_words(car, layout)[2] == "428 mm above ground"


def test_low_voltage_is_class_a_and_still_a_caution() -> None:
    told = cautions(*tiny())
    assert "class A" in told[0]
    assert not any(line.startswith("Lifting") for line in told)


def test_high_voltage_and_heavy_boxes_come_first() -> None:
    told = cautions(*van())
    assert "504.0 V full is class B" in told[0]
    assert "under the load floor box 1 is" in told[1]
    assert "engine bay box 1 is" in told[2]
    assert told[-1].startswith("A working aid, not an approval")


def test_heavy_module_is_told() -> None:
    car, module, layout = roadster()
    told = cautions(car, replace(module, mass=30.0), layout)
    assert any("one module is 30.0 kg" in line for line in told)


def test_laden_box_weighs_more_than_its_modules() -> None:
    car, module, layout = roadster()
    mass = laden_mass(module, car.bays[0], layout.bays[0].boxes[0])
    assert 6 * module.mass < mass < 6 * module.mass + 20.0
