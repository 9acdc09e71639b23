"""What stays in a folder of results when a command writes it anew, what goes, and what is told of it."""

import os
import shutil
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

from boxfit.files.record import BUILD, LAYOUT, MADE_FROM, Origin, Record, Written, digest, record_in

OTHER_FILES = "made from other files"
OTHER_LAYOUT = "made for another layout"
OTHER_PROGRAM = "made by another version of boxfit"
UNKNOWN = "nothing tells what it was made from"


@dataclass
class Carried:
    """What became of the old files: the record of those that stay, names of those that went by reason,
    and those that boxfit did not write, or not so, with the names under which they stay."""

    record: Record = field(default_factory=dict)
    removed: dict[str, list[str]] = field(default_factory=dict)
    renamed: list[tuple[str, str]] = field(default_factory=list)

    def told(self) -> list[str]:
        """A line for each kind of thing that somebody might miss.

        >>> Carried(removed={OTHER_FILES: ["limits.csv", "fit.csv"]}).told()
        ['removed fit.csv and 1 more: made from other files']
        >>> Carried(renamed=[("fit.csv", "fit-kept.csv")]).told()
        ['kept fit.csv as fit-kept.csv: not as boxfit wrote it']
        """
        lines = [
            f"removed {_counted(sorted(names))}: {reason}" for reason, names in sorted(self.removed.items())
        ]
        return [*lines, *(f"kept {old} as {new}: not as boxfit wrote it" for old, new in self.renamed)]


def carry(old: Path, fresh: Path, command: str, origin: Origin) -> Carried:
    """Brings over from the folder `old` what still belongs beside what `command` wrote into `fresh`.

    What another command made from the same files and for the same layout stays; and all that boxfit did
    not write, under another name where its own is taken. Files are linked where that is possible, so that
    `old` stays whole. Raises OSError.
    """
    there = list(_files(old))
    record = record_in(old, (path.relative_to(old).as_posix() for path in there))
    by_name = {name: by for by, one in record.items() for name in one.names}
    reasons = {by: _why_not(by, one.origin, command, origin) for by, one in record.items()}
    carried = Carried()
    for path in there:
        name = path.relative_to(old).as_posix()
        by = by_name.get(name)
        if name == MADE_FROM:
            continue
        if by is None or not _as_written(path, record[by].names[name]):
            wanted = name if by is None or not reasons[by] else _another_name(fresh, name)
            put = _free_name(fresh, wanted)
            _link(path, fresh / put)
            if put != name:
                carried.renamed.append((name, put))
        elif (fresh / name).exists():
            continue
        elif not reasons[by]:
            _link(path, fresh / name)
            kept = carried.record.setdefault(by, Written(record[by].origin))
            kept.names[name] = record[by].names[name]
        elif by != command:
            carried.removed.setdefault(reasons[by], []).append(name)
    for name in _empty_folders(old):
        put = name if (fresh / name).is_dir() else _free_name(fresh, name)
        (fresh / put).mkdir(parents=True, exist_ok=True)
        if put != name:
            carried.renamed.append((name, put))
    return carried


def _why_not(by: str, other: Origin, command: str, now: Origin) -> str:
    """Why what was written by `by` must not stay beside what `command` writes now; empty where it may.

    Limits and papers change no layout, so what is not known to be of other files stays beside them.
    """
    makes_layouts = command in (BUILD, LAYOUT)
    if by == command:
        return "written anew"
    if not other.files:
        return UNKNOWN if makes_layouts else ""
    if other.files != now.files:
        return OTHER_FILES
    if makes_layouts and other.layout != now.layout:
        return OTHER_LAYOUT
    if command == BUILD and other.program != now.program:
        return OTHER_PROGRAM
    return ""


def _as_written(path: Path, number: str) -> bool:
    """Whether a file is still what boxfit wrote, as far as its number is known."""
    if path.is_symlink() or not path.is_file():
        return False
    return not number or digest(path.read_bytes()) == number


def _files(folder: Path) -> Iterator[Path]:
    """Everything below a folder that is no folder itself, in a fixed order; links are not followed."""
    for path in sorted(folder.iterdir()):
        if path.is_dir() and not path.is_symlink():
            yield from _files(path)
        else:
            yield path


def _empty_folders(folder: Path) -> Iterator[str]:
    """Folders below a folder in which nothing lies: boxfit leaves none, so they are somebody's."""
    for path in sorted(folder.rglob("*")):
        if path.is_dir() and not path.is_symlink() and not any(path.iterdir()):
            yield path.relative_to(folder).as_posix()


def _free_name(fresh: Path, name: str) -> str:
    """The name, or one like it where that, or a folder on the way to it, is taken by a file."""
    if (fresh / name).exists() or (fresh / name).is_symlink():
        return _another_name(fresh, name)
    for above in reversed(Path(name).parents[:-1]):
        if (fresh / above).exists() and not (fresh / above).is_dir():
            rest = Path(name).relative_to(above).as_posix()
            return f"{_another_name(fresh, above.as_posix())}/{rest}"
    return name


def _another_name(fresh: Path, name: str) -> str:
    """A name like it that is free."""
    path = Path(name)
    number = 1
    while True:
        mark = "-kept" if number == 1 else f"-kept-{number}"
        other = path.with_name(f"{path.stem}{mark}{path.suffix}")
        if not (fresh / other).exists() and not (fresh / other).is_symlink():
            return other.as_posix()
        number += 1


def _link(path: Path, onto: Path) -> None:
    """The same file at another place too, without its bytes being copied where the disk can do that."""
    onto.parent.mkdir(parents=True, exist_ok=True)
    try:
        os.link(path, onto, follow_symlinks=False)
    except (OSError, NotImplementedError):
        shutil.copy2(path, onto, follow_symlinks=False)


def _counted(names: list[str]) -> str:
    """The first of the names and how many more."""
    return f"{names[0]} and {len(names) - 1} more" if len(names) > 1 else names[0]
