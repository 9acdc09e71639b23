"""Plain text in columns."""

from collections.abc import Sequence
from textwrap import wrap

WIDTH = 100
"""The most letters to a line."""
NAME = 18
"""Letters kept for the name in front of a value."""


def named(name: str, value: str) -> list[str]:
    """A name and its value, long values going on in their own column.

    >>> named("count", "9 modules")
    ['  count           9 modules']
    """
    start = f"  {name}"
    first = start.ljust(NAME) if len(start) < NAME else start + " "
    return broken(value, first, " " * NAME)


def table(rows: Sequence[Sequence[str]], numbers_from: int = 1) -> list[str]:
    """Rows in columns, two spaces apart; from column `numbers_from` on set to the right.

    >>> table([("", "kg"), ("front", "371")])
    ['          kg', '  front  371']
    """
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    lines = []
    for row in rows:
        cells = [
            cell.rjust(width) if place >= numbers_from else cell.ljust(width)
            for place, (cell, width) in enumerate(zip(row, widths, strict=True))
        ]
        lines.append(("  " + "  ".join(cells)).rstrip())
    return lines


def listed(entries: Sequence[str]) -> list[str]:
    """Entries one below another, each behind a dash.

    >>> listed(["one", "two"])
    ['  - one', '  - two']
    """
    return [line for entry in entries for line in broken(entry, "  - ", "    ")]


def broken(words: str, first: str = "", others: str = "") -> list[str]:
    """Words in lines of at most the usual width, the first begun with `first`, the rest with `others`."""
    return wrap(words, WIDTH, initial_indent=first, subsequent_indent=others, break_on_hyphens=False)


def tenths(length: float) -> str:
    """A length [mm] to a tenth, the same in every drawing and list; no decimal where it is whole.

    >>> tenths(150.4999999), tenths(150.5000001), tenths(323.0)
    ('150.5', '150.5', '323')
    """
    return f"{length:.1f}".removesuffix(".0")


def counted(count: int, thing: str, things: str = "") -> str:
    """A count with its word, one or more.

    >>> counted(1, "module"), counted(2, "box", "boxes")
    ('1 module', '2 boxes')
    """
    return f"{count} {thing if count == 1 else things or thing + 's'}"
