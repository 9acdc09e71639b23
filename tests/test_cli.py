"""The commands as a workshop runs them: exit states, messages, files whole or not at all, same bytes."""

import csv
import hashlib
import json
import os
import random
import re
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path
from zipfile import ZipFile

import pytest
from typer.testing import CliRunner, Result

from boxfit.bay import Block
from boxfit.cli import app
from boxfit.files.record import digest, record_in
from boxfit.files.together import read_together
from boxfit.judge.layout import judge_layout
from tests.readme import told_files
from tests.surfaces import block_surface
from tests.survey.scan import save_stl

ROOT = Path(__file__).parent.parent
HERON = str(ROOT / "modules" / "heron-44.toml")
VIEWS = ("plan", "side", "rear", "margins")
DUNLIN = ROOT / "bays" / "dunlin-850"
SCAN = ROOT / "bays" / "dunlin-850-scan" / "front.ply"
ROUGHLY_EVERY_KIND = ("step", "stl", "dxf", "glb", "json", "csv", "svg", "png", "txt", "pdf", "zip", "html")


def run(*words: str | Path) -> Result:
    """A command, in this process."""
    return CliRunner().invoke(app, [str(word) for word in words])


def built(out: Path, seed: str) -> Path:
    """The main job in a process of its own; the folder of results."""
    words = [sys.executable, "-m", "boxfit.cli", "build", str(DUNLIN), "--module", HERON, "--out", str(out)]
    words += ["--for", "print-shop", "--for", "cut-shop"]
    subprocess.run(
        words, check=True, cwd=ROOT, env={**os.environ, "PYTHONHASHSEED": seed}, capture_output=True
    )
    return out / "dunlin-850" / "heron-44"


def files_in(folder: Path) -> dict[str, Path]:
    """Every file of the folder and of those within it, by its name from there."""
    return {str(path.relative_to(folder)): path for path in sorted(folder.rglob("*")) if path.is_file()}


