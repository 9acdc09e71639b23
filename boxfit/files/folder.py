"""The files of a car folder, and the module files beside it."""

from pathlib import Path

from boxfit.files.near import among, did_you_mean, nearest
from boxfit.files.problems import InputError, Problem
from boxfit.files.shown import plain, shown
from boxfit.survey.fault import SurveyError

MODULE_FOLDER = "modules"
BAY_ENDINGS = (".toml",)
SCAN_ENDINGS = (".stl", ".ply", ".obj", ".3mf", ".step", ".stp")

Refusal = tuple[str, str]
"""Why a name cannot be taken, and what to do."""


def check_folder(folder: Path, car_file: str) -> None:
    """Raises InputError where `folder` is not a folder."""
    file = plain(str(folder))
    try:
        if folder.is_dir():
            return
        if folder.is_file():
            parent, within = folder.parent, (folder.parent / car_file).is_file()
            remedy = (
                f"name the folder: {plain(str(parent))}"
                if within
                else f"name a folder that holds a {car_file}"
            )
            raise InputError([Problem(file, "", "must be a folder, not a file", None, remedy)])
        beside = sorted(each.parent.name for each in folder.parent.glob(f"*/{car_file}"))
    except (OSError, ValueError):
        remedy = "check the name and who may read it"
        raise InputError([Problem(file, "", "cannot be read as a folder", None, remedy)]) from None
    match = nearest(folder.name, beside)
    remedy = (
        f"did you mean {plain(str(folder.parent / match))}?"
        if match
        else f"name a folder that holds a {car_file}"
    )
    raise InputError([Problem(file, "", "there is no such folder", None, remedy)])


def bay_files(
    raw: dict[str, object], folder: Path, file: str, problems: list[Problem]
) -> list[tuple[str, Path]]:
    """The bay files that car.toml names, each as written and as found; `problems` grows by those refused.

    What is not a name at all, and a name written twice, is left to the check of car.toml itself.
    """
    words = raw.get("bays")
    found: dict[Path, str] = {}
    for place, word in enumerate(words if isinstance(words, list) else []):
        if not isinstance(word, str) or not word.strip() or not word.isprintable() or word in found.values():
            continue
        path = _in_folder(word, folder, "bay file", BAY_ENDINGS)
        if isinstance(path, Path) and path in found:
            path = (f"must name nothing twice: it is {shown(found[path])} again", "leave one of the two out")
        if isinstance(path, Path):
            found[path] = word
        else:
            problems.append(Problem(file, f"bays[{place + 1}]", path[0], shown(word), path[1]))
    return [(word, path) for path, word in found.items()]


def scan_file(word: str, folder: Path) -> Path:
    """The file of another program that a bay file names; it lies in the folder as bay files do.

    Raises SurveyError where there is none.
    """
    path = _in_folder(word, folder, "file", SCAN_ENDINGS)
    if isinstance(path, Path):
        return path
    raise SurveyError("file", path[0], path[1], shown(word))


def _in_folder(word: str, folder: Path, what: str, endings: tuple[str, ...]) -> Path | Refusal:
    """The file meant by `word`; or why it cannot be taken, and what to do."""
    try:
        path = (folder / word).resolve()
        if not path.is_relative_to(folder.resolve()):
            return "must lie inside the car's folder", f"move the {what} into the folder of its car"
        if path.is_dir():
            return "is a folder, not a file", f"name the {what} in it"
        if path.exists():
            return path if path.is_file() else ("is not a plain file", f"name a {what} of this folder")
        beside = sorted(each.name for each in path.parent.glob("*") if each.suffix.lower() in endings)
    except (OSError, ValueError, RuntimeError):
        return "is no name for a file", "name a file of this folder"
    remedy = did_you_mean(path.name, beside) or f"put {plain(path.name)} into the folder of its car"
    return "there is no such file", remedy


def find_module(word: str, car_folder: Path) -> Path:
    """The module file meant by `word`: a path, or the stem of a file in a modules/ folder.

    Raises InputError where there is none, with the nearest stem.
    """
    if _is_file(Path(word)):
        return Path(word)
    known = {path.stem: path for path in all_modules(car_folder)}
    if word in known:
        return known[word]
    rule = f"there is no such module file, nor one of that name in {MODULE_FOLDER}/"
    remedy = among(word, known) if known else f"put module files into {MODULE_FOLDER}/, or name a file"
    raise InputError([Problem(plain(word) or '""', "", rule, None, remedy)])


def all_modules(car_folder: Path) -> tuple[Path, ...]:
    """Every module file in ./modules and in the modules/ beside the bays/ of the car, sorted by stem.

    Where both have a file of one name, the first counts; empty where there is none at all.
    """
    beside = car_folder / ".." / ".." / MODULE_FOLDER
    found: dict[str, Path] = {}
    for path in (*_toml_files(Path(MODULE_FOLDER)), *_toml_files(beside)):
        found.setdefault(path.stem, path)
    return tuple(found[stem] for stem in sorted(found))


def _is_file(path: Path) -> bool:
    try:
        return path.is_file()
    except (OSError, ValueError):
        return False


def _toml_files(folder: Path) -> list[Path]:
    try:
        return sorted(folder.glob("*.toml"))
    except (OSError, ValueError):
        return []
