"""The main cable by the pack's current, glands by the cable, and the chain of boxes."""

from dataclasses import replace

import pytest

from boxfit.box.outside.cables import links_of, main_cable
from boxfit.car import PointMass
from boxfit.module import Current
from boxfit.standards.cable_entry import CABLE_ACROSS, gland_for
from tests.box.samples import HERON, car_and_layout

CAR, LAYOUT = car_and_layout()


@pytest.mark.parametrize(
    ("amperes", "parallel", "section", "to_a_pole"),
    [
        (100.0, 3, 70.0, 1),  # 300 A of 309
        (103.0, 3, 70.0, 1),  # 309 A, just what it carries
        (104.0, 3, 95.0, 1),
        (120.0, 4, 50.0, 2),  # 480 A is more than any cable of the table carries
        (10.0, 1, 16.0, 1),
    ],
)
def test_main_cable_carries_the_current(
    amperes: float, parallel: int, section: float, to_a_pole: int
) -> None:
    module = replace(HERON, current=Current(amperes, 2.0 * amperes))
    cable = main_cable(module, replace(LAYOUT, parallel=parallel))
    assert (cable.section, cable.to_a_pole) == (section, to_a_pole)
    assert cable.across == CABLE_ACROSS[section]


def test_without_a_current_the_usual_cable_is_told_as_such() -> None:
    cable = main_cable(HERON, LAYOUT)
    assert cable.section == 50.0
    assert "common practice" in cable.note


def test_glands_clamp_their_cables() -> None:
    for across in CABLE_ACROSS.values():
        gland = gland_for(across)
        assert gland.clamps >= across
        assert gland.hole > gland.thread
    with pytest.raises(ValueError, match="no gland"):
        gland_for(40.0)


def test_chain_goes_from_the_inverter_to_the_nearest_box_and_on() -> None:
    inverter = PointMass("inverter", 20.0, (-2000.0, 0.0, 500.0))
    places = [
        ("front", (0.0, 0.0, 300.0)),
        ("middle", (-1000.0, 0.0, 300.0)),
        ("rear", (-1900.0, 0.0, 300.0)),
    ]
    links = links_of(replace(CAR, fitted=(inverter,)), places)
    assert [[link.to for link in own] for own in links] == [
        ["middle"],
        ["rear", "front"],
        ["inverter", "middle"],
    ]


def test_without_an_inverter_the_chain_starts_in_front() -> None:
    places = [("rear", (-1900.0, 0.0, 300.0)), ("front", (0.0, 0.0, 300.0))]
    links = links_of(replace(CAR, fitted=()), places)
    assert [[link.to for link in own] for own in links] == [["front"], ["inverter", "rear"]]
