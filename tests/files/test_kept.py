"""What searches found is kept by content, and what is damaged is not believed."""

import json
from dataclasses import replace
from pathlib import Path

import pytest

from boxfit.files import kept as keeping
from boxfit.files.kept import AFTER_THE_SEARCH, Finding, Kept, key_of_search, mark_of_car, mark_of_module
from boxfit.files.problems import InputError
from tests.report.samples import roadster
from tests.test_architecture import MAY_IMPORT

FOUND = Finding({"count": 9, "low": [1.5, -2.0, 0.0]})
NOTHING = Finding(None, ("too small", "too heavy"), 2.5)


@pytest.mark.parametrize("finding", [FOUND, NOTHING])
def test_what_is_kept_is_found_again(tmp_path: Path, finding: Finding) -> None:
    kept = Kept(tmp_path / "out" / ".kept")
    assert kept.found("ab") is None
    kept.keep("ab", finding)
    assert kept.found("ab") == finding
    assert [path.name for path in (tmp_path / "out" / ".kept").iterdir()] == ["ab.json"]


@pytest.mark.parametrize(
    "damage",
    [
        lambda text: text[:0],
        lambda text: text[: len(text) // 2],
        lambda text: text.replace("1.5", "1.6"),
        lambda text: text.replace("null", "3.0"),
        lambda text: text.replace('"reasons": []', '"reasons": 7'),
        lambda text: text.replace('"layout"', '"layuot"'),
        lambda text: "[" * 100_000 + text,
        lambda text: f"[{text}]",
        lambda text: f"\x00{text}",
    ],
)
def test_what_is_damaged_is_as_if_it_were_not_there(tmp_path: Path, damage: object) -> None:
    Kept(tmp_path).keep("ab", FOUND)
    path = tmp_path / "ab.json"
    text = path.read_text(encoding="utf-8")
    assert callable(damage)
    assert damage(text) != text
    path.write_text(damage(text), encoding="utf-8")
    assert Kept(tmp_path).found("ab") is None
    Kept(tmp_path).keep("ab", FOUND)
    assert Kept(tmp_path).found("ab") == FOUND


def test_a_finding_under_another_name_is_not_believed(tmp_path: Path) -> None:
    Kept(tmp_path).keep("ab", FOUND)
    (tmp_path / "ab.json").rename(tmp_path / "cd.json")
    assert Kept(tmp_path).found("cd") is None


def test_a_search_that_was_ended_serves_no_longer_one() -> None:
    assert FOUND.serves(1e9)
    assert NOTHING.serves(2.5)
    assert not NOTHING.serves(2.6)


def test_every_figure_is_another_search_but_for_prices(monkeypatch: pytest.MonkeyPatch) -> None:
    car, module, _ = roadster()
    mark, other = mark_of_car(car), mark_of_module(module)
    assert (mark_of_car(roadster()[0]), mark_of_module(roadster()[1])) == (mark, other)
    front, rear = car.bays
    shop = replace(front.box.fold_shop, prices=(("aluminium-5754", 6.5),))
    assert (
        mark_of_car(replace(car, bays=(replace(front, box=replace(front.box, fold_shop=shop)), rear))) == mark
    )
    assert mark_of_module(replace(module, price=480.0)) == other
    assert mark_of_car(replace(car, wheelbase=car.wheelbase + 1.0)) != mark
    assert mark_of_module(replace(module, mass=module.mass + 0.1)) != other
    key = key_of_search(mark, other)
    assert len({key, key_of_search(mark, mark), key_of_search(other, other), key_of_search(other, mark)}) == 4
    monkeypatch.setattr(keeping, "program_mark", lambda: "another program")
    assert key_of_search(mark, other) != key


def test_the_program_is_marked_by_its_own_text_and_its_solvers(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(keeping, "__file__", str(tmp_path / "boxfit" / "files" / "kept.py"))
    (tmp_path / "boxfit" / "files").mkdir(parents=True)
    text = tmp_path / "boxfit" / "search.py"
    marks: list[str] = []
    for words in ("one", "two"):
        text.write_text(words, encoding="utf-8")
        marks.append(keeping.program_mark.__wrapped__())
    monkeypatch.setattr(keeping, "version", lambda _package: "0")
    marks.append(keeping.program_mark.__wrapped__())
    text.rename(text.with_name("other.py"))
    marks.append(keeping.program_mark.__wrapped__())
    assert len(set(marks)) == 4
    (tmp_path / "boxfit" / "report").mkdir()
    (tmp_path / "boxfit" / "report" / "page.py").write_text("three", encoding="utf-8")
    assert keeping.program_mark.__wrapped__() == marks[-1]


def test_no_search_goes_through_what_the_mark_leaves_out() -> None:
    waiting, reached = ["search", "judge", "files", "space", "weight", "electrics"], set[str]()
    while waiting:
        reached.add(part := waiting.pop())
        waiting.extend(MAY_IMPORT[part] - reached)
    assert not reached & AFTER_THE_SEARCH


def test_a_place_that_cannot_be_written_is_told(tmp_path: Path) -> None:
    (tmp_path / "out").write_text("in the way", encoding="utf-8")
    with pytest.raises(InputError, match="--out"):
        Kept(tmp_path / "out" / ".kept").keep("ab", FOUND)


def test_the_file_can_be_read_by_a_person(tmp_path: Path) -> None:
    Kept(tmp_path).keep("ab", NOTHING)
    told = json.loads((tmp_path / "ab.json").read_text(encoding="utf-8"))
    assert told["reasons"] == ["too small", "too heavy"]
    assert told["ended"] == 2.5
