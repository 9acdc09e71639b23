"""A bare scan: what is in it, which unit and which side up are likely, and a bay file to start from."""

import json
import math
from dataclasses import dataclass
from pathlib import Path

from boxfit.survey.looked_at import LookedAt, looked_at
from boxfit.survey.mesh_file import named, read_mesh, stated_unit

UNITS = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4}
"""Millimetres in each unit a survey may be in."""
_BAY = (200.0, 3000.0)
_USUAL = 900.0
"""A bay's longest side [mm]: from, to, and the middle of what is usual; common practice, no source."""
_TURNS = {
    (0, 1): (0, -90, 0),
    (0, -1): (0, 90, 0),
    (1, 1): (90, 0, 0),
    (1, -1): (-90, 0, 0),
    (2, 1): (0, 0, 0),
    (2, -1): (180, 0, 0),
}
"""Degrees about x, then y, then z that bring a side to the top."""


@dataclass(frozen=True)
class _Unit:
    """The likeliest unit, why, and which others may be."""

    name: str
    why: str
    others: tuple[str, ...] = ()


def suggested(path: Path) -> str:
    """What a scan holds, as comments, and the text of a bay file for it, ready to be saved and filled in.

    Raises SurveyError where the file cannot be read as a mesh.
    """
    seen = looked_at(read_mesh(path))
    longest = float((seen.high - seen.low).max())
    unit = _unit(longest, stated_unit(path))
    return f"{_description(path, seen, unit, longest)}\n\n{_start_file(path, seen, unit)}"


def _unit(longest: float, stated: str | None) -> _Unit:
    """The stated unit before all; otherwise the one that makes the longest side most like a bay's."""
    ranked = sorted(UNITS, key=lambda unit: abs(math.log(max(longest * UNITS[unit], 1e-9) / _USUAL)))
    if stated in UNITS:
        return _Unit(stated, "the file states it" + _doubt(longest * UNITS[stated]))
    plausible = [unit for unit in ranked if _BAY[0] <= longest * UNITS[unit] <= _BAY[1]]
    best = (plausible or ranked)[0]
    why = f"the longest side is then {longest * UNITS[best]:.4g} mm{_doubt(longest * UNITS[best])}"
    if stated is not None:
        why += f'; the file states "{stated[:20]}", which a bay file cannot'
    return _Unit(best, why, tuple(plausible[1:]))


def _doubt(length: float) -> str:
    if _BAY[0] <= length <= _BAY[1]:
        return ""
    return f", though {length:.4g} mm is hardly the longest side of a bay"


def _description(path: Path, seen: LookedAt, unit: _Unit, longest: float) -> str:
    span = [
        f"{axis} {low:.6g} to {high:.6g}" for axis, low, high in zip("xyz", seen.low, seen.high, strict=True)
    ]
    closed = "closed"
    if seen.gaps:
        closed = f"open: {len(seen.gaps)} gaps, the largest {seen.gaps[0] * UNITS[unit.name]:.4g} mm across"
    lines = [
        f"{named(path)}: {seen.triangles} triangles, {_counted(seen)}, {closed}",
        f"extents in the file: {', '.join(span)}",
        f'unit: "{unit.name}" ({unit.why})',
        *(f'      or "{other}" ({longest * UNITS[other]:.4g} mm)' for other in unit.others),
        f"up: {_side(seen)} of the file ({seen.why}; {'fairly sure' if seen.sure else 'a guess'})",
    ]
    return "\n".join(f"# {line}" for line in lines)


def _counted(seen: LookedAt) -> str:
    parts = "1 part" if seen.parts == 1 else f"{seen.parts} parts"
    return f"{parts} and {seen.specks} specks" if seen.specks else parts


def _side(seen: LookedAt) -> str:
    axis, sign = seen.up
    return f"{'+' if sign > 0 else '-'}{'xyz'[axis]}"


def _start_file(path: Path, seen: LookedAt, unit: _Unit) -> str:
    turn = ", ".join(f"{angle}.0" for angle in _TURNS[seen.up])
    doubt = "" if seen.sure else "; a guess, look at it"
    return f"""\
# A bay file to start from: save it beside the scan and fill it in.
name = {_quoted(path.stem)}

[survey]
kind = "mesh"
tolerance = 3.0         # mm the scan may be out: compare a few distances in it with the tape
file = {_quoted(path.name)}
unit = "{unit.name}"
# Degrees about x, then y, then z. This brings the scan's {_side(seen)} up{doubt}.
# Change the last number until x points forward in the car.
turn = [{turn}]
# mm, after turning. Measure one point that you find in the scan from the car's axes: x forward from the
# front axle, y left from the centre line, z up from the ground. Enter what the scan's point lacks to it.
move = [0.0, 0.0, 0.0]
reads = "room"          # the scan is the inside of the bay; "body" where it is the metal round about it:
                        # then the room is what is reached from the opening, so give its outline below

# Tape the distance between two points that you find in the scan, far apart: it shows a wrong unit or scale.
# [survey.reference]
# between = [[0.0, 0.0, 0.0], [0.0, 0.0, 0.0]]    # both points in the car's axes, after turn and move
# taped = 0.0

[opening]
way = "up"              # the side the box goes in from
"""


def _quoted(text: str) -> str:
    r"""The text as TOML takes it; signs that no file can hold become "?".

    >>> print(_quoted('front "left"'))
    "front \"left\""
    """
    whole = text.encode("utf-8", "replace").decode("utf-8")
    return json.dumps(whole, ensure_ascii=False).replace("\x7f", "\\u007f")
