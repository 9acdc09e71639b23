"""A comparison as CSV and JSON."""

import csv
import io
import json
from dataclasses import fields, replace

from boxfit.report.compare_files import FIGURES, compare_csv, compare_json
from boxfit.report.compare_rows import CompareRow, row_of
from tests.report.samples import roadster
from tests.report.test_compare import NO_STRING, rows


def test_csv_reads_back() -> None:
    back = list(csv.DictReader(io.StringIO(compare_csv(rows()))))
    assert [line["count"] for line in back] == ["9", "10", "96", ""]
    assert [line["stem"] for line in back] == ["heron-44", "heron-44", "wren-7", "wren-7"]
    assert back[0]["volts_full"] == "151.2"
    assert [line["proven"] for line in back] == ["yes", "no", "yes", ""]
    assert [line["best"] for line in back] == ["yes", "no", "yes", "no"]
    assert back[0]["left to inverter low end [V]"] == "19"
    assert back[2]["left to inverter low end [V]"] == back[2]["front_share"] == ""
    assert back[3]["reason"] == NO_STRING
    assert back[1]["notes"].startswith("nearest to the target")
    assert "\r" not in compare_csv(rows())


def test_each_key_varied_is_a_column() -> None:
    car, module, layout = roadster()
    found = [row_of(car, module, layout, (("box.tiers", "2"), ("bays", '["front.toml"]')))]
    (line,) = csv.DictReader(io.StringIO(compare_csv(found)))
    assert (line["box.tiers"], line["bays"]) == ("2", '["front.toml"]')


def test_every_plain_figure_has_its_column() -> None:
    told_otherwise = {"module", "stem", "variation", "reason", "notes", "margins", "bays"}
    assert {*FIGURES} == {one.name for one in fields(CompareRow)} - told_otherwise


def test_json_has_all_that_a_row_has() -> None:
    data = json.loads(compare_json("Dunlin 850", rows()))
    assert data["car"] == "Dunlin 850"
    assert data["weighed"] == ["energy", "mass", "corners"]
    first = data["rows"][0]
    assert set(first) == {one.name for one in fields(CompareRow)}
    assert first["energy"] == 19.8
    assert first["margins"][0] == {"limit": "front axle", "left": 76.26055, "unit": "kg"}
    assert [bay["bay"] for bay in first["bays"]] == ["front bay", "rear bay"]
    assert any("keep-outs" in line for line in data["counted"])
    assert data["rows"][3]["count"] is None


def test_noise_in_the_last_bits_changes_no_file() -> None:
    noisy = [replace(row, energy=None if row.energy is None else row.energy + 1e-12) for row in rows()]
    assert compare_json("car", noisy) == compare_json("car", rows())
    assert compare_csv(noisy) == compare_csv(rows())