@pytest.fixture(scope="module")
def results(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The main job's results."""
    return built(tmp_path_factory.mktemp("first"), "1")


def test_build_writes_every_kind_of_file(results: Path) -> None:
    kinds = {path.suffix[1:] for path in files_in(results).values()}
    assert kinds == set(ROUGHLY_EVERY_KIND)
    names = {path.name for path in results.iterdir()}
    for part in ("tray", "lid", "cover-plate"):
        assert {f"front-bay-box-1-{part}.step", f"front-bay-box-1-{part}.stl"} <= names
    assert {"front-bay-box-1-shelf-1.step", "assembly.step", "assembly.glb", "mass.json", "mass.csv"} <= names
    assert {f"{view}.{kind}" for view in VIEWS for kind in ("svg", "png")} <= names
    assert {"margins.csv", "assembly.csv", "fit.csv", "page.html"} <= names


def test_the_layout_on_disk_is_judged_clear(results: Path) -> None:
    car, (module,) = read_together(DUNLIN, [HERON])
    data = json.loads((results / "layout.json").read_bytes())
    assert judge_layout(data, car, module) == ()
    assert (
        data["count"]
        == data["series"] * data["parallel"]
        == sum(len(box["modules"]) for bay in data["bays"] for box in bay["boxes"])
    )


def test_a_second_run_gives_the_same_bytes(results: Path, tmp_path: Path) -> None:
    again = built(tmp_path, "2")
    digests = [
        {name: hashlib.sha256(path.read_bytes()).hexdigest() for name, path in files_in(folder).items()}
        for folder in (results, again)
    ]
    assert digests[0] == digests[1]


def test_cautions_come_with_the_summary(results: Path) -> None:
    text = (results / "summary.txt").read_text(encoding="utf-8")
    for word in ("High voltage", "Lifting", "Fire", "Crash", "Welding", "working aid"):
        assert word in text


def test_the_order_of_filling_names_every_module_once(results: Path) -> None:
    rows = list(csv.DictReader((results / "assembly.csv").read_text(encoding="utf-8").splitlines()))
    assert [int(row["module"]) for row in rows] == list(range(1, 10))
    text = (results / "summary.txt").read_text(encoding="utf-8")
    heads = [line for line in text.splitlines() if line in ("margins", "filling", "notes", "cautions")]
    assert heads == ["margins", "filling", "notes", "cautions"]
    lowered = "front bay box 1: lower straight down and connect one by one: 1, 2"
    assert f"{lowered}; then its packers and hold-downs; then the shelf; 3" in " ".join(text.split())


def test_each_parcel_holds_what_its_shop_needs(results: Path) -> None:
    with ZipFile(results / "cut-shop.zip") as parcel:
        cut = set(parcel.namelist())
        there = {path.name: path for path in files_in(results).values()}
        assert all(there[name].read_bytes() == parcel.read(name) for name in cut - {"note.txt"})
        note = parcel.read("note.txt").decode()
    flats = {path.name for path in results.glob("*-flat.dxf")} | {
        path.name for path in results.glob("sheet-*.dxf")
    }
    assert flats <= cut
    lists = {"cut-list.csv", "weld-list.csv", "sheets.csv", "sheets.pdf"}
    assert lists | {"front-bay-box-1-tray.step", "rear-bay-box-1-tray.step"} <= cut
    assert {name.rsplit(".")[-1] for name in cut} <= {"dxf", "step", "csv", "pdf", "txt"}
    assert "assembly.step" not in cut
    for word in (
        "millimetres",
        "aluminium-5754, 2.5 mm",
        "temper",
        "K 0.325",
        "ISO 2768-m",
        "1 off",
        "working aid",
    ):
        assert word in note
    with ZipFile(results / "print-shop.zip") as parcel:
        printed = set(parcel.namelist())
        assert {"note.txt", "gauges.csv", "corner-gauge.stl"} <= printed
        assert {name.rsplit(".")[-1] for name in printed} == {"csv", "stl", "txt"}
        assert "STL names no unit" in parcel.read("note.txt").decode()


def test_a_shop_that_is_not_known_is_told_before_the_search(tmp_path: Path) -> None:
    done = run("build", DUNLIN, "--module", HERON, "--out", tmp_path, "--for", "cutshop", "--for", "paint")
    assert (done.exit_code, list(tmp_path.iterdir())) == (2, [])
    assert '--for: must name a shop that parcels are made for (got "cutshop")' in done.stderr
    assert 'try: did you mean "cut-shop"? Known here: cut-shop, print-shop' in done.stderr
    assert '(got "paint")' in done.stderr


def test_layout_writes_layout_json_and_its_record_alone(tmp_path: Path) -> None:
    done = run("layout", DUNLIN, "--module", HERON, "--out", tmp_path)
    assert done.exit_code == 0
    assert set(files_in(tmp_path / "dunlin-850" / "heron-44")) == {"layout.json", "made-from.json"}
    assert "9 modules, 3 in series x 3 parallel" in done.stdout
    assert "written" in done.stderr


def test_check_tells_litres_and_draws_the_bays(tmp_path: Path) -> None:
    done = run("check", DUNLIN, "--out", tmp_path)
    assert done.exit_code == 0
    assert "litres" in done.stdout
    drawn = {path.name for path in (tmp_path / "dunlin-850" / "survey").iterdir()}
    pictures = {f"{bay}-bay.{kind}" for bay in ("front", "rear") for kind in ("svg", "png")}
    assert drawn == {*pictures, "made-from.json"}


def test_check_of_a_bare_scan_shows_a_bay_file_and_writes_nothing(tmp_path: Path) -> None:
    done = run("check", SCAN, "--out", tmp_path)
    assert (done.exit_code, done.stderr) == (0, "")
    assert done.stdout.startswith('# "front.ply": 9309 triangles, 1 part and 12 specks, open: 6 gaps')
    survey = tomllib.loads(done.stdout)["survey"]
    assert {key: survey[key] for key in ("kind", "file", "unit", "turn")} == {
        "kind": "mesh",
        "file": "front.ply",
        "unit": "m",
        "turn": [90.0, 0.0, 0.0],
    }
    assert not any(tmp_path.iterdir())


def test_the_bay_file_shown_is_read_as_it_stands(tmp_path: Path) -> None:
    """Beside its scan, with a car round it, it passes the check of the car."""
    for name in ("car.toml", "rear.ply"):
        shutil.copy(SCAN.parent / name, tmp_path / name)
    car = tmp_path / "car.toml"
    car.write_text(car.read_text().replace('"front.toml", ', ""))
    shown = run("check", tmp_path / "rear.ply").stdout
    (tmp_path / "rear.toml").write_text(shown)
    done = run("check", tmp_path, "--out", tmp_path / "out")
    assert done.exit_code == 0, done.stderr
    assert "rear: survey: surface of" in done.stdout


@pytest.mark.parametrize(
    ("name", "content", "rule"),
    [
        ("scan.stl", b"solid", "scan.stl: "),
        ("scan.PLY", b"%PDF-1.7", "scan.PLY: is a PDF"),
        ("gone.obj", None, "gone.obj: there is no such file"),
        ("scan.step", b"ISO-10303-21;", "scan.step: must be a folder, not a file"),
    ],
)
def test_a_bare_scan_that_cannot_be_read_is_told(
    name: str, content: bytes | None, rule: str, tmp_path: Path
) -> None:
    path = tmp_path / name
    if content is not None:
        path.write_bytes(content)
    done = run("check", path, "--out", tmp_path / "out")
    assert done.exit_code == 2
    assert done.stdout == ""
    problem, remedy = done.stderr.splitlines()
    assert rule in problem
    assert problem.count(name) == 1
    assert remedy.startswith("  try: ")
    assert not (tmp_path / "out").exists()


def test_a_folder_with_the_name_of_a_scan_is_a_car(tmp_path: Path) -> None:
    car = tmp_path / "dunlin.stl"
    shutil.copytree(DUNLIN, car)
    done = run("check", car, "--out", tmp_path / "out")
    assert done.exit_code == 0
    assert "litres" in done.stdout


def test_nothing_fits_is_exit_status_one_and_says_why(tmp_path: Path) -> None:
    done = run("layout", DUNLIN, "--module", ROOT / "modules" / "crane-88.toml", "--out", tmp_path)
    assert done.exit_code == 1
    assert done.stdout == ""
    assert "No number of modules in series" in done.stderr
    assert not any(tmp_path.iterdir())


def test_compare_tells_a_reason_where_nothing_fits(tmp_path: Path) -> None:
    words: list[str | Path] = [
        "--module",
        ROOT / "modules" / "crane-88.toml",
        "--module",
        HERON,
        "--out",
        tmp_path,
    ]
    done = run("compare", DUNLIN, *words)
    assert done.exit_code == 0
    rows = (tmp_path / "dunlin-850" / "compare.csv").read_text(encoding="utf-8").splitlines()
    assert len(rows) == 3
    assert "No number of modules in series" in done.stdout


def test_wrong_input_is_exit_status_two_with_every_problem_at_once(tmp_path: Path) -> None:
    car = tmp_path / "dunlin"
    shutil.copytree(DUNLIN, car)
    front = car / "front.toml"
    front.write_text(front.read_text().replace("floor = 300.0", "floor = 700.0"))
    rear = car / "rear.toml"
    rear.write_text(rear.read_text().replace("floor =", "flor ="))
    done = run("build", car, "--module", "no-such-module", "--out", tmp_path / "out")
    assert done.exit_code == 2
    assert done.stdout == ""
    assert "front.toml: survey.floor: must be below top 640 (got 700)" in done.stderr
    assert "flor" in done.stderr
    assert "floor" in done.stderr
    assert "no-such-module" in done.stderr
    assert not (tmp_path / "out").exists()


def test_without_box_rules_there_is_a_layout_but_no_build(tmp_path: Path) -> None:
    car = tmp_path / "dunlin"
    shutil.copytree(DUNLIN, car)
    text = (car / "car.toml").read_text()
    (car / "car.toml").write_text(text[: text.index("[box]")])
    assert run("layout", car, "--module", HERON, "--out", tmp_path / "out").exit_code == 0
    done = run("build", car, "--module", HERON, "--out", tmp_path / "other")
    assert done.exit_code == 2
    assert "box" in done.stderr
    assert not (tmp_path / "other").exists()


def test_results_that_cannot_land_leave_nothing(tmp_path: Path) -> None:
    (tmp_path / "out").write_text("a file in the way")
    done = run("layout", DUNLIN, "--module", HERON, "--out", tmp_path / "out")
    assert done.exit_code == 2
    assert "in the way" in done.stderr


def spoiled(number: int) -> tuple[str, str]:
    """Which file of the demo, and its text with one thing wrong, different for every number."""
    chance = random.Random(number)
    name = chance.choice(["car.toml", "front.toml", "rear.toml", "heron-44.toml"])
    source = Path(HERON) if name.startswith("heron") else DUNLIN / name
    lines = source.read_text(encoding="utf-8").splitlines()
    place = chance.choice([k for k, line in enumerate(lines) if "=" in line])
    key, _, value = lines[place].partition("=")
    junk = chance.choice(["nan", "-1e300", "[]", '""', "true", "{}", "1979-05-27", "[[1, 2], [3]]", "inf"])
    half = value[: len(value) // 2]
    lines[place] = chance.choice([f"{key}= {junk}", f"{key.strip()}x ={value}", f"{key}={half}"])
    return name, "\n".join(lines) + "\n"


@pytest.mark.parametrize("number", range(40))
def test_forty_spoiled_files_give_messages_and_no_traceback(number: int, tmp_path: Path) -> None:
    name, text = spoiled(number)
    car = tmp_path / "bays" / "dunlin"
    shutil.copytree(DUNLIN, car)
    module = tmp_path / "heron-44.toml"
    shutil.copy(HERON, module)
    (module if name.startswith("heron") else car / name).write_text(text, encoding="utf-8")
    done = run("layout", car, "--module", module, "--out", tmp_path / "out")
    assert done.exit_code in (0, 1, 2), done.exception
    assert done.exception is None or isinstance(done.exception, SystemExit)
    assert "Traceback" not in done.stderr
    if done.exit_code == 2:
        assert name in done.stderr
        assert "try:" in done.stderr
        assert not (tmp_path / "out").exists()


def test_the_readme_starts_with_two_commands_of_one_line() -> None:
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    blocks = [block.split("```")[0].strip() for block in text.split("```sh\n")[1:]]
    assert all("\n" not in block for block in blocks[:2])
    assert "boxfit build" in blocks[0]
    assert "pytest" in blocks[1]


def test_the_project_file_is_sound() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    assert project["scripts"] == {"boxfit": "boxfit.cli:main"}


def test_the_example_in_the_readme_is_what_the_main_job_gives(results: Path) -> None:
    for name in ("layout.json", "summary.txt"):
        assert (ROOT / "out" / "example" / name).read_bytes() == (results / name).read_bytes(), name


def test_every_file_of_the_main_job_is_told_of_in_the_readme(results: Path) -> None:
    left_out = {"papers.pdf", "limits.csv", "print-pieces.csv"}  # of other commands, and of printed boxes
    told, there = told_files(), files_in(results)
    assert [path for path in there if not any(re.fullmatch(name, path) for name in told)] == []
    missing = {name for name in told if not any(re.fullmatch(name, path) for path in there)}
    within = {name for name in missing if not name.startswith(re.escape("../"))}
    assert within == {re.escape(name) for name in left_out}


def test_the_bays_in_the_readme_are_read(tmp_path: Path) -> None:
    """Every bay file shown there, its pieces put together, passes the check."""
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    small, sections, scan, keepouts = (block.split("```")[0] for block in text.split("```toml\n")[1:5])
    scanned = (SCAN.parent / "front.toml").read_text(encoding="utf-8")
    opening = scanned[scanned.index("[opening]") : scanned.index("[[keepout]]")]
    bays = (small, f'name = "sections"\n{sections}\n{opening}{keepouts}', f'name = "scan"\n{scan}\n{opening}')
    shutil.copy(SCAN, tmp_path)
    save_stl(block_surface(Block((0.0, 0.0, 0.0), (60.0, 20.0, 20.0))), tmp_path / "linkage.stl")
    names = [f"bay-{place}.toml" for place in range(3)]
    for name, bay in zip(names, bays, strict=True):
        (tmp_path / name).write_text(bay, encoding="utf-8")
    car = (SCAN.parent / "car.toml").read_text(encoding="utf-8")
    (tmp_path / "car.toml").write_text(car.replace('["front.toml", "rear.toml"]', json.dumps(names)))
    done = run("check", tmp_path, "--out", tmp_path / "out")
    assert done.exit_code == 0, done.stderr
    assert "the distance taped as 673.0 mm measures" in done.stdout


def test_every_file_of_the_main_job_is_known_by_its_name_too(results: Path) -> None:
    """So that results of before there were records are known."""
    there = [name for name in files_in(results) if name != "made-from.json"]
    assert len(there) > 80
    known = record_in(results.parent, there)
    assert sorted(name for one in known.values() for name in one.names) == there
    assert set(known) == {"build", "build --for cut-shop", "build --for print-shop"}


def test_the_record_tells_of_every_file(results: Path) -> None:
    record = record_in(results, ())
    told = {name: number for one in record.values() for name, number in one.names.items()}
    there = {name: digest(path.read_bytes()) for name, path in files_in(results).items()}
    del there["made-from.json"]
    assert told == there


def test_layout_and_limits_after_build_leave_what_build_wrote(results: Path, tmp_path: Path) -> None:
    shutil.copytree(results, tmp_path / "dunlin-850" / "heron-44")
    before = files_in(results)
    mine = tmp_path / "dunlin-850" / "heron-44" / "offer.txt"
    mine.write_text("mine", encoding="utf-8")
    done = run("layout", DUNLIN, "--module", HERON, "--out", tmp_path)
    assert (done.exit_code, "removed" in done.stderr) == (0, False)
    assert set(files_in(mine.parent)) == {*before, "offer.txt"}

    car = shutil.copytree(DUNLIN, tmp_path / "bays" / "dunlin-850")
    text = (car / "car.toml").read_text(encoding="utf-8")
    (car / "car.toml").write_text(text.replace("mass = 75.0", "mass = 76.0", 1), encoding="utf-8")
    done = run("layout", car, "--module", HERON, "--out", tmp_path)
    assert done.exit_code == 0
    assert re.search(r"^removed assembly.csv and \d+ more: made from other files$", done.stderr, re.MULTILINE)
    assert set(files_in(mine.parent)) == {"layout.json", "made-from.json", "offer.txt"}
