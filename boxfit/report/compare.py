"""Modules and variations of one car side by side, as plain text for the terminal."""

from collections.abc import Callable, Iterator, Sequence
from itertools import groupby

from boxfit.report.columns import broken, listed, table
from boxfit.report.compare_order import weighed
from boxfit.report.compare_rows import CompareRow, Variation

_LOW, _HIGH = " low end", " high end"
LONGEST_NAME = 26
"""Letters of a row's name at most; a longer one is cut."""
HOW_COUNTED = (
    "* no other layout beats it in {weighed} without falling behind in one of these",
    "litres left: the bays as surveyed less their boxes' outsides; keep-outs, flanges and what is fixed to"
    " boxes not taken off",
    "sheet: net mass of tray, lid, cover plate and shelves, offcuts not counted",
    "cost: modules by their price, sheet by its price a kilogram; nothing else; only where all are known",
    "left to limits: axles and gross with everything aboard; volts below full and above empty; front share"
    " within its tolerance; what is fixed to boxes and link cables are not weighed here: layout and build"
    " weigh them, and hold fewer modules where they would break a limit or the target",
)
"""How figures are counted, below the tables."""

Cell = Callable[[CompareRow], str]


def compare_table(rows: Sequence[CompareRow]) -> str:
    """The rows in three tables in the order given: what each holds, what it takes, and what limits leave.

    Variations are numbered and told below with reasons and notes. At most 100 letters to a line but for names
    that are longer; ends with a line feed.
    """
    numbers = variation_numbers(rows)
    names = [_name(row, numbers) for row in rows]
    blocks = [
        _table("what it holds", _HOLDS, names, rows),
        _table("what it takes and leaves", _TAKES, names, rows),
        *([_margins(names, rows)] if any(row.margins for row in rows) else []),
        *_told("variations", _variations(numbers)),
        *_told("where nothing fits", _grouped(names, rows, lambda row: (row.reason,) if row.reason else ())),
        *_told("notes", _grouped(names, rows, lambda row: row.notes)),
        _how_counted(rows),
    ]
    return "\n\n".join("\n".join(block) for block in blocks) + "\n"


def variation_numbers(rows: Sequence[CompareRow]) -> dict[Variation, int]:
    """The variations numbered from 1, each by its values as written; empty where nothing is varied."""
    found = sorted({row.variation for row in rows if row.variation})
    return {variation: number for number, variation in enumerate(found, start=1)}


def _name(row: CompareRow, numbers: dict[Variation, int]) -> str:
    number = f" /{numbers[row.variation]}" if row.variation in numbers else ""
    most = LONGEST_NAME - len(number)
    name = row.module if len(row.module) <= most else f"{row.module[: most - 3].rstrip()}..."
    return f"{'*' if row.best else ' '} {name}{number}"


def _table(
    title: str, columns: Sequence[tuple[str, Cell]], names: Sequence[str], rows: Sequence[CompareRow]
) -> list[str]:
    heads = (f"  {title}", *(head for head, _ in columns))
    cells = [(name, *(cell(row) for _, cell in columns)) for name, row in zip(names, rows, strict=True)]
    return table([heads, *cells])


def _margins(names: Sequence[str], rows: Sequence[CompareRow]) -> list[str]:
    """One column for each limit that any of the cars sets, both ends of a window in one."""
    limits = dict.fromkeys((one.limit, one.unit) for row in rows for one in row.margins)
    windows = dict.fromkeys(limit.removesuffix(_LOW) for limit, _ in limits if limit.endswith(_LOW))
    columns = [(f"{limit} {unit}", _left(limit, "+.0f")) for limit, unit in limits if unit == "kg"]
    columns += [(f"{name} V", _window(name)) for name in windows]
    columns += [(limit, _left(limit, "+.3f")) for limit, unit in limits if not unit]
    return _table("left to limits", columns, names, rows)


def _left(limit: str, how: str) -> Cell:
    return lambda row: next((format(one.left, how) for one in row.margins if one.limit == limit), "-")


def _window(name: str) -> Cell:
    low, high = _left(f"{name}{_LOW}", "+.1f"), _left(f"{name}{_HIGH}", "+.1f")
    return lambda row: f"{low(row)} {high(row)}" if low(row) != "-" else "-"


def _strings(row: CompareRow) -> str:
    return "-" if row.series is None else f"{row.series} x {row.parallel}"


def _volts(row: CompareRow) -> str:
    volts = (row.volts_empty, row.volts_nominal, row.volts_full)
    return "-" if row.series is None else "-".join(f"{value:.0f}" for value in volts)


def _share(row: CompareRow) -> str:
    missed = "!" if row.target_met is False else ""
    return _figure(row.front_share, 3) + missed


def _bound(row: CompareRow) -> str:
    return "-" if row.bound is None else "proven" if row.proven else f"at most {row.bound}"


def _figure(value: float | None, places: int) -> str:
    return "-" if value is None else f"{value:.{places}f}"


_HOLDS: tuple[tuple[str, Cell], ...] = (
    ("count", lambda row: _figure(row.count, 0)),
    ("", _bound),
    ("strings", _strings),
    ("kWh", lambda row: _figure(row.energy, 1)),
    ("kWh/kg", lambda row: _figure(row.energy_by_mass, 3)),
    ("V empty-nom-full", _volts),
    ("share", _share),
)
_TAKES: tuple[tuple[str, Cell], ...] = (
    ("kg", lambda row: _figure(row.mass, 0)),
    ("boxes", lambda row: _figure(row.boxes, 0)),
    ("corners", lambda row: _figure(row.corners, 0)),
    ("mm above", lambda row: _figure(row.height_left, 0)),
    ("litres left", lambda row: _figure(row.litres_left, 0)),
    ("sheet kg", lambda row: _figure(row.sheet_mass, 1)),
    ("cost", lambda row: _figure(row.cost, 0)),
)


def _variations(numbers: dict[Variation, int]) -> list[str]:
    return [f"/{number}: {', '.join(map('='.join, changes))}" for changes, number in numbers.items()]


def _grouped(
    names: Sequence[str], rows: Sequence[CompareRow], words: Callable[[CompareRow], tuple[str, ...]]
) -> list[str]:
    """What is told of rows, the same words of neighbours once."""
    told = [(name.lstrip("* "), words(row)) for name, row in zip(names, rows, strict=True) if words(row)]
    return [
        f"{', '.join(name for name, _ in group)}: {' '.join(said)}"
        for said, group in ((said, list(found)) for said, found in groupby(told, key=lambda one: one[1]))
    ]


def _told(title: str, entries: Sequence[str]) -> Iterator[list[str]]:
    if entries:
        yield [title, *listed(entries)]


def how_counted(rows: Sequence[CompareRow]) -> list[str]:
    """What the figures of the rows and the marks beside them mean, a line each."""
    sound = [row for row in rows if row.fits and row.target_met]
    lines = [line.format(weighed=_and(weighed(sound))) for line in HOW_COUNTED]
    if any(row.target_met is False for row in rows):
        lines.append("! misses the target for the front share: the nearest that meets all else")
    return lines


def _how_counted(rows: Sequence[CompareRow]) -> list[str]:
    return [part for line in how_counted(rows) for part in broken(line, "  ", "    ")]


def _and(words: Sequence[str]) -> str:
    """Words as a person lists them.

    >>> _and(["energy", "mass", "corners"])
    'energy, mass and corners'
    """
    return f"{', '.join(words[:-1])} and {words[-1]}" if len(words) > 1 else "".join(words)
