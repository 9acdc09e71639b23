"""The wiring of the sample car: strings whole, cables from entry to entry, figures that follow from them."""

from collections.abc import Sequence
from dataclasses import replace
from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxfit.box.wiring.conductors import paired
from boxfit.box.wiring.figures import electrics_of
from boxfit.box.wiring.told import wiring_notes
from boxfit.module import Current
from tests.box.wiring.samples import MODULE, built, car_and_strings, electrics


def test_every_module_once_in_whole_strings() -> None:
    pack = electrics().wiring.pack
    assert sorted(number for string in pack.strings for number in string) == list(range(1, 11))
    assert [len(string) for string in pack.strings] == [5, 5]
    assert pack.proven


def test_the_chain_begins_at_the_box_nearest_to_the_inverter() -> None:
    wiring = electrics().wiring
    assert [wiring.boxes[box] for box in wiring.chain] == ["front bay box 1", "rear bay box 1"]
    assert [(run.start, run.end) for run in wiring.runs] == [
        ("front bay box 1", "inverter"),
        ("rear bay box 1", "front bay box 1"),
    ]


def test_a_string_that_runs_on_has_cables_of_its_own() -> None:
    """Four modules behind are no whole string of five."""
    found = electrics()
    last = found.wiring.runs[1]
    what = [cable.conductor.what for cable in last.cables]
    pack = found.wiring.pack
    ends = sum(pack.box_of(string[k]) == 1 for string in pack.strings for k in (0, -1))
    crossing = [cable for cable in last.cables if cable.conductor.between]
    assert len(crossing) + ends == len(what)
    assert (len(crossing) + ends) % 2 == 0
    assert all(cable.conductor.amperes == 100.0 for cable in last.cables)


def test_cables_begin_and_end_at_entries_and_weigh_by_length() -> None:
    wiring = electrics().wiring
    assert (wiring.cable.section, wiring.cable.across) == (50.0, 17.0)
    per_metre = 1000.0 * (50.0 * 8.96e-6 + (pi * 17.0**2 / 4.0 - 50.0) * 1.3e-6)
    assert len(wiring.routed) == len(wiring.cables) > 3
    for cable, route in wiring.routed:
        start, end = cable.entries
        assert route.points[0] == start.end.at
        if end is not None:
            assert route.points[-1] == end.end.at
        assert cable.mass == pytest.approx(per_metre * route.length / 1000.0)
        assert route.slack >= -1e-6


def test_what_the_drive_draws_is_shared_and_held_against_the_strings() -> None:
    found = electrics(Current(150.0, 600.0))
    assert [one.share for one in found.loads] == [0.75, 1.2]
    first = found.wiring.runs[0].cables[0]
    assert found.carried(first) == pytest.approx(150.0)
    told = wiring_notes(found)[0]
    assert told.startswith(
        "car.toml: electrics.current.peak: the drive draws 600 A, 2 strings of heron-44.toml"
    )
    assert "500 A" in told
    assert not any("electrics.current" in note for note in wiring_notes(electrics()))


def test_figures_of_the_pack() -> None:
    found = electrics()
    assert (found.volts.empty, found.volts.full) == (165.0, 252.0)
    assert found.split.before == 3
    assert found.insulation is not None
    assert found.insulation.isolation == pytest.approx(25200.0)
    assert [box.energy for box in found.boxes] == pytest.approx([13.2, 8.8])
    assert found.touching == pytest.approx(found.wiring.pack.step * 50.4)


def test_strings_kept_in_one_bay_do_not_run_on() -> None:
    car, layout = car_and_strings()
    kept = electrics_of(
        replace(car, string_in_one_bay=True), MODULE, replace(layout, series=2, parallel=5), built()
    )
    pack = kept.wiring.pack
    assert all(len({pack.box_of(module) for module in string}) == 1 for string in pack.strings)
    assert not any(cable.conductor.between for cable in kept.wiring.cables)


def test_without_an_inverter_no_cable_leads_to_it_and_it_is_told() -> None:
    car, layout = car_and_strings()
    found = electrics_of(replace(car, fitted=()), MODULE, layout, built())
    assert found.wiring.inverter is None
    assert {run.end for run in found.wiring.runs} <= set(found.wiring.boxes)
    assert any('no [[fitted]] with "inverter"' in note for note in wiring_notes(found))


def test_a_module_without_current_is_told_and_wired_all_the_same() -> None:
    car, layout = car_and_strings()
    found = electrics_of(car, replace(MODULE, current=None), layout, built())
    assert found.amperes is None
    assert all(cable.conductor.amperes is None for cable in found.wiring.cables)
    assert found.wiring.cables


@given(st.lists(st.tuples(*[st.integers(0, 99)] * 6), min_size=7, max_size=7))
def test_ends_are_paired_alike_by_trying_and_by_the_solver(found: list[tuple[int, ...]]) -> None:
    ones = [(float(a), float(b), float(c)) for a, b, c, *_ in found]
    others = [(float(a), float(b), float(c)) for *_, a, b, c in found]

    def length(way: Sequence[int], count: int) -> float:
        return sum(
            abs(a - b)
            for one, to in zip(ones[:count], way, strict=True)
            for a, b in zip(one, others[to], strict=True)
        )

    tried = paired(ones[:6], others[:6])
    assert sorted(tried) == list(range(6))
    far = (1e6, 0.0, 0.0)
    solved = paired([*ones[:6], far], [*others[:6], far])
    assert solved[6] == 6
    assert length(tried, 6) == length(solved[:6], 6)
