"""In which order the rows of a comparison stand, and which of them are worth choosing among."""

from collections.abc import Callable, Sequence
from dataclasses import replace

from boxfit.report.compare_rows import CompareRow

Figure = Callable[[CompareRow], float | None]

ORDERS: dict[str, tuple[Figure, int]] = {
    "energy": (lambda row: row.energy, -1),
    "energy-by-mass": (lambda row: row.energy_by_mass, -1),
    "count": (lambda row: row.count, -1),
    "mass": (lambda row: row.mass, 1),
    "share": (lambda row: row.share_error, 1),
    "volts": (lambda row: row.volts_nominal, -1),
    "boxes": (lambda row: row.boxes, 1),
    "corners": (lambda row: row.corners, 1),
    "height": (lambda row: row.height_left, -1),
    "litres": (lambda row: row.litres_left, -1),
    "sheet": (lambda row: row.sheet_mass, 1),
    "cost": (lambda row: row.cost, 1),
}
"""What rows may be sorted by: the figure, and 1 where the least stands first, -1 where the greatest does."""

AS_GIVEN = "as-given"
"""The order that changes nothing: by module as named, then by variation."""

WEIGHED: tuple[tuple[str, Figure, int, int], ...] = (
    ("energy", lambda row: row.energy, -1, 3),
    ("mass", lambda row: row.mass, 1, 1),
    ("distance from the front share wanted", lambda row: row.share_error, 1, 4),
    ("corners", lambda row: row.corners, 1, 0),
    ("cost", lambda row: row.cost, 1, 2),
)
"""What is weighed: its name, the figure, 1 where less is better or -1 where more is, and decimal places.

No finer than can be weighed or measured, as in the search.
"""
_PLACES = 6


def in_order(rows: Sequence[CompareRow], order: str) -> tuple[CompareRow, ...]:
    """The rows by one of the `ORDERS`; those that meet the target first, those that do not fit last.

    Rows that are equal in it stand by their energy, then as given; a figure not known comes after all others.
    """
    if order == AS_GIVEN:
        return tuple(rows)
    figure, way = ORDERS[order]
    return tuple(
        sorted(rows, key=lambda row: (_standing(row), _rank(figure(row), way), _rank(row.energy, -1)))
    )


def _standing(row: CompareRow) -> int:
    """0 for a layout that meets the target, 1 for the nearest to it, 2 where nothing fits."""
    return 2 if not row.fits else 0 if row.target_met else 1


def _rank(value: float | None, way: int, places: int = _PLACES) -> tuple[bool, float]:
    """Figures that are alike to so many decimal places rank alike."""
    return (value is None, 0.0 if value is None else way * round(value, places))


def weighed(rows: Sequence[CompareRow]) -> tuple[str, ...]:
    """The names of what is weighed: all of `WEIGHED` that is known of every layout."""
    fitting = [row for row in rows if row.fits]
    return tuple(name for name, figure, *_ in WEIGHED if all(figure(row) is not None for row in fitting))


def with_best(rows: Sequence[CompareRow]) -> tuple[CompareRow, ...]:
    """The rows, those marked `best` that no other one beats.

    One beats another where it is as good in all that is weighed and better in something. Only layouts that
    meet the target are looked at; what is not known of all of them is not weighed.
    """
    sound = [row for row in rows if row.fits and row.target_met]
    names = weighed(sound)
    sums = [(figure, way, places) for name, figure, way, places in WEIGHED if name in names]
    ranks = {id(row): tuple(_rank(one(row), way, places)[1] for one, way, places in sums) for row in sound}
    best = {id(row) for row in sound if not any(_beats(ranks[id(one)], ranks[id(row)]) for one in sound)}
    return tuple(replace(row, best=id(row) in best) for row in rows)


def _beats(one: tuple[float, ...], other: tuple[float, ...]) -> bool:
    """Whether the first is as good throughout and better somewhere; the less, the better.

    >>> _beats((1.0, 2.0), (1.0, 3.0)), _beats((1.0, 2.0), (1.0, 2.0)), _beats((1.0, 4.0), (2.0, 3.0))
    (True, False, False)
    """
    return one != other and all(mine <= theirs for mine, theirs in zip(one, other, strict=True))
