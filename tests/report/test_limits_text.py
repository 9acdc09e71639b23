"""What holds a layout back, on a page and as comma-separated text."""

import csv
import io
from dataclasses import replace

from boxfit.car import Car
from boxfit.layout import Layout
from boxfit.report.limits_text import CSV_HEADS, Page, limits_csv, limits_page
from boxfit.search.easing import Easing, Unit
from boxfit.search.limits import Eased, Limit
from tests.report.samples import roadster


def unchanged(car: Car, _by: float) -> Car:
    return car


def thing(bay: str, what: str, unit: Unit = "mm", most: float = 300.0, now: float | None = None) -> Easing:
    return Easing(bay, what, unit, most, unchanged, now, lessens=now is not None and unit == "mm")


def gained(layout: Layout, modules: int, by: float, note: str = "The bays are full.") -> Eased:
    count = layout.count + modules
    return Eased(by, replace(layout, count=count, energy=layout.energy + 2.2 * modules, notes=(note,)))


def page(*limits: Limit, **changed: object) -> Page:
    car, module, layout = roadster()
    return replace(Page(car, module, layout, (), limits), **changed)  # type: ignore[arg-type]


LAYOUT = roadster()[2]
WALL = Limit(thing("rear bay", "front wall"), gained(LAYOUT, 3, 37.0), gained(LAYOUT, 6, 300.0))
CLEARANCE = Limit(thing("rear bay", "clearance", most=10.0, now=10.0), *2 * (gained(LAYOUT, 3, 9.5),))
SPARE = Limit(
    replace(thing("rear bay", "spare wheel", "away", 1.0), negotiable=True),
    *2 * (gained(LAYOUT, 6, 1.0, "No larger whole string fits the voltage windows."),),
)
SHARE = Limit(thing("", "target, tolerance", "share", 0.1, 0.015), *2 * (gained(LAYOUT, 3, 0.006),))
IDLE = Limit(thing("front bay", "wiper motor", "away", 1.0))
IDLE_CLEARANCE = Limit(replace(thing("front bay", "wiper motor, clearance"), part_of="wiper motor"))


def rows_of(text: str) -> list[str]:
    """The rows of the table, up to the empty line below it."""
    after = text.split("what is eased")[1].split("\n\n", maxsplit=1)[0]
    return after.splitlines()[1:]


def test_the_most_energy_comes_first_then_the_least_easing() -> None:
    text = limits_page(page(SHARE, IDLE, CLEARANCE, SPARE, WALL))
    assert [row.split("  ")[1] for row in rows_of(text)] == [
        "rear bay: front wall",
        "rear bay: spare wheel",
        "rear bay: clearance",
        "target, tolerance",
    ]
    assert rows_of(text)[0].split()[4:] == ["37", "mm", "+6.6", "0.508", "a", "300", "mm", "+13.2"]
    assert rows_of(text)[2].split()[3:] == ["9.5", "mm", "0.5", "+6.6", "0.508", "a"]
    assert rows_of(text)[3].split()[2:] == ["0.006", "0.021", "+6.6", "0.508", "a"]


def test_no_line_is_wider_than_the_usual_width() -> None:
    long = replace(WALL, easing=thing("behind the seats, below the shelf", "left wall, x -1400 to -1960"))
    text = limits_page(page(long, CLEARANCE, SPARE, SHARE, IDLE))
    assert max(map(len, text.splitlines())) <= 100
    assert text.endswith(".\n")


def test_what_then_stands_in_the_way_is_told_once() -> None:
    text = limits_page(page(WALL, CLEARANCE, SPARE))
    assert text.count("The bays are full.") == 1
    assert "    b             No larger whole string fits the voltage windows.\n" in text


