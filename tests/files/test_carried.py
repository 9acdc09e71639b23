"""A command takes over what still belongs beside its results, and nothing of anybody's is lost."""

import os
from pathlib import Path

import pytest

from boxfit.files.carried import Carried, carry
from boxfit.files.record import (
    BUILD,
    LAYOUT,
    LIMITS,
    MADE_FROM,
    PAPERS,
    Origin,
    record_bytes,
    record_in,
    record_of,
)

NOW = Origin("files", "layout", "program")
Texts = dict[str, str]


def put(folder: Path, texts: Texts) -> None:
    """Files by their names and texts."""
    for name, text in texts.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, encoding="utf-8")


def texts_in(folder: Path) -> Texts:
    """The same back, the record apart."""
    paths = (path for path in sorted(folder.rglob("*")) if path.is_file() and path.name != MADE_FROM)
    return {path.relative_to(folder).as_posix(): path.read_text(encoding="utf-8") for path in paths}


class Folder:
    """A folder of results as commands leave it one after the other."""

    def __init__(self, root: Path) -> None:
        self.root, self._runs = root, 0
        self.now = root / "0"
        self.now.mkdir()

    def run(self, command: str, texts: Texts, origin: Origin = NOW) -> list[str]:
        """What the command tells after it wrote the texts."""
        self._runs += 1
        fresh = self.root / str(self._runs)
        fresh.mkdir()
        put(fresh, texts)
        made = record_of(command, origin, [(name, text.encode()) for name, text in texts.items()])
        carried = carry(self.now, fresh, command, origin)
        (fresh / MADE_FROM).write_bytes(record_bytes({}, {**carried.record, **made}))
        self.now = fresh
        return carried.told()


@pytest.fixture
def folder(tmp_path: Path) -> Folder:
    """One in which build wrote four files, limits and papers one each."""
    folder = Folder(tmp_path)
    built = {"layout.json": "{}", "sheets.csv": "one", "drawings/tray.pdf": "%", "cut-shop.zip": "zip"}
    assert folder.run(BUILD, built) == []
    assert folder.run(LIMITS, {"limits.csv": "wall"}) == []
    assert folder.run(PAPERS, {"papers.pdf": "%"}) == []
    return folder


def test_layout_of_the_same_files_leaves_what_build_wrote(folder: Folder) -> None:
    before = texts_in(folder.now)
    assert len(before) == 6
    assert folder.run(LAYOUT, {"layout.json": "{}"}) == []
    assert texts_in(folder.now) == before
    assert folder.run(BUILD, {"layout.json": "{}", "sheets.csv": "two"}) == []
    assert texts_in(folder.now) == {
        "layout.json": "{}",
        "sheets.csv": "two",
        "cut-shop.zip": "zip",
        "limits.csv": "wall",
        "papers.pdf": "%",
    }


@pytest.mark.parametrize(
    ("command", "origin", "told"),
    [
        (LAYOUT, Origin("others", "layout", "program"), "and 4 more: made from other files"),
        (LAYOUT, Origin("files", "another", "program"), "and 4 more: made for another layout"),
        (LAYOUT, Origin("files", "layout", "newer"), ""),
        (BUILD, Origin("others", "layout", "program"), "and 2 more: made from other files"),
        (BUILD, Origin("files", "another", "program"), "and 2 more: made for another layout"),
        (BUILD, Origin("files", "layout", "newer"), "and 2 more: made by another version of boxfit"),
    ],
)
def test_what_is_stale_goes_and_that_is_told(command: str, origin: Origin, told: str, folder: Folder) -> None:
    lines = folder.run(command, {"layout.json": "{}"}, origin)
    assert lines == ([f"removed cut-shop.zip {told}"] if told else [])
    if told:
        assert texts_in(folder.now) == {"layout.json": "{}"}


@pytest.mark.parametrize("command", [LIMITS, PAPERS])
def test_what_changes_no_layout_removes_only_what_is_of_other_files(command: str, folder: Folder) -> None:
    name = "limits.csv" if command == LIMITS else "papers.pdf"
    assert folder.run(command, {name: "new"}, Origin("files", "better", "newer")) == []
    assert len(texts_in(folder.now)) == 6
    assert folder.run(command, {name: "new"}, Origin("others")) == [
        "removed cut-shop.zip and 4 more: made from other files"
    ]
    assert texts_in(folder.now) == {name: "new"}


