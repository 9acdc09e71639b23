"""Results land whole or not at all."""

import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from boxfit.files.problems import InputError, Problem
from boxfit.files.shown import plain


@contextmanager
def whole_or_nothing(target: Path, option: str = " with --out") -> Iterator[Path]:
    """A fresh folder beside `target` that takes its place once everything in it is written.

    Where anything goes wrong on the way, an interrupt too, `target` stays as it was and nothing else
    stays behind. `option` says how another folder is named. Raises InputError where none can be put there.
    """
    with _told_as_input(target, option):
        place = _place(target, option)
        fresh = place.with_name(f".{place.name}.new-{os.getpid()}")
        made = [folder for folder in place.parents if not folder.exists()]
    try:
        with _told_as_input(target, option):
            fresh.mkdir(parents=True)
        yield fresh
        with _told_as_input(target, option):
            _replace(place, fresh)
    except BaseException:
        shutil.rmtree(fresh, ignore_errors=True)
        for folder in made:
            if folder.is_dir() and not any(folder.iterdir()):
                folder.rmdir()
        raise


def write_whole(target: Path, content: bytes) -> None:
    """Writes one file whole or not at all. Raises InputError where it cannot be put there."""
    with _told_as_input(target):
        target.parent.mkdir(parents=True, exist_ok=True)
        fresh = target.with_name(f".{target.name}.new-{os.getpid()}")
        try:
            fresh.write_bytes(content)
            fresh.replace(target)
        finally:
            fresh.unlink(missing_ok=True)


def _place(target: Path, option: str) -> Path:
    """Where the target really is; a file there, or on the way there, is told."""
    place = target.resolve()
    for folder in (place, *place.parents):
        if folder.exists() and not folder.is_dir():
            remedy = f"move that file away, or name another folder{option}"
            raise InputError([Problem(plain(str(folder)), "", "is in the way of the results", None, remedy)])
    return place


def _replace(place: Path, fresh: Path) -> None:
    """Puts `fresh` where `place` is; what was there comes back if that fails."""
    old = place.with_name(f".{place.name}.old-{os.getpid()}")
    try:
        if place.exists():
            place.rename(old)
        fresh.rename(place)
    except BaseException:
        if old.exists() and not place.exists():
            old.rename(place)
        raise
    shutil.rmtree(old, ignore_errors=True)


@contextmanager
def _told_as_input(target: Path, option: str = " with --out") -> Iterator[None]:
    """Says in one message why a folder cannot be written."""
    try:
        yield
    except (OSError, ValueError, RuntimeError) as error:
        reason = error.strerror if isinstance(error, OSError) and error.strerror else "no name for a folder"
        rule = f"results cannot be written there: {reason.lower()}"
        remedy = f"name a folder that you may write to{option}"
        raise InputError([Problem(plain(str(target)), "", rule, None, remedy)]) from None
