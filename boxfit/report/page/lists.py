"""Lists that a build wrote as comma-separated text, as tables of the page."""

import csv
import io
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from boxfit.report.page.html import Cell, table
from boxfit.report.retention_text import ENDLESS

Row = Mapping[str, str]


@dataclass(frozen=True)
class ListShown:
    """The columns of a list that are shown, by their heads in the file and on the page.

    Figures below 0 in columns that `lack` are marked.
    """

    file: str
    caption: str
    columns: tuple[tuple[str, str], ...]
    lack: frozenset[str] = frozenset()


PLAY = ListShown(
    "fit.csv",
    "Play of the modules inside the boxes [mm], from fit.csv",
    (
        ("bay", "bay"), ("box", "box"), ("tier", "tier"), ("direction", "way"), ("where", "where"),
        ("modules", "modules"), ("play", "as drawn"), ("typical", "typical"), ("worst case", "worst case"),
        ("would do", "what would do"),
    ),
    frozenset({"play", "typical", "worst case"}),
)  # fmt: skip
ROOM = ListShown(
    "margins.csv",
    "From every face to what is nearest [mm], from margins.csv",
    (
        ("bay", "bay"), ("box", "box"), ("part", "part"), ("face", "face"), ("obstacle", "nearest"),
        ("distance", "away"), ("asked", "asked"), ("left", "left"),
    ),
    frozenset({"left"}),
)  # fmt: skip
WHEELS = ListShown(
    "weights.csv",
    "Loads under the wheels [kg], from weights.csv",
    (
        ("state", "state"), ("front left [kg]", "front left"), ("front right [kg]", "front right"),
        ("rear left [kg]", "rear left"), ("rear right [kg]", "rear right"), ("front axle [kg]", "front axle"),
        ("rear axle [kg]", "rear axle"), ("gross [kg]", "gross"),
    ),
)  # fmt: skip
LEFT_OVER = ListShown(
    "weights.csv",
    "Margins to the maker's plate [kg] and balance, from weights.csv",
    (
        ("state", "state"), ("front axle margin [kg]", "front axle"), ("rear axle margin [kg]", "rear axle"),
        ("gross margin [kg]", "gross"), ("front share", "front share"), ("left share", "left share"),
        ("cross share", "cross share"), ("centre x [mm]", "centre x [mm]"),
        ("centre y [mm]", "centre y [mm]"), ("centre z [mm]", "centre z [mm]"),
    ),
    frozenset({"front axle margin [kg]", "rear axle margin [kg]", "gross margin [kg]"}),
)  # fmt: skip
HOLDS = (
    ("item", "part"), ("check", "check"), ("pull", "pulled"), ("load", "load"), ("resistance", "bears"),
    ("unit", "unit"), ("utilisation", "used"), ("what to change", "what to change"),
)  # fmt: skip
STRINGS = ListShown(
    "strings.csv",
    "Strings, module by module [V], from strings.csv",
    (
        ("string", "string"), ("place", "place"), ("module", "module"), ("box", "box"),
        ("V full, its minus to pack minus", "full, its minus to pack minus"),
        ("V full, its plus", "full, its plus"),
    ),
)  # fmt: skip
ELECTRICS = "electrics.csv"
RETENTION = "retention.csv"


def rows_of(folder: Path, file: str) -> tuple[dict[str, str], ...]:
    """The rows of a list by the heads of its columns; none where the folder has no such file.

    A list may hold a second one below an empty line; that is left out.
    """
    path = folder / file
    if not path.is_file():
        return ()
    first = path.read_text(encoding="utf-8").split("\n\n", 1)[0]
    return tuple(csv.DictReader(io.StringIO(first)))


def list_table(folder: Path, shown: ListShown) -> str:
    """The list as a table; empty where the file or all its rows are missing."""
    rows = rows_of(folder, shown.file)
    columns = [one for one in shown.columns if any(row.get(one[0]) for row in rows)]
    return table(
        shown.caption,
        [head for _, head in columns],
        [[figure(row.get(key, ""), key in shown.lack) for key, _ in columns] for row in rows],
    )


def figure(text: str, lacks: bool) -> Cell:
    """A cell; marked where something lacks, and never by colour alone.

    >>> figure("-3.5", True), figure("-7", False), figure("0.0", True)
    (('-3.5 short', 'short'), '-7', '0.0')
    """
    return (f"{text} short", "short") if lacks and text.startswith("-") else text


def retention_tables(folder: Path) -> Iterator[str]:
    """What does not hold first; then the fullest used of each kind of check among those that pass."""
    rows = rows_of(folder, RETENTION)
    failing = [row for row in rows if row["passes"] == "no"]
    yield _checks(f"Not shown to hold: {len(failing)} of {len(rows)} checks, from {RETENTION}", failing)
    fullest: dict[str, Row] = {}
    for row in rows:
        if row["passes"] != "no":
            fullest.setdefault(row["check"], row)
    yield _checks("Of the checks that pass: the fullest used of each kind", list(fullest.values()))


def _checks(caption: str, rows: "list[Row] | list[dict[str, str]]") -> str:
    heads = [head for _, head in HOLDS]
    return table(caption, heads, [[_check(row, key) for key, _ in HOLDS] for row in rows])


def _check(row: Row, key: str) -> Cell:
    """A cell of the list of checks; where nothing bears a load, its use has no figure.

    >>> _check({"utilisation": "1.25", "passes": "no"}, "utilisation")
    ('125%', 'short')
    >>> _check({"utilisation": "endless", "passes": "no"}, "utilisation")
    ('endless', 'short')
    """
    if key != "utilisation":
        return row[key]
    used = row[key]
    return (used if used == ENDLESS else f"{float(used):.0%}", "short" if row["passes"] == "no" else "")


def electrics_table(folder: Path) -> str:
    """The figures of the electrics."""
    rows = rows_of(folder, ELECTRICS)
    cells = [(row["figure"], row["value"], row["unit"]) for row in rows if row.get("value")]
    return table(f"Figures of the pack, from {ELECTRICS}", ("figure", "value", "unit"), cells)
