"""Reads a mesh from a file, whatever its bytes: a surface comes back, or a SurveyError says what is wrong."""

from pathlib import Path

import numpy as np

from boxfit.surface import Surface
from boxfit.survey.fault import SurveyError
from boxfit.survey.obj import read_obj
from boxfit.survey.ply import read_ply
from boxfit.survey.raw import AGAIN, broken
from boxfit.survey.stl import read_stl
from boxfit.survey.threemf import read_3mf, unit_of_3mf

LARGEST = {".stl": 300, ".ply": 200, ".obj": 200, ".3mf": 100}
"""Megabytes by ending, so that reading takes less than 2 GB of memory and a minute."""

_FOREIGN = {
    b"PK\x03\x04": "a zip",
    b"\x1f\x8b": "a gzip archive",
    b"BZh": "a bzip2 archive",
    b"7z\xbc\xaf": "a 7z archive",
    b"\xfd7zXZ": "an xz archive",
    b"Rar!": "a rar archive",
    b"%PDF": "a PDF",
    b"\x89PNG": "a picture",
    b"\xff\xd8\xff": "a picture",
    b"ISO-10303-21": "a STEP file",
    b"glTF": "a glTF file",
    b"<?xml": "an XML file",
    b"<!DOCTYPE": "a web page",
    b"<html": "a web page",
    b"version https://git-lfs": "a stand-in for a file that was never fetched",
}
"""First bytes, and what then the file is."""
_FARTHEST = 1e9
_UNITS = {"millimeter": "mm", "centimeter": "cm", "meter": "m", "inch": "in"}


def read_mesh(path: Path) -> Surface:
    """The triangles of an .stl, .ply, .obj or .3mf, its coordinates as they stand in the file.

    Raises SurveyError for a file that is missing, not what its ending says, broken, cut short, empty, or
    larger than the program takes.
    """
    try:
        _check_file(path)
        with np.errstate(all="ignore"):
            return _checked(_read(path))
    except SurveyError as error:
        error.got = error.got or named(path)
        raise
    except OSError as fault:
        raise SurveyError("file", "cannot be opened", "look at its access rights", named(path)) from fault


def stated_unit(path: Path) -> str | None:
    """The unit a .3mf states ("mm", "cm", "m", "in", or as written); None where a file states none.

    Raises SurveyError as `read_mesh` does.
    """
    if path.suffix.lower() != ".3mf":
        return None
    try:
        _check_file(path)
        with path.open("rb") as file:
            unit = unit_of_3mf(file)
    except SurveyError as error:
        error.got = error.got or named(path)
        raise
    except OSError as fault:
        raise SurveyError("file", "cannot be opened", "look at its access rights", named(path)) from fault
    return None if unit is None else _UNITS.get(unit, unit)


def named(path: Path) -> str:
    """The file's name in quotes, all signs printable."""
    text = "".join(sign if sign.isprintable() else ascii(sign)[1:-1] for sign in path.name)
    return f'"{text}"'


def _check_file(path: Path) -> None:
    if path.is_dir():
        raise SurveyError("file", "is a folder", "name the mesh file in it")
    if not path.is_file():
        raise SurveyError("file", "does not exist", "look at the name; it counts from the bay file's folder")
    ending = path.suffix.lower()
    if ending not in LARGEST:
        endings = ", ".join(LARGEST)
        raise SurveyError("file", f"its ending is none of {endings}", "save the scan as binary .stl or .ply")
    size = path.stat().st_size
    if not size:
        raise SurveyError("file", "is empty", "save it again from the scanning program")
    if size > LARGEST[ending] * 1_000_000:
        raise SurveyError(
            "file",
            f"is {size // 1_000_000} MB; the most for {ending} is {LARGEST[ending]} MB",
            "save it as binary .stl or .ply, thinned out to a triangle every 2 to 5 mm",
        )


def _read(path: Path) -> Surface:
    ending = path.suffix.lower()
    with path.open("rb") as file:
        _check_content(file.read(64), ending)
        file.seek(0)
        if ending == ".3mf":
            return read_3mf(file)
        try:
            if ending == ".stl":
                return read_stl(file, path.stat().st_size)
            return read_ply(file) if ending == ".ply" else read_obj(file)
        except (ValueError, OverflowError) as fault:
            raise broken("it has text where a number belongs") from fault


def _check_content(start: bytes, ending: str) -> None:
    what = next((what for first, what in _FOREIGN.items() if start.lstrip().startswith(first)), None)
    if ending == ".3mf" and what != "a zip":
        raise SurveyError("file", f"is {what or 'no zip'}, as every .3mf is", AGAIN)
    if ending != ".3mf" and what:
        raise SurveyError("file", f"is {what}, not the mesh its ending says", "unpack it, or " + AGAIN)
    is_ply = start[:4] in {b"ply\n", b"ply\r"}
    if is_ply != (ending == ".ply") and ending != ".3mf":
        rule = f"is {'a' if is_ply else 'no'} .ply within"
        raise SurveyError("file", rule, "give it the ending it should have")


def _checked(surface: Surface) -> Surface:
    points, triangles = surface.points, surface.triangles
    if not len(triangles):
        raise SurveyError("file", "has no triangles", "save the surface, not only its points or edges")
    if not 0 <= triangles.min() <= triangles.max() < len(points):
        raise broken("a triangle names a point that is not there")
    if not np.isfinite(points).all():
        raise broken("a point has a coordinate that is no finite number")
    if np.abs(points).max() > _FARTHEST:
        raise broken("a point lies more than a thousand million units away")
    return surface
