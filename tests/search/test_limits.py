"""What easing brings, on small cars where the least easing is a sum by hand; the same from many processes."""

from collections.abc import Iterator
from dataclasses import replace
from math import ceil
from pathlib import Path

import pytest

from boxfit import jobs
from boxfit.bay import Bay, Block, Keepout, Opening, Prism
from boxfit.car import Car, CornerWeights, Limits, Target, Window
from boxfit.layout import Layout
from boxfit.module import Module, Voltage
from boxfit.search import limits as search_limits
from boxfit.search.easing import easings
from boxfit.search.find import find_layout
from boxfit.search.limits import Asked, Limit, LimitSearch, gains, limits
from boxfit.search.pack import PackSearch
from boxfit.search.watch import Watch
from tests.box.samples import RULES
from tests.surfaces import as_shell

MODULE = Module(
    "Plover 57", "plover-57", 200.0, 160.0, 120.0, 20.0, 3.0, 53.0,
    Voltage(45.0, 57.0, 67.2), ("height",), 2.0
)  # fmt: skip
ENDS = 2 * (13.0 + 22.0 + 2.5 + 3.0 + 4.0)
"""Distance, flange, sheet, liner and gap at both ends of a row [mm]."""
FOR_TWO = 2 * 200.0 + 2.0 + ENDS
"""The length [mm] of a bay that just holds two in a row along it."""
FOR_ONE_ACROSS = 160.0 + ENDS
WEIGHED = CornerWeights(150.0, 150.0, 150.0, 150.0, 420.0)


def bay(length: float, front: float = 0.0, width: float = FOR_ONE_ACROSS, height: float = 160.0) -> Bay:
    """A bay with room for one row of the module in one tier."""
    outline = (
        (front - length, -width / 2),
        (front, -width / 2),
        (front, width / 2),
        (front - length, width / 2),
    )
    return Bay("front bay", Prism(outline, 200.0, 200.0 + height), 3.0, 13.0, replace(RULES, tiers=1))


def car_with(*bays: Bay) -> Car:
    return Car("Dunlin 850", "dunlin-850", 2200.0, 1200.0, 1200.0, bays)


SHORT = car_with(bay(FOR_TWO - 10.0))
"""Ten millimetres too short for a second module."""


def base(car: Car) -> int:
    found = find_layout(car, MODULE)
    return found.count if isinstance(found, Layout) and found.target_met else 0


def limits_of(car: Car, *only: str) -> dict[str, Limit]:
    """The limits by what is eased; all of them where none is named."""
    search = LimitSearch(Asked(car, MODULE, base(car)), Watch())
    return {one.what: search.of(one) for one in easings(car) if one.what in only or not only}


def least(found: dict[str, Limit]) -> dict[str, float]:
    """What gains a string, and the least easing that does."""
    return {what: limit.least.by for what, limit in found.items() if limit.least}


def test_a_bay_ten_millimetres_too_short_for_another_row() -> None:
    """By hand: a wall 10 mm, both ends of an allowance 5 mm; turned across, 40 mm more of width."""
    found = limits_of(SHORT)
    assert least(found) == {
        "front wall": 10.0,
        "rear wall": 10.0,
        "left wall": 40.0,
        "right wall": 40.0,
        "clearance": 5.0,
        "flange": 5.0,
    }
    walls = found["front wall"]
    assert walls.least is not None
    assert walls.most is not None
    assert (walls.least.layout.count, walls.most.layout.count) == (2, 3)  # 300 mm: 202 more, but not 404


def test_a_bay_too_low_by_hand() -> None:
    """A second tier asks 127.5 mm above the first: module, headroom and shelf."""
    first = 2.5 + 3.0 + 120.0 + 5.0 + 2.0 + 26.0
    low = replace(bay(FOR_TWO, height=first + 127.5 - 4.0), box=replace(RULES, tiers=2))
    wanted = {"floor": 4.0, "top": 4.0, "headroom": 2.0, "clearance": 2.0}
    assert least(limits_of(car_with(low), *wanted)) == wanted
    roomy = replace(bay(FOR_TWO, height=first + 127.5), box=replace(RULES, tiers=1))
    assert least(limits_of(car_with(roomy), "tiers")) == {"tiers": 1.0}


