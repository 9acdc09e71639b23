"""Results land whole or not at all."""

import glob
import os
import shutil
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager, suppress
from pathlib import Path

from boxfit.files.problems import InputError, Problem
from boxfit.files.shown import plain

Finish = Callable[[Path, Path | None], None]
"""Takes the fresh folder and the one that was there, if any, to bring over what is to stay."""


@contextmanager
def whole_or_nothing(
    target: Path, option: str = " with --out", finish: Finish | None = None
) -> Iterator[Path]:
    """A fresh folder beside `target` that takes its place once everything in it is written.

    Where anything goes wrong on the way, an interrupt too, `target` stays as it was and nothing else
    stays behind; what a killed run left behind is cleared away. `finish` has the last word on the fresh
    folder, while no other run lands there. `option` says how another folder is named. Raises InputError
    where none can be put there.
    """
    with _told_as_input(target, option):
        place = _place(target, option)
        fresh = place.with_name(f".{place.name}.new-{os.getpid()}")
        made = [folder for folder in place.parents if not folder.exists()]
    try:
        with ExitStack() as stack:
            with _told_as_input(target, option):
                place.parent.mkdir(parents=True, exist_ok=True)
                with _claimed(place.parent):
                    _clear_leftovers(place)
                    fresh.mkdir()
                    stack.enter_context(_claimed(fresh))
            yield fresh
            with _told_as_input(target, option), _claimed(place.parent):
                if finish is not None:
                    finish(fresh, place if place.exists() else None)
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
def _claimed(folder: Path, wait: bool = True) -> Iterator[bool]:
    """Holds a folder against other runs, and tells whether it is held; the end of a run frees it.

    Where the system or the disk knows no such thing, nothing is held.
    """
    try:
        import fcntl
    except ImportError:
        yield False
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        held = False
        with suppress(OSError):
            fcntl.flock(handle, fcntl.LOCK_EX if wait else fcntl.LOCK_EX | fcntl.LOCK_NB)
            held = True
        yield held
    finally:
        os.close(handle)


def _clear_leftovers(place: Path) -> None:
    """Removes what runs that were killed left beside `place`; results they had set aside come back."""
    for old in sorted(place.parent.glob(f".{glob.escape(place.name)}.old-*")):
        if place.exists():
            shutil.rmtree(old, ignore_errors=True)
        else:
            old.rename(place)
    for fresh in sorted(place.parent.glob(f".{glob.escape(place.name)}.new-*")):
        with suppress(OSError), _claimed(fresh, wait=False) as dead:
            if dead:
                shutil.rmtree(fresh, ignore_errors=True)


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
