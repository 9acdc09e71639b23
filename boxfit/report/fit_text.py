"""How modules fit inside their boxes: in words for the maker, and every row as comma-separated text."""

import csv
import io
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import floor

from boxfit.box.fit import Direction, RowFit, inside_fit, remedy
from boxfit.box.whole import BuiltBox
from boxfit.layout import Layout, PlacedModule
from boxfit.module import Module
from boxfit.report.columns import counted
from boxfit.report.numbering import numbered, runs

CSV_HEADS = (
    "bay",
    "box",
    "tier",
    "direction",
    "where",
    "modules",
    "between",
    "clear",
    "needed",
    "play",
    "typical",
    "worst case",
    "what may be out",
    "would do",
)


@dataclass(frozen=True)
class BoxFit:
    """A box and the fit of all its rows."""

    built: BuiltBox
    rows: tuple[RowFit, ...]

    @property
    def name(self) -> str:
        """What the box is called."""
        return self.built.parts.name


def box_fits(built: Sequence[BuiltBox], module: Module) -> tuple[BoxFit, ...]:
    """The inside fit of every box, in the order given."""
    return tuple(BoxFit(one, inside_fit(one, module)) for one in built)


def fit_notes(fits: Sequence[BoxFit]) -> tuple[str, ...]:
    """For the maker: the tightest row of each box, along the floor and up, and every row that may jam."""
    return tuple(note for fit in fits for note in _notes(fit))


def fit_csv(fits: Sequence[BoxFit], layout: Layout) -> str:
    """One line for each row [mm]; modules by the numbers they carry in pictures and lists.

    Play is told to a tenth, rounded down, so that none is told that is not there.
    """
    numbers = {(one.bay, one.box, one.module): one.number for one in numbered(layout)}
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(CSV_HEADS)
    for fit in fits:
        bay, box = fit.built.bay.name, fit.built.number
        for row in fit.rows:
            writer.writerow(
                (
                    bay,
                    box,
                    row.tier,
                    row.direction,
                    "past the ledge" if row.past_ledge else "in place",
                    runs(numbers[(bay, box, one)] for one in row.modules),
                    " and ".join(row.ends),
                    f"{row.clear:.1f}",
                    f"{row.needs:.1f}",
                    *(_down(value) for value in (row.play, row.typical, row.worst)),
                    sums_words(row),
                    remedy(row, fit.built.bay.box),
                )
            )
    return text.getvalue()


def sums_words(row: RowFit) -> str:
    """What may be out along a row, and how often it counts.

    >>> from boxfit.box.fit_sums import Contribution
    >>> out = (Contribution("module", 3, 0.5), Contribution("fold", 2, 0.25))
    >>> sums_words(RowFit(1, "x", (), ("liner", "liner"), 470.0, 460.0, out))
    '3 x module 0.5; 2 x fold 0.25'
    """
    return "; ".join(f"{one.count} x {one.what} {round(one.each, 2):g}" for one in row.sums)


def _notes(fit: BoxFit) -> Iterator[str]:
    in_place = [row for row in fit.rows if not row.past_ledge]
    flat = [row for row in in_place if row.direction != "up"]
    upwards = [row for row in in_place if row.direction == "up"]
    tightest = [min(rows, key=lambda row: row.worst) for rows in (flat, upwards) if rows]
    told = "; ".join(f"{_place(row)}: {_figures(row)}" for row in tightest)
    yield f"{fit.name}: inside fit, tightest {told} (mm of play as drawn, typical, worst case; see fit.csv)"
    for row in _one_of_each([row for row in fit.rows if row.jams]):
        jams = "jams even as drawn" if row.play < 0.0 else "may jam"
        figures = f"{_down(row.play)} mm of play as drawn, {_down(row.worst)} in the worst case"
        yield f"{fit.name}: {_place(row)} {jams}: {figures}; {remedy(row, fit.built.bay.box)}"


def _one_of_each(rows: list[RowFit]) -> list[RowFit]:
    """The first of those that are told alike."""
    return list({(_place(row), _figures(row)): row for row in reversed(rows)}.values())[::-1]


def _place(row: RowFit) -> str:
    way = _direction(row.direction, row.modules)
    return f"tier {row.tier} {way}{' past the ledge' if row.past_ledge else ''}"


def _direction(direction: Direction, modules: tuple[PlacedModule, ...]) -> str:
    if direction == "up":
        return "upwards"
    return f"along {direction} ({counted(len(modules), 'module')})"


def _figures(row: RowFit) -> str:
    return ", ".join(_down(value) for value in (row.play, row.typical, row.worst))


def _down(value: float) -> str:
    return f"{floor(value * 10.0 + 1e-6) / 10.0:.1f}"
