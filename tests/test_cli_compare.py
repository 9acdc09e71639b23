"""boxfit compare by its words."""

from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from boxfit.cli import app
from tests.jobs.sweeps import SMALL
from tests.samples import write_module

CAR = """\
name = "Dotterel"
bays = ["boot.toml"]
wheelbase = 2000.0
track = { front = 1200.0, rear = 1200.0 }
[electrics]
inverter_voltage = [30.0, 120.0]
[box]
tiers = 1
"""
BOOT = """\
name = "boot"
[survey]
tolerance = 3.0
kind = "block"
low = [-900.0, -250.0, 300.0]
high = [-300.0, 250.0, 480.0]
[opening]
way = "up"
"""
MODULE = f"""\
name = "{SMALL.name}"
size = {{ length = 180.0, width = 120.0, height = 90.0 }}
mass = 4.0
energy = 0.6
capacity = 25.0
voltage = {{ empty = 18.0, nominal = 24.0, full = 28.0 }}
up = ["height"]
spacing = 2.0
price = 100.0
"""


@pytest.fixture
def car(tmp_path: Path) -> Path:
    """A car folder with a module beside it."""
    folder = tmp_path / "bays" / "dotterel"
    folder.mkdir(parents=True)
    (folder / "car.toml").write_text(CAR, encoding="utf-8")
    (folder / "boot.toml").write_text(BOOT, encoding="utf-8")
    write_module(tmp_path / "modules", MODULE)
    return folder


def run(car: Path, *words: str) -> Result:
    module = str(car.parents[1] / "modules" / "heron-44.toml")
    out = str(car.parents[1] / "out")
    return CliRunner().invoke(
        app, ["compare", str(car), "--module", module, "--out", out, "--processes", "1", *words]
    )


def test_variations_stand_side_by_side(car: Path) -> None:
    done = run(
        car, "--vary", "boot.survey.low=[-900.0,-250.0,300.0],[-900.0,-320.0,300.0]", "--sort", "litres"
    )
    assert done.exit_code == 0, done.output
    folder = car.parents[1] / "out" / "dotterel"
    assert done.stderr == f"written: {folder / 'compare.csv'}\n"
    assert "/2: boot.survey.low=[-900.0,-320.0,300.0]" in done.stdout
    assert sorted(path.name for path in folder.iterdir()) == ["compare.csv", "compare.html", "compare.json"]
    assert len((folder / "compare.csv").read_text(encoding="utf-8").splitlines()) == 3


def test_cost_needs_the_price_of_the_sheet_too(car: Path) -> None:
    text = run(car, "--vary", "fold_shop.price={},{ aluminium-5754 = 6.0 }").stdout
    costs = [line.split()[-1] for line in text.split("what it takes and leaves")[1].splitlines()[1:3]]
    assert sorted(cost.isdigit() for cost in costs) == [False, True]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--sort", "corner"), "--sort: is not a known order"),
        (("--vary", "box.shape=steped"), 'try: did you mean "stepped"?'),
        (("--vary", "bot.box.tiers=2"), 'did you mean "boot"?'),
        (("--cluster", "tcp://127.0.0.1:1"), "--cluster: no cluster answers at tcp://127.0.0.1:1"),
    ],
)
def test_wrong_words_are_told_and_nothing_is_written(
    car: Path, words: tuple[str, ...], told: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("boxfit.jobs.on_cluster.PATIENCE", 0.3)
    done = run(car, *words)
    assert done.exit_code == 2
    assert told in done.stderr
    assert done.stdout == ""
    assert not (car.parents[1] / "out").exists()


def test_where_nothing_fits_the_exit_status_is_one_and_the_table_is_written(car: Path) -> None:
    done = run(car, "--vary", "boot.survey.high=[-300.0,250.0,330.0]")
    assert done.exit_code == 1
    assert "where nothing fits" in done.stdout
    assert (car.parents[1] / "out" / "dotterel" / "compare.csv").exists()


def test_an_interrupt_tells_what_is_kept(car: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupted(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("boxfit.jobs.beside.searched", interrupted)
    done = run(car)
    assert done.exit_code == 130
    assert done.stderr == "stopped: 0 of 1 searches are kept; the same command goes on from there\n"
