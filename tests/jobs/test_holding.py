"""Limits and target held with everything on, where the plain search's layout breaks them once it is made."""

from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from boxfit import jobs
from boxfit.car import Car, Limits, Target
from boxfit.files.layout_json import layout_as_data, layout_bytes
from boxfit.jobs.going_on import NothingFitsError, Search
from boxfit.jobs.holding import Made, holding, made
from boxfit.jobs.laid_out import best_and_others, laid_out
from boxfit.jobs.papers import _written
from boxfit.judge.as_built import judge_as_built
from boxfit.judge.layout import judge_layout
from boxfit.layout import Layout
from boxfit.search.watch import Watch
from boxfit.weight.balance import fully_loaded
from boxfit.weight.held import Held
from boxfit.weight.pack import Pack
from tests.report.samples import roadster

WHOLE, MODULE, _ = roadster()
FREE = replace(WHOLE, target=None, limits=Limits())
"""A car with two bays, of which nothing is asked."""
REAR = replace(FREE, bays=FREE.bays[1:])
"""The same with one bay."""


@cache
def plain(car: Car) -> Made:
    """The layout that the search calls best where nothing is asked, made."""
    return made(car, MODULE, laid_out(car, MODULE))


def laden(car: Car, pack: Pack) -> tuple[float, float, float]:
    """Front axle, rear axle and gross [kg] with everything on and carried."""
    assert car.weighed is not None
    loads = fully_loaded(car, car.weighed, pack.sums)
    return loads.front, loads.rear, loads.gross


def as_searched(car: Car, layout: Layout) -> tuple[float, float, float]:
    """The same of what the layout tells, with what the target leaves at home."""
    weights = layout.weights
    assert weights.front_axle is not None
    assert weights.rear_axle is not None
    people = [one for one in car.carried if not car.target or one.name not in car.target.aboard]
    rear = weights.rear_axle - sum(one.mass * one.at[0] for one in people) / car.wheelbase
    gross = weights.front_axle + weights.rear_axle + sum(one.mass for one in people)
    return gross - rear, rear, gross


def held_by(car: Car, processes: int = 1) -> tuple[Layout, Made, Layout]:
    """What the search calls best, what is made of it in the end, and that with its alternatives."""
    with best_and_others(car, MODULE, Search(Watch(), processes, lambda _: None)) as found:
        before = found.best
        one = holding(car, MODULE, found, lambda _: None)
        return before, one, found.with_alternatives()


def rear_limited() -> Car:
    """The rear axle's limit is passed by 1 kg once everything is on, and kept by boxes and modules alone."""
    return replace(REAR, limits=Limits(rear_axle=laden(REAR, plain(REAR).pack)[1] - 1.0))


@cache
def rear_held() -> tuple[Layout, Made, Layout]:
    return held_by(rear_limited())


def test_a_rear_axle_that_fittings_overload_by_a_kilogram_is_held() -> None:
    car = rear_limited()
    limit = car.limits.rear_axle
    assert limit is not None
    before, one, layout = rear_held()
    assert as_searched(car, before)[1] <= limit < laden(car, plain(REAR).pack)[1]
    assert before.bays == plain(REAR).layout.bays
    assert laden(car, one.pack)[1] <= limit
    assert one.layout.reserve
    assert layout.notes[0].startswith("Kept ")
    assert "1.0 over its" in layout.notes[0]
    assert f"{before.count} modules" in layout.notes[0]
    assert judge_layout(layout_as_data(layout), car, MODULE) == ()
    assert layout.count <= before.count


def test_what_is_kept_is_in_the_loads_told() -> None:
    car = rear_limited()
    _, one, _ = rear_held()
    kept = [(mass.mass, mass.at) for mass in one.layout.reserve]
    assert car.weighed is not None
    pack = one.pack.sums
    told, weighed = as_searched(car, one.layout), laden(car, one.pack)
    boxes = one.layout.weights.modules + one.layout.weights.boxes
    assert told[2] - weighed[2] == pytest.approx(boxes + sum(mass for mass, _ in kept) - pack.mass, abs=1e-6)
    if one.built == plain(REAR).built:
        assert told[1] == pytest.approx(weighed[1], abs=0.5)


def test_one_process_or_two_hold_with_the_same_bytes() -> None:
    assert layout_bytes(held_by(rear_limited(), 2)[2]) == layout_bytes(rear_held()[2])


def test_where_all_holds_nothing_changes() -> None:
    _, rear, gross = laden(REAR, plain(REAR).pack)
    car = replace(REAR, limits=Limits(rear_axle=rear + 0.001, gross=gross + 0.001))
    before, one, layout = held_by(car)
    assert one.layout is before
    assert one.layout.reserve == layout.reserve == ()
    assert b"reserve" not in layout_bytes(layout)
    assert one.pack == plain(REAR).pack


