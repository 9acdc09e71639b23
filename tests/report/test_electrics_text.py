"""The electrics in the summary and as lists: what was worked out, in lines that fit."""

import csv
import io

from boxfit.module import Current
from boxfit.report.columns import WIDTH
from boxfit.report.electrics_text import STRINGS_HEADS, electrics_csv, electrics_lines, strings_csv
from tests.box.wiring.samples import electrics


def test_the_block_tells_strings_volts_amperes_and_cautions() -> None:
    lines = electrics_lines(electrics(Current(150.0, 400.0)))
    text = " ".join(" ".join(lines).split())
    assert lines[0] == "electrics"
    assert all(len(line) <= WIDTH for line in lines)
    for words in (
        "165.0 empty, 220.0 nominal, 252.0 full",
        "160 to 260 V: 5.0 V left below, 8.0 V above",
        "200 A all the time, 500 A peak (100 and 250 A a string)",
        "drive draws 150 A all the time, 75 A a string and module: 75% of what it may give",
        "drive draws 400 A peak, 200 A a string",
        "3 modules, 151.2 V, and 2, 100.8 V stay live",
        "25.2 kohm to reach on the meter, 126.0 with the alternating side joined",
        "5 mm basic, 10 reinforced",
        "licensed for high voltage",
    ):
        assert words in text, words
    assert "not told what it draws" in " ".join(electrics_lines(electrics()))


def test_strings_csv_has_each_module_with_its_volts_to_minus() -> None:
    rows = list(csv.reader(io.StringIO(strings_csv(electrics()))))
    assert tuple(rows[0]) == STRINGS_HEADS
    assert sorted(int(row[2]) for row in rows[1:]) == list(range(1, 11))
    assert [row[4:] for row in rows[1:6]] == [
        [f"{place * 50.4:.1f}", f"{(place + 1) * 50.4:.1f}"] for place in range(5)
    ]


def test_electrics_csv_has_every_cable_with_its_sums() -> None:
    found = electrics()
    rows = list(csv.reader(io.StringIO(electrics_csv(found))))
    figures = {row[0]: row[1] for row in rows if len(row) == 3}
    assert figures["string, full"] == "252.0"
    assert figures["isolation to reach"] == "25200"
    cables = [row for row in rows if row and row[0].startswith("cable ")]
    assert [row[0] for row in cables] == [cable.name for cable, _ in found.wiring.routed]
    for row, (cable, route) in zip(cables, found.wiring.routed, strict=True):
        ohm, amperes = 0.386e-6 * route.length, found.carried(cable) or 0.0
        assert float(row[5]) == round(ohm, 6)
        assert float(row[9]) == round(ohm * amperes**2, 1)
