"""The files of a car folder, and the module files beside it."""

from pathlib import Path

from boxfit.files.near import among, did_you_mean, nearest
from boxfit.files.problems import InputError, Problem
from boxfit.files.shown import plain, shown

MODULE_FOLDER = "modules"


def check_folder(folder: Path, car_file: str) -> None:
    """Raises InputError where `folder` is not a folder."""
    file = plain(str(folder))
    try:
        if folder.is_dir():
            return
        if folder.is_file():
            remedy = f"name the folder: {plain(str(folder.parent))}"
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
        try:
            path = (folder / word).resolve()
            refusal = _refusal(path, folder.resolve(), found)
        except (OSError, ValueError, RuntimeError):
            refusal = ("is no name for a file", "name a file of this folder")
        if refusal is None:
            found[path] = word
        else:
            problems.append(Problem(file, f"bays[{place + 1}]", refusal[0], shown(word), refusal[1]))
    return [(word, path) for path, word in found.items()]


def _refusal(path: Path, folder: Path, found: dict[Path, str]) -> tuple[str, str] | None:
    """Why the bay file cannot be taken, and what to do; None where it can."""
    if not path.is_relative_to(folder):
        return "must lie inside the car's folder", "move the bay file into the folder of its car"
    if path in found:
        return f"must name nothing twice: it is {shown(found[path])} again", "leave one of the two out"
    if path.is_dir():
        return "is a folder, not a file", "name the bay file in it"
    if not path.exists():
        beside = sorted(each.name for each in path.parent.glob("*.toml"))
        return "there is no such file", did_you_mean(path.name, beside) or f"make the file {plain(path.name)}"
    return None


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
