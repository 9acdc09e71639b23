"""Stock sheets judged from their files: sound ones are clear, spoiled ones give their code."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from boxfit.judge.finding import CODES
from boxfit.judge.nesting import judge_nesting
from boxfit.sheet.cut_list import cut_list_csv
from boxfit.sheet.dxf import stock_dxf
from boxfit.sheet.nesting import nested
from boxfit.sheet.stock import Nesting, Placed
from boxfit.sheet.stock_csv import sheets_csv
from tests.sheet.nesting_samples import plate, rounded, wall, wanted

ASKED = wanted(
    rounded("lid", 500.0, 400.0, 30.0),
    plate("plate", 320.0, 210.0, 3),
    wall("wall", 600.0, 250.0, False),
    replace(plate("bar", 400.0, 10.0, 2), bar=True),
)
NESTING = nested(ASKED)


def write(folder: Path, drawn: Nesting, listed: Nesting | None = None) -> None:
    (folder / "sheets.csv").write_text(sheets_csv(listed or drawn), encoding="utf-8")
    (folder / "cut-list.csv").write_text(cut_list_csv(ASKED), encoding="utf-8")
    for sheet in drawn.sheets:
        flats = [one.flat for one in sheet.placed]
        drawing = stock_dxf(sheet.stock.size, flats, [one.part.number for one in sheet.placed])
        (folder / f"{sheet.name}.dxf").write_bytes(drawing)


def with_parts(change: Callable[[tuple[Placed, ...]], tuple[Placed, ...]]) -> Nesting:
    """The same sheets, the parts of the first one changed."""
    use = NESTING.uses[0]
    first = replace(use.sheets[0], placed=change(use.sheets[0].placed))
    return Nesting((replace(use, sheets=(first, *use.sheets[1:])), *NESTING.uses[1:]))


def shifted(name: str, x: float, y: float) -> Nesting:
    def change(placed: tuple[Placed, ...]) -> tuple[Placed, ...]:
        return tuple(
            replace(one, at=(one.at[0] + x, one.at[1] + y)) if one.part.flat.name == name else one
            for one in placed
        )

    return with_parts(change)


def test_sound_sheets_are_clear(tmp_path: Path) -> None:
    write(tmp_path, NESTING)
    assert judge_nesting(tmp_path) == ()


def test_too_near_to_the_edge(tmp_path: Path) -> None:
    lid = next(one for one in NESTING.sheets[0].placed if one.part.flat.name == "lid")
    write(tmp_path, shifted("lid", 3.0 - lid.at[0], 0.0))
    findings = {one.code: one for one in judge_nesting(tmp_path)}
    assert findings["sheet-edge"].figure == pytest.approx(3.0)
    assert "lid" in findings["sheet-edge"].place


def test_too_near_to_each_other(tmp_path: Path) -> None:
    """Round corners of the lid leave more to the plate up and right of it than their extents say."""

    def change(placed: tuple[Placed, ...]) -> tuple[Placed, ...]:
        places = {"lid": (10.0, 10.0), "wall": (10.0, 800.0)}
        plates = iter([(515.0, 415.0), (841.5, 415.0), (1200.0, 415.0)])
        return tuple(
            replace(one, at=places.get(one.part.flat.name) or next(plates), turned=False) for one in placed
        )

    write(tmp_path, with_parts(change))
    findings = judge_nesting(tmp_path)
    assert [one.code for one in findings] == ["sheet-gap"]
    assert findings[0].figure == pytest.approx(6.5, abs=0.01)
    assert findings[0].place == "sheet-aluminium-5754-2.5-1: plate and plate"


def test_one_too_few_and_one_too_many(tmp_path: Path) -> None:
    write(tmp_path, with_parts(lambda placed: tuple(one for one in placed if one.copy != 2)))
    findings = judge_nesting(tmp_path)
    assert [(one.code, one.place, one.figure) for one in findings] == [("sheet-count", "plate", 2.0)]


def test_drawn_elsewhere_than_listed(tmp_path: Path) -> None:
    write(tmp_path, shifted("wall", 0.0, 0.5), NESTING)
    findings = [one for one in judge_nesting(tmp_path) if one.code == "sheet-drawn"]
    assert [one.figure for one in findings] == pytest.approx([0.5], abs=2e-3)


def test_drawn_twice_or_not_at_all(tmp_path: Path) -> None:
    write(tmp_path, with_parts(lambda placed: (*placed, placed[0])), NESTING)
    assert {one.code for one in judge_nesting(tmp_path)} == {"sheet-drawn"}
    write(tmp_path, with_parts(lambda placed: placed[1:]), NESTING)
    assert {one.code for one in judge_nesting(tmp_path)} == {"sheet-drawn"}


def test_a_hole_forgotten_or_an_opening_too_many(tmp_path: Path) -> None:
    """The lid loses one of its two holes of 5.5 mm: 23.8 mm2 more metal than listed."""

    def change(placed: tuple[Placed, ...]) -> tuple[Placed, ...]:
        return tuple(
            replace(one, part=replace(one.part, flat=replace(one.part.flat, holes=one.part.flat.holes[1:])))
            for one in placed
        )

    write(tmp_path, with_parts(change))
    findings = judge_nesting(tmp_path)
    assert [(one.code, one.place) for one in findings] == [("sheet-cut", "sheet-aluminium-5754-2.5-1: lid")]
    assert findings[0].figure == pytest.approx(23.8, abs=0.6)


@pytest.mark.parametrize("spoiled", ["sheets.csv", "cut-list.csv", "sheet-aluminium-5754-2.5-1.dxf"])
@pytest.mark.parametrize("content", [None, b"part,quantity\nlid,x\n", b"\xff\xfe\x00"])
def test_unreadable_files_are_told(tmp_path: Path, spoiled: str, content: bytes | None) -> None:
    write(tmp_path, NESTING)
    if content is None:
        (tmp_path / spoiled).unlink()
    else:
        (tmp_path / spoiled).write_bytes(content)
    findings = judge_nesting(tmp_path)
    assert [one.code for one in findings] == ["sheet-unread"]
    assert findings[0].code in CODES