def test_what_keeping_a_negotiable_keepout_costs() -> None:
    crate = Keepout("crate", Block((-150.0, -80.0, 200.0), (-50.0, 80.0, 300.0)), 13.0, negotiable=True)
    found = limits_of(car_with(replace(bay(FOR_TWO), keepouts=(crate,))), "crate")["crate"]
    assert found.least is not None
    assert (found.least.layout.count, found.least.layout.energy) == (2, 6.0)
    small = replace(crate, solid=Block((-5.0, -5.0, 200.0), (-1.0, 5.0, 210.0)))
    idle = limits_of(car_with(replace(bay(FOR_TWO - 10.0), keepouts=(small,))), "crate")["crate"]
    assert idle.least is None
    assert idle.alike is not None
    assert idle.alike.layout.count == 1


def test_an_opening_too_small() -> None:
    """Straight up through a hole 8 mm short of flange and tolerance at either end: 8 mm, or none at all."""
    half = (FOR_TWO - 2 * 10.0) / 2 - 8.0
    middle = -FOR_TWO / 2
    hole = ((middle - half, -130.0), (middle + half, -130.0), (middle + half, 130.0), (middle - half, 130.0))
    car = car_with(replace(bay(FOR_TWO), opening=Opening("up", hole)))
    wider, away = "opening, every side of its outline", "opening"
    assert least(limits_of(car, wider, away)) == {wider: 8.0, away: 1.0}


def test_a_room_of_triangles_is_made_longer() -> None:
    longer, higher = "room made longer by a slice", "room made higher by a slice"
    found = least(limits_of(car_with(as_shell(bay(FOR_TWO - 10.0))), longer, higher))
    assert found == {longer: pytest.approx(10.0, abs=1.0)}


def test_a_voltage_window_by_hand() -> None:
    """Two in series are 134.4 V full and 90 V empty, one is 45 V empty."""
    full = replace(car_with(bay(FOR_TWO)), windows=(Window("inverter", 90.0, 130.0),))
    found = limits_of(full)
    assert least(found) == {"inverter window, high end": 4.4, "inverter window, low end": 45.0}
    assert found["inverter window, high end"].easing.becomes(4.4) == 134.4
    both = replace(full, windows=(*full.windows, Window("charger", 90.0, 131.0)))
    assert least(limits_of(both)) == {"every window, high end": 4.4, "every window, low end": 45.0}


def test_limits_of_the_plate_by_hand() -> None:
    """What two modules and their box weigh, less what the plate leaves; loads by the lever rule."""
    free = replace(car_with(bay(FOR_TWO, front=-200.0)), weighed=WEIGHED)
    layout = find_layout(free, MODULE)
    assert isinstance(layout, Layout)
    pack = layout.weights.modules + layout.weights.boxes
    front = 300.0 + pack * (1.0 + (-200.0 - FOR_TWO / 2) / 2200.0)
    for plate, what, missing in (
        (Limits(gross=630.0), "gross limit", 600.0 + pack - 630.0),
        (Limits(front_axle=330.0), "front axle limit", front - 330.0),
    ):
        found = least(limits_of(replace(free, limits=plate), what))
        assert found[what] == pytest.approx(ceil(missing * 10.0) / 10.0)


