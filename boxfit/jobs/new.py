"""A car's folder to start from."""

from pathlib import Path
from typing import TYPE_CHECKING

from boxfit.files.problems import InputError, Problem
from boxfit.files.shown import plain

if TYPE_CHECKING:
    from boxfit.files.starting.answers import Answers
    from boxfit.files.starting.given import Ask, Said, Tell

_LONGEST_NAME = 100


def new(folder: Path, said: "Said", ask: "Ask | None", tell: "Tell") -> str:
    """Writes the folder from what options `said` and what is answered; returns what to do next.

    The folder is there whole, and reads without a problem, or not at all. Raises InputError with everything
    that is wrong or missing, and where the folder is there already.
    """
    from boxfit.files.results import whole_or_nothing
    from boxfit.files.starting.given import answers_from

    _refuse_what_is_there(folder)
    name = plain(folder.resolve().name).strip()[:_LONGEST_NAME] or "car"
    answers = answers_from(said, name, ask, tell)
    # asked again at the end: somebody may have put something there while questions were answered
    with whole_or_nothing(folder, option="", finish=lambda *_: _refuse_what_is_there(folder)) as fresh:
        _write(answers, fresh)
    bays = ", ".join(bay.name for bay in answers.bays)
    return (
        f"{answers.name}: car.toml and a file each for {bays}\n"
        "what is not yet said stands there as comments: what stays in a bay, masses, limits and more\n"
        f"then: boxfit check {plain(str(folder))}"
    )


def _refuse_what_is_there(folder: Path) -> None:
    """Nothing of anybody's is ever overwritten; an empty folder may be filled."""
    try:
        there = any(folder.iterdir()) if folder.is_dir() else folder.exists() or folder.is_symlink()
    except (OSError, ValueError):
        rule, remedy = "cannot be looked into", "name a folder that is not there yet"
        raise InputError([Problem(plain(str(folder)), "", rule, None, remedy)]) from None
    if there:
        rule, remedy = "is there already; nothing is overwritten", "name a folder that is not there yet"
        raise InputError([Problem(plain(str(folder)), "", rule, None, remedy)])


def _write(answers: "Answers", fresh: Path) -> None:
    from boxfit.files.car import CAR_FILE, read_car
    from boxfit.files.schema import FOLDER, shipped
    from boxfit.files.starting.bay_text import bay_file, bay_text
    from boxfit.files.starting.car_text import car_text

    (fresh / CAR_FILE).write_text(car_text(answers), encoding="utf-8")
    last = max(len(answers.bays) - 1, 1)
    for place, bay in enumerate(answers.bays):
        # Spread along the car until taped: the first about the front axle, the last about the rear one.
        guess = bay.length / 2.0 - answers.wheelbase * place / last
        (fresh / bay_file(bay)).write_text(bay_text(bay, round(guess, 1)), encoding="utf-8")
    (fresh / FOLDER).mkdir()
    for kind in ("car", "bay"):
        (fresh / FOLDER / f"{kind}.json").write_text(shipped(kind), encoding="utf-8")
    read_car(fresh)