def test_what_boxfit_did_not_write_stays_whatever_comes(folder: Folder) -> None:
    mine = {
        "photo of the tray.txt": "x",
        "drawings/mine.pdf": "x",
        "quotes/shop/letter.txt": "x",
        ".note": "x",
    }
    put(folder.now, mine)
    (folder.now / "empty").mkdir()
    (folder.now / "away").symlink_to("nowhere")
    lines = folder.run(LAYOUT, {"layout.json": "{}"}, Origin("others"))
    assert lines == ["removed cut-shop.zip and 4 more: made from other files"]
    assert texts_in(folder.now) == {"layout.json": "{}", **mine}
    assert (folder.now / "empty").is_dir()
    assert os.readlink(folder.now / "away") == "nowhere"


def test_what_was_changed_by_hand_is_kept_beside_the_new(folder: Folder) -> None:
    put(folder.now, {"sheets.csv": "with prices", "limits.csv": "with notes"})
    assert folder.run(BUILD, {"layout.json": "{}", "sheets.csv": "one"}) == [
        "kept sheets.csv as sheets-kept.csv: not as boxfit wrote it"
    ]
    assert texts_in(folder.now)["limits.csv"] == "with notes"
    assert folder.run(LAYOUT, {"layout.json": "{}"}, Origin("others"))[-1].startswith("removed")
    kept = texts_in(folder.now)
    assert kept["sheets-kept.csv"] == "with prices"
    assert kept["limits.csv"] == "with notes"


def test_names_taken_twice_are_all_kept(folder: Folder) -> None:
    for text in ("first", "second"):
        put(folder.now, {"sheets.csv": text})
        folder.run(BUILD, {"sheets.csv": "one"})
    kept = texts_in(folder.now)
    assert (kept["sheets-kept.csv"], kept["sheets-kept-2.csv"]) == ("first", "second")


def test_files_in_the_place_of_folders_and_folders_in_the_place_of_files_are_kept(tmp_path: Path) -> None:
    folder = Folder(tmp_path)
    put(folder.now, {"drawings": "a file", "page.html/mine": "x"})
    (folder.now / "fit.csv").mkdir()
    lines = folder.run(BUILD, {"drawings/tray.pdf": "%", "page.html": "<p>", "fit.csv": "play"})
    assert sorted(line.split(":")[0] for line in lines) == [
        "kept drawings as drawings-kept",
        "kept fit.csv as fit-kept.csv",
        "kept page.html/mine as page-kept.html/mine",
    ]
    assert texts_in(folder.now) == {
        "drawings-kept": "a file",
        "drawings/tray.pdf": "%",
        "page-kept.html/mine": "x",
        "page.html": "<p>",
        "fit.csv": "play",
    }


def test_older_results_are_known_by_their_names(tmp_path: Path) -> None:
    folder = Folder(tmp_path)
    old = {
        "layout.json": "{}",
        "front-bay-box-2-lid.step": "x",
        "sheet-steel-4-1.dxf": "x",
        "limits.csv": "x",
    }
    put(folder.now, {**old, "drawings/strings.pdf": "x", "drawings/mine.dwg": "x", "offer.pdf": "x"})
    assert folder.run(LAYOUT, {"layout.json": "{}"}) == [
        "removed drawings/strings.pdf and 3 more: nothing tells what it was made from"
    ]
    assert set(texts_in(folder.now)) == {"layout.json", "drawings/mine.dwg", "offer.pdf"}


def test_limits_leave_older_results(tmp_path: Path) -> None:
    folder = Folder(tmp_path)
    put(folder.now, {"layout.json": "{}", "mass.json": "{}"})
    assert folder.run(LIMITS, {"limits.csv": "x"}) == []
    assert set(texts_in(folder.now)) == {"layout.json", "mass.json", "limits.csv"}
    assert set(record_in(folder.now, ())["build"].names) == {"layout.json", "mass.json"}


def test_what_stays_is_not_copied_where_it_can_be_linked(folder: Folder) -> None:
    before = (folder.now / "sheets.csv").stat().st_ino
    folder.run(LAYOUT, {"layout.json": "{}"})
    assert (folder.now / "sheets.csv").stat().st_ino == before


def test_disks_without_links_get_copies(folder: Folder, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_arguments: object, **_options: object) -> None:
        raise PermissionError(1, "Operation not permitted")

    monkeypatch.setattr(os, "link", refuse)
    before = texts_in(folder.now)
    folder.run(LAYOUT, {"layout.json": "{}"})
    assert texts_in(folder.now) == before


def test_nothing_lost_is_nothing_told() -> None:
    assert Carried().told() == []
