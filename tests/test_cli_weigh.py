"""`boxfit weigh` as a workshop runs it: the forecast found again, the answer, wrong readings."""

import json
import re
import shutil
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from boxfit.cli import app
from tests.samples import changed

ROOT = Path(__file__).parent.parent
HERON = str(ROOT / "modules" / "heron-44.toml")
DUNLIN = ROOT / "bays" / "dunlin-850"


def run(*words: str | float | Path) -> Result:
    """A command, in this process."""
    return CliRunner().invoke(app, [str(word) for word in words])


@pytest.fixture(scope="module")
def laid(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Results of the search alone."""
    out = tmp_path_factory.mktemp("laid")
    assert run("layout", DUNLIN, "--module", HERON, "--out", out).exit_code == 0
    return out


@pytest.fixture
def out(laid: Path, tmp_path: Path) -> Path:
    """The same with masses of two made boxes beside it, copied so that it may be spoilt."""
    shutil.copytree(laid, tmp_path / "out")
    boxes = [
        {"name": "front bay box 1", "with_modules": {"mass": 44.0, "centre": [-320.0, 70.0, 430.0]}},
        {"name": "rear bay box 1", "with_modules": {"mass": 82.0, "centre": [-1690.0, 13.0, 540.0]}},
    ]
    (tmp_path / "out" / "dunlin-850" / "heron-44" / "mass.json").write_text(json.dumps({"boxes": boxes}))
    return tmp_path / "out"


def forecast(done: Result) -> list[float]:
    """The four wheels of the row that holds the forecast."""
    (row,) = (line for line in done.stdout.splitlines() if line.startswith("  forecast  ") and len(line) > 60)
    return [float(word) for word in row.split()[1:5]]


def test_readings_as_forecast_agree(out: Path) -> None:
    wheels = forecast(run("weigh", DUNLIN, "--module", HERON, "--out", out, "--scales", 180, 180, 160, 160))
    done = run("weigh", DUNLIN, "--out", out, "--scales", *wheels)
    assert done.exit_code == 0
    assert "AGREES: every wheel within 2 kg" in done.stdout
    assert "every part weighed" in done.stdout
    assert "working aid" in done.stdout
    assert sum(wheels) == pytest.approx(475.0 + 54.0 + 21.0 + 44.0 + 82.0, abs=0.3)
    assert max(map(len, done.stdout.splitlines())) <= 100


def test_a_heavy_box_is_hinted_at_with_its_modules(out: Path) -> None:
    """By hand: 11.6 kg at x -1690, y 13: 22.48 % of it in front, 11 mm to 60 each side of the track."""
    wheels = forecast(run("weigh", DUNLIN, "--module", HERON, "--out", out, "--scales", 180, 180, 160, 160))
    front, rear = 11.6 * (1 - 1690 / 2180), 11.6 * 1690 / 2180
    extra = (
        *(front * (0.5 + side * 13 / 1180) for side in (1, -1)),
        *(rear * (0.5 + side * 13 / 1160) for side in (1, -1)),
    )
    read = [one + more for one, more in zip(wheels, extra, strict=True)]
    done = run("weigh", DUNLIN, "--out", out, "--scales", *read)
    words = " ".join(done.stdout.split())
    assert done.exit_code == 0
    assert "DOES NOT AGREE within 2 kg: rear left +4.6 kg, rear right +4.4 kg;" in words
    assert re.search(
        r"- rear bay box 1: heavier by 11\.\d kg \(about 1 module of 11\.6 kg\); leaves 0\.[01] kg", words
    )
    assert re.search(r"or 11\.\d kg not listed: it would lie 1[67]\d\d mm behind the front axle", words)


def test_who_was_aboard_is_in_the_forecast(out: Path) -> None:
    bare = forecast(run("weigh", DUNLIN, "--out", out, "--scales", 180, 180, 160, 160))
    done = run(
        "weigh", DUNLIN, "--out", out, "--scales", 190, 205, 170, 195, "--with", "driver", "--with", "luggage"
    )
    assert sum(forecast(done)) - sum(bare) == pytest.approx(100.0, abs=0.3)
    assert "aboard          driver, luggage" in done.stdout
    assert "with driver, target 0.52" in done.stdout


def test_wheels_mixed_up_and_a_plate_overrun_are_told(out: Path) -> None:
    wheels = forecast(run("weigh", DUNLIN, "--out", out, "--scales", 180, 180, 160, 160))
    turned = run("weigh", DUNLIN, "--out", out, "--scales", *wheels[2:], *wheels[:2])
    assert "those of rear left, rear right, front left, front right, in this order" in " ".join(
        turned.stdout.split()
    )
    heavy = run("weigh", DUNLIN, "--out", out, "--scales", *(wheel + 45.0 for wheel in wheels))
    assert heavy.exit_code == 0
    assert "limit 950: OVER by" in heavy.stdout


def test_masses_that_are_not_there_are_told(laid: Path) -> None:
    done = run("weigh", DUNLIN, "--out", laid, "--scales", 180, 180, 160, 160)
    assert done.exit_code == 0
    assert "boxes as the search weighs them" in " ".join(done.stdout.split())


def test_without_results_it_is_laid_out_anew_and_nothing_is_written(tmp_path: Path) -> None:
    done = run("weigh", DUNLIN, "--module", HERON, "--out", tmp_path, "--scales", 180, 180, 160, 160)
    assert (done.exit_code, list(tmp_path.iterdir())) == (0, [])
    assert "laid out anew" in done.stdout


def test_results_of_other_files_are_told(out: Path, tmp_path: Path) -> None:
    shutil.copytree(DUNLIN, tmp_path / "dunlin-850")
    path = tmp_path / "dunlin-850" / "car.toml"
    path.write_text(changed(path.read_text(), "mass = 54.0", "mass = 94.0"))
    done = run("weigh", path.parent, "--module", HERON, "--out", out, "--scales", 180, 180, 160, 160)
    assert "layout.json does not suit the car's files as they are now" in " ".join(done.stdout.split())


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--scales", 180, 180, 160), "requires 4 arguments"),
        (("--scales", 180, 180, 160, "--module", "x"), "needs four numbers"),
        (("--scales", "180,5", 180, 160, 160), "'180,5' is none"),
        (("--scales", 180, 180, 160, -160), "--scales: rear right: must be a number from 0.001 to 20000 kg"),
        (("--scales", 0, "inf", "nan", 160), "--scales: rear left: must be a number"),
        (("--scales", 400, 390, 350, 350), "as pounds these would be 676 kg"),
        (("--scales", 1, 1, 1, 1), "must add up to between half and twice the forecast"),
        (("--scales", 180, 180, 160, 160, "--with", "drivr"), 'did you mean "driver"?'),
        ((), "Missing option '--scales'"),
    ],
)
def test_wrong_readings_are_told(words: tuple[str | float, ...], told: str, out: Path) -> None:
    done = run("weigh", DUNLIN, "--out", out, *words)
    assert done.exit_code == 2
    assert told in " ".join(done.stderr.split())


def test_a_module_must_be_named_where_results_hold_none_or_two(out: Path, tmp_path: Path) -> None:
    scales = ("--scales", 180, 180, 160, 160)
    none = run("weigh", DUNLIN, "--out", tmp_path / "nowhere", *scales)
    assert none.exit_code == 2
    assert "no results of this car lie in" in none.stderr
    shutil.copytree(out / "dunlin-850" / "heron-44", out / "dunlin-850" / "wren-22")
    two = run("weigh", DUNLIN, "--out", out, *scales)
    assert two.exit_code == 2
    assert "holds results for heron-44, wren-22" in two.stderr
    wrong = run("weigh", DUNLIN, "--out", out, "--module", ROOT / "modules" / "wren-22.toml", *scales)
    assert wrong.exit_code == 2
    assert "a layout of Heron 44 in Dunlin 850, not of" in wrong.stderr


@pytest.mark.parametrize("file", ["layout.json", "mass.json"])
@pytest.mark.parametrize(
    "text", ["", "[]", "[" * 100_000, '{"boxes": [{"name": 3}]}', '{"boxes": []}', "\x00"]
)
def test_damaged_results_are_told(file: str, text: str, out: Path) -> None:
    (out / "dunlin-850" / "heron-44" / file).write_text(text)
    done = run("weigh", DUNLIN, "--out", out, "--module", HERON, "--scales", 180, 180, 160, 160)
    assert done.exit_code == 2
    assert f"{file}: is not what build wrote for this car and module" in done.stderr


def test_everything_wrong_is_told_at_once(tmp_path: Path) -> None:
    shutil.copytree(DUNLIN, tmp_path / "dunlin-850")
    path = tmp_path / "dunlin-850" / "car.toml"
    path.write_text(changed(path.read_text(), "wheelbase = 2180.0", "wheelbase = -1"))
    done = run("weigh", path.parent, "--module", "hern", "--scales", 180, 180, 160, -1)
    assert done.exit_code == 2
    for place in ("--scales: rear right:", "car.toml: wheelbase:", "hern: there is no such module file"):
        assert place in done.stderr


def test_a_car_that_was_not_weighed_has_no_forecast(tmp_path: Path) -> None:
    shutil.copytree(DUNLIN, tmp_path / "dunlin-850")
    path = tmp_path / "dunlin-850" / "car.toml"
    text = path.read_text()
    start, end = text.index("[weighed]"), text.index("[[fitted]]")
    path.write_text(text[:start] + text[end:])
    done = run("weigh", path.parent, "--module", HERON, "--scales", 180, 180, 160, 160)
    assert done.exit_code == 2
    assert "car.toml: weighed: is missing: without the stripped car's readings" in done.stderr
