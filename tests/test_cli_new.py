"""`boxfit new` and `boxfit check modules/` as a workshop runs them."""

import json
import os
import pty
import shlex
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator
from typer.testing import CliRunner, Result

from boxfit.cli import app

ROOT = Path(__file__).parent.parent
ANSWERS = (
    *("--name", "Our coupé", "--wheelbase", "2180", "--tracks", "1180", "1160"),
    *("--scales", "128", "126.5", "109", "111.5", "--front-share", "0.52", "--inverter", "80", "160"),
    *("--bay", "front bay,prism,up,670,740,340,170,300", "--bay", "rear bay,mesh,up,500,900,300"),
)
AT_A_TERMINAL = (
    "import fcntl, termios; fcntl.ioctl(0, termios.TIOCSCTTY, 0); from boxfit.cli import main; main()"
)
"""Python that runs the command with its stdin as the terminal that Ctrl-C comes from."""


def run(*words: str | Path) -> Result:
    """A command, in this process."""
    return CliRunner().invoke(app, [str(word) for word in words])


def talk(folder: Path, *typed: bytes) -> tuple[int, str]:
    """The command at a terminal of its own, a line typed whenever it asks: exit status and all it shows."""
    terminal, its_own = pty.openpty()
    words = [sys.executable, "-c", AT_A_TERMINAL, "new", str(folder)]
    command = subprocess.Popen(words, stdin=its_own, stdout=its_own, stderr=its_own, start_new_session=True)
    os.close(its_own)
    shown, waiting = b"", list(typed)
    while more := read(terminal):
        shown += more
        if waiting and shown.rstrip().endswith((b"?", b"]", b"yet)")):
            os.write(terminal, waiting.pop(0))
    os.close(terminal)
    return command.wait(), shown.decode()


def read(terminal: int) -> bytes:
    """What is shown next; nothing once the command is over."""
    try:
        return os.read(terminal, 4096)
    except OSError:
        return b""


def test_a_folder_by_options_is_a_place_to_go_on_from(tmp_path: Path) -> None:
    folder = tmp_path / "bays" / "ours"
    done = run("new", folder, *ANSWERS)
    assert (done.exit_code, done.exception) == (0, None), done.stderr
    assert f"then: boxfit check {folder}" in done.stdout
    assert f"written: {folder}" in done.stderr
    names = sorted(str(path.relative_to(folder)) for path in folder.rglob("*") if path.is_file())
    assert names == ["car.toml", "front-bay.toml", "rear-bay.toml", "schemas/bay.json", "schemas/car.json"]
    for name in names[:3]:
        text = (folder / name).read_text(encoding="utf-8")
        schema = folder / text.splitlines()[0].removeprefix("#:schema ")
        Draft202012Validator(json.loads(schema.read_text(encoding="utf-8"))).validate(tomllib.loads(text))
    check = run("check", folder, "--out", tmp_path / "out")
    assert check.exit_code == 0, check.stderr
    assert "car.toml: Our coupé, wheelbase 2180, track 1180 front, 1160 rear mm" in check.stdout
    assert "front bay: survey: 168.6 litres in 670 x 740 x 340 mm" in check.stdout


def test_the_same_answers_give_the_same_bytes(tmp_path: Path) -> None:
    for name in ("one", "two"):
        assert run("new", tmp_path / name / "ours", *ANSWERS).exit_code == 0
    for path in (tmp_path / "one").rglob("*.*"):
        assert path.read_bytes() == (tmp_path / "two" / path.relative_to(tmp_path / "one")).read_bytes()


def test_the_command_in_the_readme_makes_a_folder(tmp_path: Path) -> None:
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    (line,) = [line for line in text.splitlines() if line.strip().startswith("boxfit new bays/yours --")]
    done = run("new", tmp_path / "yours", *shlex.split(line)[3:])
    assert done.exit_code == 0, done.stderr
    assert (tmp_path / "yours" / "front-bay.toml").is_file()


