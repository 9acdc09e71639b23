"""Module files by the folder, or one of them: every one read, all problems of all files at once."""

from pathlib import Path

from boxfit.files.module import read_module
from boxfit.files.problems import InputError, Problem
from boxfit.files.shown import plain
from boxfit.files.toml import read_table
from boxfit.module import Module

_CAR_FILE = "car.toml"
_NO_MODULE = {"survey": "a bay's file", "bays": "a car's file"}
"""Keys that only another kind of file has."""


def is_modules(path: Path) -> bool:
    """Whether modules are meant where a car's folder may be: TOML, with no car.toml there."""
    try:
        if path.is_dir():
            return not (path / _CAR_FILE).exists() and any(path.glob("*.toml"))
        return path.suffix == ".toml" and path.is_file() and not (path.parent / _CAR_FILE).exists()
    except (OSError, ValueError):
        return False


def read_modules(path: Path) -> tuple[Module, ...]:
    """The modules of a folder, by file name, or the one in a file.

    Raises InputError with everything that is wrong in all of the files.
    """
    problems: list[Problem] = []
    modules: list[Module] = []
    for each in sorted(path.glob("*.toml")) if path.is_dir() else [path]:
        try:
            _refuse_other_kinds(each)
            modules.append(read_module(each))
        except InputError as error:
            problems.extend(error.problems)
    if problems:
        raise InputError(problems)
    return tuple(modules)


def _refuse_other_kinds(path: Path) -> None:
    """One problem for a file of a car in place of one for each of its keys."""
    raw = read_table(path, plain(path.name))
    for key, kind in _NO_MODULE.items():
        if key in raw:
            remedy = "put it into the folder of its car, beside a car.toml, or take it out of this one"
            raise InputError([Problem(plain(path.name), "", f"is {kind}, no module's", None, remedy)])
