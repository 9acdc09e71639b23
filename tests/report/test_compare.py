"""Modules side by side."""

import csv
import io

from boxfit.report.compare import Row, compare_csv, compare_table, height_left, row_of
from tests.report.samples import many, roadster, van


def rows() -> tuple[Row, ...]:
    """Three layouts and one module that does not fit."""
    car, module, layout = roadster()
    return (
        row_of(car, module, layout),
        row_of(*van(), reason="nearest to the target"),
        row_of(*many()),
        row_of(car, many()[1], None, "no whole string lies inside the inverter's window, 80 to 160 V"),
    )


def test_height_left_is_the_least_over_the_boxes() -> None:
    """By hand: front 640 - 13 - 571, rear 700 - 13 - 495."""
    car, _, layout = roadster()
    assert [bay.boxes[0].high[2] for bay in layout.bays] == [571.0, 495.5]
    assert height_left(car, layout) == 56.0


def test_row_of_a_layout() -> None:
    row = rows()[0]
    assert (row.count, row.series, row.parallel) == (9, 3, 3)
    assert (round(row.volts_empty or 0, 3), round(row.volts_full or 0, 3)) == (99.0, 151.2)
    assert round(row.mass or 0, 3) == 125.9


def test_table_is_aligned_and_tells_why_nothing_fits() -> None:
    lines = compare_table(rows()).split("\n")
    assert len({len(line) for line in lines[:5]}) == 1
    assert max(map(len, lines)) <= 100
    assert lines[1].split() == [
        "Heron",
        "44",
        "9",
        "3",
        "x",
        "3",
        "19.8",
        "126",
        "0.508",
        "99-151",
        "56",
        "yes",
    ]
    assert lines[4].split() == ["Wren", "7", *"--------"]
    assert "  - Heron 44: nearest to the target" in lines
    assert "  - Wren 7: no whole string lies inside the inverter's window, 80 to 160 V" in lines


def test_csv_reads_back() -> None:
    back = list(csv.DictReader(io.StringIO(compare_csv(rows()))))
    assert [line["count"] for line in back] == ["9", "10", "96", ""]
    assert back[0]["volts_full"] == "151.2"
    assert back[0]["proven"] == "yes"
    assert back[1]["proven"] == "no"
    assert back[2]["front_share"] == ""
    assert back[3]["reason"].endswith("window, 80 to 160 V")
    assert "\r" not in compare_csv(rows())
