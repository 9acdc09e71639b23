"""README as a newcomer follows it: every command it shows runs as it stands there, in its order."""

import contextlib
import re
import shlex
import shutil
import tomllib
from pathlib import Path

import pytest
import typer
from jsonschema import Draft202012Validator
from typer.testing import CliRunner, Result

from boxfit.cli import app
from boxfit.files.schema import KINDS, schema_of
from tests.readme import FENCE, README, ROOT, named_files, shown_commands, table_of, told_files

STANDS_FOR = {
    "CAR": "bays/yours",
    "M": "heron-44",
    "SCAN": "bays/dunlin-850-scan/front.ply",
    "front.ply": "bays/dunlin-850-scan/front.ply",
    "FOLDER": "bays/another --wheelbase 2180 --tracks 1180 1160 --bay boot,block,up,600,800,300",
    "FL FR RL RR": "183 176 160 159",
}
"""What is typed in place of README's words in capitals, and of a file that lies elsewhere."""

NOT_RUN = {
    "boxfit build bays/dunlin-850 --module heron-44": "the main job; tests/test_cli.py builds it, twice",
    "boxfit build CAR --module M": "the walk's build does the same and a parcel",
    "boxfit new bays/yours": "asks; tests/test_cli_new.py answers it at a terminal",
}
"""Commands that others here or elsewhere run."""

LEFT_OUT = {r"print\-shop\.zip", r"print\-pieces\.csv"}
"""Files that the walk's build of a folded box for the cut shop leaves out."""

BESIDES = {
    "compare": "--seconds 1",
    "limits": "--seconds 3",
}
"""Options for commands that search for as long as they may."""

Ran = dict[str, Result]


def typed(command: str) -> str:
    """The command with something for its words in capitals.

    >>> typed("boxfit build CAR --module M")
    'boxfit build bays/yours --module heron-44'
    """
    for word, real in STANDS_FOR.items():
        command = re.sub(rf"(?<= ){re.escape(word)}(?= |$)", real, command)
    return " ".join(command.split())


TABLES = tuple(block[2] for block in FENCE.finditer(README) if block[1] == "toml")
TO_RUN = tuple(dict.fromkeys(typed(told) for told in shown_commands() if told not in NOT_RUN))


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Where the commands are run: the demo cars and modules, nothing else."""
    folder = tmp_path_factory.mktemp("clone")
    for part in ("bays", "modules"):
        shutil.copytree(ROOT / part, folder / part)
    return folder


@pytest.fixture(scope="module")
def ran(folder: Path) -> Ran:
    """What came of each command; all are run in this process, one after the other."""
    came: Ran = {}
    with contextlib.chdir(folder):
        for command in TO_RUN:
            words = shlex.split(command)[1:] + BESIDES.get(command.split()[1], "").split()
            came[command] = CliRunner().invoke(app, words)
    return came


@pytest.mark.parametrize("command", TO_RUN)
def test_a_command_shown_does_what_it_says(command: str, ran: Ran) -> None:
    assert ran[command].exit_code == 0, ran[command].output
    assert "Traceback" not in ran[command].output


def test_what_is_not_run_is_shown() -> None:
    """No exception outlives its command."""
    assert set(NOT_RUN) <= set(shown_commands())
    assert all(re.search(rf"\b{word}\b", "\n".join(shown_commands())) for word in STANDS_FOR)


def test_every_command_stands_in_the_table() -> None:
    shown = {row[0].split()[1] for row in table_of("## The commands")}
    assert shown == set(typer.main.get_command(app).commands)  # type: ignore[attr-defined]


def test_every_file_told_is_written(folder: Path, ran: Ran) -> None:
    """Of those in the table of files, each by the walk through README."""
    assert all(came.exit_code == 0 for came in ran.values())
    there = walked(folder / "out" / "yours")
    missing = [name for name in told_files() if not any(re.fullmatch(name, path) for path in there)]
    assert set(missing) == LEFT_OUT


def test_every_file_written_is_told(folder: Path, ran: Ran) -> None:
    assert ran
    there = walked(folder / "out" / "yours")
    assert len(there) > 50
    assert [path for path in there if not any(re.fullmatch(name, path) for name in told_files())] == []


def test_files_named_by_the_walk_and_by_the_table_of_commands_are_there(folder: Path, ran: Ran) -> None:
    assert ran
    walk = README.split("## From tape measure", 1)[1].split("\n## ", 1)[0]
    cells = [row[1] for row in table_of("## The commands") if "writes nothing" not in row[1]]
    told = [name for text in (walk, *cells) for name in named_files(text)]
    assert len(told) > 8
    there = [str(path.relative_to(folder)) for path in folder.rglob("*") if path.is_file()]
    assert [name for name in told if not any(re.search(rf"(^|/){name}$", path) for path in there)] == []


def test_pictures_and_pages_that_readme_leads_to_are_there() -> None:
    led_to = re.findall(r"\]\(([^)]+)\)", README)
    assert len(led_to) >= 3
    assert [name for name in led_to if not (ROOT / name).is_file()] == []


@pytest.mark.parametrize("table", TABLES)
def test_keys_shown_are_those_of_a_file(table: str) -> None:
    """Of a car's, a bay's or a module's, keys that a part of a file leaves out apart."""
    shown = tomllib.loads(table)
    wrong = {
        kind: [
            error.message
            for error in Draft202012Validator(schema_of(kind)).iter_errors(shown)
            if error.validator != "required" or error.path
        ]
        for kind in KINDS
    }
    assert [] in wrong.values(), wrong


def walked(results: Path) -> list[str]:
    """What README's commands wrote for the new car, as seen from the layout's folder."""
    inner = results / "heron-44"
    paths = [path for path in sorted(results.rglob("*")) if path.is_file()]
    return [
        str(path.relative_to(inner)) if path.is_relative_to(inner) else f"../{path.relative_to(results)}"
        for path in paths
    ]
