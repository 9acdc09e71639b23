"""boxfit papers as a workshop runs it: from results that belong, built anew else, whole or not at all."""

from importlib import import_module
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from boxfit.car import Car
from boxfit.cli import app
from boxfit.files.layout_json import layout_bytes
from boxfit.files.record import BUILD, MADE_FROM, record_bytes, record_of
from boxfit.jobs.going_on import Search, Tell
from boxfit.jobs.landing import origin_of
from boxfit.layout import Layout
from boxfit.module import Module
from boxfit.papers.case import Case
from tests.papers.samples import silent_case, silent_papers
from tests.test_demos import ROOT, demo, main_job

DUNLIN = ROOT / "bays" / "dunlin-850"
HERON = str(ROOT / "modules" / "heron-44.toml")
PLACE = Path("dunlin-850") / "heron-44"


def run(*words: str | Path) -> Result:
    """A command, in this process."""
    return CliRunner().invoke(app, ["papers", *(str(word) for word in words)])


def write_results(folder: Path, car: Car, module: Module) -> None:
    """What of the results of build the papers are made from."""
    folder.mkdir(parents=True, exist_ok=True)
    content = layout_bytes(main_job())
    (folder / "layout.json").write_bytes(content)
    record = record_of(BUILD, origin_of(car, module, main_job()), [("layout.json", content)])
    (folder / MADE_FROM).write_bytes(record_bytes({}, record))


@pytest.fixture
def built(tmp_path: Path) -> Path:
    """A folder with results of the main job."""
    write_results(tmp_path / PLACE, *demo("dunlin-850", "heron-44"))
    return tmp_path


@pytest.fixture(autouse=True)
def made_of(monkeypatch: pytest.MonkeyPatch) -> list[Layout]:
    """The layouts that papers were asked of; what is made is of a small car, the papers have own tests."""
    asked: list[Layout] = []

    def case_of(_car: Car, _module: Module, layout: Layout, _tell: Tell) -> Case:
        asked.append(layout)
        return silent_case()

    monkeypatch.setattr(import_module("boxfit.jobs.papers"), "case_of", case_of)
    monkeypatch.setattr("boxfit.papers.whole.papers", lambda *_: silent_papers())
    return asked


@pytest.fixture
def builds(monkeypatch: pytest.MonkeyPatch) -> list[Path]:
    """Where a build was asked for; it writes what the papers need."""
    asked: list[Path] = []

    def build(car: Car, module: Module, target: Path, _: Search) -> str:
        asked.append(target)
        write_results(target, car, module)
        return ""

    monkeypatch.setattr(import_module("boxfit.jobs.papers"), "build", build)
    return asked


def test_results_that_belong_are_taken(built: Path, builds: list[Path], made_of: list[Layout]) -> None:
    beside = {path.name for path in (built / PLACE).iterdir()}
    done = run(DUNLIN, "--module", HERON, "--out", built)
    assert done.exit_code == 0, done.output
    assert builds == []
    assert [layout_bytes(layout) for layout in made_of] == [layout_bytes(main_job())]
    assert "from the results of boxfit build" in done.stdout
    assert {path.name for path in (built / PLACE).iterdir()} == {*beside, "papers.pdf"}
    assert (built / PLACE / "papers.pdf").read_bytes().startswith(b"%PDF")


def test_results_of_other_files_are_built_anew(built: Path, builds: list[Path]) -> None:
    (built / PLACE / MADE_FROM).write_text('{"files": "of another car"}', encoding="utf-8")
    done = run(DUNLIN, "--module", HERON, "--out", built)
    assert done.exit_code == 0, done.output
    assert builds == [built / PLACE]
    assert "built anew" in done.stdout
    assert "other files" in " ".join(done.stdout.split())


def test_a_layout_that_was_tampered_with_is_built_anew(built: Path, builds: list[Path]) -> None:
    layout = built / PLACE / "layout.json"
    layout.write_text(
        layout.read_text(encoding="utf-8").replace('"count": 9', '"count": 12', 1), encoding="utf-8"
    )
    done = run(DUNLIN, "--module", HERON, "--out", built)
    assert done.exit_code == 0, done.output
    assert builds == [built / PLACE]


def test_no_results_are_built(tmp_path: Path, builds: list[Path]) -> None:
    done = run(DUNLIN, "--module", HERON, "--out", tmp_path)
    assert done.exit_code == 0, done.output
    assert builds == [tmp_path / PLACE]
    assert "no results of boxfit build are there" in " ".join(done.stdout.split())


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("bays/no-such-car", "--module", HERON), "there is no such folder"),
        ((DUNLIN, "--module", "no-such-module"), "there is no such module file"),
        ((DUNLIN,), "--module"),
        ((DUNLIN, "--module", HERON, "--processes", "0"), "--processes"),
    ],
)
def test_wrong_input_is_told_and_nothing_is_written(
    tmp_path: Path, words: tuple[str | Path, ...], told: str
) -> None:
    done = run(*words, "--out", tmp_path)
    assert done.exit_code == 2
    assert told in done.stderr
    assert "Traceback" not in done.output
    assert not any(tmp_path.iterdir())


def test_what_somebody_put_in_the_place_of_the_papers_is_kept(built: Path, builds: list[Path]) -> None:
    (built / PLACE / "papers.pdf").mkdir()
    (built / PLACE / "papers.pdf" / "letter.txt").write_text("mine", encoding="utf-8")
    done = run(DUNLIN, "--module", HERON, "--out", built)
    assert done.exit_code == 0, done.output
    assert builds == []
    assert "kept papers.pdf/letter.txt as papers-kept.pdf/letter.txt: not as boxfit wrote it" in done.stderr
    assert (built / PLACE / "papers-kept.pdf" / "letter.txt").read_text(encoding="utf-8") == "mine"
    assert (built / PLACE / "papers.pdf").read_bytes().startswith(b"%PDF")
