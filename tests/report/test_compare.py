"""Rows side by side as plain text."""

from dataclasses import replace

from boxfit.report.compare import LONGEST_NAME, compare_table, variation_numbers
from boxfit.report.compare_order import with_best
from boxfit.report.compare_rows import CompareRow, row_of, row_that_fails
from tests.report.samples import many, roadster, van

NO_STRING = "no whole string lies inside the inverter's window, 80 to 160 V"


def rows() -> tuple[CompareRow, ...]:
    """Three layouts and one module that does not fit."""
    found = (
        row_of(*roadster()),
        row_of(*van()),
        row_of(*many()),
        row_that_fails(many()[1], (), (NO_STRING,)),
    )
    return with_best(found)


def block(text: str, title: str) -> list[str]:
    """The lines under a title, as far as the next empty one."""
    lines = text.split("\n")
    start = next(place for place, line in enumerate(lines) if line.strip().startswith(title))
    return lines[start : lines.index("", start)]


def test_what_it_holds() -> None:
    lines = block(compare_table(rows()), "what it holds")
    assert len({len(line) for line in lines}) == 1
    words = ["*", "Heron", "44", "9", "proven", "3", "x", "3", "19.8", "0.157", "99-132-151", "0.508"]
    assert lines[1].split() == words
    assert lines[2].split()[-1] == "0.498!"
    assert lines[2].split()[3:6] == ["at", "most", "12"]
    assert lines[4].split() == ["Wren", "7", *"-------"]


def test_what_it_takes_and_leaves() -> None:
    lines = block(compare_table(rows()), "what it takes")
    assert lines[0].split()[-8:] == ["corners", "mm", "above", "litres", "left", "sheet", "kg", "cost"]
    assert lines[1].split()[3:7] == ["126", "2", "8", "56"]
    assert lines[1].split()[-1] == "-"


def test_what_limits_leave() -> None:
    """One column for a window, both its ends in it."""
    lines = block(compare_table(rows()), "left to limits")
    assert "inverter V" in lines[0]
    assert "+19.0 +8.8" in lines[1]
    assert lines[3].split() == ["*", "Wren", "7", *"------"]


def test_without_any_limit_that_table_is_left_out() -> None:
    text = compare_table((row_of(*many()),))
    assert not any(line.startswith("    left to limits") for line in text.split("\n"))


def test_reasons_and_notes_are_told_once_for_neighbours() -> None:
    one, other, far, nothing = rows()
    text = compare_table((one, other, far, nothing, replace(nothing, module="Dotterel 3")))
    assert text.count(NO_STRING) == 1
    assert f"  - Wren 7, Dotterel 3: {NO_STRING}" in text
    assert "nearest to the target: front share 0.498" in text
    assert "! misses the target" in text
    assert "! misses the target" not in compare_table((one,))


def test_it_says_what_was_weighed() -> None:
    """The van misses its target and the many have none: distance from it is not weighed for all."""
    assert "beats it in energy, mass and corners" in " ".join(compare_table(rows()).split())
    only = compare_table(with_best(rows()[:2]))
    assert "energy, mass, distance from the front share wanted and corners" in " ".join(only.split())


def test_variations_are_numbered_and_told() -> None:
    car, module, layout = roadster()
    found = [
        row_of(car, module, layout, (("box.tiers", str(count)), ("box.shape", "stepped"))) for count in (2, 1)
    ]
    assert list(variation_numbers(found).values()) == [1, 2]
    text = compare_table(found)
    assert "Heron 44 /2" in block(text, "what it holds")[1]
    assert block(text, "variations")[1:] == [
        "  - /1: box.tiers=1, box.shape=stepped",
        "  - /2: box.tiers=2, box.shape=stepped",
    ]


def test_lines_are_no_longer_than_a_hundred_letters_however_long_a_name() -> None:
    found = [replace(row, module=row.module * 12) for row in rows()]
    text = compare_table(found)
    tables = block(text, "what it holds") + block(text, "what it takes") + block(text, "left to limits")
    assert max(map(len, tables)) <= 100 + LONGEST_NAME
    assert max(map(len, compare_table(rows()).split("\n"))) <= 100
    assert "Heron 44Heron 44Heron 4..." in text
