"""README as a newcomer follows it: every command it shows runs as it stands there, in its order."""

import contextlib
import re
import shlex
import shutil
from pathlib import Path

import pytest
import typer
from typer.testing import CliRunner, Result

from boxfit.cli import app
from tests.readme import ROOT, shown_commands, table_of

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

SHORTER = {"limits": "--seconds 2"}
"""Commands that search for as long as they may."""

Ran = dict[str, Result]


def typed(command: str) -> str:
    """The command with something for its words in capitals.

    >>> typed("boxfit build CAR --module M")
    'boxfit build bays/yours --module heron-44'
    """
    for word, real in STANDS_FOR.items():
        command = re.sub(rf"(?<= ){re.escape(word)}(?= |$)", real, command)
    return " ".join(command.split())


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
            words = shlex.split(command)[1:] + SHORTER.get(command.split()[1], "").split()
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