def test_a_target_missed_by_a_hair() -> None:
    """Two in series must stand where they just fit; the tolerance makes up what the share misses."""
    car = replace(
        car_with(bay(FOR_TWO, front=-200.0)), weighed=WEIGHED, windows=(Window("inverter", 90.0, 140.0),),
        target=Target(0.50, 0.001),
    )  # fmt: skip
    layout = find_layout(car, MODULE)
    assert isinstance(layout, Layout)
    assert not layout.target_met
    pack = layout.weights.modules + layout.weights.boxes
    share = 1.0 + (-1100.0 * 600.0 + pack * (-200.0 - FOR_TWO / 2)) / (2200.0 * (600.0 + pack))
    missing = ceil((share - 0.501) * 1000.0) / 1000.0
    found = least(limits_of(car))
    assert found["target, tolerance"] == pytest.approx(missing)
    assert found["target, moved to the front"] == pytest.approx(missing)
    assert "target, moved to the rear" not in found


def test_what_gains_only_beside_a_wider_tolerance_of_the_target() -> None:
    """A crate leaves room for one; without it two stand where they just fit, and the share is missed."""
    crate = Keepout("crate", Block((550.0, -80.0, 200.0), (650.0, 80.0, 300.0)), 13.0)
    car = replace(
        car_with(replace(bay(FOR_TWO, front=700.0), keepouts=(crate,))),
        weighed=WEIGHED,
        target=Target(0.52, 0.01),
    )
    layout = find_layout(replace(car, target=None, bays=(bay(FOR_TWO, front=700.0),)), MODULE)
    assert isinstance(layout, Layout)
    assert layout.weights.front_share is not None
    found = limits_of(car, "crate", "target, tolerance")
    assert least(found) == {}
    pair = found["crate"].pair
    assert pair is not None
    assert pair.least is not None
    assert (base(car), pair.least.layout.count) == (1, 2)
    assert pair.easing.tolerance == pytest.approx(ceil((layout.weights.front_share - 0.52) * 1000.0) / 1000.0)
    assert found["target, tolerance"].pair is None


def test_a_quick_question_has_the_whole_search_for_an_answer() -> None:
    search = PackSearch(SHORT, MODULE)
    assert gains(search, 0)
    assert not gains(search, 1)


def told(found: Iterator[Limit]) -> list[tuple[object, ...]]:
    return [(one.easing.bay, one.easing.what, one.least, one.most, one.alike, one.looked_at) for one in found]


def test_many_processes_say_the_same_as_one() -> None:
    asked = Asked(SHORT, MODULE, 1)
    assert told(limits(asked, Watch(), 2)) == told(limits(asked, Watch()))


@pytest.mark.parametrize("processes", [1, 2])
def test_what_there_was_no_time_for_is_told(processes: int, tmp_path: Path) -> None:
    watch = Watch()
    watch.stop()
    found = list(limits(Asked(SHORT, MODULE, 1), watch, processes))
    assert [one.easing.what for one in found] == [easing.what for easing in easings(SHORT)]
    assert not any(one.looked_at or one.least for one in found)
    page, fits = jobs.limits(SHORT, MODULE, tmp_path / "to", jobs.Search(watch, processes, lambda _: None))
    rows = (tmp_path / "to" / "limits.csv").read_text(encoding="utf-8")
    assert "not looked at, the time was up" in page
    assert fits
    assert rows.count(",no,mm,") == sum(easing.unit == "mm" for easing in easings(SHORT))


def test_a_claim_the_judge_does_not_clear_is_not_made(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """The walls' gain is told of a layout that was never eased: out of its bay."""
    sound = limits_of(SHORT, "front wall", "clearance")

    def forged(_asked: Asked, _watch: Watch, _processes: int) -> Iterator[Limit]:
        wall, clearance = sound["front wall"], sound["clearance"]
        assert wall.least is not None
        yield replace(wall, least=replace(wall.least, by=1.0), most=None)
        yield clearance

    monkeypatch.setattr(search_limits, "limits", forged)
    page, _ = jobs.limits(SHORT, MODULE, tmp_path / "to", jobs.Search(Watch(), 1, lambda _: None))
    gained, unsettled = page.split("not settled, a layout found did not pass the judge")
    assert "front bay: clearance" in gained
    assert "front wall" not in gained
    assert "front bay: front wall." in unsettled
