"""The commands as a workshop runs them: exit states, messages, files whole or not at all, same bytes."""

import hashlib
import json
import os
import random
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from boxfit.cli import app
from boxfit.files.together import read_together
from boxfit.judge.layout import judge_layout

ROOT = Path(__file__).parent.parent
HERON = str(ROOT / "modules" / "heron-44.toml")
DUNLIN = ROOT / "bays" / "dunlin-850"
ROUGHLY_EVERY_KIND = ("step", "stl", "glb", "json", "csv", "svg", "png", "txt")


def run(*words: str | Path) -> Result:
    """A command, in this process."""
    return CliRunner().invoke(app, [str(word) for word in words])


def built(out: Path, seed: str) -> Path:
    """The main job in a process of its own; the folder of results."""
    words = [sys.executable, "-m", "boxfit.cli", "build", str(DUNLIN), "--module", HERON, "--out", str(out)]
    subprocess.run(
        words, check=True, cwd=ROOT, env={**os.environ, "PYTHONHASHSEED": seed}, capture_output=True
    )
    return out / "dunlin-850" / "heron-44"


@pytest.fixture(scope="module")
def results(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The main job's results."""
    return built(tmp_path_factory.mktemp("first"), "1")


def test_build_writes_every_kind_of_file(results: Path) -> None:
    kinds = {path.suffix[1:] for path in results.iterdir()}
    assert kinds == set(ROUGHLY_EVERY_KIND)
    names = {path.name for path in results.iterdir()}
    for part in ("tray", "lid", "cover-plate"):
        assert {f"front-bay-box-1-{part}.step", f"front-bay-box-1-{part}.stl"} <= names
    assert {"front-bay-box-1-shelf-1.step", "assembly.step", "assembly.glb", "mass.json", "mass.csv"} <= names
    assert {f"{view}.{kind}" for view in ("plan", "side", "rear") for kind in ("svg", "png")} <= names


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
        {path.name: hashlib.sha256(path.read_bytes()).hexdigest() for path in sorted(folder.iterdir())}
        for folder in (results, again)
    ]
    assert digests[0] == digests[1]


def test_cautions_come_with_the_summary(results: Path) -> None:
    text = (results / "summary.txt").read_text(encoding="utf-8")
    for word in ("High voltage", "Lifting", "Fire", "Crash", "Welding", "working aid"):
        assert word in text


def test_layout_writes_layout_json_alone(tmp_path: Path) -> None:
    done = run("layout", DUNLIN, "--module", HERON, "--out", tmp_path)
    assert done.exit_code == 0
    assert [path.name for path in (tmp_path / "dunlin-850" / "heron-44").iterdir()] == ["layout.json"]
    assert "9 modules, 3 in series x 3 parallel" in done.stdout
    assert "written" in done.stderr


def test_check_tells_litres_and_draws_the_bays(tmp_path: Path) -> None:
    done = run("check", DUNLIN, "--out", tmp_path)
    assert done.exit_code == 0
    assert "litres" in done.stdout
    drawn = {path.name for path in (tmp_path / "dunlin-850" / "survey").iterdir()}
    assert drawn == {f"{bay}-bay.{kind}" for bay in ("front", "rear") for kind in ("svg", "png")}


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
