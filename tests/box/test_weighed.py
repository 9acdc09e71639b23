"""Packs weighed by closed forms weigh as their solids do."""

import pytest

from boxfit.box.weighed import route_middle, weighed_pack
from boxfit.box.whole import built_boxes
from boxfit.box.wiring.figures import electrics_of
from boxfit.box.wiring.route import Route
from boxfit.jobs.laid_out import laid_out
from boxfit.jobs.weights import made_pack
from boxfit.solid.cable import cable_group
from boxfit.solid.made import made_boxes
from boxfit.solid.weighed import weighed_car
from tests.report.samples import roadster


def test_every_box_and_the_cables_weigh_as_their_solids_do() -> None:
    car, module, _ = roadster()
    layout = laid_out(car, module)
    built = built_boxes(car, module, layout)
    wiring = electrics_of(car, module, layout, built).wiring
    links = cable_group(wiring)
    assert links is not None
    cables = tuple(zip(links.bodies, [cable.mass for cable, _ in wiring.routed], strict=True))
    solid = made_pack(weighed_car(car, module, made_boxes(car, module, layout, built), cables))
    assert solid is not None
    found = weighed_pack(module, built, wiring)
    assert [one.name for one in found.boxes] == [one.name for one in solid.boxes]
    for one, other in zip(found.boxes, solid.boxes, strict=True):
        assert one.mass == pytest.approx(other.mass, abs=1e-3)
        assert one.at == pytest.approx(other.at, abs=0.1)
    assert found.every_part


def test_the_middle_of_a_cable_with_a_corner_by_hand() -> None:
    route = Route(((0.0, 0.0, 0.0), (1130.0, 0.0, 0.0), (1130.0, 1130.0, 0.0)), 20.0)  # radius 130
    arc = 204.203522  # 130 pi / 2
    off = 130.0 - 2.0 * 130.0 / 3.14159265  # of the arc's middle from its outer corner, either way
    x = (1000.0 * 500.0 + arc * (1130.0 - off) + 1000.0 * 1130.0) / (2000.0 + arc)
    found = route_middle(route)
    assert found[0] == pytest.approx(x, abs=1e-3)
    assert found[0] + found[1] == pytest.approx(1130.0, abs=1e-6)
