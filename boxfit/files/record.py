"""Which command wrote what into a folder of results, from which files, for which layout.

It stands in made-from.json. With it a command tells what it may replace from what somebody put there.
"""

import json
import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from hashlib import sha256
from pathlib import Path

from pydantic import BaseModel, ConfigDict, ValidationError

MADE_FROM = "made-from.json"
"""The record's name among the results."""
BUILD, LAYOUT, LIMITS, PAPERS, CHECK = "build", "layout", "limits", "papers", "check"
"""The commands that write into a folder of results."""
OF_OTHER_COMMANDS = {"papers.pdf": PAPERS, "limits.csv": LIMITS}
"""Files that commands put beside the results of build."""

_WITH_A_NUMBER = r"(-\d+)?"
_USUAL = re.compile(
    r"""(assembly\.(step|glb|csv) | (corner|terminal)-gauge\.stl | dummy-module(-piece-\d+)?\.stl
    | (cut|weld|fastener|order)-list\.csv | (cut|print)-shop\.zip | electrics\.(csv|json) | strings\.csv
    | fit\.csv | fittings\.json | gauges\.csv | print-pieces\.csv | layout\.json | margins\.(csv|svg|png)
    | mass\.(csv|json) | page\.html | (plan|side|rear)\.(svg|png) | retention(-forces)?\.csv
    | sheet-.+\.dxf | sheets\.(csv|pdf) | summary\.txt | templates-a[34]\.pdf | weights\.csv
    | papers\.pdf | limits\.csv
    | [^/]+-box-\d+(-[^/]+)?\.(step|stl) | [^/]+-box-\d+-[^/]+-flat\.dxf
    | drawings/[^/]+-drawing\.(pdf|dxf) | drawings/(arrangement|strings|single-line)"""
    + _WITH_A_NUMBER
    + r"\.(pdf|dxf|svg))",
    re.VERBOSE,
)
"""Names of what boxfit writes for a layout, for folders in which no record tells."""

Names = dict[str, str]
"""Files by their names in the folder, each with a number that stands for its content; empty: not known."""


@dataclass(frozen=True)
class Origin:
    """What a command made its files from: the files read, the layout and the program, each as a number.

    Empty is what is not known, or plays no part.
    """

    files: str = ""
    layout: str = ""
    program: str = ""


@dataclass(frozen=True)
class Written:
    """What a command wrote, and from what."""

    origin: Origin
    names: Names = field(default_factory=dict)


Record = dict[str, Written]
"""What lies in a folder of results, by who wrote it."""


class _Entry(BaseModel):
    model_config = ConfigDict(frozen=True, strict=True)

    files: str
    layout: str
    program: str
    written: Names


class _Told(BaseModel):
    model_config = ConfigDict(frozen=True, strict=True)

    files: str = ""
    written: dict[str, _Entry] | None = None


def digest(content: bytes) -> str:
    """A number that stands for a file's content."""
    return sha256(content).hexdigest()[:16]


def mark_of_layout(data: dict[str, object]) -> str:
    """A number that stands for the layout in data of layout.json: modules and boxes, no word of proof."""
    same = {key: data.get(key) for key in ("series", "parallel", "bays")}
    return digest(json.dumps(same, sort_keys=True).encode())


def writer(command: str, name: str) -> str:
    """Who is said to have written a file: a parcel stands by itself, as a build without it leaves it be.

    >>> writer("build", "cut-shop.zip"), writer("build", "sheets.csv"), writer("build", "limits.csv")
    ('build --for cut-shop', 'build', 'limits')
    """
    if name.endswith(".zip"):
        return f"{command} --for {name.removesuffix('.zip')}"
    return OF_OTHER_COMMANDS.get(name, command)


def record_of(command: str, origin: Origin, names: Iterable[tuple[str, bytes]]) -> Record:
    """The record of what one run of a command wrote, from names and contents."""
    record: Record = {}
    for name, content in names:
        by = writer(command, name)
        record.setdefault(by, Written(origin)).names[name] = digest(content)
    return record


def record_bytes(heading: dict[str, str], record: Record) -> bytes:
    """The text of made-from.json; the heading tells whose results they are."""
    entries = {
        by: {
            "files": one.origin.files,
            "layout": one.origin.layout,
            "program": one.origin.program,
            "written": dict(sorted(one.names.items())),
        }
        for by, one in sorted(record.items())
        if one.names
    }
    return (json.dumps({**heading, "written": entries}, indent=2, ensure_ascii=False) + "\n").encode()


def record_in(folder: Path, there: Iterable[str]) -> Record:
    """What was written into a folder that holds the files `there`; where no record tells, by their names.

    An older record tells only what build was made from; then build wrote all that is called as boxfit does.
    """
    try:
        told = _Told.model_validate_json((folder / MADE_FROM).read_bytes())
    except (OSError, ValidationError):
        told = _Told()
    if told.written is not None:
        return {
            by: Written(Origin(one.files, one.layout, one.program), one.written)
            for by, one in told.written.items()
        }
    known = Origin(told.files, _layout_in(folder))
    record: Record = {}
    for name in there:
        if _USUAL.fullmatch(name):
            by = writer(BUILD, name)
            record.setdefault(by, Written(Origin() if by == LIMITS else known)).names[name] = ""
    return record


def _layout_in(folder: Path) -> str:
    try:
        data = json.loads((folder / "layout.json").read_bytes())
    except (OSError, ValueError, RecursionError):
        return ""
    return mark_of_layout(data) if isinstance(data, dict) else ""
