"""The finished car on the scales against the forecast."""

from dataclasses import dataclass
from os.path import abspath
from pathlib import Path
from typing import TYPE_CHECKING

from boxfit.car import Car
from boxfit.jobs.going_on import Search
from boxfit.jobs.laid_out import laid_out
from boxfit.module import Module
from boxfit.weight.corners import Corners
from boxfit.weight.pack import Pack

if TYPE_CHECKING:
    from boxfit.files.problems import Problem


@dataclass(frozen=True)
class Asked:
    """What was given: the car's folder, the module or None, four readings [kg], who was aboard."""

    car: Path
    module: str | None
    scales: tuple[float, float, float, float]
    aboard: tuple[str, ...]
    out: Path


def weigh(asked: Asked, search: Search) -> str:
    """The readings against the forecast of what was built, or laid out anew where nothing was; the page.

    Raises InputError with everything wrong, NothingFitsError or JudgedWrongError as a search does.
    """
    from boxfit.files.problems import InputError
    from boxfit.files.scale_readings import beyond_belief
    from boxfit.report.weighing_text import Page, items_of, weighing_text
    from boxfit.weight.corners import state_of
    from boxfit.weight.scales import weighing

    car, module = _read(asked)
    aboard = tuple(one for one in car.carried if one.name in asked.aboard)
    pack, notes = _forecast_from(car, module, asked.out / car.folder / module.stem, search)
    weighed = car.weighed
    if weighed is None:
        raise InputError([_not_weighed()])
    items = items_of(car, pack, aboard)
    state = state_of(car, weighed, "forecast", tuple((item.mass, item.at) for item in items))
    read = Corners(*asked.scales)
    if problems := beyond_belief(read, state.corners):
        raise InputError(problems)
    found = weighing(car, state.corners, read, items)
    return weighing_text(Page(car, module, pack, aboard, found, notes), state, weighed)


def _not_weighed() -> "Problem":
    from boxfit.files.problems import Problem

    rule = "is missing: without the stripped car's readings nothing can be forecast"
    return Problem("car.toml", "weighed", rule, None, "write a table [weighed] with the four readings")


def _read(asked: Asked) -> tuple[Car, Module]:
    """Car and module. Raises InputError with the problems of readings and files together."""
    from boxfit.files.pack_back import only_module
    from boxfit.files.problems import InputError
    from boxfit.files.scale_readings import faulty_readings, unknown_people
    from boxfit.files.together import read_together

    problems = faulty_readings(asked.scales)
    words: list[str] = [asked.module] if asked.module is not None else []
    try:
        if asked.module is None and asked.car.is_dir():
            words = [only_module(asked.out / Path(abspath(asked.car)).name)]
    except InputError as error:
        problems.extend(error.problems)
    try:
        car, modules = read_together(asked.car, words)
    except InputError as error:
        raise InputError([*problems, *error.problems]) from None
    problems.extend(unknown_people(asked.aboard, car))
    if car.weighed is None:
        problems.append(_not_weighed())
    if problems:
        raise InputError(problems)
    return car, modules[0]


def _forecast_from(car: Car, module: Module, folder: Path, search: Search) -> tuple[Pack, tuple[str, ...]]:
    """The pack as written, or laid out anew, and how it was come by."""
    from boxfit.box.searched_pack import searched_pack
    from boxfit.files.layout_back import layout_from_data
    from boxfit.files.pack_back import LAYOUT, MASSES, pack_from_data, written_data
    from boxfit.judge.layout import judge_layout

    try:
        data = written_data(folder / LAYOUT)
        layout = layout_from_data(data, car, module) if data else None
    except ValueError as error:
        raise _unreadable(folder / LAYOUT, error) from None
    if data is None or layout is None:
        layout = laid_out(car, module, search.watch)
        words = f"laid out anew, as {folder} holds no {LAYOUT}; is this what was built? " + _AS_SEARCHED
        return searched_pack(car, module, layout), (words,)
    notes: list[str] = []
    if findings := judge_layout(data, car, module):
        notes.append(
            f"{LAYOUT} does not suit the car's files as they are now ({findings[0].place}: "
            f"{findings[0].text}): build again, so that the forecast is of this car"
        )
    try:
        masses = written_data(folder / MASSES)
        pack = pack_from_data(masses) if masses else None
    except ValueError as error:
        raise _unreadable(folder / MASSES, error) from None
    if pack is None:
        told = f"forecast from {folder / LAYOUT}; {_AS_SEARCHED}"
        return searched_pack(car, module, layout), (told, *notes)
    told = f"forecast from {folder / MASSES}: every part weighed, screws and nuts apart"
    return pack, (told, *notes)


_AS_SEARCHED = "boxes as the search weighs them, without what is fixed to them; build weighs every part"


def _unreadable(path: Path, error: ValueError) -> Exception:
    """A file of the results that is not what was written."""
    from json import JSONDecodeError

    from pydantic import ValidationError

    from boxfit.files.problems import InputError, Problem
    from boxfit.files.shown import plain

    unlike = isinstance(error, ValidationError | JSONDecodeError)
    reason = "it is damaged, or from another version" if unlike else plain(str(error))
    rule = f"is not what build wrote for this car and module: {reason}"
    return InputError([Problem(plain(str(path)), "", rule, None, "build again, or name another --out")])
