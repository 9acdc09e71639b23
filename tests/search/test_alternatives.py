"""Alternatives worth a look: each a clear layout of its own car, each with its difference in a line."""

import re
from dataclasses import replace
from functools import cache
from pathlib import Path

from boxfit.car import Car
from boxfit.files.layout_json import layout_as_data
from boxfit.files.together import read_together
from boxfit.judge.layout import judge_layout
from boxfit.layout import Layout
from boxfit.module import Module
from boxfit.search.alternatives import Alternatives, Found, difference
from boxfit.search.find import find_layout
from boxfit.search.watch import Watch

ROOT = Path(__file__).parents[2]


def read(car: str, module: str) -> tuple[Car, Module]:
    the_car, (the_module,) = read_together(ROOT / "bays" / car, [str(ROOT / "modules" / f"{module}.toml")])
    return the_car, the_module


@cache
def others_of(car: str, module: str) -> tuple[Layout, tuple[Found, ...]]:
    """The best layout of a demo car with its alternatives."""
    return others(*read(car, module))


def others(car: Car, module: Module) -> tuple[Layout, tuple[Found, ...]]:
    best = find_layout(car, module)
    assert isinstance(best, Layout)
    found = Alternatives(car, module, Watch()).beside(best)
    for one in found:
        assert judge_layout(layout_as_data(one.alternative.layout), one.car, module) == ()
    assert len({one.alternative.what for one in found}) == len(found)
    return best, found


def test_the_spare_wheel_has_its_price() -> None:
    best, found = others_of("dunlin-850", "heron-44")
    (gone,) = [one.alternative for one in found if one.alternative.what == "without the spare wheel"]
    assert (best.count, gone.layout.count) == (9, 15)
    assert gone.difference.startswith("+6 modules, +13.2 kWh (3 x 5), ")
    assert gone.layout.weights.gross is not None
    assert best.weights.gross is not None
    heavier = re.search(r"([\d.]+) kg heavier", gone.difference)
    assert heavier is not None
    assert abs(float(heavier.group(1)) - (gone.layout.weights.gross - best.weights.gross)) < 0.06


def test_the_lightest_is_lighter_and_holds_as_much() -> None:
    best, found = others_of("petrel-van", "wren-22")
    (light,) = [one.alternative for one in found if one.alternative.what.startswith("lightest")]
    assert light.layout.count == best.count
    assert light.layout.target_met
    assert light.layout.weights.boxes < best.weights.boxes - 0.09
    assert light.difference.startswith("the same energy, ")
    assert "lighter" in light.difference


def test_the_nearest_to_the_target_is_nearer() -> None:
    car, _ = read("petrel-van", "wren-22")
    best, found = others_of("petrel-van", "wren-22")
    (near,) = [one.alternative for one in found if one.alternative.what.startswith("nearest")]
    assert car.target is not None
    wanted = car.target.front_share
    shares = [layout.weights.front_share for layout in (near.layout, best)]
    assert shares[0] is not None
    assert shares[1] is not None
    assert abs(shares[0] - wanted) < abs(shares[1] - wanted)


def test_a_search_that_is_over_looks_for_none() -> None:
    car, module = read("dunlin-850", "heron-44")
    best = find_layout(car, module)
    assert isinstance(best, Layout)
    over = Watch()
    over.stop()
    assert Alternatives(car, module, over).beside(best) == ()


def test_no_target_no_centred_one() -> None:
    car, module = read("petrel-van", "wren-22")
    _, found = others(replace(car, target=None), module)
    assert not [one for one in found if one.alternative.what.startswith("nearest")]


def test_one_module_is_told_as_one() -> None:
    best, _ = others_of("dunlin-850", "heron-44")
    one_less = replace(best, count=best.count - 1, energy=best.energy - 2.2)
    assert difference(best, one_less).startswith("-1 module, -2.2 kWh")
    two_less = replace(best, count=best.count - 2, energy=best.energy - 4.4)
    assert difference(best, two_less).startswith("-2 modules, -4.4 kWh")
