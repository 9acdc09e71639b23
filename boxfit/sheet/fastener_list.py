"""The fastener list: all screws, nuts, washers and rivet-nuts of the car, equal ones together."""

from collections.abc import Iterable

from boxfit.box.fitting import Fastener
from boxfit.sheet.csv_text import csv_text

HEADS = ("what", "thread", "count", "where")


def merged(fasteners: Iterable[Fastener]) -> tuple[Fastener, ...]:
    """Those of one sort and thread together, in the order in which each sort first comes.

    >>> screws = [Fastener("screw", "M5 x 16", 4, "lid"), Fastener("screw", "M5 x 16", 2, "foot")]
    >>> merged(screws)
    (Fastener(what='screw', thread='M5 x 16', count=6, where='lid; foot'),)
    """
    sorts: dict[tuple[str, str], list[Fastener]] = {}
    for one in fasteners:
        sorts.setdefault((one.what, one.thread), []).append(one)
    return tuple(
        Fastener(
            what,
            thread,
            sum(one.count for one in alike),
            "; ".join(dict.fromkeys(one.where for one in alike)),
        )
        for (what, thread), alike in sorts.items()
    )


def fastener_list_csv(fasteners: Iterable[Fastener]) -> str:
    """A row for each sort."""
    rows = ((one.what, one.thread, str(one.count), one.where) for one in merged(fasteners))
    return csv_text(HEADS, rows)
