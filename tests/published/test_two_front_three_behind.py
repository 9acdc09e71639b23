"""Five 6 kWh modules, two in front and three behind, are 30 kWh at 40/60: common practice, no source.

Car and module are invented, the car so that each way to share five modules out gives its own front share.
"""

from dataclasses import replace

import pytest

from boxfit.bay import Bay, Prism
from boxfit.car import Car, CornerWeights, Target, Window
from boxfit.files.layout_json import layout_as_data
from boxfit.judge.layout import judge_layout
from boxfit.layout import Layout
from boxfit.module import Module, Voltage
from boxfit.search.find import find_layout
from tests.box.samples import RULES

MODULE = Module(
    "Grebe 60", "grebe-60", 400.0, 300.0, 150.0, 40.0, 6.0, 104.0, Voltage(48.0, 57.6, 67.2), ("height",), 2.0
)


def bay(name: str, middle: float) -> Bay:
    """Room for one row of four modules across the car, and little more."""
    outline = (
        (middle - 250.0, -660.0), (middle + 250.0, -660.0), (middle + 250.0, 660.0), (middle - 250.0, 660.0)
    )  # fmt: skip
    return Bay(name, Prism(outline, 250.0, 480.0), 3.0, 13.0, replace(RULES, tiers=1))


CAR = Car(
    name="Plover 1000",
    folder="plover-1000",
    wheelbase=2400.0,
    track_front=1300.0,
    track_rear=1300.0,
    bays=(bay("front bay", 0.0), bay("rear bay", -2300.0)),
    weighed=CornerWeights(150.0, 150.0, 150.0, 150.0, 450.0),
    windows=(Window("inverter", 230.0, 350.0),),
)
"""The window takes five in series and no other number: 5 x 48 = 240 V, 4 x 48 and 6 x 67.2 are outside."""


def share_with(in_front: int) -> float:
    """Front share by hand without boxes: shell 300/300 kg, modules 40 kg, over and 2300 behind the axle."""
    behind = 5 - in_front
    return 1.0 - (300.0 + behind * 40.0 * 2300.0 / 2400.0) / 800.0


def found(target: Target) -> Layout:
    car = replace(CAR, target=target)
    layout = find_layout(car, MODULE)
    assert isinstance(layout, Layout)
    assert judge_layout(layout_as_data(layout), car, MODULE) == ()
    return layout


def in_each_bay(layout: Layout) -> list[int]:
    return [sum(len(box.modules) for box in bay.boxes) for bay in layout.bays]


@pytest.mark.parametrize("in_front", [1, 2, 3, 4])
def test_target_decides_how_five_are_shared_out(in_front: int) -> None:
    layout = found(Target(share_with(in_front), 0.015))
    assert layout.target_met
    assert in_each_bay(layout) == [in_front, 5 - in_front]
    assert (layout.count, layout.series, layout.parallel, layout.proven) == (5, 5, 1, True)


def test_two_in_front_and_three_behind() -> None:
    layout = found(Target(share_with(2), 0.015))
    front, rear = in_each_bay(layout)
    assert layout.energy == pytest.approx(30.0)
    assert (front / layout.count, rear / layout.count) == (0.4, 0.6)
    assert (front * MODULE.energy, rear * MODULE.energy) == (12.0, 18.0)
