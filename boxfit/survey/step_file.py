"""Solids and faces drawn in another program, from a STEP file (ISO 10303-21).

The reading itself is done by a second process: whatever a broken file does to the geometry kernel, it
prints nothing, takes no more than its share of memory and time, and ends in a plain message.
"""

import os
import re
import subprocess
import sys
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np

from boxfit.surface import Surface
from boxfit.survey.fault import SurveyError
from boxfit.survey.step_process import NO_FACES

MOST_BYTES = 200_000_000
MOST_SECONDS = 50
UNITS = {"INCH": "in", "MILLIMETRE": "mm", "CENTIMETRE": "cm", "METRE": "m"}
PREFIXES = {b"$": "m", b".MILLI.": "mm", b".CENTI.": "cm"}


def read_step(path: Path) -> Surface:
    """All solids and faces of the file as triangles, always in mm.

    The kernel turns lengths into mm itself, by the unit the file states (mm where it states none), so the
    result is not to be scaled again; `stated_unit` tells what the file says. Every closed solid comes out
    closed, outside counter-clockwise; faces that belong to no solid are sewn together where they meet.
    `off` is 0 where everything is flat. Raises SurveyError for any file that cannot be taken.
    """
    _check(path)
    with TemporaryDirectory() as folder:
        target = Path(folder) / "surface.npz"
        command = [sys.executable, "-m", "boxfit.survey.step_process", str(path.absolute()), str(target)]
        try:
            ended = subprocess.run(
                command,
                check=False,
                stdin=subprocess.DEVNULL,
                stdout=subprocess.DEVNULL,
                stderr=subprocess.DEVNULL,
                timeout=MOST_SECONDS,
                env={**os.environ, "PYTHONPATH": os.pathsep.join(filter(None, [os.getcwd(), *sys.path]))},
            ).returncode
        except subprocess.TimeoutExpired:
            raise _fault(
                f"must be read within {MOST_SECONDS} s",
                "save only the faces round the bay, without fittings, and read that",
            ) from None
        if ended == NO_FACES:
            raise _fault(
                "must hold at least one solid or face", "save the bay as solids or faces, not as lines"
            )
        if ended != 0 or not target.exists():
            raise _fault(
                "must be a sound STEP file", "open it where it was drawn, check it and save it again"
            )
        with np.load(target) as found:
            return Surface(found["points"], found["triangles"], float(found["off"]))


def stated_unit(path: Path) -> str | None:
    """The unit of length the file states: "mm", "cm", "m" or "in", any other by its name in small letters.

    None where the file states none, or parts of it different ones. The unit is looked for where ISO
    10303-41 puts it, in the units a context is assigned. Raises SurveyError as `read_step` does.
    """
    data = _check(path)
    contexts = re.findall(rb"GLOBAL_UNIT_ASSIGNED_CONTEXT\s*\(\s*\(([^)]*)\)", data)
    numbers = sorted({int(number) for each in contexts for number in re.findall(rb"#(\d{1,18})\b", each)})
    wanted = set(numbers[:1000])
    found = set()
    for match in re.finditer(rb"#\s*(\d{1,18})\s*=\s*(\([^;]{0,400}LENGTH_UNIT[^;]{0,400});", data):
        if int(match[1]) in wanted:
            found.add(_unit(match[2]))
    return found.pop() if len(found) == 1 else None


def _unit(entity: bytes) -> str | None:
    """The unit an entity of the file stands for."""
    named = re.search(rb"CONVERSION_BASED_UNIT\s*\(\s*'([^']*)'", entity)
    if named:
        name = named[1].decode("ascii", "replace").strip()
        return UNITS.get(name.upper(), name.lower())
    metric = re.search(rb"SI_UNIT\s*\(\s*(\$|\.\w+\.)\s*,\s*\.METRE\.\s*\)", entity)
    if metric is None:
        return None
    return PREFIXES.get(metric[1], metric[1].decode().strip(".").lower() + "metre")


def _check(path: Path) -> bytes:
    """The file's bytes, if it looks like a whole STEP file."""
    try:
        size = path.stat().st_size
        if size > MOST_BYTES:
            raise _fault(
                "must be no more than 200 MB",
                "save only the faces round the bay, without fittings",
                f"{size / 1e6:.0f} MB",
            )
        data = path.read_bytes()
    except (OSError, ValueError):
        raise _fault(
            "must be a file that can be read", "check the name; it counts from the car's file"
        ) from None
    if not data.strip():
        raise _fault("must not be empty", "save the STEP file again")
    if b"ISO-10303-21;" not in data[:4096]:
        raise _fault(
            'must be a STEP file, beginning with "ISO-10303-21;"', "save the bay as STEP (.step, .stp)"
        )
    if b"END-ISO-10303-21;" not in data[-65536:]:
        raise _fault('must be whole: its end, "END-ISO-10303-21;", is missing', "copy or save the file again")
    return data


def _fault(rule: str, remedy: str, got: str | None = None) -> SurveyError:
    return SurveyError("file", rule, remedy, got)
