"""What searches found, kept by content: the same car and module are not searched again by the same program.

Each finding is a file of its own, whole or not there, under the number that stands for everything read of car
and module and for the program itself. Prices are left out of it: they change no layout.
"""

import json
from dataclasses import dataclass, replace
from functools import lru_cache
from hashlib import sha256
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

from boxfit.car import Car
from boxfit.files.made_from import fingerprint
from boxfit.files.results import write_whole
from boxfit.module import Module

KEPT = ".kept"
"""The folder's name among the results."""
_SOLVERS = ("numpy", "ortools", "scipy", "shapely")
"""Packages whose other versions may find another layout that is as good."""

AFTER_THE_SEARCH = frozenset({"box", "papers", "report", "sheet", "solid"})
"""Parts of the program that no search goes through; tests/test_architecture.py holds them out of it."""

Data = dict[str, object]


@dataclass(frozen=True)
class Finding:
    """What one search found: a layout as layout.json has it, else the reasons why nothing fits.

    `ended` is the time [s] after which the search was ended before it was done, None where it was done.
    """

    layout: Data | None
    reasons: tuple[str, ...] = ()
    ended: float | None = None

    def serves(self, seconds: float) -> bool:
        """Whether a search of so many seconds [s] need not be made."""
        return self.ended is None or seconds <= self.ended


def text_mark(without: frozenset[str] = frozenset()) -> str:
    """A number that stands for the program's own text, some of its parts left out."""
    known = sha256()
    package = Path(__file__).parents[1]
    for path in sorted(package.rglob("*.py")):
        place = path.relative_to(package)
        if place.parts[0] not in without:
            known.update(f"{place.as_posix()}\0".encode())
            known.update(sha256(path.read_bytes()).digest())
    return known.hexdigest()


@lru_cache(maxsize=1)
def program_mark() -> str:
    """A number that stands for all that searches here: the program's own text, and the packages it uses."""
    known = sha256(text_mark(AFTER_THE_SEARCH).encode())
    for name in _SOLVERS:
        known.update(f"{name} {_version(name)}\0".encode())
    return known.hexdigest()


def _version(package: str) -> str:
    try:
        return version(package)
    except PackageNotFoundError:
        return "of unknown version"


def mark_of_car(car: Car) -> str:
    """The number that stands for what was read of a car, prices apart."""
    bays = tuple(
        replace(bay, box=replace(bay.box, fold_shop=replace(bay.box.fold_shop, prices=())))
        for bay in car.bays
    )
    return fingerprint(replace(car, bays=bays))


def mark_of_module(module: Module) -> str:
    """The number that stands for what was read of a module, its price apart."""
    return fingerprint(replace(module, price=None))


def key_of_search(of_car: str, of_module: str) -> str:
    """The number that stands for a search by this program, from the marks of a car and a module."""
    return sha256(f"{of_car} {of_module} {program_mark()}".encode()).hexdigest()


class Kept:
    """The findings kept in a folder."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder

    def found(self, key: str) -> Finding | None:
        """What was kept under the key; None where there is nothing, or it is damaged."""
        try:
            told = json.loads(self._file(key).read_bytes())
            finding = Finding(told["layout"], tuple(told["reasons"]), told["ended"])
        except (OSError, ValueError, RecursionError, TypeError, KeyError):
            return None
        return finding if told.get("check") == _check(key, finding) else None

    def keep(self, key: str, finding: Finding) -> None:
        """Keeps a finding under the key. Raises InputError where it cannot be written."""
        told = {**_as_data(finding), "check": _check(key, finding)}
        write_whole(self._file(key), (json.dumps(told, ensure_ascii=False, allow_nan=False) + "\n").encode())

    def _file(self, key: str) -> Path:
        return self._folder / f"{key}.json"


def _as_data(finding: Finding) -> Data:
    return {"layout": finding.layout, "reasons": list(finding.reasons), "ended": finding.ended}


def _check(key: str, finding: Finding) -> str:
    """A number over all of a finding and its key, so that whatever was damaged or renamed is told apart."""
    text = json.dumps(_as_data(finding), ensure_ascii=False, sort_keys=True)
    return sha256(f"{key}\n{text}".encode()).hexdigest()
