"""Link cables as solids: sound, as large as section times length, weighed with the pack, orange."""

import json
from math import pi
from pathlib import Path

import pytest
from hypothesis import given, settings

from boxfit.box.wiring.route import Route
from boxfit.files.pack_back import pack_from_data
from boxfit.solid.cable import CABLES, cable_group, cable_shape
from boxfit.solid.weighed import solid_properties
from boxfit.solid.write import write_solids
from tests.box.wiring.samples import MODULE, built, car_and_strings, electrics
from tests.box.wiring.test_route import route_of, turns


@settings(max_examples=15, deadline=None)
@given(turns)
def test_volume_is_section_times_length(found: list[tuple[int, int, float]]) -> None:
    from OCP.BRepCheck import BRepCheck_Analyzer

    route = route_of(found)
    shape = cable_shape(route)
    assert BRepCheck_Analyzer(shape).IsValid()
    section = pi * route.across**2 / 4.0
    assert solid_properties(shape, 1.0).mass == pytest.approx(section * route.length, rel=0.01)


def test_straight_cables_are_cylinders() -> None:
    route = Route(((0.0, 0.0, 500.0), (-700.0, 0.0, 500.0)), 17.0)
    found = solid_properties(cable_shape(route), 1.0)
    assert found.centre == pytest.approx((-350.0, 0.0, 500.0))
    assert found.mass == pytest.approx(pi * 17.0**2 / 4.0 * 700.0)


def test_assembly_and_masses_hold_every_cable(tmp_path: Path) -> None:
    car, layout = car_and_strings()
    wiring = electrics().wiring
    group = cable_group(wiring)
    assert group is not None
    assert group.name == CABLES
    assert {body.form.colour for body in group.bodies} == {(1.0, 0.22, 0.0, 1.0)}
    report = write_solids(car, MODULE, layout, built(), tmp_path, wiring)
    told = json.loads((tmp_path / "mass.json").read_text())
    assert [one["name"] for one in told["cables"]] == [cable.name for cable, _ in wiring.routed]
    assert sum(one["mass"] for one in told["cables"]) == pytest.approx(
        sum(cable.mass for cable, _ in wiring.routed), abs=1e-4
    )
    boxes = sum(box["with_modules"]["mass"] for box in told["boxes"])
    assert told["pack"]["mass"] == pytest.approx(boxes + sum(one["mass"] for one in told["cables"]), abs=1e-4)
    step = (tmp_path / "assembly.step").read_text(encoding="latin-1")
    assert all(cable.name in step.replace("\n", "") for cable, _ in wiring.routed)
    assert report.masses is not None
    links = pack_from_data(told).boxes[-1]
    assert links.name == "link cables"
    assert links.mass == pytest.approx(sum(one["mass"] for one in told["cables"]))
    moment = sum(one["mass"] * one["centre"][0] for one in told["cables"])
    assert links.at[0] == pytest.approx(moment / links.mass)
