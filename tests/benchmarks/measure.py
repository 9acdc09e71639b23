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
LONG_ENOUGH = 8.0
"""Once runs have taken this long together [s], no further run is made."""


@dataclass(frozen=True)
class Measured:
    """One row: times [s] of a reference and of ours, and the greatest ratio of the two that is good enough."""

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


@lru_cache
def _print_head() -> None:
    print(f"\n{'what':<40} {'reference':<26} {'reference [s]':>13} {'ours [s]':>9} {'ratio':>7} {'aim':>6}")


def told(row: Measured) -> float:
    """The ratio [-], after its row is printed."""
    _print_head()
    times = f"{row.reference:>13.3f} {row.ours:>9.3f}"
    print(f"{row.what:<40} {row.reference_name:<26} {times} {row.ratio:>7.4f} {row.aim:>6.2f}")
    return row.ratio
