"""Which files results were made from, so that whoever takes them up later can tell whether they still belong.

Only what was believed after reading counts: a comment or a space changes nothing, a figure does.
"""

from dataclasses import fields, is_dataclass
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING

from boxfit.car import Car
from boxfit.files.record import BUILD, MADE_FROM, record_in
from boxfit.module import Module

if TYPE_CHECKING:
    from collections.abc import Iterator

LAYOUT_JSON = "layout.json"


def fingerprint(*parts: Car | Module) -> str:
    """A number that stands for everything read of a car, a module or both: other figures give another."""
    known = sha256()
    for part in parts:
        for piece in _pieces(part):
            known.update(piece)
            known.update(b"\0")
    return known.hexdigest()


def why_not_from(folder: Path, car: Car, module: Module) -> str:
    """Why results in a folder were not made by build from these files; empty where they were."""
    if not (folder / MADE_FROM).is_file():
        return "no results of boxfit build are there"
    made = record_in(folder, (LAYOUT_JSON,)).get(BUILD)
    if made is None:
        return "no results of boxfit build are there"
    if made.origin.files != fingerprint(car, module):
        return "the results there were made from other files, or from these before they were changed"
    return ""


def _pieces(part: object) -> "Iterator[bytes]":
    """Everything that a thing holds, field by field, in a fixed order."""
    import numpy

    if isinstance(part, numpy.ndarray):
        yield f"{part.dtype}{part.shape}".encode()
        yield part.tobytes()
    elif is_dataclass(part):
        yield type(part).__name__.encode()
        for field in fields(part):
            value = getattr(part, field.name)
            # a key that older files do not have changes nothing while it is left out
            if not ("added" in field.metadata and value == field.default):
                yield from _pieces(value)
    elif isinstance(part, tuple | list):
        yield f"{len(part)}".encode()
        for one in part:
            yield from _pieces(one)
    else:
        yield repr(part).encode()
