"""A car and modules read in one go, so that every problem of all the files is told at once."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TypeVar

from boxfit.car import Car
from boxfit.files.car import CAR_FILE, read_car
from boxfit.files.folder import all_modules, find_module
from boxfit.files.module import read_module
from boxfit.files.problems import InputError, Problem
from boxfit.files.scans import Scans
from boxfit.files.toml import read_table
from boxfit.files.vary import OPTION, Change, combinations, unknown_bays
from boxfit.module import Module

Given = TypeVar("Given")
Read = TypeVar("Read")


def read_together(car_folder: Path, words: Sequence[str]) -> tuple[Car, tuple[Module, ...]]:
    """The car and the modules named; all in `modules/` where none is named.

    Raises InputError with the problems of every file.
    """
    problems: list[Problem] = []

    def attempt(read: Callable[[Given], Read], given: Given) -> list[Read]:
        try:
            return [read(given)]
        except InputError as error:
            problems.extend(error.problems)
            return []

    cars = attempt(read_car, car_folder)
    paths = list(all_modules(car_folder))
    if words:
        paths = [path for word in words for path in attempt(lambda name: find_module(name, car_folder), word)]
    elif not paths:
        remedy = "write a module's file there, or name one with --module"
        problems.append(Problem("modules/", "", "holds no module's file", None, remedy))
    modules = [module for path in paths for module in attempt(read_module, path)]
    if problems:
        raise InputError(problems)
    return cars[0], tuple(modules)


@dataclass(frozen=True)
class VariedCar:
    """A car with some keys of its files changed: each key and its value as they are told."""

    car: Car
    variation: tuple[tuple[str, str], ...] = ()


def read_varied(
    car_folder: Path, words: Sequence[str], varied: Sequence[str]
) -> tuple[tuple[VariedCar, ...], tuple[Module, ...]]:
    """The car with every combination of the `varied` words `KEY=VALUE,VALUE`, and the modules named.

    Raises InputError with what is wrong in the files as they are, else with what is wrong in the words, else
    with what the changed files would have wrong, each once.
    """
    car, modules = read_together(car_folder, words)
    choices = combinations(varied)
    if choices == ((),):
        return (VariedCar(car),), modules
    every = {str(change): change for changes in choices for change in changes}
    bays = read_table(car_folder / CAR_FILE, CAR_FILE).get("bays")
    if strange := tuple(dict.fromkeys(unknown_bays(tuple(every.values()), bays))):
        raise InputError(strange)
    problems: dict[Problem, Problem] = {}
    cars: list[VariedCar] = []
    scans = Scans(car_folder)
    for changes in choices:
        try:
            read = read_car(car_folder, changes, scans)
            cars.append(VariedCar(read, tuple((change.key, change.told) for change in changes)))
        except InputError as error:
            for problem in error.problems:
                problems.setdefault(problem, _told_with(problem, changes))
    if problems:
        raise InputError(problems.values())
    return tuple(cars), modules


def _told_with(problem: Problem, changes: Sequence[Change]) -> Problem:
    """The problem of a changed file, told as such: nobody looks for it in the file as it stands."""
    if problem.file == OPTION:
        return problem
    return replace(problem, file=f"{problem.file} with {', '.join(map(str, changes))}")