@cache
def at_the_edge() -> Car:
    """The layout as searched just meets its target, and fittings take it further away."""
    full, share = plain(FREE).held.share, plain(FREE).layout.weights.front_share
    assert full is not None
    assert share is not None
    assert abs(full - share) > 3e-4
    wanted = 0.6 if full < share else 0.4
    extreme = laid_out(replace(FREE, target=Target(wanted, 0.2)), MODULE).weights.front_share
    assert extreme is not None
    return replace(FREE, target=Target(wanted, round(abs(wanted - extreme) + 0.0001, 4)))


def test_a_front_share_that_fittings_take_out_of_tolerance_is_brought_back() -> None:
    car = at_the_edge()
    before, one, layout = held_by(car)
    assert before.target_met
    assert made(car, MODULE, before).held.missed > 0.0
    assert one.held.missed == 0.0
    assert layout.target_met
    assert layout.bays != before.bays
    assert "beyond its tolerance" in layout.notes[0]
    assert judge_layout(layout_as_data(layout), car, MODULE) == ()


def test_a_target_that_no_round_meets_is_told_as_missed(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("boxfit.jobs.holding.MOST_ROUNDS", 0)
    car = at_the_edge()
    before, one, layout = held_by(car)
    assert before.target_met
    assert one.held.missed > 0.0
    assert layout.bays == before.bays
    assert not layout.target_met
    assert not layout.proven
    assert layout.notes[0].startswith("No layout found meets the target front share")
    assert f"nearest at {one.held.share:.4f}, {one.held.missed:.4f} beyond" in layout.notes[0]
    assert layout.weights.front_share == pytest.approx(one.held.share, abs=2e-5)
    assert judge_layout(layout_as_data(layout), car, MODULE) == ()


def test_where_no_layout_holds_nothing_is_built_and_it_is_said() -> None:
    """The gross limit lets the smallest pack in, and not what is fixed to it."""
    assert REAR.weighed is not None
    heavy = replace(REAR, limits=Limits(gross=laden(REAR, Pack((), True))[2] + 3 * MODULE.mass + 15.0))
    least = laid_out(heavy, MODULE)
    assert least.count == 3
    car = replace(REAR, limits=Limits(gross=as_searched(REAR, least)[2] + 0.5))
    with pytest.raises(NothingFitsError) as told:
        held_by(car)
    first, second, *_ = told.value.reasons
    assert "3 modules, 6.6 kWh, breaks the plate once everything is on: gross" in first
    assert "none that holds" in second
    assert "kg less there" in second


def test_layout_alone_holds_as_a_build_does_and_weighs_every_part() -> None:
    car = rear_limited()
    layout, pack = jobs.laid_out_beside_others(car, MODULE, Search(Watch(), 1, lambda _: None))
    assert layout_bytes(layout) == layout_bytes(rear_held()[2])
    assert pack == rear_held()[1].pack


def test_layout_of_boxes_that_nobody_can_make_is_as_searched() -> None:
    bays = tuple(replace(bay, box=replace(bay.box, bend_radius=0.1)) for bay in REAR.bays)
    car = replace(rear_limited(), bays=bays)
    layout, pack = jobs.laid_out_beside_others(car, MODULE, Search(Watch(), 1, lambda _: None))
    assert pack is None
    assert layout.reserve == ()
    assert jobs.laid_out_beside_others(REAR, MODULE, Search(Watch(), 1, lambda _: None))[1] is None


def test_a_build_holds_its_limits_by_weights_csv_and_its_layout_is_taken_up_again(tmp_path: Path) -> None:
    car = rear_limited()
    text = jobs.build(car, MODULE, tmp_path / "out", Search(Watch(), 1, lambda _: None))
    assert "kg kept for fittings and cables: " in " ".join(text.split())
    assert "FINDING" not in text
    rows = (tmp_path / "out" / "weights.csv").read_text(encoding="utf-8").splitlines()
    margin = rows[0].split(",").index("rear axle margin [kg]")
    assert float(rows[-1].split(",")[margin]) >= 0.0
    assert judge_as_built(tmp_path / "out", car) == ()
    (less,) = judge_as_built(tmp_path / "out", replace(car, limits=Limits(rear_axle=100.0)))
    assert (less.code, less.place) == ("axle-limit", "rear axle")
    again = _written(car, MODULE, tmp_path / "out")
    assert again is not None
    assert sum(one.mass for one in again.reserve) > 0.0


def test_a_car_that_was_not_weighed_is_asked_nothing() -> None:
    assert made(replace(REAR, weighed=None), MODULE, plain(REAR).layout).held == Held()
