"""Lists as comma-separated text, figures written alike in all of them."""

import csv
import io
from collections.abc import Iterable, Sequence


def csv_text(heads: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    r"""A list with its heads.

    >>> csv_text(("part", "mm"), [("lid, front", "2.5")])
    'part,mm\n"lid, front",2.5\n'
    """
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(heads)
    writer.writerows(rows)
    return text.getvalue()


def figure(value: float, decimals: int = 1) -> str:
    """A figure with so many decimals, never minus zero.

    >>> figure(12.25, 1), figure(-0.01), figure(3.0, 0)
    ('12.2', '0.0', '3')
    """
    return f"{round(value, decimals) + 0.0:.{decimals}f}"
