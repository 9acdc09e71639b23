"""The page of a comparison: every way to fill one car as a row to sort by, and energy against mass."""

from collections.abc import Callable, Iterator, Sequence
from html import escape

from boxfit.report.compare import how_counted
from boxfit.report.compare_rows import CompareRow
from boxfit.report.page.html import AID, Cell, asset, links, listed, named, page, section, table
from boxfit.report.page.scatter import Dot, scatter

COMPARE_PAGE = "compare.html"
Told = Callable[[CompareRow], str]


def _figure(value: float | None, places: int) -> str:
    return "-" if value is None else f"{value:.{places}f}"


def _yes(value: bool | None) -> str:
    return "-" if value is None else ("yes" if value else "no")


def _strings(row: CompareRow) -> str:
    return "-" if row.series is None else f"{row.series} × {row.parallel}"


COLUMNS: tuple[tuple[str, Told], ...] = (
    ("unbeaten", lambda row: "* yes" if row.best else "no"),
    ("modules", lambda row: _figure(row.count, 0)),
    ("series × parallel", _strings),
    ("kWh", lambda row: _figure(row.energy, 1)),
    ("kg", lambda row: _figure(row.mass, 1)),
    ("kWh/kg", lambda row: _figure(row.energy_by_mass, 3)),
    ("V empty", lambda row: _figure(row.volts_empty, 0)),
    ("V full", lambda row: _figure(row.volts_full, 0)),
    ("front share", lambda row: _figure(row.front_share, 3)),
    ("off the share wanted", lambda row: _figure(row.share_error, 3)),
    ("boxes", lambda row: _figure(row.boxes, 0)),
    ("corners", lambda row: _figure(row.corners, 0)),
    ("mm left above", lambda row: _figure(row.height_left, 0)),
    ("litres left", lambda row: _figure(row.litres_left, 0)),
    ("kg of sheet", lambda row: _figure(row.sheet_mass, 1)),
    ("cost", lambda row: _figure(row.cost, 2)),
    ("target met", lambda row: "! no" if row.target_met is False else _yes(row.target_met)),
    ("proven", lambda row: _yes(row.proven)),
)
"""Heads and cells after number and name; a column of which nothing is known is left out."""


def compare_page(rows: Sequence[CompareRow], car: str = "") -> str:
    """The page as text, rows in the order given; `car` is the car's name for the heading."""
    title = f"{car}: ways to fill it" if car else "Ways to fill one car"
    fitting = [row for row in rows if row.fits]
    dots = [
        Dot(number, row.name, row.mass, row.energy, row.best)
        for number, row in enumerate(rows, start=1)
        if row.mass is not None and row.energy is not None
    ]
    told = [f"{row.name}: {note}" for row in rows for note in (*filter(None, (row.reason,)), *row.notes)]
    picture = scatter(dots, "kg of modules and boxes", "kWh", "Energy against mass")
    parts = (
        ("rows", "Side by side", (SORTED, rows_table(rows), listed(how_counted(rows)))),
        ("energy", "Energy against mass", (picture,)),
        ("left", "Room left to the limits", (margins_table(fitting),)),
        ("notes", "Notes", (listed(told),)),
    )
    there = [part for part in parts if any(part[2])]
    body = (
        "<header>",
        f"<h1>{escape(title)}</h1>",
        named(list(_key_figures(rows))),
        f'<p class="aid">{escape(AID)}</p>',
        links([(name, heading) for name, heading, _ in there]),
        "</header>",
        '<main id="content">',
        *(section(*part) for part in there),
        "</main>",
    )
    return page(title, body, (asset("sorting.js"),))


SORTED = '<p class="help">Press a head to sort by it. <span id="sorted-said" role="status"></span></p>'


def _key_figures(rows: Sequence[CompareRow]) -> Iterator[tuple[str, str]]:
    """What is asked first."""
    fitting = [row for row in rows if row.fits]
    sound = [row for row in fitting if row.target_met] or fitting
    yield "Compared", f"{len(rows)}, of which {len(fitting)} fit"
    yield "Unbeaten", str(sum(row.best for row in rows))
    for head, key in (("Most energy", "energy"), ("Most energy for its mass", "energy_by_mass")):
        best = max(sound, key=lambda row: getattr(row, key) or 0.0, default=None)
        if best is not None:
            yield head, f"{best.name}: {best.energy:.1f} kWh, {best.mass:.1f} kg"


def rows_table(rows: Sequence[CompareRow]) -> str:
    """Every row with its number, the unbeaten ones marked."""
    known = [(head, told) for head, told in COLUMNS if any(told(row) != "-" for row in rows)]
    cells: list[tuple[Cell, ...]] = [
        (row.name, str(number), *(told(row) for _, told in known)) for number, row in enumerate(rows, start=1)
    ]
    best = {place for place, row in enumerate(rows) if row.best}
    return table("Every module and variation", ("module", "no", *(head for head, _ in known)), cells, best)


def margins_table(rows: Sequence[CompareRow]) -> str:
    """What each row leaves to each limit."""
    limits = list(dict.fromkeys((one.limit, one.unit) for row in rows for one in row.margins))
    if not limits:
        return ""
    cells: list[tuple[Cell, ...]] = []
    for row in rows:
        left = {one.limit: one.left for one in row.margins}
        cells.append((row.name, *(_margin(left.get(name), unit) for name, unit in limits)))
    heads = [f"{name} [{unit}]" if unit else name for name, unit in limits]
    return table("What is left to each limit, with everything aboard", ("module", *heads), cells)


def _margin(left: float | None, unit: str) -> Cell:
    if left is None:
        return "-"
    words = f"{left:.1f}" if unit else f"{left:.3f}"
    return (f"{words} short", "short") if left < -1e-6 else words
