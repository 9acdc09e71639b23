"""Timing: the best of a few runs, fresh processes, and a plain table of ratios.

Seconds alone say little of a machine that is shared; each measured time stands beside a reference of the
same run, and only the ratio is judged.
"""

import subprocess
import sys
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from time import perf_counter

ROOT = Path(__file__).parents[2]
LINE = "{:<32} {:<24} {:>13} {:>9} {:>7} {:>5}"
LONG_ENOUGH = 16.0
"""Once runs have taken this long together [s], no further run is made."""


@dataclass(frozen=True)
class Measured:
    """One row: times [s] of a reference and of ours, and the greatest ratio that is good enough."""

    what: str
    reference_name: str
    reference: float
    ours: float
    aim: float

    @property
    def ratio(self) -> float:
        """Ours over the reference [-]."""
        return self.ours / self.reference


def best_of(repeats: int, run: Callable[[], object]) -> float:
    """The least time [s] of a few runs: what the machine takes when nothing else asks for it."""
    times: list[float] = []
    while len(times) < repeats and sum(times) < LONG_ENOUGH:
        start = perf_counter()
        run()
        times.append(perf_counter() - start)
    return min(times)


def fresh_python(arguments: Sequence[str]) -> str:
    """What a new interpreter prints for these arguments; raises CalledProcessError where it fails."""
    command = [sys.executable, *arguments]
    return subprocess.run(command, cwd=ROOT, check=True, capture_output=True, text=True).stdout


@lru_cache
def bare_import(package: str) -> float:
    """Time [s] of a new interpreter that imports the package and does nothing else; measured once a run."""
    return best_of(5, lambda: fresh_python(["-c", f"import {package}"]))


def told(row: Measured) -> float:
    """The ratio [-] of a row, after the row is printed."""
    times = (f"{row.reference:.3f}", f"{row.ours:.3f}")
    _print_line(row.what, row.reference_name, *times, f"{row.ratio:.4f}", f"{row.aim:g}")
    return row.ratio


def told_ratio(what: str, ratio: float, aim: float) -> float:
    """A ratio [-] drawn from rows already told, after it is printed."""
    _print_line(what, "", "", "", f"{ratio:.4f}", f"{aim:g}")
    return ratio


@lru_cache
def _print_head() -> None:
    print()
    print(LINE.format("what", "reference", "reference [s]", "ours [s]", "ratio", "aim"))


def _print_line(*cells: str) -> None:
    _print_head()
    print(LINE.format(*cells))