def test_without_a_terminal_what_is_missing_or_wrong_is_told_and_nothing_written(tmp_path: Path) -> None:
    done = run("new", tmp_path / "ours", "--tracks", "1180", "wide")
    assert (done.exit_code, done.stdout) == (2, "")
    assert done.stderr == (
        'boxfit new: --tracks: must be a number from 100 to 5000 mm (got "1180 wide")\n'
        "  try: write for example: --tracks 1180 1160\n"
        "boxfit new: --wheelbase: is missing\n"
        "  try: write for example: --wheelbase 2180\n"
        "boxfit new: --bay: is missing\n"
        '  try: write for example: --bay "front bay,prism,up,670,740,340"\n'
    )
    assert not any(tmp_path.iterdir())


@pytest.mark.parametrize("what", ["folder", "file", "dead link"])
def test_nothing_is_ever_overwritten(what: str, tmp_path: Path) -> None:
    there = tmp_path / "ours"
    if what == "folder":
        there.mkdir()
        (there / "notes.txt").write_text("mine")
    elif what == "file":
        there.write_text("mine")
    else:
        there.symlink_to(tmp_path / "gone")
    done = run("new", there, *ANSWERS)
    assert done.exit_code == 2
    assert f"{there}: is there already; nothing is overwritten" in done.stderr
    assert [path.name for path in tmp_path.rglob("*")] == ["ours", "notes.txt"][
        : 2 if what == "folder" else 1
    ]


def test_a_folder_that_cannot_be_made_leaves_nothing(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    done = run("new", tmp_path / "file" / "ours", *ANSWERS)
    assert done.exit_code == 2
    assert "is in the way of the results" in done.stderr
    assert "--out" not in done.stderr
    done = run("new", tmp_path / "new" / ("x" * 300), *ANSWERS)
    assert done.exit_code == 2
    assert "--out" not in done.stderr
    assert [path.name for path in tmp_path.iterdir()] == ["file"]


def test_an_empty_folder_may_be_filled(tmp_path: Path) -> None:
    assert run("new", tmp_path, *ANSWERS, "--name", "Ours").exit_code == 0
    assert (tmp_path / "car.toml").is_file()


def test_modules_are_reviewed_and_nothing_is_written(tmp_path: Path) -> None:
    done = run("check", ROOT / "modules", "--out", tmp_path / "out")
    assert (done.exit_code, done.stderr) == (0, "")
    assert "heron-44" in done.stdout
    assert "missing or odd: 2" in done.stdout
    alone = run("check", ROOT / "modules" / "heron-44.toml")
    assert alone.exit_code == 0
    assert alone.stdout.endswith("nothing missing, nothing odd\n")
    assert not any(tmp_path.iterdir())


def test_modules_that_are_wrong_are_told_all_at_once(tmp_path: Path) -> None:
    text = (ROOT / "modules" / "heron-44.toml").read_text()
    (tmp_path / "a.toml").write_text(text.replace("peak = 250.0", "peak = 25.0"))
    (tmp_path / "b.toml").write_text(text.replace("mass =", "mas ="))
    done = run("check", tmp_path)
    assert (done.exit_code, done.stdout) == (2, "")
    assert "a.toml: current.peak: must not be below continuous 100 (got 25)" in done.stderr
    assert 'b.toml: mas: is not a known key\n  try: did you mean "mass"?' in done.stderr


def test_a_conversation_at_a_terminal(tmp_path: Path) -> None:
    lines = ["", "2180", "1180 1160", "", "0.5", "160 80", "80 160", "1", "front bay", "", "prism", "up"]
    status, shown = talk(
        tmp_path / "ours", *(f"{line}\n".encode() for line in [*lines, "670", "740", "340", "", ""])
    )
    assert status == 0, shown
    assert "What is the car called? [ours]" in shown
    assert "must be [low, high] with low below high" in shown
    car = tomllib.loads((tmp_path / "ours" / "car.toml").read_text())
    assert (car["name"], car["wheelbase"], "weighed" in car) == ("ours", 2180.0, False)
    assert (tmp_path / "ours" / "front-bay.toml").is_file()


@pytest.mark.parametrize(("key", "status", "told"), [(b"\x03", 130, "stopped"), (b"\x04", 2, "ended early")])
def test_a_conversation_broken_off_writes_nothing(key: bytes, status: int, told: str, tmp_path: Path) -> None:
    ended, shown = talk(tmp_path / "ours", b"\n", b"2180\n", key)
    assert (ended, told in shown) == (status, True), shown
    assert not any(tmp_path.iterdir())
