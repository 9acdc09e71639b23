"""A bare scan, before there is a car: what it holds, and a bay file to start from."""

from os.path import exists, isdir
from pathlib import Path

from boxfit.files.near import did_you_mean
from boxfit.files.problems import InputError, Problem
from boxfit.files.shown import plain
from boxfit.survey.fault import SurveyError

BARE_SCANS = (".stl", ".ply", ".obj", ".3mf")


def is_bare_scan(path: Path) -> bool:
    """Whether a scan is named where a car's folder may be; a folder stays one, whatever its name.

    >>> is_bare_scan(Path("front.STL")), is_bare_scan(Path("bays/dunlin-850"))
    (True, False)
    """
    return path.suffix.lower() in BARE_SCANS and not isdir(path)


def start_text(path: Path) -> str:
    """What the scan holds, and the text of a bay file for it.

    Raises InputError where it cannot be read.
    """
    from boxfit.survey.mesh_file import named
    from boxfit.survey.suggest import suggested

    if not exists(path):
        raise InputError([Problem(plain(str(path)), "", "there is no such file", None, _remedy(path))])
    try:
        return suggested(path)
    except SurveyError as error:
        # The message begins with the file; it is not said twice.
        got = None if error.got == named(path) else error.got
        raise InputError([Problem(plain(str(path)), "", error.rule, got, error.remedy)]) from None


def _remedy(path: Path) -> str:
    """The scan beside it of nearly that name."""
    try:
        beside = sorted(each.name for each in path.parent.glob("*") if is_bare_scan(each))
    except (OSError, ValueError):
        beside = []
    return did_you_mean(path.name, beside) or "check the name and the folder"
