"""A car and modules read in one go, so that every problem of all the files is told at once."""

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TypeVar

from boxfit.car import Car
from boxfit.files.car import read_car
from boxfit.files.folder import all_modules, find_module
from boxfit.files.module import read_module
from boxfit.files.problems import InputError, Problem
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
