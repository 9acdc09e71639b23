"""A comparison from cars and modules to the files it leaves."""

import csv
import json
from dataclasses import replace
from pathlib import Path

import pytest

from boxfit.files.problems import InputError
from boxfit.files.together import VariedCar
from boxfit.jobs.compare import Comparison, compare, refuse_order, rows_of
from boxfit.jobs.sweep import Means
from tests.jobs.sweeps import CARS, MODULES, TALL

VARIED = (
    VariedCar(CARS[0], (("boot.survey.outline", "narrow"),)),
    VariedCar(CARS[1], (("boot.survey.outline", "wide"),)),
)


def compared(out: Path, order: str = "energy") -> Comparison:
    return compare(VARIED, MODULES, Means(30.0, 1, out), order, lambda _done, _all: None)


def test_rows_stand_by_what_is_asked_and_say_why_nothing_fits(tmp_path: Path) -> None:
    """By hand: twelve of 0.6 kWh and eight of 0.9 hold as much; the narrow bay holds eight and four."""
    found = compared(tmp_path)
    assert [(row.stem, row.count, dict(row.variation)["boot.survey.outline"]) for row in found.rows] == [
        ("siskin-24", 12, "wide"),
        ("siskin-36", 8, "wide"),
        ("siskin-24", 8, "narrow"),
        ("siskin-36", 4, "narrow"),
        ("godwit-24", None, "narrow"),
        ("godwit-24", None, "wide"),
    ]
    assert found.fits
    assert [row.best for row in found.rows][-2:] == [False, False]
    assert all("412.5 mm high" in row.reason for row in found.rows[-2:])
    assert [row.stem for row in compared(tmp_path, "mass").rows][:1] == ["siskin-36"]


def test_files_say_what_the_table_says(tmp_path: Path) -> None:
    found = compared(tmp_path)
    folder = tmp_path / "dotterel"
    assert found.file == folder / "compare.csv"
    lines = list(csv.DictReader(found.file.read_text(encoding="utf-8").splitlines()))
    data = json.loads((folder / "compare.json").read_bytes())
    assert [line["count"] or None for line in lines] == [
        None if row["count"] is None else str(row["count"]) for row in data["rows"]
    ]
    assert [row.count for row in found.rows] == [row["count"] for row in data["rows"]]
    assert "<html" in (folder / "compare.html").read_text(encoding="utf-8")
    assert found.text.split("\n")[1].split()[:4] == ["Siskin", "24", "/2", "12"]


def test_a_second_run_gives_the_same_bytes(tmp_path: Path) -> None:
    def files() -> dict[str, bytes]:
        return {path.name: path.read_bytes() for path in (tmp_path / "dotterel").iterdir()}

    first, before = compared(tmp_path), files()
    again, after = compared(tmp_path), files()
    assert first == again
    assert before == after


def test_prices_change_the_cost_and_no_search(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    compared(tmp_path)
    monkeypatch.setattr("boxfit.jobs.beside.searched", lambda *_: pytest.fail("searched again"))
    bays = tuple(
        replace(
            bay, box=replace(bay.box, fold_shop=replace(bay.box.fold_shop, prices=(("aluminium-5754", 6.0),)))
        )
        for bay in CARS[0].bays
    )
    dear = replace(MODULES[0], price=100.0)
    (row,) = rows_of(
        [VariedCar(replace(CARS[0], bays=bays))], [dear], Means(30.0, 1, tmp_path), lambda *_: None
    )
    assert row.cost == pytest.approx(800.0 + 6.0 * (row.sheet_mass or 0.0))


def test_where_nothing_fits_at_all_the_comparison_says_so(tmp_path: Path) -> None:
    found = compare(VARIED, [TALL], Means(30.0, 1, tmp_path), "energy", lambda _done, _all: None)
    assert not found.fits
    assert "Godwit 24 /1, Godwit 24 /2: boot: the lowest box" in found.text


def test_an_unknown_order_is_refused_with_what_is_near() -> None:
    refuse_order("cost")
    refuse_order("as-given")
    with pytest.raises(InputError, match="--sort: is not a known order") as error:
        refuse_order("corner")
    assert 'did you mean "corners"? Known here: energy, ' in str(error.value)