def test_a_negotiable_keepout_has_its_price() -> None:
    assert "the spare wheel costs 13.2 kWh and 0.000 of front share (9 modules with it, 15" in limits_page(
        page(SPARE)
    )
    moved = replace(LAYOUT, weights=replace(LAYOUT.weights, front_share=0.5125))
    idle = replace(SPARE, least=None, most=None, alike=Eased(1.0, moved))
    words = " ".join(limits_page(page(idle)).split())
    assert "costs 0.0 kWh and 0.004 of front share (9 modules with it, 9 without;" in words
    assert "has no price to tell" in limits_page(page(replace(idle, alike=None)))


def test_what_gains_beside_a_wider_tolerance_of_the_target_is_told() -> None:
    easing = replace(SPARE.easing, tolerance=0.035)
    pair = Limit(easing, gained(LAYOUT, 3, 1.0, "The bays hold no more."), gained(LAYOUT, 3, 1.0))
    text = limits_page(page(replace(SPARE, least=None, most=None, pair=pair)))
    assert "Nothing brings another string when eased alone." in text
    told = text.split("together with a wider tolerance of the target")[1]
    assert told.splitlines()[2].split() == [
        "rear",
        "bay:",
        "spare",
        "wheel",
        "away",
        "0.035",
        "+6.6",
        "0.508",
        "a",
    ]
    assert "The bays hold no more." in told
    assert "the spare wheel costs 6.6 kWh beside a target tolerance of 0.035." in " ".join(told.split())


def test_what_brings_nothing_is_told_shortly() -> None:
    text = limits_page(page(IDLE, IDLE_CLEARANCE))
    assert "Nothing brings another string when eased alone." in text
    assert "  - front bay: wiper motor.\n" in text
    assert "clearance" not in text.split("to be heeded")[0]


def test_all_bays_eased_together_are_told_only_where_that_brings_more() -> None:
    every = replace(CLEARANCE, easing=replace(CLEARANCE.easing, bay="every bay"))
    assert "every bay" not in limits_page(page(CLEARANCE, every))
    more = replace(every, most=gained(LAYOUT, 6, 10.0))
    assert "every bay: clearance" in limits_page(page(CLEARANCE, more))
    idle = [replace(limit, least=None, most=None) for limit in (CLEARANCE, every)]
    assert "brings nothing alone\n  - every bay: clearance.\n" in limits_page(page(*idle))


def test_what_was_not_settled_is_told() -> None:
    late, unsound = replace(IDLE, looked_at=False), replace(WALL, least=None, most=None, stands=False)
    text = limits_page(page(late, unsound))
    assert "Nothing of what was looked at brings another string" in text
    assert "give more --seconds\n  - front bay: wiper motor.\n" in text
    assert "did not pass the judge\n  - rear bay: front wall.\n" in text


def test_gains_are_told_from_nothing_where_no_layout_meets_every_rule() -> None:
    first = Limit(thing("rear bay", "top"), *2 * (gained(LAYOUT, 0, 4.0),))
    text = limits_page(page(first, layout=None, reasons=("The bays hold 2.",)))
    assert "  - No layout meets the hard rules.\n  - The bays hold 2.\n" in text
    assert "what brings a layout that meets every rule" in text
    assert rows_of(text)[0].split()[3:6] == ["4", "mm", "+19.8"]
    missed = limits_page(page(first, layout=replace(LAYOUT, target_met=False)))
    assert "kWh are told from nothing" in missed


def test_everything_is_in_the_csv() -> None:
    rows = list(csv.DictReader(io.StringIO(limits_csv(page(SHARE, IDLE, SPARE)))))
    assert tuple(rows[0]) == CSV_HEADS
    assert [row["what"] for row in rows] == ["target, tolerance", "wiper motor", "spare wheel"]
    share, idle, spare = rows
    assert (share["now"], share["least"], share["least_to"], share["least_energy"]) == (
        "0.015", "0.006", "0.021", "6.6"
    )  # fmt: skip
    assert (idle["least"], idle["settled"], idle["then"]) == ("", "yes", "")
    assert (spare["negotiable"], spare["most_count"]) == ("yes", "15")
