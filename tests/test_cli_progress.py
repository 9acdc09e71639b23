"""What is shown meanwhile: a bar on a terminal, nothing in a pipe."""

import os
import pty
import subprocess
import sys
from pathlib import Path

from boxfit.cli_progress import usual_processes

ROOT = Path(__file__).parents[1]
SWEEP = """
from boxfit.cli_progress import counted
with counted("searching") as count:
    for done in range(4):
        count(done, 3)
"""


def test_a_terminal_shows_how_much_is_done() -> None:
    """The bar is taken away at the end."""
    mine, its = pty.openpty()
    done = subprocess.run(
        [sys.executable, "-c", SWEEP],
        cwd=ROOT,
        stderr=its,
        stdout=subprocess.PIPE,
        check=True,
        env={**os.environ, "TERM": "xterm", "COLUMNS": "80"},
    )
    os.close(its)
    shown = os.read(mine, 100_000).decode()
    os.close(mine)
    assert "searching" in shown
    assert "3/3" in shown
    assert shown.rstrip().endswith("\x1b[2K")
    assert done.stdout == b""


def test_a_pipe_stays_quiet() -> None:
    done = subprocess.run([sys.executable, "-c", SWEEP], cwd=ROOT, capture_output=True, check=True)
    assert (done.stdout, done.stderr) == (b"", b"")


def test_there_is_a_process_for_every_core_at_hand() -> None:
    assert 1 <= usual_processes() <= (os.cpu_count() or 1)
